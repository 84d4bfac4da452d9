import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Catalogue, type Duty, type End, type HoseRow, catalogue, mates } from '#standards';
import { type EndMakeUp } from './end-make-up.ts';
import { type MakeUpWish, endMakeUps } from './end-make-ups.ts';

const shelf = catalogue();

function hose(id: string, from: Catalogue = shelf): HoseRow {
  const row = from.findHose(id);
  if (row === undefined) throw new Error(`no ${id}`);
  return row;
}

function made(end: End, hoseId: string, wish: MakeUpWish = {}, restrictorMm?: number): readonly EndMakeUp[] {
  const found = endMakeUps(restrictorMm === undefined ? { end } : { end, restrictorMm }, hose(hoseId), shelf, wish);
  if ('missing' in found) throw new Error(found.missing);
  return found.makeUps;
}

const ids = (makeUp: EndMakeUp | undefined): string[] => (makeUp?.parts ?? []).map((p) => `${p.qty} ${p.id}`);

describe('endMakeUps', () => {
  it('leads a -16 boss to a -16 hose with one adapter and its O-ring, at every angle', () => {
    const found = made({ type: 'orb', dash: 16 }, 'rubber-braid-16', { allowElbowAdapters: false });
    expect(found.map((m) => m.angleDeg)).toEqual([0, 30, 45, 60, 90, 120, 150, 180]);
    // published: AS568-916 is the -16 boss ring (navy-14105 chapter 7: 9 and the dash).
    expect(ids(found[0])).toEqual(['1 o-ring-916', '1 boss-16-flare-16', '1 end-reusable-rubber-braid-16-0']);
  });

  it('costs elbows more, and an elbow adapter more than any bent end', () => {
    const found = made({ type: 'orb', dash: 16 }, 'rubber-braid-16');
    const costs = found.map((m) => m.cost);
    expect(costs).toEqual([...costs].sort((a, b) => a - b));
    const elbows = found.filter((m) => m.stages.some((s) => s.kind === 'bend' && s.clock === 1));
    expect(elbows.map((m) => m.angleDeg)).toEqual([0, 0]);
    expect(elbows.map((m) => m.clockHow)).toEqual(['locknut', 'locknut']);
    // hand: 40 an adapter + 80 an elbow.
    expect(elbows[0]?.cost).toBeCloseTo(120, 1);
  });

  it('takes the part in the box when two chains are as long', () => {
    const plain = made({ type: 'orb', dash: 16 }, 'rubber-braid-16', { angles: [45], allowElbowAdapters: false });
    const own = made({ type: 'orb', dash: 16 }, 'rubber-braid-16', {
      angles: [45],
      allowElbowAdapters: false,
      box: new Set(['end-crimped-rubber-braid-16-45']),
    });
    expect(plain[0]?.fixing).toBe('reusable');
    expect(own[0]?.fixing).toBe('crimped');
    // hand: 25 saved.
    expect((plain[0]?.cost ?? 0) - (own[0]?.cost ?? 0)).toBeCloseTo(25, 1);
  });

  it('takes one piece from a -10 boss to a -12 hose, and says where it narrows', () => {
    const [first] = made({ type: 'orb', dash: 10 }, 'rubber-braid-12', { angles: [0], allowElbowAdapters: false });
    expect(ids(first)).toEqual(['1 o-ring-910', '1 boss-10-flare-12', '1 end-reusable-rubber-braid-12-0']);
    expect(first?.boreMm).toBeLessThan(hose('rubber-braid-12').boreMm);
    expect(first?.remarks.join()).toMatch(/bore 12.7 mm, the line has 15.88 mm/u);
  });

  it('gives a banjo two washers, and keeps banjos off suction and drains', () => {
    const water = made({ type: 'metric-washer', thread: 'M14x1.5' }, 'ptfe-steel-6', { duty: 'water' }).find(
      (m) => m.clockHow === 'banjo',
    );
    expect(ids(water).slice(0, 2)).toEqual(['2 washer-m14x1.5', '1 banjo-m14x1.5-flare-6']);
    expect(water?.parts.map((p) => p.kind)).toEqual(['seal', 'adapter', 'hose-end']);
    const drain = made({ type: 'metric-washer', thread: 'M14x1.5' }, 'ptfe-steel-6', { duty: 'oil-drain' });
    expect(drain.filter((m) => m.clockHow === 'banjo')).toEqual([]);
  });

  it('fits a restrictor only where it is asked', () => {
    const asked = made(
      { type: 'metric-washer', thread: 'M12x1.5' },
      'ptfe-steel-4',
      { angles: [0], allowElbowAdapters: false },
      1.2,
    );
    expect(asked[0]?.parts.map((p) => p.id)).toContain('washer-m12x1.5-flare-4-restrictor-1.2');
    expect(asked[0]?.boreMm).toBe(1.2);
    const plain = made({ type: 'metric-washer', thread: 'M12x1.5' }, 'ptfe-steel-4', {
      angles: [0],
      allowElbowAdapters: false,
    });
    expect(plain[0]?.parts.map((p) => p.id)).toContain('washer-m12x1.5-flare-4');
  });

  it('pushes a coupler hose over a bead with a clamp and nothing else', () => {
    const [first] = made({ type: 'bead', odMm: 38 }, 'silicone-38', { allowElbowAdapters: false });
    expect(ids(first)).toEqual(['1 hose-clamp-32-50']);
    expect(first).toMatchObject({ fixing: 'clamped', stages: [], lengthMm: 0 });
    // common practice: the hose covers the spigot by 15 mm and 0.4 of its bore.
    expect(first?.insertMm).toBeCloseTo(15 + 0.4 * 38, 6);
  });

  it('puts a formed elbow on a bead with a clamp at each of its joints, and does not count the overlaps twice', () => {
    const elbow = made({ type: 'bead', odMm: 38 }, 'silicone-38').find((m) => m.stages.some((s) => s.kind === 'bend'));
    expect(elbow?.parts.filter((p) => p.kind === 'clamp')).toHaveLength(3);
    // hand: 45 degree elbow, radius 57, legs 60 + 57 tan(22.5); less 30.2 over the port's spigot and 30.2 over the joiner's; joiner 80.
    const overlap = 30.2;
    const straightMm = 60 - overlap + (60 - overlap) + 80;
    expect(elbow?.lengthMm).toBeCloseTo(straightMm + 57 * (Math.PI / 4), 1);
  });

  it('says a taper elbow stops only where it comes tight', () => {
    const elbow = made({ type: 'npt-female', pipe: '1/8' }, 'ptfe-steel-4').find((m) => m.clockHow === 'taper');
    expect(elbow?.clockWords).toMatch(/only where it comes tight, never backed off/u);
  });

  it('says that a crimped bent end ties the far end to it, within the 3 degrees of SAE J516', () => {
    // published: SAE J516:2019, elbow angle tolerance ±3 degrees.
    const found = made({ type: 'orb', dash: 16 }, 'rubber-braid-16', {
      angles: [90],
      allowElbowAdapters: false,
      box: new Set(['end-crimped-rubber-braid-16-90']),
    });
    expect(found[0]?.clockHow).toBe('swivel');
    expect(found[0]?.clockWords).toMatch(
      /^swivel: free until tightened; with a bend at the far end too, crimped: .* set before crimping, ±3°$/u,
    );
  });

  it('says which part is missing rather than invent one', () => {
    const found = endMakeUps({ end: { type: 'orb', dash: 16 } }, hose('silicone-38'), shelf, {});
    expect(found).toEqual({
      missing:
        'no adapter from -16 O-ring boss port (1 5/16-12) to 38 mm beaded spigot in the catalogue, in one piece or up to 3: wanted -16 O-ring boss stud (1 5/16-12) x 38 mm beaded spigot',
    });
    const none = endMakeUps({ end: { type: 'metric-orb', thread: 'M48x2' } }, hose('rubber-braid-16'), shelf, {});
    expect(none).toHaveProperty('missing');
  });

  it('says so when the hose has no end of the angle wanted', () => {
    expect(
      endMakeUps({ end: { type: 'orb', dash: 6 } }, hose('rubber-textile-6'), shelf, {
        angles: [150],
        allowElbowAdapters: false,
      }),
    ).toEqual({
      missing: expect.stringMatching(/^no 150 degree hose end for /u),
    });
  });

  it('marks parts that must be in before their part is mounted', () => {
    const own = catalogue({
      adapters: [
        {
          id: 'hidden',
          name: 'boss behind the casting',
          a: { type: 'orb-stud', dash: 6 },
          b: { type: 'flare37-male', dash: 6 },
          lengthMm: 20,
          bodyOdMm: 20,
          boreMm: 8,
          hexMm: 17,
          before: true,
        },
      ],
    });
    const found = endMakeUps({ end: { type: 'orb', dash: 6 } }, hose('rubber-braid-6', own), own, {
      box: new Set(['hidden']),
      angles: [0],
      allowElbowAdapters: false,
    });
    expect('makeUps' in found ? found.makeUps[0]?.before : []).toEqual(['hidden']);
  });

  it('reaches a bent end whose seat differs from the straight one', () => {
    const bent = {
      id: 'odd-90',
      name: 'odd',
      families: ['rubber-braid'],
      hoseDash: 8,
      to: { type: 'face-seal-swivel', dash: 8 } as const,
      angleDeg: 90 as const,
      nutMm: 20,
      socketMm: 20,
      socketOdMm: 20,
      neckOdMm: 15,
      insertMm: 18,
      boreMm: 10,
    };
    const row = {
      id: 'boss-face',
      name: 'boss to face seal',
      a: { type: 'orb-stud', dash: 8 } as const,
      b: { type: 'face-seal', dash: 8 } as const,
      lengthMm: 20,
      bodyOdMm: 22,
      boreMm: 10,
      hexMm: 22,
    };
    const own = { ...catalogue({ adapters: [row] }), hoseEndsFor: () => catalogue({ hoseEnds: [bent] }).hoseEnds };
    const found = endMakeUps({ end: { type: 'orb', dash: 8 } }, hose('rubber-braid-8'), own, {
      allowElbowAdapters: false,
    });
    expect('makeUps' in found ? found.makeUps.map((m) => m.key) : found).toEqual(['boss-face + odd-90']);
  });
});

const ports: readonly End[] = [
  ...[3, 4, 6, 8, 10, 12, 16, 20].flatMap((dash): End[] => [
    { type: 'orb', dash },
    { type: 'flare37-male', dash },
    { type: 'face-seal', dash },
    { type: 'flange2', dash },
  ]),
  ...['1/8', '1/4', '3/8', '1/2', '3/4', '1'].flatMap((pipe): End[] => [
    { type: 'npt-female', pipe },
    { type: 'bspp', pipe },
  ]),
  ...['M10x1', 'M12x1.5', 'M14x1.5', 'M16x1.5', 'M18x1.5', 'M22x1.5'].flatMap((thread): End[] => [
    { type: 'metric-washer', thread },
    { type: 'metric-orb', thread },
  ]),
  ...[6, 19, 25, 38, 57].map((odMm): End => ({ type: 'bead', odMm })),
];
const duties: readonly Duty[] = ['oil-pressure', 'oil-suction', 'oil-drain', 'water', 'fuel', 'air'];

it('holds only catalogue parts, mates at every joint, and narrows no more than it must, for any port and hose (seed 21)', () => {
  fc.assert(
    fc.property(
      fc.constantFrom(...ports),
      fc.constantFrom(...shelf.hoses),
      fc.constantFrom(...duties),
      (end, row, duty) => {
        const found = endMakeUps({ end }, row, shelf, { duty });
        if ('missing' in found) return;
        const known = new Set(
          [...shelf.adapters, ...shelf.hoseEndsFor(row), ...shelf.seals, ...shelf.clamps].map((r) => r.id),
        );
        for (const makeUp of found.makeUps) {
          expect(makeUp.parts.filter((p) => !known.has(p.id))).toEqual([]);
          const adapters = makeUp.parts
            .filter((p) => p.kind === 'adapter')
            .map((p) => shelf.adapters.find((a) => a.id === p.id)!);
          const last = shelf.hoseEndsFor(row).find((e) => makeUp.key.endsWith(e.id))!;
          expect(
            canJoin(
              end,
              adapters.map((a) => [a.a, a.b]),
              last.to,
            ),
          ).toBe(true);
          expect(adapters.length).toBeLessThanOrEqual(3);
          expect(makeUp.boreMm).toBe(Math.min(last.boreMm, ...adapters.map((a) => a.boreMm)));
          if (makeUp.boreMm < 0.9 * row.boreMm - 0.1 && makeUp.boreMm < last.boreMm)
            expect(makeUp.remarks.length).toBeGreaterThan(0);
        }
      },
    ),
    { seed: 21, numRuns: 250 },
  );
});

/** Can the parts be screwed together in this order, each whichever way round, so that every joint mates? */
function canJoin(open: End, parts: readonly (readonly [End, End])[], last: End): boolean {
  const [first, ...rest] = parts;
  if (first === undefined) return mates(open, last).ok;
  const [a, b] = first;
  return (mates(open, a).ok && canJoin(b, rest, last)) || (mates(open, b).ok && canJoin(a, rest, last));
}
