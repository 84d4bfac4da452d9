import { useEffect } from 'react';
import type { Vec } from '#geometry';
import { signal } from '../bench/signal.ts';

/** Something that is being measured in: drawn on the car before it is kept. */
export interface Mark {
  readonly label: string;
  readonly atMm: Vec;
  readonly faces: Vec | null;
}

/** What is drawn of the form that is open. */
export const marks = signal<readonly Mark[]>([]);

/** Shows the marks of a form on the car as long as it is open. */
export function useMarks(now: readonly Mark[]): void {
  const key = JSON.stringify(now);
  useEffect(() => {
    marks.set(JSON.parse(key) as readonly Mark[]);
  }, [key]);
  useEffect(() => () => marks.set([]), []);
}
