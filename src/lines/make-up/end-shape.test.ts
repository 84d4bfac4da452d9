import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Vec, add, cross, distance, norm, scale, sub, unit } from '#geometry';
import { type HoseEndAngleDeg, hoseEndAngles } from '#standards';
import { clockDeg, clockDirection, clockFrame } from './clock-frame.ts';
import type { EndMakeUp } from './end-make-up.ts';
import { endKernel, endShape } from './end-shape.ts';
import type { Stage } from './stage.ts';

const rad = (deg: number): number => (deg * Math.PI) / 180;

function end(angleDeg: HoseEndAngleDeg, elbowDeg: 0 | 45 | 90 = 0): EndMakeUp {
  const elbow: Stage[] = [
    { kind: 'straight', lengthMm: 20, odMm: 30, part: 'elbow' },
    { kind: 'bend', angleRad: rad(elbowDeg), radiusMm: 0, odMm: 30, part: 'elbow', clock: 1 },
    { kind: 'straight', lengthMm: 25, odMm: 30, part: 'elbow' },
  ];
  const hoseEnd: Stage[] = [
    { kind: 'straight', lengthMm: 32, odMm: 36, part: 'end' },
    ...(angleDeg === 0
      ? []
      : [{ kind: 'bend', angleRad: rad(angleDeg), radiusMm: 30, odMm: 24, part: 'end', clock: 0 } as const]),
    { kind: 'straight', lengthMm: 8, odMm: 24, part: 'end' },
    { kind: 'straight', lengthMm: 26, odMm: 31, part: 'end' },
  ];
  const stages =
    elbowDeg === 0
      ? [{ kind: 'straight', lengthMm: 40, odMm: 35, part: 'straight' } as const, ...hoseEnd]
      : [...elbow, ...hoseEnd];
  return {
    key: 'test',
    stages,
    angleDeg,
    fixing: 'reusable',
    cost: 0,
    insertMm: 24,
    boreMm: 15,
    lengthMm: 0,
    clockHow: 'swivel',
    clockWords: '',
    before: [],
    measure: true,
    remarks: [],
    parts: [
      { id: 'elbow', name: 'elbow', kind: 'adapter', qty: 1 },
      { id: 'end', name: 'end', kind: 'hose-end', qty: 1 },
    ],
  };
}

const pointsOf = (path: Float64Array): Vec[] =>
  Array.from({ length: path.length / 3 }, (_, i): Vec => [path[3 * i]!, path[3 * i + 1]!, path[3 * i + 2]!]);
const axisArb = fc
  .tuple(
    fc.double({ min: -1, max: 1, noNaN: true }),
    fc.double({ min: -1, max: 1, noNaN: true }),
    fc.double({ min: -1, max: 1, noNaN: true }),
  )
  .filter((v) => norm(v) > 0.05)
  .map(unit);
const clockArb = fc.double({ min: 0, max: 2 * Math.PI, noNaN: true });

describe('endShape', () => {
  it('puts the tail of a 90 degree end where a drawing does', () => {
    // hand: port at the origin faces forward (-X), tail at three o'clock = the car's left (-Y).
    // Along -X: 40 + 32 + radius 30 = 102. Sideways: 30 + 8 + 26 = 64.
    const { tail, lengthMm } = endShape(end(90), { at: [0, 0, 0], faces: [-1, 0, 0] }, [Math.PI / 2]);
    expect(distance(tail.at, [-102, -64, 0])).toBeLessThan(1e-9);
    expect(distance(tail.along, [0, -1, 0])).toBeLessThan(1e-12);
    expect(lengthMm).toBeCloseTo(40 + 32 + (Math.PI / 2) * 30 + 8 + 26, 9);
  });

  it('brings a 180 degree end back beside itself', () => {
    // hand: up-facing port, twelve o'clock = forward. Rise 40 + 32 - 8 - 26 = 38, sideways 2 * 30 = 60.
    const { tail } = endShape(end(180), { at: [5, 6, 7], faces: [0, 0, 1] }, [0]);
    expect(distance(tail.at, [5 - 60, 6, 7 + 38])).toBeLessThan(1e-9);
    expect(distance(tail.along, [0, 0, -1])).toBeLessThan(1e-12);
  });

  it('stacks an elbow adapter and a bent end, each on its own clock', () => {
    // hand: port faces right (+Y); its three o'clock is forward. Elbow 90 at three: 20 out, then 25 forward, to (-25, 20, 0).
    // The end now screws onto an axis that faces forward: 32 on, then 90 degrees at six o'clock = down: radius 30, then 34 down.
    const { tail } = endShape(end(90, 90), { at: [0, 0, 0], faces: [0, 1, 0] }, [Math.PI, Math.PI / 2]);
    expect(distance(tail.at, [-25 - 32 - 30, 20, -30 - 34])).toBeLessThan(1e-9);
    expect(distance(tail.along, [0, 0, -1])).toBeLessThan(1e-12);
  });

  it('samples true arcs: points within 3 mm, chords within 0.05 mm, bodies end to end (seed 11)', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...hoseEndAngles),
        fc.constantFrom(0, 45, 90),
        axisArb,
        clockArb,
        clockArb,
        (angle, elbow, faces, a, b) => {
          const { bodies, tail } = endShape(end(angle, elbow as 0 | 45 | 90), { at: [100, -200, 300], faces }, [a, b]);
          let at: Vec = [100, -200, 300];
          for (const body of bodies) {
            const points = pointsOf(body.path);
            expect(points[0]).toEqual(at);
            for (let i = 1; i < points.length; i++) expect(distance(points[i - 1]!, points[i]!)).toBeLessThanOrEqual(3);
            at = points.at(-1)!;
            // Three neighbours on an arc of radius R: sagitta of a chord s is R - sqrt(R2 - s2/4) <= 0.05.
            for (let i = 1; i + 1 < points.length; i++)
              expect(sagitta(points[i - 1]!, points[i]!, points[i + 1]!)).toBeLessThan(0.05);
          }
          expect(at).toEqual(tail.at);
        },
      ),
      { seed: 11, numRuns: 60 },
    );
  });

  it('keeps a corner inside one body, and every diameter apart', () => {
    const { bodies } = endShape(end(45, 90), { at: [0, 0, 0], faces: [1, 0, 0] }, [0, 0]);
    expect(bodies.map((b) => [b.part, b.row, b.radiusMm])).toEqual([
      ['adapter', 'elbow', 15],
      ['hose-end', 'end', 18],
      ['hose-end', 'end', 12],
      ['hose-end', 'end', 15.5],
    ]);
  });
});

/** How far a chord of the circle through three neighbours leaves it; 0 at a corner, which is meant. */
function sagitta(a: Vec, b: Vec, c: Vec): number {
  const [u, v] = [sub(b, a), sub(c, b)];
  const turn = Math.asin(Math.min(1, norm(cross(unit(u), unit(v)))));
  if (turn < 1e-6 || turn > 0.4) return 0;
  const radius = norm(u) / (2 * Math.sin(turn / 2));
  return radius * (1 - Math.cos(turn / 2));
}

describe('endKernel', () => {
  it('says in closed form where the drawn shape ends, whatever the port and the clocks (seed 5)', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...hoseEndAngles),
        fc.constantFrom(0, 45, 90),
        axisArb,
        clockArb,
        clockArb,
        (angle, elbow, faces, phi, adapter) => {
          const makeUp = end(angle, elbow as 0 | 45 | 90);
          const port = { at: [10, 20, 30] as Vec, faces };
          const drawn = endShape(makeUp, port, [phi, adapter]).tail;
          const k = endKernel(makeUp, port, adapter);
          const radial = add(scale(k.up, Math.cos(phi)), scale(k.right, Math.sin(phi)));
          const at = add(add(k.origin, scale(k.axis, k.riseMm)), scale(radial, k.offsetMm));
          const along = add(scale(k.axis, Math.cos(k.angleRad)), scale(radial, Math.sin(k.angleRad)));
          expect(distance(at, drawn.at)).toBeLessThan(1e-9);
          expect(distance(along, drawn.along)).toBeLessThan(1e-9);
        },
      ),
      { seed: 5, numRuns: 200 },
    );
  });

  it('without an elbow clock turns the elbow itself when the hose end is straight', () => {
    const port = { at: [0, 0, 0] as Vec, faces: [0, 1, 0] as Vec };
    const k = endKernel(end(0, 90), port);
    const drawn = endShape(end(0, 90), port, [0, 1.2]).tail;
    const radial = add(scale(k.up, Math.cos(1.2)), scale(k.right, Math.sin(1.2)));
    expect(distance(add(add(k.origin, scale(k.axis, k.riseMm)), scale(radial, k.offsetMm)), drawn.at)).toBeLessThan(
      1e-9,
    );
  });

  it('has a clock that reads back from the sideways offset of the tail, as the outside contract defines it', () => {
    const port = { at: [0, 0, 0] as Vec, faces: [0, -1, 0] as Vec };
    const { tail } = endShape(end(45), port, [rad(213)]);
    const along = tail.at[1] * -1;
    const sideways = sub(tail.at, scale(port.faces, along));
    expect(clockDeg(clockFrame(port.faces), sideways)).toBeCloseTo(213, 9);
    expect(distance(unit(sideways), clockDirection(clockFrame(port.faces), rad(213)))).toBeLessThan(1e-9);
  });
});
