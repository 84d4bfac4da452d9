import type { ReactNode } from 'react';
import type { Edit } from '#car';
import { useKeep } from '../bench/begun.ts';
import { Key } from '../frame/key.tsx';

interface Wish {
  readonly edits: readonly Edit[];
  readonly done: string;
  readonly onGone: () => void;
}

/** Takes what a form is about out of the car. */
export function TakeOut({ edits, done, onGone }: Wish): ReactNode {
  const keep = useKeep();
  return <Key onClick={() => void keep(edits, done).then((isKept) => isKept && onGone())}>Take it out</Key>;
}
