import { type Panel, TAPE_KNOWN_TO_MM } from '#car';
import { distance, dot, scale, sub, type Vec } from '#geometry';
import { inverse, Matrix } from 'ml-matrix';
import { type FirstPlaces, firstPlaces } from './first-places.ts';

/** A corner as measured and as the tapes and places together have it. */
export interface BalancedCorner {
  readonly id: string;
  readonly measured?: Vec;
  readonly knownToMm: number;
  /** Where all readings together put it [mm, car axes; the panel's own where no corner has a place]. */
  readonly at: Vec;
}

/** A tape against the corners: what it read, what the corners say. */
export interface TapeCheck {
  readonly from: string;
  readonly to: string;
  readonly readMm: number;
  readonly knownToMm: number;
  /** Read less the distance of the corners as balanced. */
  readonly residualMm: number;
  /** Read less the distance of the corners as measured, where both have a place, and how far that may lie. */
  readonly rawMm?: number;
  readonly rawToleranceMm?: number;
  /** Residual over the spread that it would have if all were well: above 2 or so it is the odd one out. */
  readonly oddness: number;
}

export interface BalancedCorners {
  readonly corners: readonly BalancedCorner[];
  readonly tapes: readonly TapeCheck[];
  /** Corners that neither a place nor enough tapes tell; empty where all are told. */
  readonly untold: readonly string[];
  /** The car does not say where the panel is: it is laid out by its tapes alone. */
  readonly placeless: boolean;
}

/** A corner told only by tapes may leave the plane of the others by this much without any weight to speak of [mm]. */
const OUT_OF_PLANE_MM = 200;
const STEPS = 30;
/** Below this share of its own spread a residual is told by nothing else. */
const CHECKED_SHARE = 0.02;
/** Converged when no corner moves further [mm]. */
const STILL_MM = 1e-9;

interface Row {
  readonly terms: readonly (readonly [unknown: number, factor: number])[];
  readonly miss: number;
  readonly spreadMm: number;
}

interface TapeRead {
  readonly from: string;
  readonly to: string;
  readonly a: number;
  readonly b: number;
  readonly mm: number;
  readonly spreadMm: number;
}

/** Nothing is known better than this; it keeps the weights finite [mm]. */
const BEST_KNOWN_MM = 1e-3;

const knownOf = (panel: Panel, k: number): number =>
  panel.corners![k]!.knownToMm ?? panel.knownToMm ?? TAPE_KNOWN_TO_MM;

/**
 * Corners from places and tapes by least squares: every reading pulls with one over the square of how well it is known.
 * Gauss-Newton on the distances; corners without a place start where two tapes cross.
 */
export function balancedCorners(panel: Panel): BalancedCorners {
  const corners = panel.corners ?? [];
  const index = new Map(corners.map(({ id }, k) => [id, k]));
  const tapes = (panel.tapes ?? []).map((tape) => ({
    ...tape,
    a: index.get(tape.from)!,
    b: index.get(tape.to)!,
    spreadMm: tape.knownToMm ?? panel.knownToMm ?? TAPE_KNOWN_TO_MM,
  }));
  const first = firstPlaces(
    corners.map((corner) => corner.atMm),
    tapes,
  );
  if (first.untold.length > 0)
    return { corners: [], tapes: [], untold: first.untold.map((k) => corners[k]!.id), placeless: first.placeless };
  let places = first.places as readonly Vec[];
  for (let step = 0; tapes.length > 0 && step < STEPS; step++) {
    const { move } = solved([...placeRows(panel, first, places), ...tapeRows(tapes, places)], corners.length);
    places = places.map((at, k) => [at[0] + move[3 * k]!, at[1] + move[3 * k + 1]!, at[2] + move[3 * k + 2]!]);
    if (Math.max(...move.map(Math.abs)) < STILL_MM) break;
  }
  return {
    corners: corners.map((corner, k) => ({
      id: corner.id,
      ...(corner.atMm === undefined ? {} : { measured: corner.atMm as Vec }),
      knownToMm: knownOf(panel, k),
      at: places[k]!,
    })),
    tapes: tapes.length === 0 ? [] : tapeChecks(panel, tapes, placeRows(panel, first, places), places),
    untold: [],
    placeless: first.placeless,
  };
}

/** What holds each corner: its own place; the plane of the others; or, where tapes alone tell the panel, its drawing. */
function placeRows(panel: Panel, first: FirstPlaces, at: readonly Vec[]): Row[] {
  return panel.corners!.flatMap(({ atMm }, k): Row[] => {
    if (atMm !== undefined)
      return [0, 1, 2].map((i) => ({
        terms: [[3 * k + i, 1]],
        miss: atMm[i]! - at[k]![i]!,
        spreadMm: Math.max(knownOf(panel, k), BEST_KNOWN_MM),
      }));
    if (first.placeless)
      return [0, 1, 2].map((i) => ({
        terms: [[3 * k + i, 1]],
        miss: i === 2 ? -at[k]![2] : 0,
        spreadMm: OUT_OF_PLANE_MM,
      }));
    const { middle, normal } = first.plane!;
    return [
      {
        terms: [0, 1, 2].map((i) => [3 * k + i, normal[i]!] as const),
        miss: -dot(sub(at[k]!, middle), normal),
        spreadMm: OUT_OF_PLANE_MM,
      },
    ];
  });
}

function tapeRows(tapes: readonly TapeRead[], at: readonly Vec[]): Row[] {
  return tapes.map(({ a, b, mm, spreadMm }) => {
    const apart = sub(at[b]!, at[a]!);
    const long = Math.max(Math.hypot(...apart), BEST_KNOWN_MM);
    const way = scale(apart, 1 / long);
    return {
      terms: [0, 1, 2].flatMap((i) => [[3 * a + i, -way[i]!] as const, [3 * b + i, way[i]!] as const]),
      miss: mm - long,
      spreadMm: Math.max(spreadMm, BEST_KNOWN_MM),
    };
  });
}

function tapeChecks(
  panel: Panel,
  tapes: readonly TapeRead[],
  places: readonly Row[],
  at: readonly Vec[],
): readonly TapeCheck[] {
  const rows = tapeRows(tapes, at);
  const { covariance } = solved([...places, ...rows], at.length);
  return tapes.map(({ from, to, a, b, mm, spreadMm }, i) => {
    const row = rows[i]!;
    let told = 0;
    for (const [p, f] of row.terms) for (const [q, g] of row.terms) told += f * g * covariance.get(p, q);
    const residualSpread = Math.sqrt(Math.max(row.spreadMm ** 2 - told, 0));
    const [one, two] = [panel.corners![a]!.atMm, panel.corners![b]!.atMm];
    return {
      from,
      to,
      readMm: mm,
      knownToMm: spreadMm,
      residualMm: row.miss,
      ...(one === undefined || two === undefined
        ? {}
        : {
            rawMm: mm - distance(one as Vec, two as Vec),
            rawToleranceMm: Math.hypot(spreadMm, knownOf(panel, a), knownOf(panel, b)),
          }),
      // A reading that nothing checks has no spread left: it cannot be odd.
      oddness: residualSpread < CHECKED_SHARE * row.spreadMm ? 0 : Math.abs(row.miss) / residualSpread,
    };
  });
}

function solved(rows: readonly Row[], corners: number): { move: number[]; covariance: Matrix } {
  const n = 3 * corners;
  const normal = Matrix.zeros(n, n);
  const right = new Float64Array(n);
  for (const { terms, miss, spreadMm } of rows) {
    const weight = 1 / spreadMm ** 2;
    for (const [p, f] of terms) {
      right[p] = right[p]! + weight * f * miss;
      for (const [q, g] of terms) normal.set(p, q, normal.get(p, q) + weight * f * g);
    }
  }
  // A breath of weight on every unknown, so that what nothing tells stays where it is.
  for (let i = 0; i < n; i++) normal.set(i, i, normal.get(i, i) + 1e-12);
  const covariance = inverse(normal);
  const move = Array.from({ length: n }, (_, i) => {
    let sum = 0;
    for (let j = 0; j < n; j++) sum += covariance.get(i, j) * right[j]!;
    return sum;
  });
  return { move, covariance };
}
