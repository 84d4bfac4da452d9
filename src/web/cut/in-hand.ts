import { useEffect } from 'react';
import type { PanelLayout } from '#panels';
import { signal } from '../bench/signal.ts';

/** A panel as it is typed or drawn along just now: folded up on the car in place of the one that is kept. */
export const inHand = signal<{ readonly panel: string; readonly layouts: readonly PanelLayout[] } | null>(null);

/** Shows a panel on the car as long as it is in the hand; null where nothing is. */
export function useInHand(panel: string, layouts: readonly PanelLayout[] | null): void {
  useEffect(() => {
    inHand.set(layouts === null ? null : { panel, layouts });
  }, [panel, layouts]);
  useEffect(() => () => inHand.set(null), []);
}
