import type { Vec } from '#geometry';
import { bendsOfWay, type WayOfFlow } from '../losses/bends-of-way.ts';
import { entranceLoss, exitLoss } from '../losses/fitting-loss.ts';
import { hoseEndLoss } from '../losses/hose-end-loss.ts';
import { lineLoss } from '../losses/line-loss.ts';
import type { Flowing, Loss } from '../losses/loss.ts';
import { measuredLoss } from '../losses/measured-loss.ts';
import { restrictorLoss } from '../losses/restrictor-loss.ts';
import { boreRoughnessM } from '../losses/roughness.ts';
import type { LineRun, MeasuredFitting, Stretch } from './line-run.ts';

/** One loss of a line, with the stretches it comes from. */
export interface LinePiece {
  readonly loss: Loss;
  readonly what: Stretch['what'] | 'entrance' | 'exit' | 'restrictor';
  readonly boreM: number;
  readonly lengthM: number;
  /** How far it turns the flow [deg]. */
  readonly turnDeg: number;
  readonly row?: string;
}

/** Which ends of a line open into a vessel: fluid is drawn together there, or comes to rest. */
export interface LineMouths {
  readonly fromVessel: boolean;
  readonly toVessel: boolean;
}

/** The circuit's fluid as it was where a part was measured; absent temperature: as usual for such a circuit. */
export type MeasuredIn = (where: string, atC: number | undefined) => Flowing;

function measuredPiece(where: string, { curveLMinKpa, curveAtC }: MeasuredFitting, measuredIn: MeasuredIn): Loss {
  const { viscosityPaS, densityKgM3 } = measuredIn(where, curveAtC);
  const points = curveLMinKpa
    .filter(([flow]) => flow > 0)
    .map(([flow, kpa]) => ({ flowM3S: flow / 60_000, dropPa: kpa * 1000, viscosityPaS, densityKgM3 }));
  return measuredLoss(where, points);
}

/** The losses of a line from its `from` to its `to`, each hose, tube and fitting on its own. */
export function linePieces(run: LineRun, mouths: LineMouths, measuredIn: MeasuredIn): LinePiece[] {
  const groups = grouped(run.stretches);
  const out: LinePiece[] = [];
  const firstBore = groups[0]!.boreMm / 1000;
  const lastBore = groups.at(-1)!.boreMm / 1000;
  if (mouths.fromVessel)
    out.push({
      ...none,
      what: 'entrance',
      boreM: firstBore,
      loss: entranceLoss(`${run.line}, entrance`, firstBore, 'sharp'),
    });
  groups.forEach((group, i) => {
    out.push(isBore(group) ? borePiece(run, group) : fittingPiece(run, groups, i, measuredIn));
  });
  if (mouths.toVessel)
    out.push({ ...none, what: 'exit', boreM: lastBore, loss: exitLoss(`${run.line}, exit`, lastBore) });
  return out;
}

const none = { lengthM: 0, turnDeg: 0 } as const;

/** Stretches of one bore in a row that are one thing to the flow. */
interface Group {
  readonly what: Stretch['what'];
  readonly row?: string;
  readonly boreMm: number;
  readonly restrictorMm?: number;
  readonly measured?: MeasuredFitting;
  turnDeg?: number;
  lengthMm: number;
  pathMm: Vec[];
  /** The paths that it was joined from. */
  readonly paths: (readonly Vec[])[];
}

const isBore = (group: Group): boolean => group.what === 'hose' || group.what === 'tube';

function grouped(stretches: readonly Stretch[]): Group[] {
  const out: Group[] = [];
  for (const stretch of stretches) {
    const last = out.at(-1);
    const joins =
      last !== undefined &&
      last.what === stretch.what &&
      last.boreMm === stretch.boreMm &&
      last.restrictorMm === undefined &&
      stretch.restrictorMm === undefined &&
      last.measured === stretch.measured;
    if (joins) {
      last.lengthMm += stretch.lengthMm;
      if (stretch.turnDeg !== undefined) last.turnDeg = (last.turnDeg ?? 0) + stretch.turnDeg;
      last.pathMm.push(...stretch.pathMm.slice(1));
      last.paths.push(stretch.pathMm);
    } else out.push({ ...stretch, pathMm: [...stretch.pathMm], paths: [stretch.pathMm] });
  }
  return out;
}

interface KnownBends {
  readonly paths: Group['paths'];
  readonly boreM: number;
  readonly curve: WayOfFlow;
}

const bendsByPath = new WeakMap<readonly Vec[], KnownBends[]>();

/** The bends of a hose or tube; cures ask the same lines over and over, so those of a path are worked out once for as long as it is held. */
function knownBends(where: string, { paths, pathMm }: Group, boreM: number): WayOfFlow {
  const first = paths[0]!;
  const rows = bendsByPath.get(first) ?? [];
  const had = rows.find(
    (row) =>
      row.boreM === boreM && row.paths.length === paths.length && row.paths.every((path, i) => path === paths[i]),
  );
  if (had !== undefined) return had.curve;
  const curve = bendsOfWay(where, pathMm, boreM);
  bendsByPath.set(first, [...rows, { paths, boreM, curve }]);
  return curve;
}

function borePiece(run: LineRun, group: Group): LinePiece {
  const boreM = group.boreMm / 1000;
  const where = `${run.line}, ${group.what}`;
  const curve = knownBends(where, group, boreM);
  const lengthM = Math.max(group.lengthMm, 1e-3) / 1000;
  return {
    what: group.what,
    ...(group.row === undefined ? {} : { row: group.row }),
    boreM,
    lengthM,
    turnDeg: curve.bends.reduce((sum, bend) => sum + (bend.angleRad * 180) / Math.PI, 0),
    loss: lineLoss({
      where,
      boreM,
      lengthM,
      roughnessM: boreRoughnessM(group.what === 'tube' ? 'drawn-tube' : 'smooth-hose'),
      bends: curve.bends,
    }),
  };
}

/** A fitting's own steps: into it from what lies before, and out of it into a hose or tube behind. */
function fittingPiece(run: LineRun, groups: readonly Group[], at: number, measuredIn: MeasuredIn): LinePiece {
  const group = groups[at]!;
  const [before, behind] = [groups[at - 1], groups[at + 1]];
  const boreM = group.boreMm / 1000;
  const lengthM = group.lengthMm / 1000;
  const row = group.row === undefined ? {} : { row: group.row };
  const where = `${run.line}, ${group.what}`;
  if (group.restrictorMm !== undefined) {
    const loss = restrictorLoss({ where: `${run.line}, restrictor`, boreM: group.restrictorMm / 1000 });
    return { what: 'restrictor', ...row, boreM: group.restrictorMm / 1000, lengthM, turnDeg: 0, loss };
  }
  const turnDeg = group.turnDeg ?? turned(group.pathMm);
  if (group.measured !== undefined)
    return {
      what: group.what,
      ...row,
      boreM,
      lengthM,
      turnDeg,
      loss: measuredPiece(where, group.measured, measuredIn),
    };
  return {
    what: group.what,
    ...row,
    boreM,
    lengthM,
    turnDeg,
    loss: hoseEndLoss({
      where,
      firstBoreM: (before?.boreMm ?? group.boreMm) / 1000,
      boreM,
      secondBoreM: (behind !== undefined && isBore(behind) ? behind.boreMm : group.boreMm) / 1000,
      angleDeg: Math.min(180, turnDeg),
      lengthM,
    }),
  };
}

/** Points of a body are written to a thousandth of a millimetre: shorter steps say nothing of direction [mm]. */
const STEP_MM = 0.5;

/** How far a path turns in all [deg]. */
function turned(path: readonly Vec[]): number {
  let sum = 0;
  let last: Vec | null = null;
  let from = path[0]!;
  for (const point of path.slice(1)) {
    const step: Vec = [point[0] - from[0], point[1] - from[1], point[2] - from[2]];
    const length = Math.hypot(step[0], step[1], step[2]);
    if (length < STEP_MM) continue;
    const way: Vec = [step[0] / length, step[1] / length, step[2] / length];
    if (last !== null)
      sum += Math.acos(Math.max(-1, Math.min(1, way[0] * last[0] + way[1] * last[1] + way[2] * last[2])));
    last = way;
    from = point;
  }
  return Math.round((sum * 180) / Math.PI);
}
