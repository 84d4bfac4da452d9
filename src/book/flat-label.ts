import type { FlatPattern } from '#panels';

/** What a flat goes by on paper: its panel's id, and which piece of it where that is split ("PN2R 1"). */
export const flatLabel = ({ panel, piece }: FlatPattern): string =>
  piece === undefined ? panel : `${panel} ${piece.number}`;
