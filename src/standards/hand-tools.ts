import type { SourceId } from '#sources';

/** What is put on a screw or nut to turn it. */
export type ToolKind = 'open-end' | 'ring' | 'ratchet' | 'crow-foot' | 'hex-key' | 'driver' | 'hand';

/** A spanner, by the hexagon it takes: its length, and how thick each of its heads is [mm]. */
export interface SpannerRow {
  readonly acrossFlatsMm: number;
  readonly lengthMm: number;
  readonly openThickMm: number;
  readonly ringThickMm: number;
  readonly source: SourceId;
}

/** Usual combination spanners, recalled: measure the one in your hand. */
export const spanners = [
  { acrossFlatsMm: 6, lengthMm: 105, openThickMm: 4, ringThickMm: 6, source: 'from-memory' },
  { acrossFlatsMm: 8, lengthMm: 120, openThickMm: 5, ringThickMm: 7.5, source: 'from-memory' },
  { acrossFlatsMm: 10, lengthMm: 140, openThickMm: 5.7, ringThickMm: 9, source: 'from-memory' },
  { acrossFlatsMm: 13, lengthMm: 165, openThickMm: 6.5, ringThickMm: 11, source: 'from-memory' },
  { acrossFlatsMm: 17, lengthMm: 205, openThickMm: 7.6, ringThickMm: 12.5, source: 'from-memory' },
  { acrossFlatsMm: 19, lengthMm: 230, openThickMm: 8.4, ringThickMm: 13.5, source: 'from-memory' },
  { acrossFlatsMm: 22, lengthMm: 265, openThickMm: 9, ringThickMm: 15, source: 'from-memory' },
  { acrossFlatsMm: 27, lengthMm: 310, openThickMm: 10.5, ringThickMm: 17, source: 'from-memory' },
  { acrossFlatsMm: 32, lengthMm: 370, openThickMm: 12, ringThickMm: 20, source: 'from-memory' },
  { acrossFlatsMm: 36, lengthMm: 410, openThickMm: 13, ringThickMm: 22, source: 'from-memory' },
  { acrossFlatsMm: 41, lengthMm: 460, openThickMm: 14.5, ringThickMm: 24, source: 'from-memory' },
  { acrossFlatsMm: 50, lengthMm: 540, openThickMm: 17, ringThickMm: 27, source: 'from-memory' },
  { acrossFlatsMm: 60, lengthMm: 620, openThickMm: 20, ringThickMm: 30, source: 'from-memory' },
] as const satisfies readonly SpannerRow[];

/** A drive: socket length, what the ratchet behind it takes, its extension bars [mm]. */
export interface DriveRow {
  /** Largest hexagon it is usual for [mm]. */
  readonly toAcrossFlatsMm: number;
  readonly name: string;
  readonly socketMm: number;
  readonly ratchetHeadMm: number;
  readonly ratchetDeepMm: number;
  readonly handleMm: number;
  readonly lengthMm: number;
  readonly barOdMm: number;
  readonly bars: readonly number[];
  readonly source: SourceId;
}

export const drives = [
  {
    toAcrossFlatsMm: 13,
    name: '1/4 in',
    socketMm: 25,
    ratchetHeadMm: 25,
    ratchetDeepMm: 20,
    handleMm: 14,
    lengthMm: 140,
    barOdMm: 9,
    bars: [0, 50, 150],
    source: 'from-memory',
  },
  {
    toAcrossFlatsMm: 19,
    name: '3/8 in',
    socketMm: 30,
    ratchetHeadMm: 33,
    ratchetDeepMm: 26,
    handleMm: 18,
    lengthMm: 200,
    barOdMm: 13,
    bars: [0, 75, 150, 250],
    source: 'from-memory',
  },
  {
    toAcrossFlatsMm: 32,
    name: '1/2 in',
    socketMm: 40,
    ratchetHeadMm: 43,
    ratchetDeepMm: 34,
    handleMm: 22,
    lengthMm: 260,
    barOdMm: 17,
    bars: [0, 75, 125, 250],
    source: 'from-memory',
  },
  {
    toAcrossFlatsMm: 60,
    name: '3/4 in',
    socketMm: 60,
    ratchetHeadMm: 68,
    ratchetDeepMm: 52,
    handleMm: 30,
    lengthMm: 500,
    barOdMm: 28,
    bars: [0, 100, 200],
    source: 'from-memory',
  },
] as const satisfies readonly DriveRow[];

/** A hexagon key: its two arms, each from the outside of the bend [mm]. */
export interface HexKeyRow {
  readonly acrossFlatsMm: number;
  readonly shortMm: number;
  readonly longMm: number;
  readonly source: SourceId;
}

export const hexKeys = [
  { acrossFlatsMm: 1.5, shortMm: 15.5, longMm: 46.5, source: 'iso-2936' },
  { acrossFlatsMm: 2, shortMm: 18, longMm: 52, source: 'iso-2936' },
  { acrossFlatsMm: 2.5, shortMm: 20.5, longMm: 58.5, source: 'iso-2936' },
  { acrossFlatsMm: 3, shortMm: 23, longMm: 66, source: 'iso-2936' },
  { acrossFlatsMm: 4, shortMm: 29, longMm: 74, source: 'iso-2936' },
  { acrossFlatsMm: 5, shortMm: 33, longMm: 85, source: 'iso-2936' },
  { acrossFlatsMm: 6, shortMm: 38, longMm: 96, source: 'iso-2936' },
  { acrossFlatsMm: 8, shortMm: 44, longMm: 108, source: 'iso-2936' },
  { acrossFlatsMm: 10, shortMm: 50, longMm: 122, source: 'iso-2936' },
  { acrossFlatsMm: 12, shortMm: 57, longMm: 137, source: 'iso-2936' },
  { acrossFlatsMm: 14, shortMm: 70, longMm: 154, source: 'iso-2936' },
  { acrossFlatsMm: 17, shortMm: 80, longMm: 177, source: 'iso-2936' },
] as const satisfies readonly HexKeyRow[];

/** A screwdriver, by hand: blade, then a handle with the hand round it [mm]. */
export const usualDriver = {
  bladeOdMm: 8,
  bladeMm: 100,
  handleOdMm: 32,
  handleMm: 100,
  source: 'from-memory',
} as const;

/** What one bite must turn before the tool takes the next. */
export interface SwingRow {
  readonly kind: Exclude<ToolKind, 'driver' | 'hand'>;
  readonly leastDeg: number;
  readonly why: string;
  readonly source: SourceId;
}

export const swings = [
  {
    kind: 'open-end',
    leastDeg: 30,
    why: 'a jaw set 15 degrees off its handle, turned over at each bite; a straight one wants 60',
    source: 'navy-hand-tools',
  },
  { kind: 'ring', leastDeg: 30, why: 'twelve points', source: 'navy-hand-tools' },
  { kind: 'ratchet', leastDeg: 12, why: 'thirty teeth with a little over', source: 'common-practice' },
  { kind: 'crow-foot', leastDeg: 60, why: 'a plain jaw on six flats', source: 'geometry' },
  { kind: 'hex-key', leastDeg: 60, why: 'six sides', source: 'geometry' },
] as const satisfies readonly SwingRow[];

/** Room that a bare hand and arm take; clenched round a handle it is as thick as it is flat and wide [mm]. */
export const usualHand = {
  /** Across a flat hand at the knuckles. */
  acrossMm: 100,
  /** Thickness of a flat hand. */
  thickMm: 55,
  /** Forearm in light clothes. */
  armMm: 100,
  /** From wrist to finger tips. */
  longMm: 190,
  /** From shoulder to grip. */
  reachMm: 650,
  source: 'mil-std-1472',
} as const;
