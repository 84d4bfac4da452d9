import { toldCures } from '../circuit/worked-cure.ts';
import type { FlowFinding } from '../finding.ts';
import { guides } from '../limits.ts';
import type { DriveLog } from './drive-log.ts';
import type { LapAnswer, LapMoment } from './lap-answer.ts';
import type { LapModel } from './lap-model.ts';

const litres = (m3: number, digits = 1): string => (m3 * 1000).toFixed(digits);
const bar = (pa: number): string => (pa / 1e5).toFixed(2);

type Reckoned = Omit<LapAnswer, 'findings'>;
type Say = (
  level: FlowFinding['level'],
  code: string,
  text: string,
  source: FlowFinding['source'],
  rest?: Partial<FlowFinding>,
) => FlowFinding;

/** A lap run again: for how long air is drawn [s], the least that the tank came to [m3]. */
export interface LapAgain {
  readonly airS: number;
  readonly lowestM3: number;
  /** Where the gallery is lowest for its engine speed. */
  readonly lowestForRpm: { readonly rpm: number; readonly galleryPa: number };
}

/** What is asked of the circuit again. */
export interface LapAsk {
  /** The lap with more oil, or with a tank whose oil does not swing. */
  readonly again: (change: { readonly extraM3?: number; readonly isStill?: boolean }) => LapAgain;
  /** What lifts the gallery to a pressure [bar] at one moment, its speed and oil held. */
  readonly lifted: (moment: LapMoment, wantedBar: number) => readonly string[];
}

/** What a lap breaks, with what would help as `again` says. */
export function lapFindings(model: LapModel, log: DriveLog, lap: Reckoned, ask: LapAsk): FlowFinding[] {
  const say: Say = (level, code, text, source, rest = {}) => ({
    circuit: lap.circuit,
    code,
    level,
    text: `Driven lap: ${text}`,
    source,
    cures: [],
    ...rest,
  });
  return [
    ...airFindings(model, lap, ask, say),
    ...pressureFindings(model, log, lap, ask, say),
    ...levelFindings(model, lap, ask, say),
  ];
}

/** More oil that is tried [m3]. */
const TRIED_M3 = [0.0005, 0.001, 0.002];

function airFindings(model: LapModel, lap: Reckoned, { again }: LapAsk, say: Say): FlowFinding[] {
  const [longest] = lap.worst.air;
  if (longest === undefined) return [];
  const first = lap.worst.air.reduce((a, b) => (b.fromS < a.fromS ? b : a));
  const { mostLost } = lap.worst;
  const cures = changes(model, lap).map(({ words, change }) => ({ words, airS: again(change).airS }));
  return [
    say(
      'stop',
      'lap-air',
      `${lap.outlet} draws air for ${lap.worst.airS.toFixed(1)} s in ${lap.worst.air.length} stretch${lap.worst.air.length === 1 ? '' : 'es'}, first at ${first.fromS.toFixed(1)} s, at the longest ${(longest.toS - longest.fromS).toFixed(1)} s from ${longest.fromS.toFixed(1)} s; at ${mostLost.timeS.toFixed(1)} s the gallery has ${bar(mostLost.galleryPa)} bar where it would have ${bar(mostLost.airlessPa)} bar`,
      'fluid-statics',
      {
        part: lap.tank,
        line: model.feed.line,
        value: lap.worst.airS,
        unit: 's',
        cures: cures
          .filter(({ airS }) => airS < lap.worst.airS)
          .toSorted((a, b) => a.airS - b.airS)
          .map(({ words, airS }) => `${words}: ${airS === 0 ? 'no air drawn' : `air for ${airS.toFixed(1)} s`}`),
      },
    ),
  ];
}

function pressureFindings(model: LapModel, log: DriveLog, lap: Reckoned, ask: LapAsk, say: Say): FlowFinding[] {
  const { oilPerThousandRpm: guide } = guides;
  const row = lap.worst.lowestForRpm;
  const wanted = (guide.value * row.rpm) / 1000;
  if (row.rpm === 0 || row.galleryPa / 1e5 >= wanted) return [];
  const hot = log.oilC.reduce((a, b) => Math.max(a, b), -Infinity);
  return [
    say(
      'fix',
      'lap-pressure',
      `the gallery has ${bar(row.galleryPa)} bar at ${row.rpm.toFixed(0)} rpm, ${row.timeS.toFixed(1)} s in; ${wanted.toFixed(2)} bar is usual there (oil up to ${hot.toFixed(0)} °C)`,
      guide.source,
      {
        value: row.galleryPa / 1e5,
        limit: wanted,
        unit: 'bar',
        cures: [
          ...(row.galleryPa < AIRLESS * row.airlessPa ? coveredCures(model, lap, ask, row) : []),
          ...(row.airlessPa / 1e5 < wanted ? ask.lifted(row, wanted).map((words) => `without air, ${words}`) : []),
        ],
      },
    ),
  ];
}

/** Less than this of what it would have without air: it is the air that takes the pressure [-]. */
const AIRLESS = 0.99;

/** Where the air takes the pressure: the lap again with what keeps the outlet covered, and the gallery where it is then lowest for its speed. */
function coveredCures(model: LapModel, lap: Reckoned, ask: LapAsk, row: LapMoment): string[] {
  const share = (pa: number, rpm: number): number => pa / 1e5 / ((guides.oilPerThousandRpm.value * rpm) / 1000);
  const now = share(row.galleryPa, row.rpm);
  return toldCures(
    changes(model, lap).map(({ words, change }) => {
      const { rpm, galleryPa } = ask.again(change).lowestForRpm;
      const after = share(galleryPa, rpm);
      return {
        words: `${words}: ${bar(galleryPa)} bar at ${rpm.toFixed(0)} rpm where it is then lowest for its speed, ${(100 * after).toFixed(0)} % of what is usual there instead of ${(100 * now).toFixed(0)} %`,
        gain: after - now,
      };
    }),
    0.005,
  );
}

interface Changed {
  readonly words: string;
  readonly change: Parameters<LapAsk['again']>[0];
}

/** What a lap is run again with: more oil as far as there is room, and a tank whose oil does not swing. */
function changes(model: LapModel, lap: Reckoned): Changed[] {
  return [
    ...moreOil(model).map((extraM3) => ({ words: `${litres(extraM3)} L more oil`, change: { extraM3 } })),
    ...(lap.wave === null ? [] : [{ words: 'baffles that keep the oil from swinging', change: { isStill: true } }]),
  ];
}

/** More oil, the usual air left over it [m3]. */
function moreOil({ feed, tankStartM3 }: LapModel): number[] {
  const roomM3 = feed.tank.volumeM3 - tankStartM3 - guides.tankAir.value / 1000;
  return TRIED_M3.filter((extra) => extra <= roomM3);
}

function levelFindings(model: LapModel, lap: Reckoned, { again }: LapAsk, say: Say): FlowFinding[] {
  const { lowestTank, fullest } = lap.worst;
  const stated = model.feed.inside.drawn.vessel.leastFillL;
  const where = fullest
    .map(
      ({ vessel, moment }, v) => `${vessel} up to ${litres(moment.vesselsM3[v]!, 2)} L at ${moment.timeS.toFixed(1)} s`,
    )
    .join(', ');
  const isLow = stated !== undefined && lowestTank.tankM3 < stated / 1000;
  const cures = (isLow ? moreOil(model) : []).map(
    (extraM3) => `${litres(extraM3)} L more oil: ${litres(again({ extraM3 }).lowestM3, 2)} L at its lowest`,
  );
  return [
    say(
      isLow ? 'fix' : 'note',
      'lap-level',
      `${lap.tank} falls from ${litres(model.tankStartM3)} to ${litres(lowestTank.tankM3, 2)} L at ${lowestTank.timeS.toFixed(1)} s${isLow ? `, below the ${stated} L stated as its least` : ''}; ${where}`,
      isLow ? 'builder' : 'geometry',
      {
        part: lap.tank,
        value: lowestTank.tankM3 * 1000,
        ...(stated === undefined ? {} : { limit: stated }),
        unit: 'L',
        cures: cures.toReversed(),
      },
    ),
  ];
}
