import type { Around } from './laid-out.ts';

/** A panel by itself, with no car about it. */
export const NOWHERE: Around = { car: { parts: [], movers: [] }, crossings: [] };
