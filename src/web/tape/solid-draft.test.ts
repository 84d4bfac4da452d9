import { lengthsIn } from '#units';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { applyEdit, type Car, readCar, shapeKnownToMm } from '#car';
import { partDraft, type PartDraft, partEdits } from './part-draft.ts';
import { emptySolid, shapeOfDraft, shapePlace, shapeWords, solidDraft, type SolidDraft } from './solid-draft.ts';

const car: Car = { fairlead: 1, parts: [], movers: [], lines: [] };
const at = { ...emptySolid.place, far: ['1000 mm', '200 mm', '50 mm'] as const };
const made = (draft: Partial<SolidDraft>) => shapeOfDraft(car, { ...emptySolid, place: at, ...draft }, 'mm')?.shape;

describe('plain solids by dimensions and place', () => {
  // hand: 400 long, 200 wide, 100 tall, the middle of its underside at (1000, 200, 50): X 800 to 1200, Y 100 to 300, Z 50 to 150.
  it('a box by the middle of its underside', () => {
    expect(made({ size: ['400', '200', '100'] })).toEqual({ box: { minMm: [800, 100, 50], maxMm: [1200, 300, 150] } });
  });

  // hand: its lowest corner at the front left is that point itself; X rearward, so the box runs to (1400, 400, 150).
  it('a box by its lowest corner, front left', () => {
    expect(made({ size: ['400', '200', '100'], anchor: 'corner' })).toEqual({
      box: { minMm: [1000, 200, 50], maxMm: [1400, 400, 150] },
    });
  });

  // hand: 7 in = 177.8 mm across, radius 88.9; 480 tall from Z 50 to 530.
  it('a cylinder stands on its underside', () => {
    expect(made({ kind: 'cylinder', diameter: '7 in', length: '480' })).toEqual({
      cylinder: { fromMm: [1000, 200, 50], toMm: [1000, 200, 530], radiusMm: 88.9 },
    });
  });

  // hand: lying across, 300 long from Y 50 to 350, its underside at Z 50, so its axis at Z 50 + 40.
  it('a cylinder lies across', () => {
    expect(made({ kind: 'cylinder', diameter: '80', length: '300', lie: 'across' })).toEqual({
      cylinder: { fromMm: [1000, 50, 90], toMm: [1000, 350, 90], radiusMm: 40 },
    });
  });

  it('a tube by its points, and nothing as long as one cannot be read', () => {
    const points = [
      ['0', '0', '0'],
      ['1 m 20', '0', '-3 in'],
    ] as const;
    expect(made({ kind: 'tube', diameter: '45', points })).toEqual({
      tube: {
        pointsMm: [
          [0, 0, 0],
          [1200, 0, -76.2],
        ],
        radiusMm: 22.5,
      },
    });
    expect(made({ kind: 'tube', diameter: '45', points: [points[0], ['1', 'x', '2']] })).toBeUndefined();
    expect(made({ size: ['400', '200', '-1'] })).toBeUndefined();
  });

  it('is said in words', () => {
    expect(shapeWords({ box: { minMm: [0, 0, 0], maxMm: [160, 100, 120] } }, lengthsIn(false))).toBe(
      'box 160 × 100 × 120 mm',
    );
    expect(shapeWords({ cylinder: { fromMm: [0, 0, 0], toMm: [3, 4, 0], radiusMm: 2 } }, lengthsIn(false))).toBe(
      'cylinder, 4 mm across, 5 mm long',
    );
  });
});

describe('a solid that is there, changed', () => {
  const demo = ((): Car => {
    const reading = readCar(readFileSync(new URL('../../../demo/fellside.json', import.meta.url), 'utf8'));
    if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
    return reading.car;
  })();
  const plain = demo.parts.flatMap((part) =>
    part.shapes.flatMap((shape, index) => (shape.mesh === undefined ? [{ part, shape, index }] : [])),
  );

  it('is told apart from another of its size by its middle', () => {
    // Hand: halfway from (0, 0, 0) to (100, 40, 20), then shifted by (1000, 0, 0).
    expect(shapePlace({ box: { minMm: [0, 0, 0], maxMm: [100, 40, 20] }, atMm: [1000, 0, 0] }, lengthsIn(false))).toBe(
      'at 1050, 20, 10 mm',
    );
    const told = demo.parts.flatMap((part) =>
      part.shapes.map(
        (shape) => `${part.id} ${shapeWords(shape, lengthsIn(false))} ${shapePlace(shape, lengthsIn(false))}`,
      ),
    );
    expect(new Set(told).size).toBe(told.length);
  });

  it('is typed as it stands: every plain solid of the demo car comes back by what its form says', () => {
    expect(plain.length).toBeGreaterThan(30);
    for (const { part, shape } of plain) {
      const { box, cylinder, tube } = shapeOfDraft(demo, solidDraft(shape, shapeKnownToMm(part, shape))!, 'mm')!.shape;
      const numbers = (one: object | undefined): number[] =>
        (JSON.stringify(one ?? null).match(/-?\d+(?:\.\d+)?(?:e-?\d+)?/gu) ?? []).map(Number);
      const was = numbers({ box: shape.box, cylinder: shape.cylinder, tube: shape.tube });
      const is = numbers({ box, cylinder, tube });
      expect([part.id, is.length]).toEqual([part.id, was.length]);
      // A tape is not read to a tenth of a millimetre: that is what is kept of it.
      is.forEach((value, i) => expect(Math.abs(value - was[i]!)).toBeLessThanOrEqual(0.051));
    }
  });

  it('takes the place of the one it was; untouched it is not an edit at all', () => {
    for (const { part, shape, index } of plain) {
      const was = solidDraft(shape, shapeKnownToMm(part, shape))!;
      const draft: PartDraft = { ...partDraft(part), solid: was, changing: { index, was } };
      const made = partEdits(demo, part.id, draft, 'mm');
      expect([part.id, made.ok && made.value.edits.filter((edit) => JSON.stringify(edit).includes('shapes'))]).toEqual([
        part.id,
        [],
      ]);
    }
    const { part, shape, index } = plain.find((one) => one.shape.box !== undefined && one.part.shapes.length > 1)!;
    const was = solidDraft(shape, shapeKnownToMm(part, shape))!;
    const wider: SolidDraft = { ...was, size: [was.size[0], '777 mm', was.size[2]] };
    const made = partEdits(demo, part.id, { ...partDraft(part), solid: wider, changing: { index, was } }, 'mm');
    if (!made.ok) throw new Error(made.fault);
    const now = made.value.edits
      .reduce((one, edit) => applyEdit(one, edit).car, demo)
      .parts.find((one) => one.id === part.id)!;
    expect(now.shapes.length).toBe(part.shapes.length);
    expect(now.shapes[index]!.box!.maxMm[1] - now.shapes[index]!.box!.minMm[1]).toBeCloseTo(777, 6);
    now.shapes.forEach((one, i) => {
      if (i !== index) expect(one).toEqual(part.shapes[i]);
    });
  });

  it('keeps the turn that it has', () => {
    const turned = {
      box: { minMm: [0, 0, 0], maxMm: [10.1234, 20, 30] },
      turnDeg: [0, 0, 45],
      atMm: [100, 0, 0],
    } as const;
    const car: Car = {
      fairlead: 1,
      movers: [],
      lines: [],
      parts: [{ id: 'p', class: 'fixed', knownToMm: 5, ports: [], shapes: [structuredClone(turned) as never] }],
    };
    const was = solidDraft(car.parts[0]!.shapes[0]!, 5)!;
    const untouched = partEdits(
      car,
      'p',
      { ...partDraft(car.parts[0]!), solid: was, changing: { index: 0, was } },
      'mm',
    );
    expect(untouched.ok && untouched.value.edits.filter((edit) => JSON.stringify(edit).includes('shapes'))).toEqual([]);
    const wider: SolidDraft = { ...was, size: ['15 mm', '20 mm', '30 mm'] };
    const made = partEdits(car, 'p', { ...partDraft(car.parts[0]!), solid: wider, changing: { index: 0, was } }, 'mm');
    if (!made.ok) throw new Error(made.fault);
    const now = made.value.edits.reduce((one, edit) => applyEdit(one, edit).car, car);
    expect(now.parts[0]!.shapes[0]).toEqual({ ...turned, box: { minMm: [0, 0, 0], maxMm: [15, 20, 30] } });
  });
});
