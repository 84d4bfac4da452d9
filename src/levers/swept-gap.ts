import { addScaled, type Bounds, type Solid, sub, type Vec } from '#geometry';
import { type Crank, pinAt, pinRadius } from './crank.ts';

/** A straight round piece of a lever, as drawn. */
export interface LeverPiece {
  readonly fromMm: Vec;
  readonly toMm: Vec;
  readonly radiusMm: number;
}

/** How near a lever comes to a solid over its whole swing. */
export interface SweptGap {
  /** Surface to surface; negative: how deep the lever's surface goes in [mm]. */
  readonly gapMm: number;
  readonly turnRad: number;
  /** The place on the lever's centreline that is nearest, and the nearest place of the solid [mm]. */
  readonly atMm: Vec;
  readonly onMm: Vec;
}

/** A gap is right to this [mm]: places are known to millimetres. */
export const SWEPT_KNOWN_MM = 0.25;

interface Cell {
  readonly turn: number;
  readonly halfTurn: number;
  readonly share: number;
  readonly halfShare: number;
}

/**
 * The least gap between a lever's pieces and a solid over all turns, proved: distance changes no faster than a point moves, so a stretch of
 * swing and length whose middle is far enough cannot hold the least; what is left is halved.
 *
 * @param beyondMm - gaps from here on are not worked out: undefined comes back
 */
export function sweptGap(
  pieces: readonly LeverPiece[],
  crank: Crank,
  solid: Solid,
  beyondMm: number,
): SweptGap | undefined {
  let best: SweptGap | undefined;
  for (const piece of pieces) {
    const found = pieceGap(piece, crank, solid, best?.gapMm ?? beyondMm);
    if (found !== undefined) best = found;
  }
  return best;
}

function pieceGap(piece: LeverPiece, crank: Crank, solid: Solid, belowMm: number): SweptGap | undefined {
  const { fromMm, toMm, radiusMm } = piece;
  const along = sub(toMm, fromMm);
  const length = Math.hypot(...along);
  const reach = Math.max(pinRadius(crank, fromMm), pinRadius(crank, toMm));
  const [low, high] = crank.turnRad;
  const stack: Cell[] = [{ turn: (low + high) / 2, halfTurn: (high - low) / 2, share: 0.5, halfShare: 0.5 }];
  let least = belowMm;
  let found: { readonly turn: number; readonly at: Vec } | undefined;
  for (let cell = stack.pop(); cell !== undefined; cell = stack.pop()) {
    const at = pinAt(crank, addScaled(fromMm, along, cell.share), cell.turn);
    const [byTurn, byShare] = [reach * cell.halfTurn, length * cell.halfShare];
    const spread = byTurn + byShare;
    const gap = solid.distanceWithin(at[0], at[1], at[2], least + spread + radiusMm + 1) - radiusMm;
    if (gap < least) [least, found] = [gap, { turn: cell.turn, at }];
    if (gap - spread >= least - SWEPT_KNOWN_MM) continue;
    stack.push(...halves(cell, byTurn > byShare));
  }
  if (found === undefined) return undefined;
  return { gapMm: least, turnRad: found.turn, atMm: found.at, onMm: solid.closest(...found.at).point };
}

function halves(cell: Cell, isTurn: boolean): readonly Cell[] {
  return [-0.5, 0.5].map((side) =>
    isTurn
      ? { ...cell, turn: cell.turn + side * cell.halfTurn, halfTurn: cell.halfTurn / 2 }
      : { ...cell, share: cell.share + side * cell.halfShare, halfShare: cell.halfShare / 2 },
  );
}

/** Spacing of the places that a notch is measured by [mm]. */
const NOTCH_STEP_MM = 2;

/** The part of a solid that a lever, grown by a gap, sweeps through: a box along the car's axes, right to 2 mm. */
export function notchBox(pieces: readonly LeverPiece[], crank: Crank, solid: Solid, gapMm: number): Bounds | undefined {
  let [min, max]: [number[], number[]] = [
    [Infinity, Infinity, Infinity],
    [-Infinity, -Infinity, -Infinity],
  ];
  for (const { fromMm, toMm, radiusMm } of pieces) {
    const along = sub(toMm, fromMm);
    const counts = [
      Math.ceil(Math.hypot(...along) / NOTCH_STEP_MM),
      Math.ceil(
        (Math.max(pinRadius(crank, fromMm), pinRadius(crank, toMm)) * (crank.turnRad[1] - crank.turnRad[0])) /
          NOTCH_STEP_MM,
      ),
    ].map((n) => Math.min(Math.max(n, 1), MOST_PLACES));
    const [lengths, turns] = [counts[0]!, counts[1]!];
    const r = radiusMm + gapMm;
    for (let i = 0; i <= lengths; i++)
      for (let k = 0; k <= turns; k++) {
        const turn = crank.turnRad[0] + ((crank.turnRad[1] - crank.turnRad[0]) * k) / turns;
        const at = pinAt(crank, addScaled(fromMm, along, i / lengths), turn);
        if (solid.distanceWithin(at[0], at[1], at[2], r) >= r) continue;
        min = min.map((x, n) => Math.min(x, at[n]! - r));
        max = max.map((x, n) => Math.max(x, at[n]! + r));
      }
  }
  if (!Number.isFinite(min[0]!)) return undefined;
  const { bounds } = solid;
  return {
    min: [Math.max(min[0]!, bounds.min[0]), Math.max(min[1]!, bounds.min[1]), Math.max(min[2]!, bounds.min[2])],
    max: [Math.min(max[0]!, bounds.max[0]), Math.min(max[1]!, bounds.max[1]), Math.min(max[2]!, bounds.max[2])],
  };
}

/** Looked at in no more places than this either way. */
const MOST_PLACES = 400;
