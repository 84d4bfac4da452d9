import type { LiquidFlow } from '../circuit/circuit-state.ts';
import type { ThroughFlow } from '../circuit/flow-answer.ts';

/** Where the oil goes into the engine: the passage that takes most of the pump's work. */
export const galleryOf = ({ passages }: Pick<LiquidFlow, 'passages'>): ThroughFlow | undefined =>
  passages.filter(({ flowM3S }) => flowM3S > 0).toSorted((a, b) => b.dropPa * b.flowM3S - a.dropPa * a.flowM3S)[0];
