import type { Catalogue } from '#standards';

/** The tables that a make-up draws on: the standard rows joined by the builder's own. A `catalogue(...)` is one. */
export type PartsShelf = Pick<Catalogue, 'adapters' | 'seals' | 'clamps' | 'hoseEndsFor'>;

/** Ids of parts that the builder already has. */
export type Box = Pick<ReadonlySet<string>, 'has'>;
