/** A straight piece of a fitting's centreline, round it a disc of `odMm` (hexes across corners). */
export interface StraightStage {
  readonly kind: 'straight';
  readonly lengthMm: number;
  readonly odMm: number;
  /** Catalogue row that it belongs to. */
  readonly part: string;
}

/** A turn of a fitting's centreline; `radiusMm` 0 = two legs that meet in a corner. */
export interface BendStage {
  readonly kind: 'bend';
  readonly angleRad: number;
  readonly radiusMm: number;
  readonly odMm: number;
  readonly part: string;
  /** Which clock turns it: 0 = the hose end's, 1 = the elbow adapter's or banjo's. */
  readonly clock: 0 | 1;
}

/** What a fitting is made of along its centreline, from the port face on. */
export type Stage = StraightStage | BendStage;

/** Length of the centreline [mm]. */
export const stageLength = (stage: Stage): number =>
  stage.kind === 'straight' ? stage.lengthMm : stage.radiusMm * stage.angleRad;
