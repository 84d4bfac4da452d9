import type { LapAnswer, LapMoment } from '#flow';
import type { FlowUnits } from './flow-units.ts';
import type { Style } from './style.ts';
import { wrapped } from './wrapped.ts';

const CELLS = 60;
const BLOCKS = '▁▂▃▄▅▆▇█';
const MOST_STRETCHES = 5;
const marks = { stop: '▲ Stop', fix: '◆ Fix ', note: '· Note' } as const;
const MARGIN = '        ';

/** A lap in rows: level and pressure over time, the worst moments, what is open, what the model does not know. */
export function lapRows(
  lap: LapAnswer | { readonly circuit: string; readonly why: string },
  units: FlowUnits,
  style: Style,
  columns: number,
): string[] {
  if ('why' in lap) return [`${lap.circuit}: ${style.stop(`▲ not run: ${lap.why}`)}`];
  const width = Math.max(60, columns) - MARGIN.length;
  const { lowestTank, lowestPressure, mostLost, airS, air } = lap.worst;
  const at = ({ timeS, rpm }: LapMoment): string => `at ${timeS.toFixed(1)} s, ${rpm.toFixed(0)} rpm`;
  const bar = (pa: number): string => `${units.pressure(pa)} ${units.pressureUnit}`;
  const stretches = air
    .slice(0, MOST_STRETCHES)
    .map(({ fromS, toS }) => `${fromS.toFixed(1)} to ${toS.toFixed(1)} s`)
    .join(', ');
  return [
    `${style.strong(lap.circuit)}: ${lap.seconds.toFixed(0)} s driven, ${lap.samples} samples; ${lap.tank} and its outlet ${lap.outlet}`,
    `  oil in ${lap.tank}  ${strip(lap.rows, ({ tankM3 }) => tankM3, Math.min)}  least ${units.volume(lowestTank.tankM3)} ${at(lowestTank)}`,
    `  gallery    ${strip(lap.rows, ({ galleryPa }) => galleryPa, Math.min)}  least ${bar(lowestPressure.galleryPa)} ${at(lowestPressure)}`,
    `  air in it  ${strip(lap.rows, ({ feedAir }) => feedAir, Math.max)}  most is lost ${at(mostLost)}: ${bar(mostLost.galleryPa)} instead of ${bar(mostLost.airlessPa)}`,
    airS > 0
      ? `  the outlet draws air for ${airS.toFixed(1)} s in all, longest ${stretches}`
      : '  the outlet never draws air',
    '',
    ...lap.findings.flatMap((finding) => {
      const paint = finding.level === 'stop' ? style.stop : finding.level === 'fix' ? style.fix : style.soft;
      return [
        `${paint(marks[finding.level])}  ${wrapped(units.text(finding.text), width, MARGIN).join('\n')}`,
        ...finding.cures.flatMap((cure) =>
          wrapped(`cure: ${units.text(cure)}`, width, '  ').map((row) => style.blue(MARGIN + row)),
        ),
      ];
    }),
    '',
    'What this does not know:',
    ...lap.limits.flatMap((limit) => wrapped(`- ${units.text(limit)}`, width, '  ')).map(style.soft),
  ];
}

/** A quantity over time as a strip of blocks: of each stretch the worst, between the least and the greatest of all. */
function strip(
  rows: readonly LapMoment[],
  of: (row: LapMoment) => number,
  worst: (...values: number[]) => number,
): string {
  const values = rows.map(of);
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const cells = Math.min(CELLS, rows.length);
  return Array.from({ length: cells }, (_, i) => {
    const part = values.slice(Math.floor((i * rows.length) / cells), Math.floor(((i + 1) * rows.length) / cells));
    const share = high > low ? (worst(...part) - low) / (high - low) : 0;
    return BLOCKS[Math.min(BLOCKS.length - 1, Math.floor(share * BLOCKS.length))];
  }).join('');
}
