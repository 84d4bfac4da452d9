import { type ReactNode, useState } from 'react';
import type { Way } from '#lines';
import { useLengths } from '../tape/lengths.ts';
import { FormulasShown } from './formula-shown.tsx';

/** How a cut length comes about, and its allowance. */
const ofHose = ['cut-from-flexible', 'facing-shift', 'cut-tolerance', 'slack-length'] as const;

/** The cut lengths opened up: what they are made of, and where the equations come from. */
export function CutNumbers({ way }: { readonly way: Way }): ReactNode {
  const [isOpen, setOpen] = useState(false);
  const { one, text } = useLengths();
  return (
    <details className="opened no-print" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>Open the cut length</summary>
      <ul className="small">
        {way.pieces.map((piece, i) => (
          <li key={`${piece.hose ?? 'tube'} ${i}`}>
            <strong>{piece.hose ?? 'tube'}</strong>
            {`: cut ${one(piece.cutLengthMm)}`}
            {piece.leastLengthMm === undefined ? '' : `, at least ${one(piece.leastLengthMm)}`}
            {piece.slackPercent === undefined ? '' : `, slack ${piece.slackPercent} %`}
            {piece.hang === undefined ? '' : `, hangs ${piece.hang}`}
            {piece.endPrep === undefined ? '' : `; ends: ${text(piece.endPrep.join(', '))}`}
          </li>
        ))}
      </ul>
      {isOpen ? <FormulasShown ids={ofHose} /> : null}
    </details>
  );
}
