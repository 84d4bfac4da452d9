import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { applyEdit, carFrom, type Edit, findLine } from '#car';
import { linesWorld } from '#lines';
import { flowInCase } from './flow-page.ts';
import { type FlowTried, flowTried } from './flow-try.ts';
import { otherSizes } from './line-in-size.ts';

const packed = readFileSync(new URL('../../test/screen/fellside-taken.json.gz', import.meta.url));
const reading = carFrom(JSON.parse(gunzipSync(packed).toString('utf8')));
if (!reading.ok) throw new Error('fellside-taken is no car');
const cold = { ...reading.car, cases: reading.car.cases!.filter(({ id }) => id === 'cold-start') };
const world = linesWorld(cold, new Map());
const tried = (line: string, dash: number): FlowTried => {
  const answer = flowTried(world, line, dash);
  if ('fault' in answer) throw new Error(answer.fault);
  return answer;
};
const lineIn = ({ circuits }: Pick<FlowTried, 'circuits'>, id: string) =>
  circuits[0]!.states[0]!.lines.find(({ line }) => line === id)!;

describe('a line tried in another size', () => {
  const now = lineIn(flowInCase(world, 'cold-start'), 'O1');
  const then = tried('O1', 20);

  it('hand: thick oil in the hose loses by the fourth power of the bore and by the flow, Poiseuille', () => {
    const [was, is] = [now, lineIn(then, 'O1')];
    const hose = (line: typeof was) => line.pieces.find(({ what }) => what === 'hose')!;
    const byHand = hose(was).dropPa * (22.2 / 28.57) ** 4 * (is.flowM3S / was.flowM3S);
    expect([hose(was).boreMm, hose(is).boreMm]).toEqual([22.2, 28.57]);
    expect(hose(is).dropPa / byHand).toBeCloseTo(1, 2);
  });

  it('keeps the port: the adapter there is the one from its boss to the new size, ends turn as before', () => {
    const rows = lineIn(then, 'O1').pieces.flatMap(({ row }) => row ?? []);
    expect(rows).toEqual([
      'boss-16-flare-20',
      'end-reusable-rubber-braid-20-150',
      'rubber-braid-20',
      'end-reusable-rubber-braid-20-60',
      'boss-16-flare-20',
    ]);
    expect(lineIn(then, 'O1').toPa).toBeGreaterThan(now.toPa + 10_000);
  });

  it('says what it takes for granted, the bend that the larger hose does not allow among it', () => {
    expect(then.said[0]).toMatch(/^the way of O1 is kept as it lies; in -20 it has to be worked out anew/u);
    expect(then.said.join()).toMatch(/its tightest bend now has 154 mm; .* wants 248/u);
  });

  it('kept, it is another hose, and the way taken goes with the old one', () => {
    const { car } = applyEdit(cold, { do: 'several', edits: then.edits } as Edit);
    const line = findLine(car, 'O1')!;
    expect([line.dash, line.pieces, line.taken]).toEqual([20, [{ hose: 'rubber-braid-20' }], undefined]);
  });

  it('offers what there is with ends to it, and says of another what there is', () => {
    const sizes = otherSizes(world.shelf, findLine(cold, 'O1')!);
    expect(sizes).toEqual([4, 6, 8, 10, 12, 20]);
    expect(flowTried(world, 'O1', 7)).toEqual({
      fault: expect.stringMatching(/^there is no -7 of .*; there is -4, -6, -8, -10, -12, -20$/u),
    });
    expect(flowTried(world, 'O99', 8)).toEqual({ fault: 'there is no line "O99" in this car' });
  });
});
