import { useMemo } from 'react';
import { useSignal } from '../bench/signal.ts';
import type { Tag } from '../car/tag.ts';
import { painted } from './car-heat.ts';
import { heatAddress } from './heat-place.ts';
import { useHeatUnits } from './heat-units.ts';
import { overBodies, rankedLines, standingOf } from './ranked.ts';

/** More than this cover the car. */
const MOST = 7;

/** Lines with least margin hang out their number at their hottest place; looms and cables that come to what they stand too. */
export function useHeatTags(): readonly Tag[] {
  const at = useSignal(painted);
  const said = useHeatUnits();
  return useMemo(() => {
    if (at === null) return [];
    const beside = overBodies(at).flatMap(({ kind, id, name, limit, standing }): Tag[] =>
      limit.atMm === undefined
        ? []
        : [
            {
              snag: `heat ${id}`,
              words: `${name} ${said.degrees(limit.valueC)}`,
              about: `it stands ${said.degrees(limit.limitC)}`,
              level: standing === 'broken' ? 'stop' : 'fix',
              atMm: limit.atMm,
              isOpen: false,
              isOfLine: false,
              opens: { kind: 'cook', id: heatAddress({ caseId: at.case.id, about: { kind, id } }) },
            },
          ],
    );
    const lines = rankedLines(at)
      .slice(0, MOST)
      .map(({ line, limit }): Tag => {
        const state = standingOf(limit, line.worst.errorK);
        return {
          snag: `heat ${line.line}`,
          words: `${line.line} ${said.degrees(line.worst.surfaceC)}`,
          about: limit === undefined ? 'no limit known' : `${limit.name} stands ${said.degrees(limit.limitC)}`,
          level: state === 'broken' ? 'stop' : state === 'close' ? 'fix' : 'note',
          atMm: line.worst.atMm,
          isOpen: false,
          isOfLine: false,
          opens: { kind: 'cook', id: heatAddress({ caseId: at.case.id, about: { kind: 'line', id: line.line } }) },
        };
      });
    return [...lines, ...beside];
    // Numbers are said anew where the units change.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [at, said.isInch]);
}
