import type { BayAir, OpeningFlow } from '#heat';
import { formatNumber } from '#units';
import type { Drawing, Pen, Role, Shape, Spot } from './drawing.ts';
import type { Sheet } from './gap-ruler.ts';
import { degreeWords } from './heat-curves.ts';
import { spreadOut } from './spread-out.ts';
import { brokenText, cutText, row } from './text-block.ts';
import { ABOVE, ROW } from './text-width.ts';

/** Less than this is no flow [m3/s]. */
const STILL_M3S = 0.0005;
/** The bay takes this share of the width; openings stand to either side. */
const BAY_SHARE = 0.3;
/** Least height of the bay [em]. */
const BAY_HIGH = 13;

/** Flow in words: "22 L/s", or cubic feet a minute where inches are spoken. */
export function airFlowWords(m3S: number, isInch: boolean): string {
  const value = Math.abs(m3S) * (isInch ? CFM : 1000);
  return `${formatNumber(value, value < 10 ? 1 : 0)} ${isInch ? 'cfm' : 'L/s'}`;
}

/** Cubic feet a minute in a cubic metre a second. */
const CFM = 2118.88;

/**
 * The air of a bay: what comes in on the left and goes out on the right, each at its height, with how much and how hot; arrows as thick
 * as the flow. What goes against its purpose is drawn in red with a triangle.
 */
export function bayAirPicture(air: BayAir, heights: readonly [number, number], isInch: boolean, sheet: Sheet): Drawing {
  const { size, width } = sheet;
  const isIn = (one: OpeningFlow): boolean => one.flowM3S < -STILL_M3S;
  const ins = air.openings.filter(isIn);
  const outs = air.openings.filter((one) => !isIn(one));
  const drawn = air.intakes.filter(({ massKgS }) => massKgS > 0);
  const top = size * (ROW + 1);
  const each = size * 3.3;
  const high = Math.max(size * BAY_HIGH, Math.max(ins.length, outs.length + drawn.length) * each);
  const [left, right] = [(width * (1 - BAY_SHARE)) / 2, (width * (1 + BAY_SHARE)) / 2];
  const level = (zMm: number): number =>
    top + high - ((zMm - heights[0]) / Math.max(1, heights[1] - heights[0])) * high;
  const frame = { air, left, right, top, high, size, width, isInch, level, each };
  const inWords = (c: number): string => degreeWords(c, isInch);
  return {
    title: `Air of ${air.name}`,
    description: [
      `${inWords(air.airC)} inside, ${inWords(air.outsideC)} outside`,
      ...air.openings.map((one) => `${one.name}: ${flowTold(one, isInch)}`),
      ...drawn.map((one) => `${one.name} draws ${formatNumber(one.massKgS, 2)} kg/s`),
    ].join('; '),
    unit: sheet.unit,
    width,
    height: top + high + size,
    shapes: [
      row([0, size * ABOVE], `Air of ${air.name}`, { size, weight: 'bold' }),
      row([0, top - size * 0.5], 'comes in', { size: size * 0.85, role: 'soft' }),
      row([width, top - size * 0.5], 'goes out', { size: size * 0.85, role: 'soft', anchor: 'end' }),
      {
        kind: 'rect',
        at: [left, top],
        width: right - left,
        height: high,
        fill: 'card',
        pen: { role: 'ink', width: size * 0.14 },
      },
      ...insideWords(frame),
      ...side(frame, ins, 'in'),
      ...side(frame, [...outs, ...drawn], 'out'),
    ],
  };
}

interface Frame {
  readonly air: BayAir;
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly high: number;
  readonly size: number;
  readonly width: number;
  readonly isInch: boolean;
  readonly level: (zMm: number) => number;
  readonly each: number;
}

function insideWords({ air, left, right, top, high, size, isInch }: Frame): Shape[] {
  const middle = (left + right) / 2;
  const how = { 'worked out': 'worked out', measured: 'as measured', stated: 'as stated' }[air.how];
  const texts = [
    { text: degreeWords(air.airC, isInch), big: true },
    { text: how, big: false },
    { text: `${formatNumber(air.heatW / 1000, 1)} kW into it`, big: false },
    ...(air.asStanding ? [{ text: 'counted as standing', big: false }] : []),
  ];
  const small = size * 0.85;
  return texts.flatMap(({ text, big }, i) =>
    brokenText(text, right - left - size * 0.6, big ? size * 1.5 : small).map((words, k) =>
      row([middle, top + high / 2 - size * 1.6 + i * size * 1.7 + k * small * ROW], words, {
        size: big ? size * 1.5 : small,
        weight: big ? 'bold' : 'regular',
        role: big ? 'ink' : 'soft',
        anchor: 'middle',
      }),
    ),
  );
}

type Mover = OpeningFlow | BayAir['intakes'][number];
const isOpening = (one: Mover): one is OpeningFlow => 'opening' in one;

/** Density that an engine's air is told at [kg/m3]. */
const TOLD_KG_M3 = 1.2;
const flowM3S = (one: Mover): number => (isOpening(one) ? one.flowM3S : one.massKgS / TOLD_KG_M3);

/** Against what it is for. */
const isWrong = (one: Mover): boolean =>
  isOpening(one) &&
  ((one.lets === 'out' && one.flowM3S < -STILL_M3S) || (one.lets === 'in' && one.flowM3S > STILL_M3S));

const flowTold = (one: OpeningFlow, isInch: boolean, isShort = false): string => {
  if (one.bothWaysM3S !== undefined && one.bothWaysM3S > 0) return `${airFlowWords(one.bothWaysM3S, isInch)} both ways`;
  if (Math.abs(one.flowM3S) <= STILL_M3S) return 'next to nothing';
  const meant = isWrong(one) && !isShort ? `, meant to let ${one.lets}` : '';
  return `${airFlowWords(one.flowM3S, isInch)} ${one.flowM3S < 0 ? 'in' : 'out'}${meant}`;
};

function side(frame: Frame, movers: readonly Mover[], which: 'in' | 'out'): Shape[] {
  const { left, right, top, high, size, width, isInch, level, each, air } = frame;
  const places = spreadOut(
    movers.map((one) => ({ at: level(one.atMm[2]), width: each })),
    top,
    top + high,
    0,
  );
  const most = Math.max(1e-6, ...air.openings.map((one) => Math.abs(one.flowM3S)));
  const room = left - size * 3.4;
  return movers.flatMap((one, i): Shape[] => {
    const y = places[i]!;
    const role: Role = isWrong(one) ? 'stop' : which === 'in' ? 'blue' : 'ink';
    const thick = size * (0.12 + 0.5 * Math.min(1, Math.abs(flowM3S(one)) / most));
    const [tail, head] = which === 'in' ? [left - size * 3, left + size * 0.6] : [right - size * 0.6, right + size * 3];
    const words = isOpening(one) ? flowTold(one, isInch, true) : `${airFlowWords(flowM3S(one), isInch)} drawn`;
    const x = which === 'in' ? 0 : width;
    const anchor = which === 'in' ? 'start' : 'end';
    const name = brokenText(one.name, room, size * 0.85).slice(0, 2);
    return [
      ...arrow([tail, y], [head, y], { role, width: thick }, size),
      ...name.map((text, k) =>
        row([x, y - size * 0.15 - (name.length - 1 - k) * size * 0.95], cutText(text, room, size * 0.85), {
          size: size * 0.85,
          anchor,
        }),
      ),
      row([x, y + size * 0.9], cutText(`${isWrong(one) ? '▲ ' : ''}${words}`, room, size * 0.85), {
        size: size * 0.85,
        weight: 'bold',
        role: isWrong(one) ? 'stop' : 'ink',
        anchor,
      }),
    ];
  });
}

function arrow([x0, y]: Spot, [x1]: Spot, pen: Pen, size: number): Shape[] {
  const head = size * 0.75;
  return [
    { kind: 'line', from: [x0, y], to: [x1 - head * 0.8, y], pen },
    {
      kind: 'polyline',
      points: [
        [x1, y],
        [x1 - head, y - head * 0.6],
        [x1 - head, y + head * 0.6],
      ],
      isClosed: true,
      fill: pen.role,
    },
  ];
}
