import type { LineObstacles, Vec } from '#geometry';
import type { Line } from '#car';
import type { LinesWorld } from '../../world.ts';
import type { FittedEnd } from '../hose-piece.ts';
import type { SpanEnd } from '../span.ts';
import type { TubePose } from './run-problem.ts';
import type { TubeRule } from './tube-rule.ts';

/** What every step of a line with tube in it works on. */
export interface TubeBench {
  readonly world: LinesWorld;
  readonly line: Line;
  readonly placed: LineObstacles | null;
  readonly count: number;
}

/** Where a tube begins or ends, seen from outside it. */
export interface TubeEndAt {
  /** The port or joint that the line comes from here: its near rules hold. */
  readonly from: SpanEnd;
  /** The tube's own fitting; null where a hose goes over its bead. */
  readonly fit: FittedEnd | null;
  /** Where the tube shows, and the way it goes there, away from the end. */
  readonly pose: TubePose;
  /** Tube inside its nut [mm]. */
  readonly insertMm: number;
  /** A hose over the tube for so much, and how stout it is [mm]. */
  readonly over: { readonly lengthMm: number; readonly odMm: number; readonly row: string } | null;
  /** Near rules hold for this much of the line [mm]. */
  readonly nearMm: number;
  readonly prep: string;
  readonly cost: number;
}

/** A place the tube is led through, along `direction`. */
export interface LedThrough {
  readonly at: Vec;
  readonly direction: Vec;
}

/** Straight wanted at an end, outside its nut [mm]: the bender's clamp counts from the tube's own end. */
export function straightAt(end: TubeEndAt, rule: TubeRule, first: boolean): number {
  const grip = (first ? rule.clampMm : rule.betweenMm) - end.insertMm;
  const under = end.over === null ? LEAST_BEYOND_NUT_MM : end.over.lengthMm + BEYOND_HOSE_MM;
  return Math.max(grip, under);
}

/** A spanner turns the nut, and a bend begins outside it [mm]; common practice, no source. */
const LEAST_BEYOND_NUT_MM = 5;
/** Straight beyond the end of a hose, so that its clamp sits flat [mm]; common practice, no source. */
const BEYOND_HOSE_MM = 8;
