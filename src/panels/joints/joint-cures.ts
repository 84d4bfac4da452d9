import type { PanelEdge } from '#car';
import { dot, sub } from '#geometry';
import { mm } from '../finding.ts';
import { type EdgeOnCar, profileAt } from './edge-profile.ts';
import { type JointFault, jointCloses, jointFault, lapWanted } from './joint-fault.ts';
import { type MeasuredJoint, measuredJoint } from './measured-joint.ts';

type Added = Pick<PanelEdge, 'overlapMm' | 'flange' | 'joggle'>;

/** What is written on an edge. */
interface Written {
  readonly of: EdgeOnCar;
  readonly added: Added;
}

/** A cure by folding or widening: what to write on which edges, and the words. */
export interface JointCure {
  readonly written: readonly Written[];
  readonly text: string;
}

/** Joints in words of one edge: "PN2R A-B". */
export const edgeWords = ({ panel, edge }: EdgeOnCar): string => `${panel.id} ${edge.id}`;

/** More than this is another panel, not a cure [mm]. */
const MOST_MM = 120;

/** Folds and laps that, measured again, leave nothing open: each is tried, none is only thought of. */
export function foldCures(joint: MeasuredJoint): readonly JointCure[] {
  const { first, second } = joint;
  const found = [...writtenOn(first, second, joint), ...writtenOn(second, first, joint)].flatMap((written) =>
    tried(joint, written),
  );
  // One a kind is enough to choose from.
  return found.filter((cure, i) => found.findIndex((one) => kindOf(one) === kindOf(cure)) === i);
}

const kindOf = ({ written }: JointCure): string => Object.keys(written[0]!.added)[0]!;

function writtenOn(of: EdgeOnCar, other: EdgeOnCar, joint: MeasuredJoint): readonly (readonly Written[])[] {
  const { spec } = of.edge;
  if ((spec?.flange ?? spec?.joggle ?? spec?.tabs ?? spec?.overlapMm) !== undefined) return [];
  const wide = (by: number): number => Math.ceil(lapWanted(joint) + Math.max(0, by));
  const step = Math.max(...joint.stations.map(({ stepMm }) => Math.abs(stepMm)));
  const apart = Math.max(...joint.stations.map(({ apartMm }) => apartMm));
  const joggle = { stepMm: other.sheet.thicknessMm, landMm: wide(apart) };
  const flanges = turnsOnto(of, other).flatMap((fold) => {
    const low = { of, added: { flange: { heightMm: wide(0), ...fold } } };
    const high = { of, added: { flange: { heightMm: wide(step), ...fold } } };
    const theirs = other.edge.spec?.flange;
    // Where theirs is too low for both, it has to come down to this one.
    const deeper = theirs && { of: other, added: { flange: { ...theirs, heightMm: wide(step) } } };
    return [[low], [high], ...(deeper === undefined ? [] : [[low, deeper]])];
  });
  const written: readonly (readonly Written[])[] = [
    [{ of, added: { overlapMm: wide(apart) } }],
    ...(['inside', 'outside'] as const).map((towards) => [{ of, added: { joggle: { ...joggle, towards } } }]),
    ...flanges,
  ];
  return written.filter((one) =>
    one.every(({ added }) => Math.max(added.overlapMm ?? 0, added.flange?.heightMm ?? 0) <= MOST_MM),
  );
}

/** A bend of less is no flange [deg]. */
const LEAST_TURN_DEG = 20;

/** Bends that lay a flange along what the other panel has there: its sheet or its own flange. */
function turnsOnto(of: EdgeOnCar, other: EdgeOnCar): readonly Omit<NonNullable<Added['flange']>, 'heightMm'>[] {
  return profileAt(other, other.from).flatMap((piece) => {
    const way = sub(piece.to, piece.from);
    return [1, -1].flatMap((sign) => {
      const turn = Math.atan2(-sign * dot(way, of.out), sign * dot(way, of.across));
      const turnDeg = Math.round((Math.abs(turn) * 180) / Math.PI);
      if (turnDeg < LEAST_TURN_DEG || turnDeg > 180 - LEAST_TURN_DEG) return [];
      return [{ turnDeg, towards: turn > 0 ? ('inside' as const) : ('outside' as const) }];
    });
  });
}

/** What is left to say once the sheets lie on each other as they should. */
const isHeld = (fault: JointFault | undefined): boolean =>
  fault === undefined || fault.kind === 'two-rows' || fault.kind === 'row-off';

function tried(joint: MeasuredJoint, written: readonly Written[]): JointCure[] {
  const now = (edge: EdgeOnCar): EdgeOnCar => {
    const added = written.find(({ of }) => of === edge)?.added;
    return added === undefined
      ? edge
      : {
          ...edge,
          edge: { ...edge.edge, spec: { from: edge.edge.from, to: edge.edge.to, ...edge.edge.spec, ...added } },
        };
  };
  const again = measuredJoint(now(joint.first), now(joint.second));
  const fault = again && jointFault(again);
  if (again === undefined || !isHeld(fault)) return [];
  const row = fault?.kind === 'row-off' ? `, its fixings ${mm(fault.edgeMm)} from the edge` : '';
  const laps = again.stations.flatMap(({ lap }) => lap?.mm ?? []);
  if (laps.length < again.stations.length) return [];
  const text = `${written.map(wordsOf).join(', and ')}: they lie on each other by ${mm(Math.min(...laps))}${row}`;
  return [{ written, text }];
}

function wordsOf({ of, added: { overlapMm, joggle, flange } }: Written): string {
  if (flange !== undefined && of.edge.spec?.flange !== undefined)
    return `that of ${edgeWords(of)} ${mm(flange.heightMm)} high`;
  if (flange !== undefined)
    return `a flange of ${mm(flange.heightMm)} on ${edgeWords(of)}, ${flange.turnDeg} degrees ${flange.towards}`;
  if (joggle !== undefined)
    return `a joggle of ${mm(joggle.stepMm)} on ${edgeWords(of)}, ${joggle.towards}, with ${mm(joggle.landMm)} of land`;
  return `${mm(overlapMm!)} more sheet beyond ${edgeWords(of)}`;
}

/** Bringing the first edge to the second, or cutting off what is too much, in millimetres at its two corners. */
export function shiftCures(joint: MeasuredJoint, fault: JointFault): readonly string[] {
  const [start, end] = cornerNames(joint);
  const [a, b] = [joint.stations[0]!, joint.stations.at(-1)!];
  const at = (of: (station: typeof a) => number, words: (by: number) => string): string =>
    `${words(of(a))} at ${start}, ${words(of(b))} at ${end}`;
  const name = edgeWords(joint.first);
  if (fault.kind === 'overlaps')
    return [
      `trim ${name} by ${at(
        ({ apartMm }) => apartMm,
        (by) => mm(Math.max(0, -by)),
      )}`,
    ];
  const cures: string[] = [];
  if (joint.stations.some(({ stepMm }) => Math.abs(stepMm) > jointCloses.value))
    cures.push(
      `set ${name} over to it: ${at(
        ({ stepMm }) => stepMm,
        (by) => `${mm(Math.abs(by))} ${by < 0 ? 'in' : 'out'}`,
      )}`,
    );
  if (fault.kind === 'apart' && joint.stations.some(({ apartMm }) => apartMm > jointCloses.value))
    cures.push(
      `${name} wider by ${at(
        ({ apartMm }) => apartMm,
        (by) => mm(Math.max(0, by)),
      )}`,
    );
  return cures;
}

/** The corners of the first panel that the ends of what is shared lie towards. */
export const cornerNames = ({ first }: MeasuredJoint): readonly [string, string] => [first.edge.from, first.edge.to];
