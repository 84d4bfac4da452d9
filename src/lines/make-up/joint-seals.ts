import { type End, type HoseEndRow, type SealCount, mates } from '#standards';
import { type Link, entryOf, exitOf } from './mating-chains.ts';

/** One joint of a chain: the open end towards the port, and what goes on it. */
export interface Joint {
  readonly open: End;
  readonly entry: End;
}

/** The joints of a chain from the port to the hose end; always one more than it has adapters. */
export function jointsOf(port: End, links: readonly Link[], hoseEnd: HoseEndRow): readonly Joint[] {
  const opens = [port, ...links.map(exitOf)];
  const entries = [...links.map(entryOf), hoseEnd.to];
  return entries.map((entry, n) => ({ open: opens[n] ?? port, entry }));
}

/** Loose seals that each joint needs, and those that the part beyond it brings besides (the second washer of a banjo). */
export function jointSeals(joints: readonly Joint[], links: readonly Link[]): readonly (readonly SealCount[])[] {
  return joints.map(({ open, entry }, n) => {
    const mating = mates(open, entry);
    return summed([...(mating.ok ? mating.seal.seals : []), ...(links[n]?.row.seals ?? [])]);
  });
}

function summed(counts: readonly SealCount[]): readonly SealCount[] {
  const byId = new Map<string, number>();
  for (const { id, qty } of counts) byId.set(id, (byId.get(id) ?? 0) + qty);
  return [...byId].map(([id, qty]) => ({ id, qty }));
}

/** Is it a hose pushed over a spigot, held by a clamp? */
export function isClamped({ open, entry }: Joint): boolean {
  const mating = mates(open, entry);
  return mating.ok && mating.seal.kind === 'clamp';
}
