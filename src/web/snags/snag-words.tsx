import type { ReactNode } from 'react';
import type { Snag } from '#snags';
import { useFlowLanguage } from '../flow/flow-language.ts';

/** How a snag is said: one about flow in the units that the builder works in. */
export function useSnagText(snag: Pick<Snag, 'question'>): (sentence: string) => string {
  const said = useFlowLanguage();
  return snag.question === 'flow' ? said.text : same;
}

const same = (sentence: string): string => sentence;

/** The sentence of a snag; one that does not name its line has it in front. */
export function SnagWords({ snag }: { readonly snag: Snag }): ReactNode {
  const { line, text } = snag;
  const said = useSnagText(snag);
  return (
    <span className="snag-text">
      {line === undefined || text.includes(line) ? null : <strong>{`${line} · `}</strong>}
      {said(text)}
    </span>
  );
}

/** The best cure of a snag; nothing where there is none. */
export function SnagCure({ snag }: { readonly snag: Snag }): ReactNode {
  const said = useSnagText(snag);
  const [first] = snag.cures;
  return first === undefined ? null : <span className="snag-cure">{said(first)}</span>;
}
