import { type ReactNode, useEffect, useRef } from 'react';
import { word } from '../bench/bench.ts';
import { place } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Key } from './key.tsx';

/** Keeping a form opens the paper of what was kept: what is younger than this belongs to that one [ms]. */
const JUST_NOW_MS = 1000;

/** What was done last, or why not; it stays until it is put away or something else is said. */
export function Said(): ReactNode {
  const said = useSignal(word);
  const { paper } = useSignal(place);
  const since = useRef(0);
  useEffect(() => {
    since.current = performance.now();
  }, [said]);
  // What was done is read by the time another paper is opened; what went wrong is put away by hand.
  useEffect(() => {
    if (word.get()?.isFault === false && performance.now() - since.current > JUST_NOW_MS) word.set(null);
  }, [paper]);
  return (
    <div className="said" role="status" aria-live="polite">
      {said === null ? null : (
        <div className={said.isFault ? 'said-line said-fault' : 'said-line'}>
          <span>
            {said.isFault ? <strong>▲ </strong> : null}
            {said.text}
          </span>
          <Key weight="bare" onClick={() => word.set(null)}>
            Put away
          </Key>
        </div>
      )}
    </div>
  );
}
