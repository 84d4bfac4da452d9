import { type Car, findPort } from '#car';
import type { Vec } from '#geometry';
import { fittingLoss } from '../losses/fitting-loss.ts';
import type { Loss } from '../losses/loss.ts';
import { dividingTee, joiningTee, teeLegLoss } from '../losses/tee.ts';
import { type DrawnCircuit, vesselFinder } from './drawn-circuit.ts';
import type { Element } from './elements.ts';

/** One leg of a tee: the end of an element. */
export interface TeeLeg {
  readonly element: string;
  readonly end: 'from' | 'to';
  /** Bore at the joint [m]; absent where the element is known by a curve only. */
  readonly boreM?: number;
  /** A pump's flow past its own relief valve is not what its leg carries: that follows from the other two. */
  readonly isPump: boolean;
}

/** A joint of three ends outside any vessel or chamber: two in line, the run, and a branch. */
export interface Tee {
  readonly joint: string;
  /** The spot that the branch begins at, as messages name it. */
  readonly words: string;
  readonly run: readonly [TeeLeg, TeeLeg];
  readonly branch: TeeLeg;
  /** Between the branch and each leg of the run, 30 to 90 [deg]. */
  readonly angleDeg: readonly [number, number];
}

/** What a tee takes from one of its legs. */
export interface TeeLoss {
  readonly element: string;
  readonly end: 'from' | 'to';
  readonly boreM: number;
  readonly loss: Loss;
}

/** The tees of a circuit, and joints of four and more ends, which count as joined without loss. */
export interface TeesOf {
  readonly tees: readonly Tee[];
  readonly crowded: readonly { readonly joint: string; readonly ends: number }[];
}

/** Two legs this far apart or further lie in line [deg]. */
const IN_LINE_DEG = 150;
/** A branch is told from the run by its bore where it is this much narrower. */
const NARROWER = 0.99;
/** The published rule begins here [deg]. */
const LEAST_ANGLE_DEG = 30;
/** A leg with a smaller share of the flow counts as one with this share: at none the coefficient on its own speed has no end. */
const LEAST_SHARE = 1e-3;

interface End extends TeeLeg {
  readonly spot: string;
  readonly isLine: boolean;
  /** Away from the joint; absent inside a part without a port. */
  readonly way?: Vec;
}

/** Finds the tees: three ends of lines, passages and pumps at one joint that is neither a vessel nor the inside of a part. */
export function teesOf(car: Car, drawn: DrawnCircuit, elements: readonly Element[]): TeesOf {
  const vesselOf = vesselFinder(drawn);
  const atJoint = new Map<string, End[]>();
  const chambers = new Set<string>();
  const look = (spot: string): string | undefined => {
    if (vesselOf(spot) !== undefined) return undefined;
    const joint = drawn.joints.of(spot);
    if (!spot.includes('.')) chambers.add(joint);
    return joint;
  };
  for (const { from, to, open } of drawn.passages) if (open === true) [from, to].forEach(look);
  for (const element of elements) {
    if (element.kind === 'relief') continue;
    for (const end of ['from', 'to'] as const) {
      const joint = look(element[end]);
      if (joint !== undefined) atJoint.set(joint, [...(atJoint.get(joint) ?? []), endOf(car, element, end)]);
    }
  }
  const tees: Tee[] = [];
  const crowded: { joint: string; ends: number }[] = [];
  for (const [joint, ends] of atJoint) {
    const isOwn = ends.filter(({ isPump }) => isPump).length > 1 || new Set(ends.map((row) => row.element)).size < 3;
    if (ends.length < 3 || chambers.has(joint) || isOwn) continue;
    if (ends.length > 3) crowded.push({ joint, ends: ends.length });
    else if (ends.some(({ boreM }) => boreM !== undefined)) tees.push(teeOf(joint, ends));
  }
  return { tees, crowded };
}

function endOf(car: Car, element: Element, end: 'from' | 'to'): End {
  const spot = element[end];
  const faces = findPort(car, spot)?.port.faces;
  const stretches = element.run?.stretches;
  const boreMm = (end === 'from' ? stretches?.[0] : stretches?.at(-1))?.boreMm ?? element.passage?.boreMm;
  // A line leaves the part as the port faces, a passage or pump goes into it.
  const sign = element.kind === 'line' ? 1 : -1;
  return {
    element: element.id,
    end,
    spot,
    isLine: element.kind === 'line',
    isPump: element.kind === 'pump',
    ...(boreMm === undefined ? {} : { boreM: boreMm / 1000 }),
    ...(faces === undefined ? {} : { way: [sign * faces[0], sign * faces[1], sign * faces[2]] as const }),
  };
}

const pairs = [
  [0, 1, 2],
  [0, 2, 1],
  [1, 2, 0],
] as const;

/** The run is the pair of lines in line; where none is, or ways through a part meet there, the narrowest end is the branch; where none is narrowest, the pair most in line. */
function teeOf(joint: string, ends: readonly End[]): Tee {
  const angles = pairs.map(([i, k]) => angleBetween(ends[i]!.way, ends[k]!.way));
  const straightest = angles.reduce((best, angle, p) => (angle > angles[best]! ? p : best), 0);
  const bores = ends.map(({ boreM }) => boreM ?? Number.POSITIVE_INFINITY);
  const least = Math.min(...bores);
  const narrow = bores.filter((bore) => bore * NARROWER <= least).length === 1 ? bores.indexOf(least) : -1;
  // How ways run inside a part is a guess: there a narrow end is a tapping, whichever way its port faces.
  const isFitting = ends.every(({ isLine }) => isLine);
  const chosen =
    (isFitting && angles[straightest]! >= IN_LINE_DEG) || narrow < 0
      ? straightest
      : pairs.findIndex(([, , branch]) => branch === narrow);
  const [i, k, b] = pairs[chosen]!;
  const branch = ends[b]!;
  const held = (deg: number): number => (deg < 0 ? 90 : Math.min(90, Math.max(LEAST_ANGLE_DEG, deg)));
  return {
    joint,
    words: branch.spot,
    run: [ends[i]!, ends[k]!],
    branch,
    angleDeg: [held(angleBetween(branch.way, ends[i]!.way)), held(angleBetween(branch.way, ends[k]!.way))],
  };
}

/** Below zero where one of the ways is not known [deg]. */
function angleBetween(a: Vec | undefined, b: Vec | undefined): number {
  if (a === undefined || b === undefined) return -1;
  const size = Math.hypot(a[0], a[1], a[2]) * Math.hypot(b[0], b[1], b[2]);
  if (size === 0) return -1;
  return (Math.acos(Math.max(-1, Math.min(1, (a[0] * b[0] + a[1] * b[1] + a[2] * b[2]) / size))) * 180) / Math.PI;
}

/**
 * What a tee takes from its legs at a stated split of the flow: by the published rule for joining and dividing flows where
 * the flow of both goes along the run; where it goes through the branch, which the rule does not know, each leg of the run
 * counts as the three-constant table's turn from run to branch.
 *
 * @param flowOf - flow of an element from its `from` to its `to` [m3/s]; absent: none
 */
export function teeLosses(tee: Tee, flowOf: (element: string) => number | undefined): TeeLoss[] {
  const legs = [...tee.run, tee.branch];
  const into = legs.map((leg) => (leg.isPump ? undefined : intoJoint(leg, flowOf(leg.element) ?? 0)));
  const known = into.reduce<number>((sum, flow) => sum + (flow ?? 0), 0);
  const flows = into.map((flow) => flow ?? -known);
  const whole = flows.reduce((most, flow, i) => (Math.abs(flow) > Math.abs(flows[most]!) ? i : most), 0);
  const combinedM3S = Math.abs(flows[whole]!);
  if (!(combinedM3S > 0)) return [];
  const bore = boreOf(tee, legs[whole]!);
  const at = (leg: TeeLeg, loss: (boreM: number) => Loss): TeeLoss => {
    const boreM = leg.boreM ?? bore;
    return { element: leg.element, end: leg.end, boreM, loss: loss(boreM) };
  };
  const where = (leg: TeeLeg): string => `${leg.element}, tee at ${tee.words}`;
  if (legs[whole] === tee.branch)
    return tee.run.map((leg) => at(leg, (boreM) => fittingLoss(where(leg), 'tee-branch-threaded', boreM)));
  const straight = tee.run[whole === 0 ? 1 : 0];
  const branchShare = Math.min(1, Math.abs(flows[2]!) / combinedM3S);
  const rule = flows[whole]! < 0 ? joiningTee : dividingTee;
  const branchOverRun = Math.min(1, (tee.branch.boreM ?? bore) / bore);
  const coefficients = rule(branchShare, branchOverRun, tee.angleDeg[whole === 0 ? 1 : 0]);
  const shareOf = (share: number): number => Math.min(1, Math.max(LEAST_SHARE, share));
  return [
    at(straight, (boreM) => {
      const share = shareOf(1 - branchShare);
      // The slow part is of equal bores; a smaller hole in the wall disturbs the run less, by its area (own choice).
      return teeLegLoss(where(straight), 'run', coefficients, boreM, bore, share, branchOverRun ** 2);
    }),
    at(tee.branch, (boreM) => teeLegLoss(where(tee.branch), 'branch', coefficients, boreM, bore, shareOf(branchShare))),
  ];
}

const intoJoint = ({ end }: TeeLeg, flowM3S: number): number => (end === 'to' ? flowM3S : -flowM3S);

/** Bore of the leg with both flows; where it is not known, of the run's other leg, else of the branch [m]. */
function boreOf(tee: Tee, leg: TeeLeg): number {
  const other = tee.run.find((row) => row !== leg && row.boreM !== undefined);
  return leg.boreM ?? other?.boreM ?? tee.branch.boreM!;
}
