import { panelFixing, type PanelFixingRow, sheetRule } from '#standards';
import { usualEdge } from '../fixings/fixing-line.ts';
import { SPLIT_LAP_MM } from '../surface/split-pieces.ts';
import type { EdgeOnCar } from './edge-profile.ts';
import type { JointLap, MeasuredJoint } from './measured-joint.ts';

/** What is wrong with a joint, the first of these that is: it has one story, not five. */
export type JointFault =
  | { readonly kind: 'overlaps'; readonly mm: number }
  | { readonly kind: 'apart'; readonly mm: number }
  | { readonly kind: 'open'; readonly mm: number }
  | { readonly kind: 'lap-short'; readonly mm: number; readonly wantedMm: number }
  | {
      readonly kind: 'row-off';
      readonly mm: number;
      readonly wantedMm: number;
      readonly of: EdgeOnCar;
      readonly edgeMm: number;
    }
  | { readonly kind: 'two-rows'; readonly of: EdgeOnCar }
  | { readonly kind: 'nothing-to-fasten' };

/** What fixings can pull together and what a hand can file [mm]: as for twist. */
export const jointCloses = sheetRule('twist-lies-flat');

/** How well the two edges are known against each other [mm]. */
export const jointDoubtMm = ({ first, second }: MeasuredJoint): number =>
  Math.hypot(...[first, second].map(({ panel }) => panel.knownToMm ?? USUAL_MM));

const USUAL_MM = 3;
/** Two faces further from each other than this do not face each other as a lap would [mm]. */
const FACING_MM = 10;

export function jointFault(joint: MeasuredJoint): JointFault | undefined {
  const { stations } = joint;
  const closes = jointCloses.value;
  const worst = (of: (station: MeasuredJoint['stations'][number]) => number) => Math.max(...stations.map(of));
  const laps = stations.flatMap(({ lap }) => (lap === undefined ? [] : [lap]));
  const doubt = jointDoubtMm(joint);
  const isReached =
    laps.length === stations.length && laps.every(({ openMm }) => openMm <= Math.max(FACING_MM, closes + doubt));
  const isAsked = [joint.first, joint.second].some(({ edge: { spec } }) => lapsOver(spec));
  const past = worst(({ apartMm, stepMm }) => (Math.abs(stepMm) <= closes + doubt ? -apartMm : 0));
  if (!isAsked && past > closes) return { kind: 'overlaps', mm: past };
  if (isReached) return lapFault(joint, laps);
  const apart = worst(({ apartMm, stepMm }) => Math.max(apartMm, Math.abs(stepMm)));
  if (apart > closes) return { kind: 'apart', mm: apart };
  return ownRows(joint).length > 0 && !isAsked ? { kind: 'nothing-to-fasten' } : undefined;
}

const lapsOver = (spec: EdgeOnCar['edge']['spec']): boolean =>
  (spec?.overlapMm ?? spec?.joggle ?? spec?.flange ?? spec?.tabs) !== undefined;

function lapFault(joint: MeasuredJoint, laps: readonly JointLap[]): JointFault | undefined {
  const open = Math.max(...laps.map(({ openMm }) => openMm));
  if (open > jointCloses.value) return { kind: 'open', mm: open };
  const least = laps.reduce((a, b) => (b.mm < a.mm ? b : a));
  const wantedMm = lapWanted(joint);
  const rows = ownRows(joint);
  if (rows.length > 0 && least.mm < wantedMm - 0.05) return { kind: 'lap-short', mm: least.mm, wantedMm };
  for (const of of rows) {
    const row = fixingOf(of)!;
    const [own, other] = of === joint.first ? least.fromFreeMm : least.fromFreeMm.toReversed();
    const edgeMm = of.edge.spec!.fixing!.edgeMm ?? usualEdge(of.edge, row, of.edge.spec!.fixing!.holeMm ?? row.holeMm);
    const inLap = edgeMm - own!;
    const toFree = least.sameWay ? inLap + other! : least.mm - inLap + other!;
    const edge = sheetRule('edge-least').value * row.shankMm;
    if (toFree < edge - 0.05 || inLap < -0.05)
      return { kind: 'row-off', mm: Math.min(toFree, inLap), wantedMm: edge, of, edgeMm: own! + least.mm / 2 };
  }
  return rows.length === 2 ? { kind: 'two-rows', of: joint.second } : undefined;
}

const fixingOf = ({ edge: { spec } }: EdgeOnCar): PanelFixingRow | undefined => {
  const row = spec?.fixing && panelFixing(spec.fixing.kind, spec.fixing.size);
  return row !== undefined && (spec!.fixing!.holeMm ?? row.holeMm) > 0 ? row : undefined;
};

/** Edges whose fixings go into nothing that is named, or into the other panel: they have to find it under them. */
function ownRows({ first, second }: MeasuredJoint): readonly EdgeOnCar[] {
  const holds = (of: EdgeOnCar, other: EdgeOnCar) => {
    const into = of.edge.spec?.fixing?.into;
    return fixingOf(of) !== undefined && (into === undefined || into === other.panel.id);
  };
  return [...(holds(first, second) ? [first] : []), ...(holds(second, first) ? [second] : [])];
}

/** What has to lie on each other [mm]: two diameters either side of a row, or what a lap of a split has. */
export function lapWanted({ first, second }: MeasuredJoint): number {
  const shanks = [first, second].flatMap((of) => fixingOf(of)?.shankMm ?? []);
  return shanks.length === 0 ? SPLIT_LAP_MM : 2 * sheetRule('edge-least').value * Math.max(...shanks);
}
