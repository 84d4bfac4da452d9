import type { AdapterRow, ClampRow, GrommetRow, HoseEndRow, HoseRow, SealRow, TubeRow } from './rows.ts';

type Own<T extends { readonly id: string }> = { readonly id: string } & { readonly [K in keyof T]?: T[K] | undefined };

/** A builder's row: a built-in row's id with the fields that differ, or a new id with at least what cannot be guessed. */
export type OwnHose = Own<HoseRow>;
export type OwnHoseEnd = Own<HoseEndRow> & {
  /** Seat to the hose's cut end inside it [mm], as its maker prints it; instead of `insertMm`. */
  readonly cutFactorMm?: number | undefined;
};
export type OwnAdapter = Own<AdapterRow>;
export type OwnTube = Own<TubeRow>;
export type OwnSeal = Own<SealRow>;
export type OwnClamp = Own<ClampRow>;
export type OwnGrommet = Own<GrommetRow>;

/** The car file's `catalogue`. */
export interface OwnCatalogue {
  readonly hoses?: readonly OwnHose[] | undefined;
  readonly hoseEnds?: readonly OwnHoseEnd[] | undefined;
  readonly adapters?: readonly OwnAdapter[] | undefined;
  readonly tubes?: readonly OwnTube[] | undefined;
  readonly seals?: readonly OwnSeal[] | undefined;
  readonly clamps?: readonly OwnClamp[] | undefined;
  readonly grommets?: readonly OwnGrommet[] | undefined;
}
