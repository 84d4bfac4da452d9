import { createContext, useCallback, useContext, useMemo, useRef, useState } from 'react';
import type { Edit } from '#car';
import { keep, kept, word } from './bench.ts';

/** Something that a builder takes a while over before it is kept. */
export interface Begun {
  /** Begun now: what others do to the same thing from here on is told before it is written over. */
  mark(): void;
  /** True when it is on the disk. After a refusal the builder knows of theirs: kept again, it takes their place. */
  keep(edits: readonly Edit[], done: string): Promise<boolean>;
  /** Why it was not kept the last time. */
  readonly told: string | null;
}

export function useBegun(): Begun {
  const seen = useRef<number | undefined>(undefined);
  const [told, setTold] = useState<string | null>(null);
  const mark = useCallback(() => {
    seen.current = kept.get()?.revision;
    setTold(null);
  }, []);
  const keepIt = useCallback(
    async (edits: readonly Edit[], done: string) => {
      const isKept = await keep(edits, done, seen.current);
      mark();
      if (!isKept) setTold(word.get()?.text ?? null);
      return isKept;
    },
    [mark],
  );
  return useMemo(() => ({ mark, keep: keepIt, told }), [mark, keepIt, told]);
}

/** The form that a key stands in: begun when the form was opened. */
export const FormBegun = createContext<Begun | null>(null);

/** How a key in a form keeps; out of one, from what the screen shows. */
export function useKeep(): (edits: readonly Edit[], done: string) => Promise<boolean> {
  return useContext(FormBegun)?.keep ?? keep;
}
