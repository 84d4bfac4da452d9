import { useElementSize } from '@mantine/hooks';
import { type ReactNode, useMemo } from 'react';
import { lapPictures, pressureWords, type Sheet, volumeWords } from '#book';
import type { DrivenLaps } from '#crew';
import type { LapAnswer, LapMoment } from '#flow';
import { formatNumber } from '#units';
import { useCar } from '../bench/bench.ts';
import { Picture } from '../book/picture.tsx';
import { FindingRow } from './finding-row.tsx';
import { useFlowLanguage } from './flow-language.ts';
import { worstFirst } from './open-findings.ts';

interface Wish {
  readonly lap: DrivenLaps['laps'][number];
  readonly name: string;
  readonly notes: readonly string[];
}

/** A lap as it was reckoned: what is open on it, its pictures over time, its worst moments, what it does not know. */
export function LapSeen({ lap, name, notes }: Wish): ReactNode {
  if ('why' in lap) return <p className="warn">{`▲ Not run: ${lap.why}`}</p>;
  const [worst, ...others] = worstFirst(lap.findings);
  return (
    <>
      <p>{`${name}: ${formatNumber(lap.seconds)} s driven, ${lap.samples} rows.`}</p>
      {notes.map((note) => (
        <p key={note} className="small soft">
          {note}
        </p>
      ))}
      {worst === undefined ? null : (
        <section aria-label="What matters most" className="flow-worst">
          <FindingRow finding={worst} isLarge />
        </section>
      )}
      <section aria-label="Open on this lap" className="flow-findings">
        {others.map((finding) => (
          <FindingRow key={finding.code} finding={finding} />
        ))}
      </section>
      <Pictures lap={lap} />
      <Moments lap={lap} />
      <section aria-label="What this does not know">
        <h2>What this does not know</h2>
        <ul className="lap-limits small">
          {lap.limits.map((limit) => (
            <li key={limit}>{limit}</li>
          ))}
        </ul>
      </section>
    </>
  );
}

const [SIZE, LEAST_WIDTH, MOST_WIDTH] = [14, 300, 620];

function Pictures({ lap }: { readonly lap: LapAnswer }): ReactNode {
  const car = useCar();
  const { units } = useFlowLanguage();
  const { ref, width } = useElementSize<HTMLDivElement>();
  const leastL = car?.circuits
    ?.find(({ id }) => id === lap.circuit)
    ?.vessels?.find(({ part }) => part === lap.tank)?.leastFillL;
  const drawn = useMemo(() => {
    const sheet: Sheet = {
      width: Math.min(MOST_WIDTH, Math.max(LEAST_WIDTH, Math.round(width))),
      size: SIZE,
      unit: 'px',
    };
    return lapPictures(lap, leastL, units, sheet);
  }, [lap, leastL, units, width]);
  return (
    <div ref={ref} className="flow-pictures">
      {drawn.map((drawing) => (
        <section key={drawing.title} aria-label={drawing.title}>
          <Picture drawing={drawing} />
        </section>
      ))}
    </div>
  );
}

const gWords = (g: number, more: string, less: string): string =>
  Math.abs(g) < 0.05 ? '' : `${formatNumber(Math.abs(g), 1)} g ${g > 0 ? more : less}`;

function Moments({ lap }: { readonly lap: LapAnswer }): ReactNode {
  const { units } = useFlowLanguage();
  const { lowestTank, lowestPressure, mostLost, lowestForRpm, fullest, air, airS } = lap.worst;
  const bar = (pa: number): string => pressureWords(pa, units);
  const rows: readonly (readonly [name: string, moment: LapMoment, words: string])[] = [
    [`Least in ${lap.tank}`, lowestTank, volumeWords(lowestTank.tankM3, units)],
    ['Least gallery pressure', lowestPressure, bar(lowestPressure.galleryPa)],
    ['Least for its engine speed, hot', lowestForRpm, bar(lowestForRpm.galleryPa)],
    ...(airS > 0
      ? [['Most lost to air', mostLost, `${bar(mostLost.galleryPa)}, not ${bar(mostLost.airlessPa)}`] as const]
      : []),
    ...fullest.map(
      ({ vessel, moment }, i) => [`Most in ${vessel}`, moment, volumeWords(moment.vesselsM3[i]!, units)] as const,
    ),
  ];
  return (
    <section aria-label="Worst moments">
      <h2>Worst moments</h2>
      <div className="flow-wide">
        <table className="sheet" aria-label="Worst moments">
          <tbody>
            {rows.map(([name, moment, words]) => (
              <tr key={name}>
                <td>
                  {name}
                  <span className="small soft flow-below">
                    {[
                      `at ${formatNumber(moment.timeS, 1)} s`,
                      `${formatNumber(moment.rpm)} rpm`,
                      gWords(moment.longitudinalG, 'speeding up', 'braking'),
                      gWords(moment.lateralG, 'turning right', 'turning left'),
                    ]
                      .filter((word) => word !== '')
                      .join(', ')}
                  </span>
                </td>
                <td className="num">{words}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      <p>
        {airS > 0
          ? `The outlet draws air for ${formatNumber(airS, 1)} s in all, ${air.length} times; the longest: ${air
              .slice(0, MOST_STRETCHES)
              .map(({ fromS, toS }) => `${formatNumber(fromS, 1)} to ${formatNumber(toS, 1)} s`)
              .join(', ')}.`
          : 'The outlet never draws air.'}
      </p>
    </section>
  );
}

const MOST_STRETCHES = 5;
