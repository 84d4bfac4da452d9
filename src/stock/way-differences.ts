import type { TakenWay } from '#car';
import type { Way } from '#lines';
import type { Catalogue } from '#standards';
import { hoseEndId, turnsOnHose } from './hose-ends-of.ts';
import { endsOf, makeUpIds } from './part-uses.ts';

type AnyWay = Way | TakenWay;

export interface WayDifferences {
  /** The hose itself is another: length, ends, hose, angle between the elbows. */
  readonly hose: readonly string[];
  /** What is screwed on the ports is another. */
  readonly adapters: readonly string[];
  /** What is only turned or clamped otherwise. */
  readonly hung: readonly string[];
}

/** Elbows of a hose stand to each other within this [deg]; SAE J516:2019. */
const ELBOWS_DEG = 3;
/** A clock is read no finer than this [deg]. */
const CLOCK_DEG = 2;
const CLAMP_MM = 20;

const off = (a: number, b: number): number => Math.abs(((a - b + 540) % 360) - 180);

/** What a hose made as `was` would need to become `is`, in the builder's words. */
export function wayDifferences(was: AnyWay, is: AnyWay, shelf: Catalogue): WayDifferences {
  const hose: string[] = [];
  const adapters: string[] = [];
  const hung: string[] = [];
  if (was.pieces.length !== is.pieces.length) hose.push(`${was.pieces.length} lengths → ${is.pieces.length}`);
  else
    was.pieces.forEach((piece, i) =>
      hose.push(
        ...pieceDifferences(
          piece,
          is.pieces[i]!,
          was.pieces.length === 1 ? '' : ` of length ${i + 1}`,
          turnsOnHose(was, shelf),
        ),
      ),
    );
  const [endsWas, endsIs] = [endsOf(was), endsOf(is)];
  endsIs.forEach((end, i) => {
    const before = endsWas[i];
    if (before === undefined) return;
    compareEnd(before as EndLike, end as EndLike, { hose, adapters, hung }, shelf);
  });
  const [clampsWas, clampsIs] = [was.clamps ?? [], is.clamps ?? []];
  const moved =
    clampsWas.length !== clampsIs.length ||
    clampsIs.some((clamp, i) => Math.abs((clamp.alongMm ?? 0) - (clampsWas[i]?.alongMm ?? 0)) > CLAMP_MM);
  if (moved)
    hung.push(
      clampsIs.length === 0
        ? 'no clamps'
        : `clamps at ${clampsIs.map((clamp) => (clamp.alongMm ?? 0).toFixed(0)).join(', ')} mm`,
    );
  return { hose, adapters, hung };
}

type PieceLike = AnyWay['pieces'][number];

function pieceDifferences(was: PieceLike, is: PieceLike, of: string, canTurn: boolean): string[] {
  const name = (piece: PieceLike): string => piece.hose ?? `${piece.odMm ?? ''} mm tube`;
  const out: string[] = [];
  if (name(was) !== name(is)) out.push(`${name(was)} → ${name(is)}`);
  if (was.hose === undefined) {
    const bends = (piece: PieceLike): string => JSON.stringify((piece as { readonly bends?: unknown }).bends ?? null);
    if (bends(was) !== bends(is)) out.push(`the tube${of} is bent otherwise`);
  }
  const [cutWas, cutIs] = [was.cutLengthMm, is.cutLengthMm];
  if (cutWas !== undefined && cutIs !== undefined) {
    const [less, more] = [is.allowanceMm?.[0] ?? 0, is.allowanceMm?.[1] ?? 0];
    if (cutWas < cutIs + less || cutWas > cutIs + more) out.push(`cut length${of} ${cutWas} → ${cutIs} mm`);
  }
  const [turnWas, turnIs] = [was.endToEndDeg ?? null, is.endToEndDeg ?? null];
  if (turnWas !== null && turnIs !== null && !canTurn && off(turnWas, turnIs) > ELBOWS_DEG)
    out.push(`angle between the ends${of} ${turnWas.toFixed(0)}° → ${turnIs.toFixed(0)}°`);
  return out;
}

interface EndLike {
  readonly port: string;
  readonly makeUp?: readonly unknown[];
  readonly angleDeg?: number;
  readonly clockDeg?: number | null;
  readonly adapterClockDeg?: number;
  readonly clockHow?: string;
}

function compareEnd(
  was: EndLike,
  is: EndLike,
  out: { hose: string[]; adapters: string[]; hung: string[] },
  shelf: Catalogue,
): void {
  const [idsWas, idsIs] = [makeUpIds(was.makeUp ?? []), makeUpIds(is.makeUp ?? [])];
  const [hoseWas, hoseIs] = [hoseEndId(was.makeUp, shelf), hoseEndId(is.makeUp, shelf)];
  if ((was.angleDeg ?? 0) !== (is.angleDeg ?? 0))
    out.hose.push(`hose end at ${is.port} ${was.angleDeg ?? 0}° → ${is.angleDeg ?? 0}°`);
  else if (hoseWas !== hoseIs) out.hose.push(`hose end at ${is.port} ${hoseWas ?? 'none'} → ${hoseIs ?? 'none'}`);
  const [fitWas, fitIs] = [idsWas.filter((id) => id !== hoseWas), idsIs.filter((id) => id !== hoseIs)];
  if (fitWas.join() !== fitIs.join())
    out.adapters.push(`adapter at ${is.port} ${fitWas.join(' + ') || 'none'} → ${fitIs.join(' + ') || 'none'}`);
  const [clockWas, clockIs] = [was.clockDeg ?? null, is.clockDeg ?? null];
  if (was.angleDeg === is.angleDeg && clockWas !== null && clockIs !== null && off(clockWas, clockIs) > CLOCK_DEG) {
    out.hung.push(`turn the end at ${is.port} from ${clockWas.toFixed(0)}° to ${clockIs.toFixed(0)}°`);
  }
  if (
    was.adapterClockDeg === undefined ||
    is.adapterClockDeg === undefined ||
    off(was.adapterClockDeg, is.adapterClockDeg) <= CLOCK_DEG
  )
    return;
  const words = `adapter at ${is.port} from ${was.adapterClockDeg.toFixed(0)}° to ${is.adapterClockDeg.toFixed(0)}°`;
  // A taper elbow stands where it comes tight and is never backed off.
  if (is.clockHow?.includes('taper') === true) out.adapters.push(words);
  else out.hung.push(`turn the ${words}`);
}
