import { useSyncExternalStore } from 'react';

/** A value that the screen watches: whoever shows it is drawn anew when it is set to another. */
export interface Signal<T> {
  get(): T;
  set(next: T): void;
  watch(told: () => void): () => void;
}

export function signal<T>(first: T): Signal<T> {
  let value = first;
  const watchers = new Set<() => void>();
  return {
    get: () => value,
    set(next) {
      if (Object.is(next, value)) return;
      value = next;
      for (const told of watchers) told();
    },
    watch(told) {
      watchers.add(told);
      return () => watchers.delete(told);
    },
  };
}

export const useSignal = <T>(from: Signal<T>): T => useSyncExternalStore(from.watch, from.get);
