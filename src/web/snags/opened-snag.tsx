import { type ReactNode, useEffect, useState } from 'react';
import type { OpenedNumber, Snag } from '#snags';
import { kept, sayFault } from '../bench/bench.ts';
import { useSignal } from '../bench/signal.ts';
import { FormulasShown } from '../fit/formula-shown.tsx';
import { calls } from '../server/calls.ts';
import { useSnagLanguage } from './snag-words.tsx';

/** A snag opened up: its equation, what went in, how far it holds, the rule with whose it is and how it is known, the formulas. */
export function OpenedSnag({ snag }: { readonly snag: Snag }): ReactNode {
  const [isOpen, setOpen] = useState(false);
  return (
    <details className="opened" onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{snag.value === undefined ? 'Where it comes from' : 'Open the number'}</summary>
      {isOpen ? <Inside snag={snag} /> : null}
    </details>
  );
}

function Inside({ snag }: { readonly snag: Snag }): ReactNode {
  const now = useSignal(kept);
  const [opened, setOpened] = useState<OpenedNumber | null>(null);
  const [id, revision] = [now?.id, now?.revision];
  useEffect(() => {
    if (id !== undefined) calls.opened(id, snag.id).then(setOpened, sayFault);
  }, [id, revision, snag.id]);
  const said = useSnagLanguage(snag);
  if (opened === null) return <p className="soft">Opening it</p>;
  const { equation, inputs, range, rule, formulas } = opened;
  return (
    <>
      <p>{equation}</p>
      {inputs.length === 0 ? null : (
        <table className="sheet" aria-label="What went in">
          <tbody>
            {inputs.map(({ name, value, from }) => (
              <tr key={`${name} ${value}`}>
                <td>
                  {name}
                  {from === undefined ? null : <span className="small soft opened-from">{said.text(from)}</span>}
                </td>
                <td className="num">{said.text(value)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
      <dl className="opened-rule">
        <dt>Holds for</dt>
        <dd>{said.text(range)}</dd>
        <dt>The rule</dt>
        <dd>{said.text(rule.text)}</dd>
        <dt>Whose it is</dt>
        <dd>{rule.whose}</dd>
        <dt>How it is known</dt>
        <dd>{rule.known}</dd>
      </dl>
      {formulas.length === 0 ? null : <FormulasShown ids={formulas} />}
    </>
  );
}
