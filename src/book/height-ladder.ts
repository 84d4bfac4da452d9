import type { HeightRung } from '#flow';
import { formatInches, formatMm } from '#units';
import type { Drawing, Pen, Role, Shape, Spot } from './drawing.ts';
import type { FlowUnits } from './flow-words.ts';
import type { Sheet } from './gap-ruler.ts';
import { spreadOut } from './spread-out.ts';
import { cutText, row } from './text-block.ts';
import { ABOVE, BELOW, ROW, textWidth } from './text-width.ts';

type Kind = HeightRung['kind'];

const roles: Readonly<Record<Kind, Role>> = {
  header: 'ink',
  surface: 'water',
  port: 'soft',
  bleed: 'ink',
  'high-point': 'ink',
  trap: 'stop',
};
const words: Readonly<Record<Kind, string>> = {
  header: 'header',
  surface: 'water stands here',
  port: 'port',
  bleed: 'bleed',
  'high-point': 'high point',
  trap: 'air stays here',
};

/**
 * Heights of a water circuit as a ladder, the car level: each rung at its height with its name and number; the header and the water's
 * surface run all across, a place where air stays is a triangle, a bleed a ring, a high point a dot.
 */
export function heightLadder(rungs: readonly HeightRung[], units: FlowUnits, sheet: Sheet): Drawing {
  const { size, width } = sheet;
  const inTurn = rungs.toSorted((a, b) => b.heightMm - a.heightMm);
  const height = (mm: number): string => (units === 'inch' ? formatInches(mm) : formatMm(mm)).replace('-', '−');
  const top = size * (ROW + 1);
  const step = size * 1.5;
  const bottom = top + Math.max(size * 14, inTurn.length * step);
  const [high, low] = [inTurn[0]?.heightMm ?? 0, inTurn.at(-1)?.heightMm ?? 0];
  const y = (mm: number): number => top + ((high - mm) / (high - low || 1)) * (bottom - top);
  const numberWide = Math.max(0, ...inTurn.map(({ heightMm }) => textWidth(height(heightMm), size))) + size * 0.6;
  const rail = size * 1.2;
  const fan = rail + size * 3.4;
  const places = spreadOut(
    inTurn.map(({ heightMm }) => ({ at: y(heightMm), width: step })),
    top - step / 2,
    bottom + step / 2,
    0,
  );
  const room = width - fan - numberWide - size * 0.5;
  return {
    title: 'Heights of the water',
    description: inTurn.map((rung) => `${rungWords(rung)} at ${height(rung.heightMm)}`).join('; '),
    unit: sheet.unit,
    width,
    height: bottom + step / 2 + size * BELOW,
    shapes: [
      row([0, size * ABOVE], 'Heights, the car level', { size, weight: 'bold' }),
      { kind: 'line', from: [rail, top], to: [rail, bottom], pen: { role: 'ink', width: size * 0.14 } },
      ...inTurn.flatMap((rung, i): Shape[] => {
        const at = places[i]!;
        const role = roles[rung.kind];
        return [
          ...mark(rung.kind, [rail, y(rung.heightMm)], size),
          leader([rail + size * 0.6, y(rung.heightMm)], [fan - size * 0.4, at], size, role),
          row([fan + numberWide - size * 0.4, at + size * 0.32], height(rung.heightMm), { size, anchor: 'end', role }),
          row([fan + numberWide, at + size * 0.32], cutText(rungWords(rung), room, size), { size, role }),
        ];
      }),
    ],
  };
}

/** What it is, and its kind where its own words do not say it. */
function rungWords({ kind, words: own }: HeightRung): string {
  const kindWords = words[kind];
  return kind === 'port' || own.toLowerCase().includes(kindWords.split(' ')[0]!) ? own : `${own}, ${kindWords}`;
}

const leader = (from: Spot, to: Spot, size: number, role: Role): Shape => ({
  kind: 'line',
  from,
  to,
  pen: { role: role === 'ink' ? 'soft' : role, width: size * 0.06 },
});

function mark(kind: Kind, [x, y]: Spot, size: number): Shape[] {
  const r = size * 0.36;
  const pen: Pen = { role: roles[kind], width: size * 0.14 };
  const across = (dash?: readonly number[]): Shape => ({
    kind: 'line',
    from: [x - size, y],
    to: [x + size, y],
    pen: { ...pen, width: size * 0.22, ...(dash === undefined ? {} : { dash }) },
  });
  switch (kind) {
    case 'header':
      return [across()];
    case 'surface':
      return [across([size * 0.4, size * 0.2])];
    case 'trap':
      return [
        {
          kind: 'polyline',
          points: [
            [x, y - r * 1.2],
            [x + r * 1.2, y + r],
            [x - r * 1.2, y + r],
          ],
          isClosed: true,
          fill: 'stop',
        },
      ];
    case 'bleed':
      return [{ kind: 'circle', centre: [x, y], radius: r, fill: 'card', pen }];
    case 'high-point':
      return [{ kind: 'circle', centre: [x, y], radius: r * 0.8, fill: 'ink' }];
    case 'port':
      return [{ kind: 'line', from: [x - r, y], to: [x + r, y], pen }];
  }
}
