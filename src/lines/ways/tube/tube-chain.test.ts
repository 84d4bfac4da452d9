import { describe, expect, it } from 'vitest';
import { readCar } from '#car';
import type { Vec } from '#geometry';
import { lineWays } from '../../line-ways.ts';
import type { Way, WayPiece } from '../../way.ts';
import { linesWorld } from '../../world.ts';
import { bentTube } from './bent-tube.fixture.ts';

const box = (min: number[], max: number[]) => ({ box: { minMm: min, maxMm: max } });
const bead = { type: 'bead', odMm: 38 };
const flare = { type: 'flare37-male', dash: 12 };
const water = { tube: { odMm: 38, wallMm: 1.6, bendRadiusMm: 76, material: 'aluminium' } };
const oil = { tube: { odMm: 19.05, wallMm: 0.9, bendRadiusMm: 57, material: 'stainless' } };
const soft = { hose: 'silicone-38' };
const thin = { hose: 'oil-19' };

interface Rig {
  readonly to?: { readonly at: number[]; readonly faces: number[]; readonly movesWith?: string };
  readonly end: object;
  readonly pieces: object[];
  readonly parts?: object[];
  readonly through?: object[];
}

/** Two ports, 100 mm blocks behind them, and what stands between; all invented. */
function car({ to = { at: [1000, 0, 0], faces: [-1, 0, 0] }, end, pieces, parts = [], through = [] }: Rig) {
  const block = (at: number[], faces: number[]) =>
    box(
      at.map((v, k) => v - 50 - 50 * faces[k]!),
      at.map((v, k) => v + 50 - 50 * faces[k]!),
    );
  const part = (id: string, at: number[], faces: number[], movesWith?: string) => ({
    id,
    class: 'fixed',
    ...(movesWith === undefined ? {} : { movesWith }),
    shapes: [block(at, faces)],
    ports: [{ id: 'p', atMm: at, faces, end }],
  });
  return {
    fairlead: 1,
    name: 'Chain rig',
    parts: [part('a', [0, 0, 0], [1, 0, 0]), part('b', to.at, to.faces, to.movesWith), ...parts],
    movers: [{ id: 'engine', pivotMm: [1000, 0, -300], axis: [1, 0, 0], turnDeg: [-1, 1] }],
    lines: [
      {
        id: 'L',
        from: 'a.p',
        to: 'b.p',
        duty: end === bead ? 'water' : 'oil-return',
        state: 'planned',
        ...(end === bead ? { boreMm: 34.8 } : { dash: 12 }),
        pieces,
        through,
      },
    ],
    catalogue: {
      hoses: [
        {
          id: 'silicone-38',
          boreMm: 38,
          odMm: 48,
          minBendRadiusMm: 115,
          pressureBar: 3,
          minC: -50,
          maxC: 170,
          fluids: ['water'],
        },
        {
          id: 'oil-19',
          boreMm: 19,
          odMm: 27,
          minBendRadiusMm: 80,
          pressureBar: 5,
          minC: -40,
          maxC: 170,
          fluids: ['oil'],
        },
      ],
    },
  };
}

function bestWay(rig: Rig): Way {
  const read = readCar(JSON.stringify(car(rig)));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return lineWays(linesWorld(read.car, new Map()), read.car.lines[0]!, null, 1)[0]!;
}

const lengthOf = (path: readonly Vec[]): number =>
  path.slice(1).reduce((sum, p, i) => sum + Math.hypot(...p.map((c, k) => c - path[i]![k]!)), 0);

/** Bodies follow each other without a gap. */
const widestBreakMm = (way: Way): number =>
  Math.max(
    ...way.bodies
      .slice(1)
      .map((body, i) => Math.hypot(...body.pathMm[0]!.map((c, k) => c - way.bodies[i]!.pathMm.at(-1)![k]!))),
  );

/** A tube's centreline with what lies under the hoses over its ends. */
function tubeWithHoseOver(way: Way, k: number): Vec[] {
  const at = way.bodies.map((b, i) => (b.part === 'tube' ? i : -1)).filter((i) => i >= 0)[k]!;
  return [at - 1, at, at + 1].flatMap((i) => {
    const body = way.bodies[i];
    return body?.part === 'tube' || body?.part === 'hose-over-tube' ? [...body.pathMm] : [];
  });
}

const kinds = (way: Way): string[] => way.pieces.map((p) => (p.tube === undefined ? 'hose' : 'tube'));
const bendsOf = (way: Way): number[] => way.pieces.flatMap((p: WayPiece) => (p.bends ?? []).map((b) => b.bendDeg));

describe('a hose between two tubes', () => {
  it('hand: in line from port to port, the hose sits in the middle and each tube is half of what is left', () => {
    const way = bestWay({ end: flare, pieces: [oil, thin, oil] });
    expect(way.fails).toEqual([]);
    expect(kinds(way)).toEqual(['tube', 'hose', 'tube']);
    expect(bendsOf(way)).toEqual([]);
    expect(widestBreakMm(way)).toBeLessThan(0.01);
    expect(way.bodies[0]!.pathMm[0]).toEqual([0, 0, 0]);
    expect(way.bodies.at(-1)!.pathMm.at(-1)).toEqual([1000, 0, 0]);
    // hand: nothing moves, so 40 mm show between the beads; (1000 - 40) / 2 from each seat to its bead.
    const hose = way.bodies.find((b) => b.part === 'hose')!;
    expect([hose.pathMm[0]![0], hose.pathMm.at(-1)![0]]).toEqual([480, 520]);
    expect([way.pieces[0]!.cutLengthMm, way.pieces[2]!.cutLengthMm]).toEqual([480, 480]);
    // A joint at each change, with a clamp on each bead.
    expect(way.joints.map((j) => j.port)).toEqual(['L joint 1', 'L joint 2']);
    expect(way.joints.flatMap((j) => j.parts.map((p) => p.kind))).toEqual(['clamp', 'clamp']);
    // Both tubes are held on their own.
    for (const [from, to] of [
      [0, 480],
      [520, 1000],
    ] as const)
      expect(way.clamps.filter((c) => from <= c.alongMm && c.alongMm <= to).length).toBeGreaterThan(0);
  });

  it('hand: where one end moves, the hose between is long enough to step aside by that', () => {
    const way = bestWay({
      end: flare,
      pieces: [oil, thin, oil],
      to: { at: [1000, 0, 0], faces: [-1, 0, 0], movesWith: 'engine' },
    });
    expect(way.fails).toEqual([]);
    // hand: 300 mm above the pivot, 1 degree: 5.24 mm sideways; 2 sqrt(5.24 x 80) = 40.9, to 45. The first tube stands still.
    const hose = way.bodies.find((b) => b.part === 'hose')!;
    expect(hose.pathMm.at(-1)![0] - hose.pathMm[0]![0]).toBeCloseTo(45, 6);
    const on = way.clamps.filter((c) => c.alongMm < 450).map((c) => c.on);
    expect(on).not.toContain('b');
  });

  it('second: round a corner and a block, each tube bent from its own table lands where the way has its end', () => {
    const way = bestWay({
      end: flare,
      pieces: [oil, thin, oil],
      to: { at: [900, 300, 500], faces: [0, 0, -1] },
      parts: [{ id: 'post', class: 'fixed', shapes: [box([450, -60, -300], [520, 60, 300])] }],
    });
    expect(way.fails).toEqual([]);
    expect(widestBreakMm(way)).toBeLessThan(0.01);
    const tubes = way.bodies.filter((b) => b.part === 'tube');
    expect(tubes).toHaveLength(2);
    expect(bendsOf(way).length).toBeGreaterThan(1);
    way.pieces
      .filter((p) => p.tube !== undefined)
      .forEach((piece, k) => {
        const path = tubeWithHoseOver(way, k);
        const inNuts = piece.cutLengthMm - lengthOf(path);
        const bent = bentTube(
          piece.bends!.map((b) => ({ ...b, markMm: b.markMm - (k === 0 ? inNuts : 0) })),
          lengthOf(path),
        );
        const [from, to] = [path[0]!, path.at(-1)!];
        expect(Math.hypot(...bent.end)).toBeCloseTo(Math.hypot(...to.map((c, i) => c - from[i]!)), 0);
      });
  });

  it('hand: hose, tube, hose, tube, hose in line: three couplers of 50 mm, two tubes of what is left', () => {
    const way = bestWay({
      end: bead,
      pieces: [soft, water, soft, water, soft],
      to: { at: [1600, 0, 0], faces: [-1, 0, 0] },
    });
    expect(way.fails).toEqual([]);
    expect(kinds(way)).toEqual(['hose', 'tube', 'hose', 'tube', 'hose']);
    expect(widestBreakMm(way)).toBeLessThan(0.01);
    // hand: 48 mm hose shows 50; (1600 - 3 x 50) / 2 for each tube.
    expect(way.pieces.filter((p) => p.tube !== undefined).map((p) => p.cutLengthMm)).toEqual([725, 725]);
    expect(way.joints.map((j) => j.port)).toEqual(['L joint 1', 'L joint 2', 'L joint 3', 'L joint 4']);
  });

  it('hand: three tubes and two hoses through a grommet; no coupler sits in the panel', () => {
    const way = bestWay({
      end: flare,
      pieces: [oil, thin, oil, thin, oil],
      to: { at: [1800, 0, 0], faces: [-1, 0, 0] },
      parts: [
        { id: 'panel', class: 'fixed', crossable: ['grommet'], shapes: [box([599, -300, -300], [601, 300, 300])] },
      ],
      through: [{ part: 'panel', kind: 'grommet', atMm: [600, 0, 0], faces: [1, 0, 0] }],
    });
    expect(way.fails).toEqual([]);
    expect(kinds(way)).toEqual(['tube', 'hose', 'tube', 'hose', 'tube']);
    const hoses = way.bodies.filter((b) => b.part.startsWith('hose'));
    for (const hose of hoses)
      expect(hose.pathMm[0]![0] > 601 + 6 || hose.pathMm.at(-1)![0] < 599 - 6, hose.part).toBe(true);
  });

  it('a hose that goes over neither tube is refused, and the joint is named', () => {
    const way = bestWay({ end: flare, pieces: [oil, soft, oil] });
    expect(way.fails.map((f) => [f.limit, f.text.includes('L joint 1')])).toEqual([['mating', true]]);
  });
});
