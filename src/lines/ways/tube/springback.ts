/**
 * How much further than wanted a bend is pulled, as a share of its angle: the tube springs back by it. Common practice, no
 * source; it differs from batch to batch, so the first bend is tried on an offcut.
 */
const springbacks = [
  { word: 'stainless', share: 0.03 },
  { word: 'copper', share: 0.015 },
  { word: 'aluminium', share: 0.02 },
  { word: 'steel', share: 0.025 },
] as const;

/** Where the material is not said. */
const usual = 0.025;

/** Share of a bend's angle that a tube of this material springs back by. */
export function springbackShare(material: string | undefined): number {
  const name = (material ?? '').toLowerCase();
  return springbacks.find((row) => name.includes(row.word))?.share ?? usual;
}
