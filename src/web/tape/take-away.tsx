import { Modal } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import { useBegun } from '../bench/begun.ts';
import { useCar } from '../bench/bench.ts';
import { Key } from '../frame/key.tsx';
import { removal, type Removed } from './removal.ts';

interface Wish {
  readonly what: Removed;
  /** What it is called, such as "Oil tank". */
  readonly name: string;
  readonly onGone: () => void;
  readonly words?: string;
}

/** Takes something off the car; what hangs on it is named first. */
export function TakeAway({ what, name, onGone, words = 'Take it off the car' }: Wish): ReactNode {
  const car = useCar();
  const begun = useBegun();
  const [isAsking, setAsking] = useState(false);
  if (car === null) return null;
  const { hangs, edits } = isAsking ? removal(car, what) : { hangs: [], edits: [] };
  const go = async (): Promise<void> => {
    if (!(await begun.keep(edits, `${name} is off the car; Undo brings it back`))) return;
    setAsking(false);
    onGone();
  };
  return (
    <>
      <Key
        onClick={() => {
          begun.mark();
          setAsking(true);
        }}
      >
        {words}
      </Key>
      <Modal opened={isAsking} onClose={() => setAsking(false)} title={`Take ${name} off the car?`}>
        {hangs.length === 0 ? (
          <p>Nothing hangs on it.</p>
        ) : (
          <ul className="hangs">
            {hangs.map((hang) => (
              <li key={hang}>{hang}</li>
            ))}
          </ul>
        )}
        {begun.told === null ? null : <p className="warn">{`▲ ${begun.told}`}</p>}
        <div className="keys" style={{ marginTop: '0.9rem' }}>
          <Key weight="do" onClick={() => void go()}>
            Take it off
          </Key>
          <Key onClick={() => setAsking(false)}>Leave it</Key>
        </div>
      </Modal>
    </>
  );
}
