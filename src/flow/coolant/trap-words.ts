import type { TrapWords } from '../circuit/coolant-answer.ts';
import type { AirTrap } from './air-traps.ts';

/** Shallower traps are swept over by the water as it fills. Common practice, no source. */
export const LEAST_TRAP_MM = 10;

/** A trap as it is told: what it is in, how deep, how much air. */
export const trapWords = (trap: AirTrap): TrapWords => ({
  words: trap.line ?? trap.spot ?? 'a joint',
  ...(trap.line === undefined ? {} : { line: trap.line }),
  atMm: trap.atMm,
  depthMm: Number.isFinite(trap.depthMm) ? trap.depthMm : null,
  airMl: trap.volumeM3 * 1e6,
});
