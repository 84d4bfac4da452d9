import type { Shape, Spot } from './drawing.ts';
import { row } from './text-block.ts';
import { CAPITAL } from './text-width.ts';
import { beside, type Pose } from './unrolled.ts';

/** A number in a ring beside what it names, moved outwards until it is clear of the ones before. */
export function numberTag(
  number: number,
  middle: Pose,
  half: number,
  side: 1 | -1,
  taken: Spot[],
  size: number,
  lift = 0,
): Shape[] {
  const radius = size * 0.78;
  const edge = beside(middle, side * half);
  const outward: Spot = [Math.cos(middle.headingRad), Math.sin(middle.headingRad)];
  let at = beside(middle, side * (half + lift + radius * 1.55));
  const isClear = (spot: Spot) =>
    taken.every((other) => Math.hypot(other[0] - spot[0], other[1] - spot[1]) >= radius * 2.15);
  for (let i = 0; i < 60 && !isClear(at); i++)
    at = [at[0] + outward[0] * radius * 0.2, at[1] + outward[1] * radius * 0.2];
  taken.push(at);
  const reach = Math.hypot(at[0] - edge[0], at[1] - edge[1]);
  const share = reach > radius ? 1 - radius / reach : 0;
  const text = String(number);
  return [
    {
      kind: 'line',
      from: edge,
      to: [edge[0] + (at[0] - edge[0]) * share, edge[1] + (at[1] - edge[1]) * share],
      pen: { role: 'soft', width: size * 0.06 },
    },
    { kind: 'circle', centre: at, radius, pen: { role: 'soft', width: size * 0.08 }, fill: 'card' },
    row([at[0], at[1] + (size * 0.9 * CAPITAL) / 2], text, { size: size * 0.9, weight: 'bold', anchor: 'middle' }),
  ];
}
