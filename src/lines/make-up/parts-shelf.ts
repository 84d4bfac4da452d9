import type { AdapterRow, ClampRow, HoseEndRow, SealRow } from '#standards';

/** The tables that a make-up draws on: the standard rows joined by the builder's own. */
export interface PartsShelf {
  readonly adapters: readonly AdapterRow[];
  readonly hoseEnds: readonly HoseEndRow[];
  readonly seals: readonly SealRow[];
  readonly clamps: readonly ClampRow[];
}

/** Ids of parts that the builder already has. */
export type Box = Pick<ReadonlySet<string>, 'has'>;
