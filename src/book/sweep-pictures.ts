import type { FlowSweep, SweepPoint } from '#flow';
import { formatNumber, litresPerUsGallon, psiFromBar } from '#units';
import { type ChartLimit, type Curve, curveChart } from './curve-chart.ts';
import type { Drawing } from './drawing.ts';
import { type FlowUnits, flowUnit, flowWords, heatWords, pressureUnit, pressureWords } from './flow-words.ts';
import type { Sheet } from './gap-ruler.ts';

/** Gallery pressure that is wanted hot, and the least inlet that the pump stands; absent where nobody says. */
export interface SweepLimits {
  readonly barPerThousandRpm?: number;
  readonly leastInletBar?: number;
}

/** One number of a point, in pascals or m3/s, and how it is written and drawn. */
interface Told {
  readonly title: string;
  readonly up: string;
  readonly of: (point: SweepPoint) => number;
  readonly words: (value: number, units: FlowUnits) => string;
  /** To the unit of the axis. */
  readonly scale: number;
  readonly limits: readonly ChartLimit[];
}

/** Pressure, flow and the pump's inlet over engine speed, cold and hot: a picture each. */
export function sweepPictures(
  sweeps: readonly FlowSweep[],
  limits: SweepLimits,
  units: FlowUnits,
  sheet: Sheet,
): Drawing[] {
  const found = sweeps.filter(({ points }) => points.length > 1);
  const [one] = found;
  if (one === undefined) return [];
  const perPa = (units === 'inch' ? psiFromBar(1) : 1) / 1e5;
  const pressure = { up: `${pressureUnit(units)} above the air outside`, words: pressureWords, scale: perPa };
  const { barPerThousandRpm: perRpm, leastInletBar } = limits;
  const rpms = [one.points[0]!.rpm, one.points.at(-1)!.rpm];
  const least = (words: string, pa: (rpm: number) => number): ChartLimit => ({
    words,
    wrong: 'below',
    points: rpms.map((rpm) => [rpm, pa(rpm) * perPa]),
  });
  const told: Told[] = [
    {
      ...pressure,
      title: `Pressure ${one.passage === '' ? 'behind the pump' : `before ${lower(one.passage)}`}`,
      of: ({ pressurePa }) => pressurePa,
      limits: perRpm === undefined ? [] : [least('usual least, hot', (rpm) => perRpm * rpm * 100)],
    },
    {
      title: `Flow ${one.passage === '' ? 'from the pump' : `through ${lower(one.passage)}`}`,
      up: flowUnit(units),
      of: ({ flowM3S }) => flowM3S,
      words: flowWords,
      scale: 60_000 / (units === 'inch' ? litresPerUsGallon : 1),
      limits: [],
    },
  ];
  if (leastInletBar !== undefined)
    told.push({
      ...pressure,
      title: 'Pressure at the pump’s inlet',
      of: ({ inletPa }) => inletPa,
      limits: [least(`least, ${pressureWords(leastInletBar * 1e5, units)}`, () => leastInletBar * 1e5)],
    });
  return told.map((row) => chartOf(row, found, units, sheet));
}

function chartOf(told: Told, sweeps: readonly FlowSweep[], units: FlowUnits, sheet: Sheet): Drawing {
  const { title, up, of, words, scale, limits } = told;
  const curves = sweeps.map(({ temperatureC, points }, i): Curve => {
    const isCold = i === 0 && sweeps.length > 1;
    return {
      words: `${isCold ? 'cold' : 'hot'}, ${heatWords(temperatureC, units)}`,
      role: isCold ? 'blue' : 'fix',
      mark: isCold ? 'square' : 'dot',
      points: points.map((point) => [point.rpm, of(point) * scale]),
    };
  });
  const sentences = sweeps.map(({ temperatureC, points }) => {
    const [first, last] = [points[0]!, points.at(-1)!];
    const at = (point: SweepPoint): string => `${words(of(point), units)} at ${formatNumber(point.rpm)} rpm`;
    return `At ${heatWords(temperatureC, units)} from ${at(first)} to ${at(last)}.`;
  });
  const wish = { title, description: sentences.join(' '), across: 'engine rpm', up, curves, limits, shape: 0.46 };
  return curveChart(wish, sheet);
}

const lower = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1);
