import type { Bay } from '#bay';
import type { Car } from '#car';
import type { FlowAnswer } from '#flow';
import type { TriangleMesh } from '#geometry';
import type { Way } from '#lines';
import type { Catalogue } from '#standards';

/** What the heat of a car is worked out from. */
export interface HeatAsk {
  readonly car: Car;
  readonly bay: Bay;
  readonly shelf: Catalogue;
  readonly meshes: ReadonlyMap<string, TriangleMesh>;
  /** By line: where each lies. */
  readonly ways: ReadonlyMap<string, Way>;
  /** What flows where, by case; null: by what the lines state. */
  readonly flow: FlowAnswer | null;
  /** Only this case; absent: all of the car. */
  readonly caseId?: string;
  readonly watch?: (done: number, total: number) => boolean;
}
