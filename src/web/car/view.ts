import type { Dragged } from '#answers';
import type { Vec } from '#geometry';
import { signal } from '../bench/signal.ts';

/** From where the car is looked at. */
export type Stand = 'walk round' | 'side' | 'top';

/** Turning back to a stand is asked for by a new object, also to the one that is on already. */
export const stand = signal<{ readonly stand: Stand }>({ stand: 'walk round' });

/** A cut through a line: square to it, so far along. */
export const section = signal<{ readonly line: string; readonly alongMm: number } | null>(null);

/** What is nearest to the line where it is cut. */
export const nearCut = signal<readonly { readonly part: string; readonly gapMm: number; readonly keepOffMm: number }[]>(
  [],
);

/** The chosen line drawn as thick as it may come at worst. */
export const ghost = signal(false);

/** The line that is looked at where a whole circuit is open. */
export const picked = signal<string | null>(null);

/** Lines on the ports of the part in the hand, as they would follow it. */
export const following = signal<Dragged['ghosts']>([]);

/** A hand is on that part: turning the car waits. */
export const isHolding = signal(false);

/** A part held in the hand: how far from where it stands. */
export const held = signal<{ readonly part: string; readonly byMm: Vec } | null>(null);

/** How each scan on the picture is drawn from where the viewer stands, by car and file. */
export const drawnScans = signal<
  ReadonlyMap<string, { readonly triangles: number; readonly ofTriangles: number; readonly errorMm: number }>
>(new Map());
