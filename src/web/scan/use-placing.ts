import { useEffect, useState } from 'react';
import type { Placing } from '#intake';
import { sayFault } from '../bench/bench.ts';
import { calls } from '../server/calls.ts';
import type { Pair } from './scan-draft.ts';

const LEAST = 3;
/** A pause in the typing before it is asked [ms]. */
const PAUSE_MS = 250;

/** Where the scan would stand by the pairs that are whole, worked out anew with each; null where there are too few. */
export function usePlacing(id: string, whole: readonly { readonly pair: Pair }[]): Placing | null {
  const [placing, setPlacing] = useState<Placing | null>(null);
  const key = JSON.stringify(whole.map(({ pair }) => pair));
  useEffect(() => {
    const pairs = JSON.parse(key) as Pair[];
    if (pairs.length < LEAST) {
      setPlacing(null);
      return;
    }
    let isWanted = true;
    const wait = setTimeout(() => {
      calls.placeByPoints(id, { pairs: [...pairs] }).then(
        (answer) => isWanted && setPlacing(answer),
        (fault: unknown) => isWanted && sayFault(fault),
      );
    }, PAUSE_MS);
    return () => {
      isWanted = false;
      clearTimeout(wait);
    };
  }, [id, key]);
  return placing;
}
