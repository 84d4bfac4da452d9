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
  /** Whether a tool goes on each nut, and what lets it; absent: only a hand's way to it is looked at. */
  readonly toolReach?: ToolReach;
}
