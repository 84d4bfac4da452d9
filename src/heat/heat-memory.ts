import type { RunCase } from './car/run-case.ts';
import type { HeatModel } from './car/heat-model.ts';
import type { NetLayout } from './car/net-layout.ts';

/** A car traced and laid out: what all its cases share. */
export interface Traced {
  readonly model: HeatModel;
  readonly layout: NetLayout;
}

/**
 * What the heat of a car was worked out with, for the next time it is asked with something changed: rays as they went, so that only those
 * that a change touches are shot anew (the same to the last bit), and temperatures to begin from (the same to within the balance).
 */
export interface HeatMemory {
  /** By the panels that are off. */
  readonly traced: Map<string, Traced>;
  /** By case. */
  readonly ran: Map<string, { readonly traced: Traced; readonly run: RunCase }>;
}

export const newHeatMemory = (): HeatMemory => ({ traced: new Map(), ran: new Map() });
