import type { Bay } from '#bay';
import type { Car } from '#car';
import type { Body, TriangleMesh } from '#geometry';
import type { TakenWay } from '#car';
import type { Catalogue } from '#standards';
import type { Way } from '#lines';
import type { ToolReach } from './tool-reach.ts';

/** All that what comes off is worked out from. */
export interface AccessWorld {
  readonly car: Car;
  readonly bay: Bay;
  readonly meshes: ReadonlyMap<string, TriangleMesh>;
  readonly shelf: Catalogue;
  /** The way of each line that has one. */
  readonly ways: ReadonlyMap<string, Way | TakenWay>;
  /** The solid stretches of those lines. */
  readonly bodies: ReadonlyMap<string, readonly Body[]>;
  /** Whether a tool goes on each nut, where that was worked out; absent: whether a hand gets there stands in for it. */
  readonly toolReach?: ToolReach;
}
