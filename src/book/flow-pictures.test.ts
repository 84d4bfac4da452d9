import { describe, expect, it } from 'vitest';
import type { Car, Circuit } from '#car';
import type { CircuitState, FlowSweep, HeightRung, LineFlow, WayStep } from '#flow';
import { circuitPicture } from './circuit-picture.ts';
import type { Drawing, Shape } from './drawing.ts';
import { flowWords, heatWords, lossWords, pressureWords, speedWords, volumeWords } from './flow-words.ts';
import { heightLadder } from './height-ladder.ts';
import { labelBoxes } from './label-boxes.ts';
import { lossBars } from './loss-bars.ts';
import { pictureBounds } from './picture-bounds.ts';
import { pressureStrip } from './pressure-strip.ts';
import { sweepPictures } from './sweep-pictures.ts';

const sheets = [320, 540].map((width) => ({ width, size: 14, unit: 'px' as const }));
const flat = (shapes: readonly Shape[]): Shape[] =>
  shapes.flatMap((shape) => (shape.kind === 'group' ? flat(shape.shapes) : [shape]));
const texts = ({ shapes }: Drawing): string[] =>
  flat(shapes).flatMap((shape) => (shape.kind === 'text' ? [shape.text] : []));

function expectDrawn(drawing: Drawing): void {
  const { left, right, top, bottom } = pictureBounds(drawing.shapes);
  expect(JSON.stringify(drawing)).not.toMatch(/NaN|null|Infinity/u);
  expect([left, top].every((edge) => edge >= -1)).toBe(true);
  expect(right).toBeLessThanOrEqual(drawing.width + 1);
  expect(bottom).toBeLessThanOrEqual(drawing.height + 1);
}

const line = (id: string, flowM3S: number, carries: LineFlow['carries'] = 'liquid'): LineFlow => ({
  line: id,
  carries,
  flowM3S,
  velocityMS: 1,
  reynolds: 3000,
  regime: 'between',
  fromPa: 2000,
  toPa: -21_000,
  dropPa: 23_000,
  volumeM3: 1e-3,
  assumed: [],
  pieces: [
    { what: 'hose-end', boreMm: 20, turnDeg: 90, dropPa: 5000, times: [0.5, 2] },
    { what: 'hose', boreMm: 22.2, turnDeg: 300, dropPa: 18_000, times: [0.8, 1.3] },
    { what: 'entrance', boreMm: 22.2, turnDeg: 0, dropPa: 1, times: [0.8, 1.4] },
  ],
});

describe('numbers of the flow room in two sets of units', () => {
  // NIST SP 811: 1 psi = 6894.757 Pa, 1 US gal = 3.785412 L, 1 ft = 0.3048 m; worked by hand.
  it('say the same', () => {
    expect([pressureWords(-21_000, 'metric'), pressureWords(-21_000, 'inch')]).toEqual(['−0.21 bar', '−3.0 psi']);
    expect([lossWords(13_200, 'metric'), lossWords(13_200, 'inch')]).toEqual(['13.2 kPa', '1.91 psi']);
    expect([flowWords(55.7 / 60_000, 'metric'), flowWords(55.7 / 60_000, 'inch')]).toEqual([
      '56 L/min',
      '14.7 US gal/min',
    ]);
    expect([speedWords(2.3, 'metric'), speedWords(2.3, 'inch')]).toEqual(['2.3 m/s', '7.5 ft/s']);
    expect([heatWords(105, 'metric'), heatWords(105, 'inch')]).toEqual(['105 °C', '221 °F']);
    expect([volumeWords(8e-3, 'metric'), volumeWords(8e-3, 'inch')]).toEqual(['8.0 L', '2.11 US gal']);
    expect(pressureWords(-1, 'metric')).toBe('0.00 bar');
  });
});

describe.each(sheets)('pictures of a circuit, $width wide', (sheet) => {
  it('bars: the largest first, each with what it may be at least and at most; what is next to nothing is counted', () => {
    const drawing = lossBars(line('O1', 1e-3), 'metric', sheet);
    expectDrawn(drawing);
    const words = texts(drawing);
    const [hose, end] = [
      words.findIndex((text) => text.startsWith('hose 300°')),
      words.findIndex((text) => text.startsWith('hose end 90°')),
    ];
    expect(hose).toBeGreaterThan(0);
    expect(end).toBeGreaterThan(hose);
    expect(words).toContain('18.0 kPa (14.4 to 23.4)');
    expect(words).toContain('5.00 kPa (2.50 to 10.0)');
    expect(words).toContain('and 1 more, together 0.00 kPa');
    // Whisker and bar: 18 of 23.4 kPa fills 18/23.4 of the room that the most takes.
    const bars = flat(drawing.shapes).flatMap((shape) => (shape.kind === 'rect' ? [shape.width] : []));
    expect(bars[1]! / bars[0]!).toBeCloseTo(5 / 18, 6);
  });

  it('strip: each step with its change, below the air outside hatched, pumps marked', () => {
    const steps: WayStep[] = [
      { id: 'O1', words: 'O1', kind: 'line', fromPa: 0, toPa: -21_000, flowM3S: 1 },
      { id: 'p', words: 'Pressure stage', kind: 'pump', fromPa: -21_000, toPa: 549_000, flowM3S: 1 },
      { id: 'g', words: 'Engine gallery and bearings', kind: 'passage', fromPa: 549_000, toPa: 0, flowM3S: 1 },
    ];
    const drawing = pressureStrip(steps, 'from end to end', 'metric', sheet);
    expectDrawn(drawing);
    expect(texts(drawing)).toEqual(expect.arrayContaining(['O1', '−21.0 kPa', '+570 kPa', '−549 kPa', 'P', '5.49']));
    expect(drawing.description).toMatch(
      /O1 from 0\.00 bar to −0\.21 bar; Pressure stage from −0\.21 bar to 5\.49 bar/u,
    );
    // A way by many pieces is told in rows; none leaves the sheet.
    const long = pressureStrip(steps, 'O1, Pressure stage, O2, Oil filter, O3, Engine gallery and bearings', 'metric', {
      ...sheet,
      width: 300,
    });
    expectDrawn(long);
    expect(long.height).toBeGreaterThan(pressureStrip(steps, 'O1', 'metric', { ...sheet, width: 300 }).height);
  });

  it('over engine speed: pressure, flow, inlet; names at the ends; limits said', () => {
    const sweep = (temperatureC: number, factor: number): FlowSweep => ({
      circuit: 'oil',
      case: 'x',
      temperatureC,
      passage: 'Engine gallery',
      refused: null,
      points: [800, 4000, 8000].map((rpm) => ({
        rpm,
        flowM3S: (rpm / 8e6) * factor,
        pressurePa: rpm * 60 * factor,
        inletPa: -rpm * 2,
      })),
    });
    const drawings = sweepPictures(
      [sweep(0, 0.5), sweep(110, 1)],
      { barPerThousandRpm: 0.7, leastInletBar: -0.2 },
      'inch',
      sheet,
    );
    expect(drawings.map(({ title }) => title)).toEqual([
      'Pressure before engine gallery',
      'Flow through engine gallery',
      'Pressure at the pump’s inlet',
    ]);
    for (const drawing of drawings) {
      expectDrawn(drawing);
      expect(texts(drawing)).toEqual(expect.arrayContaining(['cold, 32 °F', 'hot, 230 °F', 'engine rpm']));
    }
    expect(texts(drawings[0]!)).toContain('usual least, hot');
    // 0.7 bar for each 1000 rpm is 5.6 bar = 81.2 psi at 8000: the axis goes on to 100, where the curves alone would end at 80.
    expect(texts(drawings[0]!)).toContain('100');
    expect(texts(drawings[2]!)).toContain('least, −2.9 psi');
    // 8000 rpm * 60 Pa = 4.8 bar = 69.6 psi.
    expect(drawings[0]!.description).toMatch(/At 230 °F from .* to 70 psi at 8000 rpm|69\.6 psi/u);
    expect(sweepPictures([], {}, 'metric', sheet)).toEqual([]);
  });

  it('ladder: the highest first, numbers in the tape’s unit, header, surface, bleed and trap each with its own mark', () => {
    const rung = (words: string, heightMm: number, kind: HeightRung['kind']): HeightRung => ({ words, heightMm, kind });
    const rungs = [
      rung('head.bleed', 625, 'bleed'),
      rung('Header, top', 760, 'header'),
      rung('Header, water', 705, 'surface'),
      rung('C1', 620, 'trap'),
      rung('radiator.out', 110, 'port'),
    ];
    const drawing = heightLadder(rungs, 'metric', sheet);
    expectDrawn(drawing);
    expect(texts(drawing).slice(1)).toEqual([
      '760 mm',
      'Header, top',
      '705 mm',
      'Header, water',
      '625 mm',
      'head.bleed',
      '620 mm',
      'C1, air stays here',
      '110 mm',
      'radiator.out',
    ]);
    // 110 mm is 4.33 in: 4 5/16 to the nearest sixteenth.
    expect(texts(heightLadder(rungs, 'inch', sheet))).toContain('4 5/16 in');
    expect(flat(drawing.shapes).filter((shape) => shape.kind === 'polyline' && shape.fill === 'stop').length).toBe(1);
  });

  it('plan: a box for each part, lines in the order of their flow, flow and pressures beside, names that keep apart', () => {
    const part = (id: string, name: string) => ({ id, name, class: 'fixed', shapes: [], ports: [] });
    const own = (id: string, from: string, to: string) => ({ id, from, to, duty: 'oil-pressure' });
    const car = {
      parts: [
        part('tank', 'Oil tank, 12 L'),
        part('pump', 'Oil pump, 1 + 3'),
        part('block', 'Engine block'),
        part('sump', 'Sump pan'),
      ],
      lines: [
        own('O3', 'sump.out', 'pump.s'),
        own('O2', 'pump.p', 'block.g'),
        own('O1', 'tank.out', 'pump.in'),
        own('V', 'tank.vent', 'sump.v'),
      ],
    } as unknown as Car;
    const circuit: Circuit = {
      id: 'oil',
      kind: 'dry-sump',
      lines: ['O1', 'V', 'O3', 'O2'],
      passages: [{ id: 'g', name: 'Gallery', from: 'block.g', to: 'sump', boreMm: 5, lengthMm: 5 }],
    };
    const state = {
      lines: [line('O1', 9e-4), line('O2', 9e-4), line('O3', 1e-3, 'oil and air'), line('V', -1e-4, 'gas')],
      pumps: [],
      passages: [{ id: 'g', words: 'Gallery', flowM3S: 8e-4, dropPa: 1, fromPa: 4e5, toPa: 0 }],
    } as unknown as CircuitState;
    const drawing = circuitPicture(
      { car, circuit, state, chosen: 'O2', marked: new Map([['O1', 'stop']]) },
      'metric',
      sheet,
    );
    expectDrawn(drawing);
    const words = texts(drawing);
    expect(words.filter((text) => /^(?:O\d|V)$/u.test(text))).toEqual(['O1', 'O2', 'O3', 'V']);
    expect(words).toEqual(expect.arrayContaining(['Oil tank', 'Gallery', '54', '0.02 → −0.21', '▲']));
    // The vent flows from its end to its start: the arrow and the sentence say so.
    expect(drawing.description).toMatch(/V from Sump pan to Oil tank: 6\.0 L\/min/u);
    const boxes = labelBoxes(drawing);
    for (const [i, a] of boxes.entries())
      for (const b of boxes.slice(i + 1)) {
        const apart =
          a.right <= b.left + 1 || b.right <= a.left + 1 || a.bottom <= b.top + 2.5 || b.bottom <= a.top + 2.5;
        expect(apart, `${a.text} and ${b.text}`).toBe(true);
      }
  });
});
