import type { Lever, PartClass } from '#car';
import { TAPE_KNOWN_TO_MM } from '#car';
import { type Bounds, bodyGap, distance, type Solid, type Vec } from '#geometry';
import { formatNumber } from '#units';
import type { CableAnswer } from './cable-answer.ts';
import { leverCrank } from './crank.ts';
import type { LeverFinding } from './lever-finding.ts';
import { sayOf } from './say.ts';
import { type LeverPiece, notchBox, sweptGap } from './swept-gap.ts';

/** Something that a lever or cable must keep off: its solids in every pose that it is looked at in. */
export interface Obstacle {
  readonly id: string;
  readonly name: string;
  readonly class: PartClass;
  readonly knownToMm: number;
  /** One list for each pose; the first is as drawn. */
  readonly poses: readonly (readonly Solid[])[];
  /** Least gap that lever or cable keep from it [mm]. */
  readonly wantMm: number;
  /** What a shield would lower that to, where it is hot and bare [mm]. */
  readonly shieldedMm?: number;
}

/** How near a lever comes to one thing over its swing. */
export interface SweepGap {
  readonly part: string;
  readonly name: string;
  readonly gapMm: number;
  readonly worstMm: number;
  readonly bestMm: number;
  readonly wantMm: number;
  readonly turnDeg: number;
  readonly atMm: Vec;
  /** To be cut away for the gap that is wanted: how deep, and the box it lies in; null where it clears [mm]. */
  readonly notch: { readonly depthMm: number; readonly minMm: Vec; readonly maxMm: Vec } | null;
}

/** How near a cable runs to one thing. */
export interface CableGap {
  readonly cable: string;
  readonly part: string;
  readonly name: string;
  readonly gapMm: number;
  readonly worstMm: number;
  readonly bestMm: number;
  readonly wantMm: number;
  readonly atMm: Vec;
}

/** Gaps up to so much more than is wanted are listed [mm]. */
const LISTED_MM = 25;

/** The swing of a lever against what stands round it, nearest to its limit first. */
export function sweepGaps(lever: Lever, obstacles: readonly Obstacle[]): readonly SweepGap[] {
  const crank = leverCrank(lever);
  const pieces = leverPieces(lever);
  const known = lever.knownToMm ?? TAPE_KNOWN_TO_MM;
  return obstacles
    .flatMap((thing): SweepGap[] => {
      const solids = thing.poses.flat();
      const near = solids
        .map((solid) => ({ solid, gap: sweptGap(pieces, crank, solid, thing.wantMm + LISTED_MM) }))
        .filter(({ gap }) => gap !== undefined)
        .toSorted((a, b) => a.gap!.gapMm - b.gap!.gapMm);
      const gap = near[0]?.gap;
      if (gap === undefined) return [];
      const boxes = near.flatMap(({ solid, gap: own }) =>
        own!.gapMm < thing.wantMm ? (notchBox(pieces, crank, solid, thing.wantMm) ?? []) : [],
      );
      return [
        {
          part: thing.id,
          name: thing.name,
          ...spread(gap.gapMm, known + thing.knownToMm),
          wantMm: thing.wantMm,
          turnDeg: (gap.turnRad * 180) / Math.PI,
          atMm: gap.onMm,
          notch: boxes.length === 0 ? null : { depthMm: thing.wantMm - gap.gapMm, ...together(boxes) },
        },
      ];
    })
    .toSorted((a, b) => a.gapMm - a.wantMm - (b.gapMm - b.wantMm));
}

const spread = (gapMm: number, knownToMm: number) => ({ gapMm, worstMm: gapMm - knownToMm, bestMm: gapMm + knownToMm });

/** The straight round pieces of a lever. */
export const leverPieces = (lever: Lever): readonly LeverPiece[] =>
  (lever.shapes ?? []).flatMap(({ pointsMm, radiusMm }) =>
    pointsMm.length === 1
      ? [{ fromMm: pointsMm[0]!, toMm: pointsMm[0]!, radiusMm }]
      : pointsMm.slice(1).map((toMm, i) => ({ fromMm: pointsMm[i]!, toMm, radiusMm })),
  );

const together = (boxes: readonly Bounds[]): { readonly minMm: Vec; readonly maxMm: Vec } => ({
  minMm: [0, 1, 2].map((k) => Math.min(...boxes.map(({ min }) => min[k]!))) as unknown as Vec,
  maxMm: [0, 1, 2].map((k) => Math.max(...boxes.map(({ max }) => max[k]!))) as unknown as Vec,
});

/** A cable against what stands round it, nearest to its limit first. */
export function cableGaps(cable: CableAnswer, knownToMm: number, obstacles: readonly Obstacle[]): readonly CableGap[] {
  const body = { part: cable.cable, path: Float64Array.from(cable.pathMm.flat()), radiusMm: cable.odMm / 2 };
  return obstacles
    .flatMap((thing): CableGap[] => {
      const gap = thing.poses
        .flat()
        .map((solid) => bodyGap(body, solid, thing.wantMm + LISTED_MM))
        .reduce((least, one) => (one.gapMm < least.gapMm ? one : least), {
          gapMm: Infinity,
          at: [0, 0, 0] as Vec,
          on: [0, 0, 0] as Vec,
        });
      if (!Number.isFinite(gap.gapMm)) return [];
      return [
        {
          cable: cable.cable,
          part: thing.id,
          name: thing.name,
          ...spread(gap.gapMm, knownToMm + thing.knownToMm),
          wantMm: thing.wantMm,
          atMm: gap.at,
        },
      ];
    })
    .toSorted((a, b) => a.gapMm - a.wantMm - (b.gapMm - b.wantMm));
}

const whole = (value: number): string => formatNumber(value);
const range = (row: SweepGap | CableGap): string =>
  `${whole(row.gapMm)} mm (${whole(row.worstMm)} to ${whole(row.bestMm)})`;
const places = (at: Vec): string => at.map(whole).join(', ');

/** Where the swing of a lever is too near to something, with what must be cut away. */
export function sweepFindings(lever: Lever, gaps: readonly SweepGap[]): LeverFinding[] {
  const say = sayOf(lever);
  return gaps.flatMap((row): LeverFinding[] => {
    if (row.worstMm >= row.wantMm) return [];
    const isBroken = row.gapMm < row.wantMm;
    const { notch } = row;
    const place =
      row.gapMm < 0
        ? `it runs ${whole(-row.gapMm)} mm (${whole(-row.bestMm)} to ${whole(-row.worstMm)}) into ${row.name}`
        : `it comes to ${range(row)} of ${row.name}`;
    const cures =
      notch === null
        ? [`measure both again: within ${whole(row.gapMm - row.worstMm)} mm it may be too near`]
        : [
            `cut ${row.name} away ${whole(Math.ceil(notch.depthMm))} mm deep, from ${places(notch.minMm)} to ${places(notch.maxMm)} mm`,
            `or move the lever or ${row.name} ${whole(Math.ceil(notch.depthMm))} mm apart`,
          ];
    return [
      say(
        isBroken ? 'stop' : 'fix',
        'lever-sweep',
        `${place} at ${whole(row.turnDeg)} deg of its swing; ${whole(row.wantMm)} are wanted`,
        'common-practice',
        {
          part: row.part,
          value: row.gapMm,
          limit: row.wantMm,
          unit: 'mm',
          place: row.atMm,
          cures,
        },
      ),
    ];
  });
}

/** A place this far along from an end of a cable is beside that end [mm]. */
const BESIDE_END_MM = 150;

/** Where a cable is too near to something hot, moving or solid. */
export function cableGapFindings(
  lever: Lever,
  cable: CableAnswer,
  gaps: readonly CableGap[],
  obstacles: readonly Obstacle[],
): LeverFinding[] {
  const say = sayOf(lever);
  return gaps.flatMap((row): LeverFinding[] => {
    if (row.worstMm >= row.wantMm) return [];
    const thing = obstacles.find(({ id }) => id === row.part);
    if (thing === undefined) return [];
    const matters = thing.class !== 'fixed' || row.gapMm < 0;
    const level = row.gapMm < row.wantMm ? (matters ? 'stop' : 'fix') : matters ? 'fix' : 'note';
    const missing = whole(Math.ceil(row.wantMm - (row.gapMm < row.wantMm ? row.gapMm : row.worstMm)));
    const shield =
      thing.shieldedMm === undefined
        ? []
        : [
            `a shield on ${row.name}: ${whole(thing.shieldedMm)} mm are wanted then${row.gapMm < thing.shieldedMm ? `, ${whole(Math.ceil(thing.shieldedMm - row.gapMm))} short still` : ''}`,
          ];
    return [
      say(
        level,
        thing.class === 'hot' ? 'cable-hot' : 'cable-gap',
        `${cable.name} runs ${row.gapMm < 0 ? `${whole(-row.gapMm)} mm into` : `${range(row)} from`} ${row.name}${endWords(cable, row.atMm)}; ${whole(row.wantMm)} are wanted${thing.class === 'hot' ? ': its liner softens and drags, then sticks' : ''}`,
        'common-practice',
        {
          link: cable.cable,
          part: row.part,
          value: row.gapMm,
          limit: row.wantMm,
          unit: 'mm',
          place: row.atMm,
          cures: [`its path ${missing} mm farther away there`, ...shield],
        },
      ),
    ];
  });
}

function endWords({ pathMm }: CableAnswer, atMm: Vec): string {
  if (distance(pathMm.at(-1)!, atMm) < BESIDE_END_MM) return ' beside its far end';
  return distance(pathMm[0]!, atMm) < BESIDE_END_MM ? ' beside its end at the lever' : '';
}
