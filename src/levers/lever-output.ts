import type { Car, Lever } from '#car';
import { TAPE_KNOWN_TO_MM } from '#car';
import { type CableAnswer, cableAnswer } from './cable-answer.ts';
import { type Chain, chainRun, type ChainRun } from './chain.ts';
import { type CylinderAnswer, cylinderAnswer, type ForceRange } from './cylinder-answer.ts';
import { pinRadius } from './crank.ts';
import { forcesFromHandle } from './effort.ts';
import { pivotLoadN } from './pivot-load.ts';
import { norm, type Vec } from '#geometry';
import {
  type ArmAngle,
  armAngles,
  type DeadCentre,
  deadCentres,
  directionKept,
  driveMm,
  type LockUp,
  lockUps,
  ratioAt,
  ratioCurve,
  type RatioRow,
} from './travel.ts';
import type { LeverCable } from '#car';

/** What a force at the handle does at the end. */
export interface EffortRow {
  readonly handN: number;
  readonly outputN: number;
  /** On each rod or core, where it leaves the lever that drives it [N]. */
  readonly linkN: readonly number[];
}

/** What one chain of a lever does: from the handle to the last pin or the cylinder. */
export interface LeverOutput {
  /** Its rods, cables and cylinder in order, such as "K1a > R2". */
  readonly id: string;
  readonly kind: 'pin' | 'cylinder';
  /** What moves in the end, in words. */
  readonly to: string;
  /** Swing of the lever that is reached, both ways [deg]. */
  readonly turnDeg: readonly [number, number];
  readonly handleMm: readonly [number, number];
  /** Travel of the end at both ends of the swing [mm]. */
  readonly outputMm: readonly [number, number];
  /** Turn of the last crank, both ends [deg], and its own ends; null for a cylinder. */
  readonly outputDeg: readonly [number, number] | null;
  readonly outputEndsDeg: readonly [number, number] | null;
  /** Movement of the handle over that of the end; null on a dead centre. */
  readonly lowRatio: number | null;
  readonly restRatio: number | null;
  readonly highRatio: number | null;
  readonly leastRatio: number | null;
  readonly mostRatio: number | null;
  /** At rest, as well as the places are known. */
  readonly restSpreadRatio: readonly [number, number] | null;
  readonly direction: 'kept' | 'reversed' | 'across';
  readonly arms: readonly ArmAngle[];
  readonly deadCentres: readonly DeadCentre[];
  readonly lockUps: readonly LockUp[];
  readonly effort: readonly EffortRow[];
  /** On the pivot with the most force, as drawn: what its bracket has to stand; null on a dead centre [N]. */
  readonly pivotN: number | null;
  /** Of the force at the handle, what reaches the end against what would without losses [-]. */
  readonly passesShare: number | null;
  /** Travel of the handle before the end moves, from slack of the cables; null where none is given [mm]. */
  readonly lostHandleMm: number | null;
  readonly lostOutputMm: number | null;
  readonly cables: readonly CableAnswer[];
  readonly cylinder: CylinderAnswer | null;
  readonly curve: readonly RatioRow[];
}

/** A usual hand on a lever, where nothing is said [N]. */
const USUAL_N = 100;

/** Least, usual and most force on a lever [N]. */
export function forceRange(lever: Lever): ForceRange {
  const usual = lever.force?.usualN ?? USUAL_N;
  const [low, high] = lever.force?.rangeN ?? [usual, usual];
  return [low, usual, high];
}

/** One chain of a lever with its run; undefined where the chain does not stand as drawn. */
export function leverOutput(
  car: Pick<Car, 'parts'>,
  chain: Chain,
  run: ChainRun = chainRun(chain),
): LeverOutput | undefined {
  const drive = driveMm(chain.lever);
  const { states, restIndex } = run;
  if (drive === undefined || states.length === 0) return undefined;
  const radius = pinRadius(chain.crank, drive);
  const [low, rest, high] = [states[0]!, states[restIndex]!, states.at(-1)!];
  const ratios = states.map((state) => ratioAt(state, radius)).filter((ratio) => ratio !== null);
  const { end } = chain;
  const lastTurn = (state: typeof rest): number => ((state.joints.at(-1)?.toRad ?? state.turnRad) * 180) / Math.PI;
  const restRatio = ratioAt(rest, radius);
  const effort = effortRows(chain, rest, radius);
  return {
    id: [...chain.joints.map(({ link }) => link.id), ...(end.kind === 'cylinder' ? [end.cylinder.id] : [])].join(' > '),
    kind: end.kind,
    to: end.kind === 'cylinder' ? (end.cylinder.name ?? end.cylinder.id) : end.crank.name,
    turnDeg: [(low.turnRad * 180) / Math.PI, (high.turnRad * 180) / Math.PI],
    handleMm: [low.turnRad * radius, high.turnRad * radius],
    outputMm: [low.outputMm, high.outputMm],
    outputDeg: end.kind === 'pin' ? [lastTurn(low), lastTurn(high)] : null,
    outputEndsDeg:
      end.kind === 'pin' ? [(end.crank.turnRad[0] * 180) / Math.PI, (end.crank.turnRad[1] * 180) / Math.PI] : null,
    lowRatio: ratioAt(low, radius),
    restRatio,
    highRatio: ratioAt(high, radius),
    leastRatio: ratios.length === 0 ? null : Math.min(...ratios),
    mostRatio: ratios.length === 0 ? null : Math.max(...ratios),
    restSpreadRatio: restRatio === null ? null : spread(chain, restRatio, radius),
    direction: directionKept(chain, rest, drive),
    arms: armAngles(chain, run),
    deadCentres: deadCentres(chain, run),
    lockUps: lockUps(chain, run),
    effort,
    pivotN: pivotOf(chain, rest, drive, effort.at(-1)),
    passesShare: passes(effort, restRatio),
    ...slack(chain, run, radius),
    cables: chain.joints.flatMap(({ kind }, k) => (kind === 'cable' ? [cableAnswer(car, chain, run, k)] : [])),
    cylinder: cylinderAnswer(chain, run, radius, forceRange(chain.lever)) ?? null,
    curve: ratioCurve(run, radius),
  };
}

function effortRows(chain: Chain, rest: ChainRun['states'][number], radius: number): readonly EffortRow[] {
  return [...new Set(forceRange(chain.lever))].flatMap((handN) => {
    const forces = forcesFromHandle(chain, rest, radius, handN);
    return forces === undefined ? [] : [{ handN, ...forces }];
  });
}

function pivotOf(
  chain: Chain,
  rest: ChainRun['states'][number],
  drive: Vec,
  most: EffortRow | undefined,
): number | null {
  if (most === undefined) return null;
  return norm(pivotLoadN(chain, rest, drive, most.handN, most.linkN[0] ?? most.outputN));
}

function passes(effort: readonly EffortRow[], restRatio: number | null): number | null {
  const row = effort.at(-1);
  return row === undefined || restRatio === null || row.handN === 0 ? null : row.outputN / (row.handN * restRatio);
}

/** The ratio at rest with every arm as long or as short as it may be, all the wrong way together. */
function spread(chain: Chain, ratio: number, driveRadiusMm: number): readonly [number, number] {
  const off = (mm: number): number => chain.lever.knownToMm ?? Math.min(TAPE_KNOWN_TO_MM, mm);
  const radii = [
    driveRadiusMm,
    ...chain.joints.flatMap((joint) => [pinRadius(joint.from, joint.fromPinMm), pinRadius(joint.to, joint.toPinMm)]),
    pinRadius(chain.end.crank, chain.end.pinMm),
  ];
  // The last pin of a chain of joints is the end itself: its radius cancels.
  const counted = chain.end.kind === 'pin' ? radii.slice(0, -2) : radii;
  const share = counted.reduce((sum, r) => sum + off(r) / r, 0);
  return [ratio * Math.max(0, 1 - share), ratio * (1 + share)];
}

/** What slack of the cables takes from both ends, as drawn. */
function slack(chain: Chain, run: ChainRun, driveRadiusMm: number) {
  const rest = run.states[run.restIndex]!;
  const given = chain.joints.some(({ link }) => (link as LeverCable).slackMm !== undefined);
  const none = { lostHandleMm: null, lostOutputMm: null };
  if (!given) return none;
  let turns = 1;
  let lostRad = 0;
  for (const [k, joint] of chain.joints.entries()) {
    const state = rest.joints[k]!;
    lostRad += ((joint.link as LeverCable).slackMm ?? 0) / Math.abs(state.inMm * turns);
    turns *= state.rateRatio;
  }
  const [lostHandleMm, lostOutputMm] = [lostRad * driveRadiusMm, lostRad * Math.abs(rest.outputRateMm)];
  return Number.isFinite(lostHandleMm) && Number.isFinite(lostOutputMm) ? { lostHandleMm, lostOutputMm } : none;
}
