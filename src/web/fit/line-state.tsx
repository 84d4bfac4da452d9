import { type ReactNode, useState } from 'react';
import { Modal } from '@mantine/core';
import type { Line, LineState as State } from '#car';
import { type Begun, useBegun } from '../bench/begun.ts';
import { today, whoIsIt } from '../bench/who.ts';
import { Key } from '../frame/key.tsx';

const states: readonly State[] = ['planned', 'bought', 'made', 'proved', 'fitted', 'leak-checked'];

/** What each state says about the line, and what it does to the tool. */
const means: Readonly<Record<State, string>> = {
  planned: 'open to change: the tool may take another way for it',
  bought: 'its parts are bought: it is warned of and never moved',
  made: 'made up on the bench: it is warned of and never moved',
  proved: 'pressure-tested on the bench with liquid, ends held, behind a guard',
  fitted: 'on the car',
  'leak-checked': 'run and looked over for leaks',
};

/** How far the line has got, who said so and when; a state is set here. */
export function LineState({ line }: { readonly line: Line }): ReactNode {
  const [isOpen, setOpen] = useState(false);
  const begun = useBegun();
  const choose = async (state: State): Promise<void> => {
    if (state === line.state || (await signed(begun, line, state))) setOpen(false);
  };
  const said = line.signed?.findLast((row) => row.state === line.state);
  return (
    <div className="state-row">
      <ol className="states" aria-label="State of the line">
        {states.map((state) => (
          <li key={state} aria-current={state === line.state ? 'step' : undefined}>
            {state}
          </li>
        ))}
      </ol>
      <button
        type="button"
        className="word no-print"
        onClick={() => {
          begun.mark();
          setOpen(true);
        }}
      >
        Set state
      </button>
      {said === undefined ? null : <p className="small soft state-said">{`${line.state}: ${said.by}, ${said.on}`}</p>}
      <Modal opened={isOpen} onClose={() => setOpen(false)} title={`State of ${line.id}`}>
        <ul className="state-choices">
          {states.map((state) => (
            <li key={state}>
              <Key
                className="state-choice"
                aria-pressed={state === line.state}
                disabled={state !== 'planned' && (line.taken === undefined || line.taken === null)}
                onClick={() => void choose(state)}
              >
                <strong>{state}</strong>
                <span className="small">{means[state]}</span>
              </Key>
            </li>
          ))}
        </ul>
        {line.taken === undefined || line.taken === null ? (
          <p className="soft">Take a way first: what is bought is bought to a way.</p>
        ) : null}
        {begun.told === null ? null : <p className="warn">{`▲ ${begun.told}`}</p>}
      </Modal>
    </div>
  );
}

/** Sets a state with the name of whoever says so and the day. */
async function signed({ keep }: Begun, line: Line, state: State): Promise<boolean> {
  const by = await whoIsIt();
  if (by === null) return false;
  const value = [...(line.signed ?? []), { state, by, on: today() }];
  return keep(
    [
      { do: 'set-state', line: line.id, state },
      { do: 'set-line', line: line.id, field: 'signed', value },
    ],
    `${line.id} is ${state}`,
  );
}
