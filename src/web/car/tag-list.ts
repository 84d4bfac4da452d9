import { useMemo } from 'react';
import type { Snag } from '#snags';
import { degreeWords } from '#book';
import type { Lengths } from '#units';
import { standing } from '../bench/bench.ts';
import { place } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import type { Tag } from './tag.ts';
import { section } from './view.ts';
import { useHeatTags } from '../cook/heat-tags.ts';
import { useLengths } from '../tape/lengths.ts';
import { openSnags } from '../snags/open-snags.ts';

/** More than this cover the car. */
const MOST = 9;
const MOST_OF_LINE = 6;

/** One tag a line: the worst place of those with a stop, all places of the line that is open, and the snag that is open. */
export function useTags(): readonly Tag[] {
  const judged = useSignal(standing);
  const { paper } = useSignal(place);
  const isCut = useSignal(section) !== null;
  const hot = useHeatTags();
  const lengths = useLengths();
  return useMemo(() => {
    if (judged === null || isCut) return [];
    if (paper.kind === 'cook') return hot;
    const out: Tag[] = [];
    const seen = new Set<string>();
    for (const snag of openSnags(judged.snags)) {
      const isOpen = paper.kind === 'snag' && paper.id === snag.id;
      const isOfLine = paper.kind === 'line' && paper.id === snag.line;
      const words = snag.line ?? snag.part ?? snag.panel ?? snag.lever ?? '';
      const ofLine = out.filter((tag) => tag.isOfLine).length;
      if (snag.atMm === undefined || snag.level === 'note') continue;
      if (isOfLine && ofLine >= MOST_OF_LINE) continue;
      if (
        !isOpen &&
        !isOfLine &&
        (paper.kind === 'line' || snag.level !== 'stop' || seen.has(words) || out.length >= MOST)
      )
        continue;
      seen.add(words);
      out.push({
        snag: snag.id,
        words: isOfLine ? numberWords(snag, lengths) : words,
        about: lengths.text(snag.text),
        level: snag.level,
        atMm: snag.atMm,
        isOpen,
        isOfLine,
      });
    }
    return out;
  }, [judged, paper, isCut, hot, lengths]);
}

/** "turbine 36 mm", "turbine 1.4 in", "O8 171 °C": what it is about, and how near or how hot. */
function numberWords({ part, value, unit, line = '' }: Snag, lengths: Lengths): string {
  return `${part ?? line} ${value === undefined ? '' : told(value, unit, lengths)}`.trim();
}

function told(value: number, unit: string | undefined, lengths: Lengths): string {
  if (unit === 'degC' || unit === '°C') return degreeWords(value, lengths.unit === 'in');
  return unit === 'mm' ? lengths.gapNumber(value).replace('-', '−') : '';
}
