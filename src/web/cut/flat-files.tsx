import { NativeSelect } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import type { Panel } from '#car';
import { kept } from '../bench/bench.ts';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { calls } from '../server/calls.ts';
import { tapeUnit } from '../tape/tape-unit.ts';

const papers = [
  { value: 'A4', label: 'A4' },
  { value: 'A3', label: 'A3' },
  { value: 'Letter', label: 'US Letter' },
];

/** The flat as a file: for the laser or plotter, and in tiles of full size for the shears. */
export function FlatFiles({ panel, hasFlat }: { readonly panel: Panel; readonly hasFlat: boolean }): ReactNode {
  const now = useSignal(kept)!;
  const unit = useSignal(tapeUnit);
  const isInch = unit === 'in';
  const [paper, setPaper] = useState(isInch ? 'Letter' : 'A4');
  if (!hasFlat) return null;
  const path = (ending: 'dxf' | 'svg' | 'pdf'): string => calls.flatPath(now.id, panel.id, ending, { paper, isInch });
  return (
    <section className="cut-section no-print" aria-label="Print and cut">
      <h2>Print and cut</h2>
      <div className="cut-files">
        <NativeSelect
          label="Paper"
          value={paper}
          data={papers}
          onChange={(event) => setPaper(event.currentTarget.value)}
        />
        <a className="key key-do" href={path('pdf')} download={`${panel.id}.pdf`}>
          Tiles at full size (PDF)
        </a>
        <a className="key" href={path('dxf')} download={`${panel.id}.dxf`}>
          DXF to cut from
        </a>
        <a className="key" href={path('svg')} target="_blank" rel="noreferrer">
          One sheet (SVG)
        </a>
        <Key onClick={() => print()}>Print this paper</Key>
      </div>
      <p className="small soft">
        {`Print at 100 %, without fitting to the page, and measure the check square on it before anything is cut. The DXF is in millimetres; the lists on the paper are in ${isInch ? 'inches' : 'millimetres'}.`}
      </p>
    </section>
  );
}
