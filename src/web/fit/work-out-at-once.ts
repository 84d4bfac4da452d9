import { signal } from '../bench/signal.ts';

/** A line that was just put on the car: its ways are worked out as soon as its card opens. */
export const workOutAtOnce = signal<string | null>(null);
