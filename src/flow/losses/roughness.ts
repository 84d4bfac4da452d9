import type { SourceId } from '#sources';
import { FlowError } from '../flow-error.ts';

interface RoughnessRow {
  readonly id: string;
  readonly text: string;
  /** Equivalent sand roughness: the value worked with, and the least and the most met with [mm]. */
  readonly roughnessMm: number;
  readonly fromMm: number;
  readonly toMm: number;
  readonly source: SourceId;
}

/** Walls of hoses and tubes. A convoluted bore is a row of rings; its figure stands for their loss, not for their depth. */
export const boreWalls = [
  {
    id: 'drawn-tube',
    text: 'drawn tube: aluminium, copper, steel, stainless',
    roughnessMm: 0.0015,
    fromMm: 0.001,
    toMm: 0.003,
    source: 'from-memory',
  },
  {
    id: 'smooth-hose',
    text: 'smooth rubber or PTFE bore',
    roughnessMm: 0.003,
    fromMm: 0.0015,
    toMm: 0.01,
    source: 'from-memory',
  },
  {
    id: 'fabric-hose',
    text: 'rubber hose whose bore shows its fabric',
    roughnessMm: 0.05,
    fromMm: 0.02,
    toMm: 0.2,
    source: 'from-memory',
  },
  {
    id: 'convoluted-hose',
    text: 'convoluted PTFE bore',
    roughnessMm: 0.5,
    fromMm: 0.2,
    toMm: 1.5,
    source: 'from-memory',
  },
  {
    id: 'steel-pipe',
    text: 'commercial steel pipe',
    roughnessMm: 0.0457,
    fromMm: 0.03,
    toMm: 0.06,
    source: 'tp-410',
  },
] as const satisfies readonly RoughnessRow[];

export type BoreWallId = (typeof boreWalls)[number]['id'];

/** Equivalent sand roughness of a wall [m]. */
export function boreRoughnessM(wall: BoreWallId): number {
  const row = boreWalls.find((r) => r.id === wall);
  if (row === undefined)
    throw new FlowError('wall of a bore', `"${String(wall)}"`, boreWalls.map((r) => r.id).join(', '));
  return row.roughnessMm / 1000;
}
