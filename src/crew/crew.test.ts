import { describe, expect, it } from 'vitest';
import { planCar } from '#answers';
import { carFrom } from '#car';
import { linesWorld } from '#lines';
import { carInput } from './car-input.ts';
import { crewPlan } from './crew.ts';

/** Heights of ports across two blocks that face each other: two pairs, far from each other. */
const PORTS_MM = [0, 55, 400, 455];
/** Each pair is joined crosswise, so that its second line must go round its first. */
const JOINED = [
  [0, 1],
  [2, 3],
  [1, 0],
  [3, 2],
];

function crossed() {
  const block = (id: string, minX: number, faceX: number, faces: number) => ({
    id,
    class: 'fixed',
    shapes: [{ box: { minMm: [minX, -60, 0], maxMm: [minX + 60, 520, 80] } }],
    ports: PORTS_MM.map((y, n) => ({
      id: `p${n}`,
      atMm: [faceX, y, 40],
      faces: [faces, 0, 0],
      end: { type: 'orb', dash: 6 },
    })),
  });
  const read = carFrom({
    fairlead: 1,
    parts: [block('left', 0, 60, 1), block('right', 560, 560, -1)],
    lines: JOINED.map(([from, to], n) => ({
      id: `L${n}`,
      from: `left.p${from}`,
      to: `right.p${to}`,
      duty: 'oil-pressure',
      dash: 6,
      state: 'planned',
    })),
  });
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.car;
}

describe('all lines planned by several threads', () => {
  it('second: one thread and two come to the same plan, to the last digit, whoever works lines out ahead', async () => {
    const input = carInput(crossed(), new Map());
    const here = planCar(linesWorld(input.car, new Map()));
    const [one, two] = await Promise.all([1, 2].map((hands) => crewPlan(input, () => true, hands)));
    expect(here.lines.every(({ taken }) => taken !== null)).toBe(true);
    expect(JSON.stringify(one!.planned)).toBe(JSON.stringify(here));
    expect(JSON.stringify(two!.planned)).toBe(JSON.stringify(here));
  });

  it('second: a plan that is called off while it is worked out says so, and its threads end', async () => {
    let told = 0;
    const answer = await crewPlan(carInput(crossed(), new Map()), () => ++told < JOINED.length + 2, 2);
    expect(answer.planned.stopped).toBe(true);
  });
});
