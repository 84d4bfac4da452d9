import type { LeverCylinder } from '#car';
import type { Chain, ChainRun, ChainState } from './chain.ts';
import { forcesFromHandle, handleFor } from './effort.ts';
import { cylinderPressure, displacedMl, strokeFor } from './effort-formulas.ts';

/** One of the cylinders that a lever pushes. */
export interface BoreAnswer {
  readonly boreMm: number;
  readonly forceShare: number;
  /** With the least, the usual and the most force [bar]. */
  readonly pressureBar: readonly [low: number, usual: number, high: number];
  /** Hand or foot force for the band that is wanted; null where none is [N]. */
  readonly neededN: readonly [low: number, high: number] | null;
  /** Moved by the whole swing, after the free travel [ml]. */
  readonly displacedMl: number;
}

export interface CylinderAnswer {
  readonly cylinder: string;
  /** Pushed in over the whole swing [mm]. */
  readonly swingStrokeMm: number;
  /** Of the cylinder's own stroke; null where it is not given. */
  readonly strokeLeftMm: number | null;
  /** What it takes to build pressure: free travel and what hangs on it; null where nothing is given [mm]. */
  readonly usedStrokeMm: number | null;
  /** Travel of the handle up to there; null where it does not get there [mm]. */
  readonly usedHandleMm: number | null;
  /** Where pressures were worked out: at the used stroke, else as drawn. */
  readonly atTurnDeg: number;
  readonly leverRatio: number;
  readonly bores: readonly BoreAnswer[];
}

/** A lever's force: least, usual, most [N]. */
export type ForceRange = readonly [low: number, usual: number, high: number];

const PA_PER_BAR = 1e5;
const DEG = 180 / Math.PI;

/** Pressures, strokes and volumes of a cylinder at the end of a chain; undefined where it stands on a dead centre. */
export function cylinderAnswer(
  chain: Chain,
  run: ChainRun,
  driveRadiusMm: number,
  force: ForceRange,
): CylinderAnswer | undefined {
  if (chain.end.kind !== 'cylinder' || run.states.length === 0) return undefined;
  const { cylinder } = chain.end;
  const swingStrokeMm = Math.max(...run.states.map(({ outputMm }) => outputMm));
  const usedStrokeMm = usedStroke(cylinder);
  const used = usedStrokeMm === null ? undefined : stateAtStroke(run, usedStrokeMm);
  const at = used ?? run.states[run.restIndex]!;
  const bores = boresOf(cylinder).map((bore) => boreAnswer(chain, at, driveRadiusMm, force, bore, swingStrokeMm));
  if (bores.some((bore) => bore === undefined)) return undefined;
  return {
    cylinder: cylinder.id,
    swingStrokeMm,
    strokeLeftMm: cylinder.strokeMm === undefined ? null : cylinder.strokeMm - swingStrokeMm,
    usedStrokeMm,
    usedHandleMm: used === undefined ? null : Math.abs(used.turnRad) * driveRadiusMm,
    atTurnDeg: at.turnRad * DEG,
    leverRatio: driveRadiusMm / Math.abs(at.outputRateMm),
    bores: bores.filter((bore) => bore !== undefined),
  };
}

interface Bore {
  readonly boreMm: number;
  readonly forceShare: number;
}

export function boresOf(cylinder: LeverCylinder): readonly Bore[] {
  const { boreMm, secondBoreMm } = cylinder;
  if (secondBoreMm === undefined) return [{ boreMm, forceShare: 1 }];
  const first = cylinder.firstShare ?? 1 / 2;
  return [
    { boreMm, forceShare: first },
    { boreMm: secondBoreMm, forceShare: 1 - first },
  ];
}

/** Both pistons behind a balance bar take up their fluid with the one stroke of its middle: the narrower one needs most. */
function usedStroke(cylinder: LeverCylinder): number | null {
  if (cylinder.freeMm === undefined && cylinder.needsMl === undefined) return null;
  const narrow = Math.min(...boresOf(cylinder).map(({ boreMm }) => boreMm));
  return (cylinder.freeMm ?? 0) + strokeFor(narrow, cylinder.needsMl ?? 0);
}

/** The first state, going from rest to the end that pushes, at which a stroke is reached; between two looked at, in proportion. */
function stateAtStroke({ states, restIndex }: ChainRun, strokeMm: number): ChainState | undefined {
  const high = states.slice(restIndex);
  const low = states.slice(0, restIndex + 1).toReversed();
  const pushes = (side: readonly ChainState[]): number => Math.max(...side.map(({ outputMm }) => outputMm));
  const side = pushes(high) >= pushes(low) ? high : low;
  const k = side.findIndex(({ outputMm }) => outputMm >= strokeMm);
  if (k <= 0) return k < 0 ? undefined : side[0];
  const [before, after] = [side[k - 1]!, side[k]!];
  const share = (strokeMm - before.outputMm) / (after.outputMm - before.outputMm);
  return {
    ...after,
    turnRad: before.turnRad + share * (after.turnRad - before.turnRad),
    outputRateMm: before.outputRateMm + share * (after.outputRateMm - before.outputRateMm),
    outputMm: strokeMm,
  };
}

function boreAnswer(
  chain: Chain,
  at: ChainState,
  driveRadiusMm: number,
  force: ForceRange,
  { boreMm, forceShare }: Bore,
  swingStrokeMm: number,
): BoreAnswer | undefined {
  if (chain.end.kind !== 'cylinder') return undefined;
  const { cylinder } = chain.end;
  const lost = cylinder.lostShare ?? 0;
  const bars = force.map((handN) => {
    const rodN = forcesFromHandle(chain, at, driveRadiusMm, handN)?.outputN ?? Number.NaN;
    return cylinderPressure(rodN, 1, boreMm, forceShare, lost) / PA_PER_BAR;
  });
  const perPa = 1 / cylinderPressure(1, 1, boreMm, forceShare, lost);
  const needed = cylinder.wantedBar?.map((bar) => handleFor(chain, at, driveRadiusMm, bar * PA_PER_BAR * perPa));
  if (!bars.every(Number.isFinite)) return undefined;
  return {
    boreMm,
    forceShare,
    pressureBar: [bars[0]!, bars[1]!, bars[2]!],
    neededN: needed === undefined ? null : [needed[0] ?? 0, needed[1] ?? 0],
    displacedMl: displacedMl(boreMm, Math.max(0, swingStrokeMm - (cylinder.freeMm ?? 0))),
  };
}
