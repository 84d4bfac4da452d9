import type { LapAnswer, LapMoment } from '#flow';
import { formatNumber, litresPerUsGallon, psiFromBar } from '#units';
import { type ChartLimit, type Curve, curveChart } from './curve-chart.ts';
import type { Drawing } from './drawing.ts';
import { type FlowUnits, pressureUnit, pressureWords, volumeWords } from './flow-words.ts';
import type { Sheet } from './gap-ruler.ts';

const ACROSS = 'seconds into the log';

/** A driven lap over time, a picture each: oil in the tank, air drawn, gallery pressure with and without that air; the worst moment of each by name. */
export function lapPictures(lap: LapAnswer, leastFillL: number | undefined, units: FlowUnits, sheet: Sheet): Drawing[] {
  const { lowestPressure, mostLost } = lap.worst;
  return [
    tankChart(lap, leastFillL, units, sheet),
    airChart(lap, sheet),
    curveChart(
      {
        title: 'Gallery pressure',
        description: `Least ${pressureWords(lowestPressure.galleryPa, units)} ${atWords(lowestPressure)}; most lost to air ${atWords(mostLost)}: ${pressureWords(mostLost.galleryPa, units)} instead of ${pressureWords(mostLost.airlessPa, units)}.`,
        across: ACROSS,
        up: `${pressureUnit(units)} above the air outside`,
        curves: [
          over(lap, 'with no air in it', 'soft', ({ airlessPa }) => airlessPa * perPa(units)),
          over(lap, 'as it is', 'blue', ({ galleryPa }) => galleryPa * perPa(units)),
          moment(
            `${pressureWords(mostLost.galleryPa, units)} ${atWords(mostLost)}`,
            mostLost,
            mostLost.galleryPa * perPa(units),
          ),
        ],
        limits: [],
        shape: SHAPE,
      },
      sheet,
    ),
  ];
}

const SHAPE = 0.4;

function tankChart(of: LapAnswer, leastL: number | undefined, unit: FlowUnits, on: Sheet): Drawing {
  const { lowestTank } = of.worst;
  const perM3 = 1000 / (unit === 'inch' ? litresPerUsGallon : 1);
  const least = volumeWords((leastL ?? 0) / 1000, unit);
  const limits: ChartLimit[] =
    leastL === undefined
      ? []
      : [
          {
            words: `least stated, ${least}`,
            wrong: 'below',
            points: ends(of).map((at) => [at, (leastL / 1000) * perM3]),
          },
        ];
  return curveChart(
    {
      title: `Oil in ${of.tank}`,
      description: `From ${volumeWords(of.rows[0]!.tankM3, unit)}, least ${volumeWords(lowestTank.tankM3, unit)} ${atWords(lowestTank)}.`,
      across: ACROSS,
      up: unit === 'inch' ? 'US gal' : 'L',
      curves: [
        over(of, 'in the tank', 'blue', ({ tankM3 }) => tankM3 * perM3),
        moment(`${volumeWords(lowestTank.tankM3, unit)} ${atWords(lowestTank)}`, lowestTank, lowestTank.tankM3 * perM3),
      ],
      limits,
      shape: SHAPE,
    },
    on,
  );
}

function airChart(lap: LapAnswer, sheet: Sheet): Drawing {
  const { mostLost, airS, air } = lap.worst;
  const [longest] = air;
  const told =
    longest === undefined
      ? 'No air is drawn.'
      : `Air is drawn for ${formatNumber(airS, 1)} s in all, the longest ${formatNumber(longest.toS - longest.fromS, 2)} s from ${formatNumber(longest.fromS, 1)} s.`;
  return curveChart(
    {
      title: 'Air drawn',
      description: told,
      across: ACROSS,
      up: '% of the bore, % of the feed',
      curves: [
        over(lap, 'bore bare', 'soft', ({ drawnAir }) => 100 * drawnAir),
        over(lap, 'air in the feed', 'fix', ({ feedAir }) => 100 * feedAir),
        ...(longest === undefined
          ? []
          : [
              moment(
                `${formatNumber(100 * mostLost.feedAir)} % ${atWords(mostLost)}`,
                mostLost,
                100 * mostLost.feedAir,
              ),
            ]),
      ],
      limits: [],
      shape: SHAPE,
    },
    sheet,
  );
}

const over = (lap: LapAnswer, words: string, role: Curve['role'], of: (row: LapMoment) => number): Curve => ({
  words,
  role,
  mark: 'none',
  isFine: true,
  points: lap.rows.map((row) => [row.timeS, of(row)]),
});

/** One moment, named at the right edge. */
const moment = (words: string, { timeS }: LapMoment, value: number): Curve => ({
  words,
  role: 'stop',
  mark: 'dot',
  points: [[timeS, value]],
});

const atWords = ({ timeS }: LapMoment): string => `at ${formatNumber(timeS, 1)} s`;
const perPa = (units: FlowUnits): number => (units === 'inch' ? psiFromBar(1) : 1) / 1e5;
const ends = ({ rows }: LapAnswer): readonly [number, number] => [rows[0]!.timeS, rows.at(-1)!.timeS];
