import { describe, expect, it } from 'vitest';
import { carFrom } from '#car';
import { polylineLength } from '#geometry';
import { lineWays, linesWorld } from '#lines';

/** Free length of a hose over the distance between its ends, less 1: two ports that face each other over 1000 mm, in the open. */
function slackOfRun(): number {
  const block = (id: string, minX: number, faceX: number, faces: number) => ({
    id,
    class: 'fixed',
    shapes: [{ box: { minMm: [minX, -40, -40], maxMm: [minX + 60, 40, 40] } }],
    ports: [{ id: 'p', atMm: [faceX, 0, 0], faces: [faces, 0, 0], end: { type: 'orb', dash: 6 } }],
  });
  const read = carFrom({
    fairlead: 1,
    parts: [block('left', -60, 0, 1), block('right', 1000, 1000, -1)],
    lines: [{ id: 'L', from: 'left.p', to: 'right.p', duty: 'oil-pressure', dash: 6, state: 'planned' }],
  });
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  const world = linesWorld(read.car, new Map());
  const [way] = lineWays(world, world.car.lines[0]!, null, 1);
  expect(way!.fails).toEqual([]);
  const hose = way!.bodies.find((body) => body.part === 'hose')!.pathMm;
  const [first, last] = [hose[0]!, hose.at(-1)!];
  const chordMm = Math.hypot(last[0] - first[0], last[1] - first[1], last[2] - first[2]);
  return polylineLength(Float64Array.from(hose.flat())) / chordMm - 1;
}

describe('slack of near-straight runs', () => {
  it('handbook: with room it is 5 to 8 % (naval manual on hoses, navy-14105), to the next 5 mm of cut', () => {
    const slack = slackOfRun();
    expect(slack).toBeGreaterThan(0.05);
    expect(slack).toBeLessThan(0.085);
  });
});
