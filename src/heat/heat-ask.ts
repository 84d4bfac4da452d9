import type { Bay } from '#bay';
import type { Car } from '#car';
import type { FlowAnswer } from '#flow';
import type { TriangleMesh } from '#geometry';
import type { Catalogue } from '#standards';
import type { LaidWay } from './car/heat-model.ts';
import type { HeatMemory } from './heat-memory.ts';

/** What the heat of a car is worked out from. */
export interface HeatAsk {
  readonly car: Car;
  readonly bay: Bay;
  readonly shelf: Catalogue;
  readonly meshes: ReadonlyMap<string, TriangleMesh>;
  /** By line: where each lies. */
  readonly ways: ReadonlyMap<string, LaidWay>;
  /** What flows where, by case; null: by what the lines state. */
  readonly flow: FlowAnswer | null;
  /** Only this case; absent: all of the car. */
  readonly caseId?: string;
  /** Of the last time, where this car is like the one then; it is brought up to date. */
  readonly memory?: HeatMemory;
  readonly watch?: (done: number, total: number) => boolean;
}
