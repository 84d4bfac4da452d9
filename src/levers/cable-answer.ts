import type { Car, Lever, LeverCable, PanelHole, Part } from '#car';
import type { Vec } from '#geometry';
import { angleBetweenDeg, cablePath, nearestOnPath } from './cable-path.ts';
import type { Chain, ChainRun } from './chain.ts';
import { cableLoss } from './effort.ts';
import { slantedHole } from './effort-formulas.ts';
import { limits } from './limits.ts';
import { leadIn } from './travel.ts';

/** Where a cable goes through a part, and the hole it wants there. */
export interface CableCrossing {
  readonly part: string;
  readonly atMm: Vec;
  /** How far the path passes from the place that was named [mm]. */
  readonly offMm: number;
  /** Between the cable and the normal of the plate; null where the plate's way is not known [deg]. */
  readonly slantDeg: number | null;
  /** Round hole, a grommet's wall not counted, 1 mm of play all round [mm]. */
  readonly clearHoleMm: number;
  readonly hasHoleMm: number | null;
}

export interface CableAnswer {
  readonly cable: string;
  readonly name: string;
  readonly odMm: number;
  /** The conduit, bends rounded as wide as wanted where there is room [mm]. */
  readonly pathMm: readonly Vec[];
  readonly lengthMm: number;
  /** What to order: more or less by so much [mm]. */
  readonly allowanceMm: readonly [number, number];
  readonly bendDeg: number;
  /** Widest radius that its tightest corner has room for; null: no bend [mm]. */
  readonly largestRadiusMm: number | null;
  readonly tightestMm: Vec | null;
  readonly wantedRadiusMm: number;
  /** Force out over force in [-]. */
  readonly passesShare: number;
  /** Core travel over the lever's swing, both ways from rest [mm]. */
  readonly coreMm: readonly [number, number];
  readonly nearLeadDeg: number;
  readonly farLeadDeg: number;
  readonly leadLimitDeg: number;
  readonly crossings: readonly CableCrossing[];
}

/** A conduit is ordered to what a tape along its path tells: 2 % and 20 mm either way, common practice. */
const ALLOWANCE_SHARE = 0.02;
const ALLOWANCE_MM = 20;
/** Play round a cable in its hole, across [mm]. */
const HOLE_PLAY_MM = 2;

/** Path, bends, travel and ends of one cable of a chain. */
export function cableAnswer(car: Pick<Car, 'parts'>, chain: Chain, run: ChainRun, index: number): CableAnswer {
  const joint = chain.joints[index]!;
  const cable = joint.link as LeverCable;
  const wantedRadiusMm = cable.leastRadiusMm ?? limits.cableRadiusMm.value;
  const path = cablePath(cable.pathMm, wantedRadiusMm);
  const [near, far] = [cable.pathMm[0]!, cable.pathMm.at(-1)!];
  const states = run.states.map(({ joints }) => joints[index]!);
  const free = (pin: Vec): number => Math.hypot(pin[0] - near[0], pin[1] - near[1], pin[2] - near[2]);
  const core = states.map(({ fromPinMm }) => free(joint.fromPinMm) - free(fromPinMm));
  const allowance = Math.ceil((ALLOWANCE_MM + ALLOWANCE_SHARE * path.lengthMm) / 5) * 5;
  return {
    cable: cable.id,
    name: cable.name ?? cable.id,
    odMm: cable.odMm,
    pathMm: path.pointsMm,
    lengthMm: path.lengthMm,
    allowanceMm: [-allowance, allowance],
    bendDeg: path.bendDeg,
    largestRadiusMm: path.largestRadiusMm,
    tightestMm: path.tightestMm,
    wantedRadiusMm,
    passesShare: cableLoss(cable).passesShare,
    coreMm: core.length === 0 ? [0, 0] : [Math.min(...core), Math.max(...core)],
    nearLeadDeg: leadIn(
      states.map((s) => ({ pinMm: s.fromPinMm })),
      near,
      path.outOfStart,
    ).mostDeg,
    farLeadDeg: leadIn(
      states.map((s) => ({ pinMm: s.toPinMm })),
      far,
      path.outOfEnd,
    ).mostDeg,
    leadLimitDeg: cable.leadInDeg ?? limits.leadInDeg.value,
    crossings: (cable.crossing ?? []).map((row) => crossing(car, cable, path.pointsMm, row)),
  };
}

type CrossingRow = NonNullable<LeverCable['crossing']>[number];

function crossing(car: Pick<Car, 'parts'>, cable: LeverCable, pathMm: readonly Vec[], row: CrossingRow): CableCrossing {
  const { atMm, way, offMm } = nearestOnPath(pathMm, row.atMm);
  const plate = plateOf(car.parts.find((part) => part.id === row.part));
  const off = plate === undefined ? null : angleBetweenDeg(way, plate.normal);
  const slantDeg = off === null ? null : Math.min(off, 180 - off);
  const width =
    slantDeg === null || slantDeg > MOST_SLANT ? cable.odMm : slantedHole(cable.odMm, slantDeg, plate!.thicknessMm);
  return {
    part: row.part,
    atMm,
    offMm,
    slantDeg,
    clearHoleMm: width + HOLE_PLAY_MM,
    hasHoleMm: row.holeMm ?? null,
  };
}

/** A cable that goes through a plate flatter than this wants another path, not a hole [deg]. */
const MOST_SLANT = 75;

/** The way a thin box stands: along its least side. */
function plateOf(part: Part | undefined): { readonly normal: Vec; readonly thicknessMm: number } | undefined {
  const shape = part?.shapes.find(({ box, turnDeg }) => box !== undefined && turnDeg === undefined);
  if (shape?.box === undefined) return undefined;
  const { minMm, maxMm } = shape.box;
  const sides = [maxMm[0] - minMm[0], maxMm[1] - minMm[1], maxMm[2] - minMm[2]];
  const thicknessMm = Math.min(...sides);
  const k = sides.indexOf(thicknessMm);
  return { normal: [Number(k === 0), Number(k === 1), Number(k === 2)], thicknessMm };
}

/** The hole that a cable wants in a part, as a hole of a panel. */
export const crossingHole = (
  lever: Pick<Lever, 'id'>,
  cable: string,
  at: CableCrossing,
): PanelHole & { readonly part: string } => ({
  part: at.part,
  id: `${cable}-hole`,
  for: lever.id,
  atMm: [at.atMm[0], at.atMm[1], at.atMm[2]],
  diameterMm: Math.ceil(at.hasHoleMm ?? at.clearHoleMm),
  fitted: 'grommet',
});
