import type { LineHeat, PartHeat, Soak, SoakSeries } from '#heat';
import { formatNumber, inchesFromMm, lengthsIn } from '#units';
import { type ChartLimit, type Curve, curveChart } from './curve-chart.ts';
import type { Drawing, Role } from './drawing.ts';
import type { Sheet } from './gap-ruler.ts';

/** "104 °C", or in degrees Fahrenheit. */
export function degreeWords(c: number, inDegF = false): string {
  return inDegF ? `${formatNumber(c * 1.8 + 32)} °F` : `${formatNumber(c)} °C`.replace('-', '−');
}

/** A difference: "12 K" or, in degrees Fahrenheit, "22 °F". */
export const differenceWords = (k: number, inDegF = false): string =>
  `${formatNumber(inDegF ? k * 1.8 : k)} ${inDegF ? '°F' : 'K'}`.replace('-', '−');

/** Narrower pictures are drawn higher [em]. */
const NARROW = 32;
const LOW_SHAPE = 0.45;
const HIGH_SHAPE = 0.72;
const shapeOf = ({ width, size }: Sheet): number => (width < size * NARROW ? HIGH_SHAPE : LOW_SHAPE);

const carried: Readonly<Record<LineHeat['carries'], Role>> = {
  oil: 'oil',
  water: 'water',
  fuel: 'fuel',
  air: 'air',
  'brake-fluid': 'brake',
};

/** Limits drawn: the two with least margin, so that the picture stays one. */
const MOST_LIMITS = 2;

/** Temperature along a line: its hottest side, the mean round it, what flows in it; limits with their wrong side hatched. */
export function lineTemperature(line: LineHeat, inDegF: boolean, sheet: Sheet): Drawing {
  const told = (c: number): number => (inDegF ? c * 1.8 + 32 : c);
  // Who reads °F reads a tape in inches.
  const along = (mm: number): number => (inDegF ? inchesFromMm(mm) : mm);
  const curve = (words: string, role: Role, of: (point: LineHeat['points'][number]) => number): Curve => ({
    words,
    role,
    mark: 'none',
    points: line.points.map((point) => [along(point.alongMm), told(of(point))]),
  });
  const ends = [line.points[0]?.alongMm ?? 0, line.points.at(-1)?.alongMm ?? 0];
  const limits = line.limits.slice(0, MOST_LIMITS).map(
    ({ what, limitC }): ChartLimit => ({
      words: `${what} ${degreeWords(limitC, inDegF)}`,
      wrong: 'above',
      points: ends.map((at) => [along(at), told(limitC)]),
    }),
  );
  const { worst } = line;
  return curveChart(
    {
      title: `Temperature along ${line.line}`,
      description: [
        `hottest ${degreeWords(worst.surfaceC, inDegF)} at ${lengthsIn(inDegF).one(worst.alongMm)}`,
        `in ${degreeWords(line.fluidInC, inDegF)}, out ${degreeWords(line.fluidOutC, inDegF)}`,
        ...line.limits.map(({ name, limitC }) => `${name} stands ${degreeWords(limitC, inDegF)}`),
      ].join('; '),
      across: `along the line from its first port [${inDegF ? 'in' : 'mm'}]`,
      up: inDegF ? '°F' : '°C',
      curves: [
        curve('hottest side', 'hot', (point) => point.worstC),
        { ...curve('mean round it', 'ink', (point) => point.meanC), isDashed: true, isFine: true },
        curve(`${line.carries.replace('-', ' ')} in it`, carried[line.carries], (point) => point.fluidC),
      ],
      limits,
      shape: shapeOf(sheet),
    },
    sheet,
  );
}

/** Temperature along a loom or a cable, with what it stands. */
export function partTemperature(
  { name, places = [], limits }: Pick<PartHeat, 'name' | 'places' | 'limits'>,
  inDegF: boolean,
  sheet: Sheet,
): Drawing {
  const told = (c: number): number => (inDegF ? c * 1.8 + 32 : c);
  const along = (mm: number): number => (inDegF ? inchesFromMm(mm) : mm);
  const hottest = places.toSorted((a, b) => b.c - a.c)[0];
  const ends = [places[0]?.alongMm ?? 0, places.at(-1)?.alongMm ?? 0];
  return curveChart(
    {
      title: `Temperature along ${name}`,
      description: [
        hottest === undefined
          ? 'nothing worked out'
          : `hottest ${degreeWords(hottest.c, inDegF)} at ${lengthsIn(inDegF).one(hottest.alongMm)}`,
        ...limits.map(({ limitC }) => `it stands ${degreeWords(limitC, inDegF)}`),
      ].join('; '),
      across: `along it from its first point [${inDegF ? 'in' : 'mm'}]`,
      up: inDegF ? '°F' : '°C',
      curves: [
        {
          words: 'mean round it',
          role: 'hot',
          mark: 'none',
          points: places.map(({ alongMm, c }) => [along(alongMm), told(c)]),
        },
      ],
      limits: limits.map(
        ({ limitC }): ChartLimit => ({
          words: `it stands ${degreeWords(limitC, inDegF)}`,
          wrong: 'above',
          points: ends.map((at) => [along(at), told(limitC)]),
        }),
      ),
      shape: shapeOf(sheet),
    },
    sheet,
  );
}

/** Curves in one picture: more are told in the list. */
const MOST_SERIES = 5;
const roles: readonly Role[] = ['hot', 'blue', 'fix', 'brake', 'fuel'];

/** Temperatures over the minutes after switching off; the one with the highest climb first. */
export function soakChart(
  title: string,
  soak: Soak,
  series: readonly SoakSeries[],
  inDegF: boolean,
  sheet: Sheet,
): Drawing {
  const shown = series.slice(0, MOST_SERIES);
  const told = (c: number): number => (inDegF ? c * 1.8 + 32 : c);
  return curveChart(
    {
      title,
      description: shown
        .map(({ id, peak }) => `${id} peaks at ${degreeWords(peak.c, inDegF)} after ${formatNumber(peak.atMin, 1)} min`)
        .join('; '),
      across: 'minutes after switching off',
      up: inDegF ? '°F' : '°C',
      curves: shown.map(({ id, c, peak }, i): Curve => {
        const role = roles[i % roles.length]!;
        return {
          words: `${id} ${degreeWords(peak.c, inDegF)}`,
          role,
          mark: 'none',
          isDashed: i >= 2,
          points: c.map((value, k) => [soak.minutes[k]!, told(value)]),
        };
      }),
      limits: [],
      shape: shapeOf(sheet),
    },
    sheet,
  );
}
