import { Slider } from '@mantine/core';
import type { ReactNode } from 'react';
import type { Way } from '#lines';
import { useSignal } from '../bench/signal.ts';
import { ghost, nearCut, section } from '../car/view.ts';
import { Key } from '../frame/key.tsx';
import { useLengths } from '../tape/lengths.ts';
import { wayLengthMm } from './way-length.ts';
import { gapsTightestFirst } from './tightest.ts';

/** A cut through the line square to it, and the line drawn as thick as it may come at worst. */
export function SectionKeys({ line, way }: { readonly line: string; readonly way: Way }): ReactNode {
  const cut = useSignal(section);
  const isGhost = useSignal(ghost);
  const { one } = useLengths();
  const long = wayLengthMm(way);
  const at = cut?.alongMm ?? long / 2;
  const spread = Math.max(0, ...gapsTightestFirst(way).map((gap) => gap.gapMm - gap.worstMm));
  return (
    <section className="section-keys no-print" aria-label="Look closer">
      <div className="keys">
        <Key aria-pressed={cut !== null} onClick={() => section.set(cut === null ? { line, alongMm: long / 2 } : null)}>
          Cut through it
        </Key>
        <Key aria-pressed={isGhost} onClick={() => ghost.set(!isGhost)}>
          Worst case
        </Key>
      </div>
      {cut === null ? null : (
        <div className="section-slide">
          <span id="section-label">{`Cut at ${one(at)} of ${one(long)} from A`}</span>
          <Slider
            aria-labelledby="section-label"
            thumbLabel="Cut at, from A"
            min={0}
            max={Math.round(long)}
            step={1}
            size="lg"
            thumbSize={34}
            label={null}
            value={Math.round(at)}
            onChange={(alongMm) => section.set({ line, alongMm })}
          />
          <NearCut />
        </div>
      )}
      {isGhost ? (
        <p className="small">{`Drawn ${one(spread)} thicker all round: the most that any of its gaps can lose.`}</p>
      ) : null}
    </section>
  );
}

/** As many as matter at one place. */
const MOST = 4;

/** What the cut passes, in words. */
function NearCut(): ReactNode {
  const near = useSignal(nearCut).slice(0, MOST);
  const { one } = useLengths();
  if (near.length === 0) return <p className="small soft">{`No part within ${one(150)} of this line but scans.`}</p>;
  return (
    <p className="small">
      {`Here, as drawn: ${near.map((row) => `${row.part} ${one(row.gapMm)}, wants ${one(row.keepOffMm)}`).join('; ')}. Scans are in the picture only.`}
    </p>
  );
}
