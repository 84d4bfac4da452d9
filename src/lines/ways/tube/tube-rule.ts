import type { Catalogue, TubeRow } from '#standards';
import type { TubePiece } from '../tube-piece.ts';

export type TubeAsked = TubePiece['tube'];

/** What a bender can do with a tube. */
export interface TubeRule {
  /** The bender's one radius, to the centreline [mm]. */
  readonly radiusMm: number;
  /** Straight between two bends, for the shoe to grip [mm]. */
  readonly betweenMm: number;
  /** Straight at the tube's start, where it is clamped [mm]. */
  readonly clampMm: number;
  /** Most that one bend may turn [deg]. */
  readonly mostBendDeg: number;
  /** Most distance between supports [mm]. */
  readonly supportMm: number;
  /** The catalogue's row for this tube, where it has one. */
  readonly row: TubeRow | undefined;
}

/** A bender's follow bar and the tube's own legs get in the way beyond this; common practice, no source [deg]. */
const MOST_BEND_DEG = 150;
/** Without a row of the catalogue, in diameters; common practice, no source. */
const BETWEEN_ODS = 1.5;
const CLAMP_ODS = 2;
const LEAST_CLAMP_MM = 25;
const SUPPORT_MM = 300;
/** Trade sizes in inches and millimetres differ by this and are one tube [mm]. */
const SAME_OD_MM = 0.11;

/** The limits for a tube: from the catalogue's row of its outside diameter, else by its diameter. */
export function tubeRule(tube: TubeAsked, shelf: Pick<Catalogue, 'tubes'>): TubeRule {
  const row = tubeRow(tube, shelf);
  return {
    radiusMm: tube.bendRadiusMm,
    betweenMm: row?.minStraightMm ?? BETWEEN_ODS * tube.odMm,
    clampMm: row?.clampStraightMm ?? Math.max(CLAMP_ODS * tube.odMm, LEAST_CLAMP_MM),
    mostBendDeg: MOST_BEND_DEG,
    supportMm: row?.supportMm ?? SUPPORT_MM,
    row,
  };
}

/** The row of this diameter, of the same material if there is one. */
function tubeRow(tube: TubeAsked, shelf: Pick<Catalogue, 'tubes'>): TubeRow | undefined {
  const alike = shelf.tubes.filter((row) => Math.abs(row.odMm - tube.odMm) <= SAME_OD_MM);
  const material = (tube.material ?? '').toLowerCase();
  const sameMaterial = alike.filter((row) => material !== '' && row.material.toLowerCase().includes(material));
  const of = sameMaterial.length > 0 ? sameMaterial : alike;
  return [...of].sort(
    (p, q) => Math.abs(p.wallMm - tube.wallMm) - Math.abs(q.wallMm - tube.wallMm) || (p.id < q.id ? -1 : 1),
  )[0];
}
