import { useEffect } from 'react';
import { signal } from '../bench/signal.ts';

/** A line that was just put on the car: its ways are worked out as soon as its card opens. */
export const workOutAtOnce = signal<string | null>(null);

export function useAtOnce(line: string, begin: () => void): void {
  useEffect(() => {
    if (workOutAtOnce.get() !== line) return;
    workOutAtOnce.set(null);
    begin();
    // Only once, when the card of that line opens.
    // eslint-disable-next-line react-hooks/exhaustive-deps
  }, [line]);
}
