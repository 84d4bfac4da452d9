import { type Bounds, grown, joined } from '#geometry';
import {
  type Exchange,
  type ExchangeAsk,
  ExchangeRows,
  isStopped,
  patchPlaces,
  patchSeeds,
  rowAskOf,
} from './exchange-factors.ts';
import { newRayPath, traceRay } from './exchange-row.kernel.ts';
import type { HeatSurface } from './patch.ts';
import {
  boxesInSteps,
  copyRay,
  isTouched,
  keptLog,
  logRay,
  newRayLog,
  type RayLog,
  renumberedLog,
} from './ray-log.kernel.ts';
import { REPLICATES } from './ray-error.ts';
import { isSamePatch, isSameSurface } from './same-surface.ts';
import { stirred } from './sobol.kernel.ts';

/** Exchange factors with all rays written down, for `exchangeAgain`. */
export interface TracedExchange {
  readonly ask: ExchangeAsk;
  readonly exchange: Exchange;
  /** Of each patch its rays. */
  readonly logs: readonly RayLog[];
  /** Everything in the scene lies in these, with room for what moves. */
  readonly bounds: Bounds;
  /** Rays that were traced for it; fewer than `exchange.raysShot` where the others were taken over. */
  readonly raysTraced: number;
}

/** What moves may come this far out of the scene before all is traced anew [mm]. */
const ROOM_MM = 250;
/** Flights a ray makes, about; the log grows where they are more. */
const USUAL_FLIGHTS = 3;

/** As `exchangeFactors`, with all rays written down: some 25 bytes each. */
export function tracedExchange(ask: ExchangeAsk): TracedExchange {
  return traced(ask, null);
}

/**
 * Exchange factors after a change: the same to the last bit as those of tracing anew, but only those rays are traced that met what has
 * changed or gone, or whose way leads through the bounds of what has changed or come.
 *
 * @param ask - surfaces are known again by their ids; those that stay must stay in one order, else all is traced anew
 */
export function exchangeAgain(before: TracedExchange, ask: ExchangeAsk): TracedExchange {
  return traced(ask, changeSince(before, ask));
}

interface Change {
  readonly before: TracedExchange;
  /** Surfaces before, by number: changed or gone; and their number now. */
  readonly changed: Uint8Array;
  readonly renumbered: Int32Array;
  readonly isNumberedAlike: boolean;
  /** Bounds of what has changed or come, in the log's steps. */
  readonly boxes: Float64Array;
  /** For each patch the one before whose rays are as good; -1: none. */
  readonly oldPatch: Int32Array;
  readonly surfaces: readonly HeatSurface[];
}

function traced(wanted: ExchangeAsk, change: Change | null): TracedExchange {
  const ask = change === null ? wanted : { ...wanted, surfaces: change.surfaces };
  const { patches } = ask;
  const rowAsk = rowAskOf(ask);
  const seeds = patchSeeds(ask);
  const rows = new ExchangeRows(ask, rowAsk);
  const path = newRayPath();
  const perPatch = rowAsk.rays * REPLICATES;
  const bounds = change?.before.bounds ?? roomFor(ask.surfaces);
  const logs: RayLog[] = [];
  const log = newRayLog(bounds, perPatch, USUAL_FLIGHTS * perPatch);
  let raysTraced = 0;
  let stopped = false;
  for (let p = 0; p < patches.length && !stopped; p++) {
    const old = change?.oldPatch[p] ?? -1;
    const was = old < 0 ? undefined : change?.before.logs[old];
    if (change !== null && was !== undefined && isUntouched(change, was)) {
      logs.push(change.isNumberedAlike ? was : renumberedLog(was, change.renumbered));
      rows.takeOver(change.before.exchange, old, change.renumbered, was.firsts[perPatch]!);
      continue;
    }
    for (let k = 0; k < perPatch; k++) {
      const replicate = Math.floor(k / rowAsk.rays);
      if (change !== null && was !== undefined && !isTouched(was, k, change.changed, change.boxes)) {
        copyRay(log, k, was, change.renumbered);
      } else {
        traceRay(rowAsk, patches[p]!.pieces, stirred(seeds[p]!, replicate), k % rowAsk.rays, path);
        logRay(log, k, path);
        raysTraced++;
      }
      rows.take(replicate, log.ends, log.firsts[k]!, log.firsts[k + 1]!);
    }
    rows.close();
    logs.push(keptLog(log));
    stopped = isStopped(ask, p);
  }
  return { ask, exchange: rows.exchange(stopped), logs, bounds, raysTraced };
}

function isUntouched({ changed, boxes }: Change, log: RayLog): boolean {
  for (let ray = 0; ray < log.firsts.length - 1; ray++) if (isTouched(log, ray, changed, boxes)) return false;
  return true;
}

function roomFor(surfaces: readonly HeatSurface[]): Bounds {
  const all = surfaces.flatMap(({ solids }) => solids.map(({ bounds }) => bounds));
  return all.length === 0 ? { min: [-1, -1, -1], max: [1, 1, 1] } : grown(all.reduce(joined), ROOM_MM);
}

/** What is different; null where nothing can be taken over. */
function changeSince(before: TracedExchange, ask: ExchangeAsk): Change | null {
  const { ask: old, bounds } = before;
  if (before.exchange.stopped || old.raysPerPatch !== ask.raysPerPatch || old.seed !== ask.seed) return null;
  const nowOf = new Map(ask.surfaces.map(({ id }, i) => [id, i]));
  const oldOf = new Map(old.surfaces.map(({ id }, i) => [id, i]));
  const same = ask.surfaces.map((surface) => {
    const was = old.surfaces[oldOf.get(surface.id) ?? -1];
    return was !== undefined && isSameSurface(was, surface) ? was : null;
  });
  const changed = new Uint8Array(old.surfaces.length).fill(1);
  const renumbered = new Int32Array(old.surfaces.length).fill(-1);
  let last = -1;
  for (const [i, was] of same.entries()) {
    if (was === null) continue;
    const place = oldOf.get(was.id)!;
    // Of two surfaces met at once the earlier is: their order is part of the answer.
    if (place < last) return null;
    last = place;
    changed[place] = 0;
    renumbered[place] = i;
  }
  const boxes = ask.surfaces.flatMap(({ solids }, i) => (same[i] === null ? solids.map(({ bounds }) => bounds) : []));
  if (!boxes.every((box) => isWithin(box, bounds))) return null;
  return {
    before,
    changed,
    renumbered,
    isNumberedAlike:
      old.surfaces.length === ask.surfaces.length && renumbered.every((now, was) => now === was || now < 0),
    boxes: boxesInSteps(newRayLog(bounds, 0, 0), boxes),
    oldPatch: patchesBefore(old, ask, same, nowOf),
    // Solids that are the same as before keep the trees that were built over them.
    surfaces: ask.surfaces.map((surface, i) => same[i] ?? surface),
  };
}

const isWithin = (box: Bounds, room: Bounds): boolean =>
  box.min.every((v, axis) => v >= room.min[axis]!) && box.max.every((v, axis) => v <= room.max[axis]!);

function patchesBefore(
  old: ExchangeAsk,
  ask: ExchangeAsk,
  same: readonly (HeatSurface | null)[],
  nowOf: ReadonlyMap<string, number>,
): Int32Array {
  const places = new Map<string, number>();
  const oldPlaces = old.places ?? patchPlaces(old.surfaces.length, old.patches);
  old.patches.forEach(({ surface }, p) => {
    const id = old.surfaces[surface]!.id;
    if (nowOf.has(id)) places.set(`${id} ${oldPlaces[p]!}`, p);
  });
  const nowPlaces = ask.places ?? patchPlaces(ask.surfaces.length, ask.patches);
  return Int32Array.from(ask.patches, (patch, p) => {
    const { surface } = patch;
    const place = places.get(`${ask.surfaces[surface]!.id} ${nowPlaces[p]!}`);
    if (same[surface] === null || place === undefined) return -1;
    return isSamePatch(old.patches[place]!, patch) ? place : -1;
  });
}
