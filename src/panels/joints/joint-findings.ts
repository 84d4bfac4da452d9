import { distance } from '#geometry';
import { mm, type PanelFinding, placeOf } from '../finding.ts';
import type { LaidEdge, PanelLayout } from '../layout.ts';
import { carFromFlat } from '../surface/flat-frame.ts';
import { edgesOnCar, type EdgeOnCar } from './edge-profile.ts';
import { cornerNames, edgeWords, foldCures, shiftCures } from './joint-cures.ts';
import { type JointFault, jointCloses, jointDoubtMm, jointFault } from './joint-fault.ts';
import { faceFindings, jointOnFace } from './joints-on-faces.ts';
import { type JointStation, type MeasuredJoint, measuredJoint } from './measured-joint.ts';

/** A joint that is measured, and whether the car file says that the two meet. */
export interface PanelJoint extends MeasuredJoint {
  readonly named: boolean;
}

/** Edges that nothing says should meet are a joint within this [mm]. */
const UNNAMED_MM = 30;
/** An edge that is named as a neighbour is looked for within this [mm]. */
const NAMED_MM = 200;

/** Every two edges of two panels that run along each other, each pair once. */
export function panelJoints(layouts: readonly PanelLayout[]): readonly PanelJoint[] {
  const edges = layouts.flatMap(edgesOnCar);
  const joints = edges.flatMap((first, i) =>
    edges.slice(i + 1).flatMap((second): PanelJoint[] => {
      if (first.panel.id === second.panel.id) return [];
      const named = names(first, second) || names(second, first);
      const joint = farApart(first, second) ? undefined : measuredJoint(first, second);
      if (joint === undefined || meanApart(joint) > (named ? NAMED_MM : UNNAMED_MM)) return [];
      return [{ ...joint, named }];
    }),
  );
  // A panel that is named has one edge that is meant: the nearest.
  return joints.filter(
    (joint) =>
      !joint.named ||
      meanApart(joint) <= UNNAMED_MM ||
      joints.every(
        (other) => other === joint || !other.named || !samePair(joint, other) || meanApart(other) >= meanApart(joint),
      ),
  );
}

const names = (edge: EdgeOnCar, other: EdgeOnCar): boolean => edge.edge.spec?.joins === other.panel.id;

const samePair = (a: MeasuredJoint, b: MeasuredJoint): boolean =>
  a.first.edge === b.first.edge || a.second.edge === b.second.edge;

const farApart = (a: EdgeOnCar, b: EdgeOnCar): boolean =>
  distance(mid(a), mid(b)) > (a.edge.lengthMm + b.edge.lengthMm) / 2 + NAMED_MM;

const mid = ({ from, to }: EdgeOnCar) => [0, 1, 2].map((k) => (from[k]! + to[k]!) / 2) as [number, number, number];

const meanApart = ({ stations }: MeasuredJoint): number =>
  stations.reduce((sum, { apartMm, stepMm }) => sum + Math.hypot(apartMm, stepMm), 0) / stations.length;

/** An edge that is named and stands nearer to the other's face than to its edge ends on that face. */
function isOnFace(joint: PanelJoint, layouts: readonly PanelLayout[]): boolean {
  const apart = meanApart(joint);
  if (!joint.named || apart <= UNNAMED_MM) return false;
  const of = (edge: EdgeOnCar) => layouts.find(({ edges }) => edges.includes(edge.edge));
  return [
    [joint.first, joint.second],
    [joint.second, joint.first],
  ].some(([one, two]) => {
    const [layout, other] = [of(one!), of(two!)];
    if (layout === undefined || other === undefined || !names(one!, two!)) return false;
    const onFace = jointOnFace(layout, one!.edge, other);
    return onFace !== undefined && onFace.stations.every(({ gapMm }) => gapMm < apart);
  });
}

/** What is open where panels meet, by the panel that stands first in the car. */
export function jointFindings(layouts: readonly PanelLayout[]): readonly PanelFinding[] {
  const joints = panelJoints(layouts).filter((joint) => !isOnFace(joint, layouts));
  return [...joints.flatMap(findingOf), ...unmetFindings(layouts, joints)];
}

function findingOf(joint: PanelJoint): PanelFinding[] {
  const fault = jointFault(joint);
  if (fault === undefined) return [];
  const { first, second } = joint;
  const worst = worstStation(joint);
  return [
    {
      code: `panel-joint-${fault.kind}`,
      level: levelOf(joint, fault),
      panel: first.panel.id,
      at: first.edge.id,
      part: second.panel.id,
      text: `${edgeWords(first)} and ${edgeWords(second)} run ${mm(joint.lengthMm)} along each other${joint.named ? '' : ', nothing says how they meet'}: ${faultWords(joint, fault)}`,
      ...('mm' in fault ? { value: tenth(fault.mm), limit: tenth(limitOf(fault)), unit: 'mm' as const } : {}),
      source: jointCloses.source,
      place: placeOf(worst.at),
      cures: curesOf(joint, fault),
      inputs: [{ name: 'known to, both together', value: `± ${mm(jointDoubtMm(joint))}` }],
    },
  ];
}

const tenth = (value: number): number => Number(value.toFixed(1));

const limitOf = (fault: JointFault): number => ('wantedMm' in fault ? fault.wantedMm : jointCloses.value);

function levelOf(joint: PanelJoint, fault: JointFault): PanelFinding['level'] {
  if (!joint.named || fault.kind === 'two-rows' || fault.kind === 'nothing-to-fasten') return 'note';
  if (fault.kind === 'lap-short' || fault.kind === 'row-off') return 'fix';
  // Within what both are known to they may be one edge measured twice.
  return fault.mm > jointCloses.value + jointDoubtMm(joint) ? 'stop' : 'fix';
}

const worstStation = ({ stations }: MeasuredJoint): JointStation =>
  stations.reduce((a, b) => (Math.hypot(b.apartMm, b.stepMm) > Math.hypot(a.apartMm, a.stepMm) ? b : a));

function faultWords(joint: PanelJoint, fault: JointFault): string {
  const known = `, known to ± ${mm(jointDoubtMm(joint))}`;
  switch (fault.kind) {
    case 'overlaps':
      return `they take the same sheet, ${placeWords(joint)}${known}`;
    case 'apart':
      return `${placeWords(joint)}${known}; nothing of one lies on the other`;
    case 'open':
      return `their faces stand ${mm(fault.mm)} open${known}, ${placeWords(joint)}`;
    case 'lap-short':
      return `they lie on each other by ${mm(fault.mm)}; a row of fixings wants ${mm(fault.wantedMm)}, two diameters either side`;
    case 'row-off':
      return fault.mm < 0
        ? `the fixings of ${edgeWords(fault.of)} miss the other panel by ${mm(-fault.mm)}`
        : `the fixings of ${edgeWords(fault.of)} stand ${mm(fault.mm)} from the other panel's edge; two diameters are ${mm(fault.wantedMm)}`;
    case 'two-rows':
      return 'both have a row of fixings in the same lap';
    case 'nothing-to-fasten':
      return 'they meet edge to edge and nothing of one lies on the other: their fixings need something under both';
  }
}

/** Where the second lies from the first, at the two ends of what they share. */
function placeWords(joint: MeasuredJoint): string {
  const closes = jointCloses.value;
  const [a, b] = [joint.stations[0]!, joint.stations.at(-1)!];
  const [start, end] = cornerNames(joint);
  const said = (of: (station: JointStation) => number, plus: string, minus: string): string[] => {
    if (joint.stations.every((station) => Math.abs(of(station)) <= closes)) return [];
    const one = (by: number) => `${mm(Math.abs(by))} ${by >= 0 ? plus : minus}`;
    const [p, q] = [of(a), of(b)];
    return [
      p >= 0 === q >= 0
        ? `${mm(Math.abs(p))} at ${start}, ${mm(Math.abs(q))} at ${end} ${p >= 0 ? plus : minus}`
        : `${one(p)} at ${start}, ${one(q)} at ${end}`,
    ];
  };
  const name = joint.first.panel.id;
  return [
    ...said(({ stepMm }) => stepMm, 'under', 'over').map((words) => `${name} lies ${words} it`),
    ...said(({ apartMm }) => apartMm, 'short of', 'past').map((words) => `${name} ends ${words} it`),
  ].join(' and ');
}

function curesOf(joint: PanelJoint, fault: JointFault): readonly string[] {
  const { first, second } = joint;
  if (fault.kind === 'two-rows')
    return [`take the fixings off ${edgeWords(second)} and drill both through from ${first.panel.id}`];
  if (fault.kind === 'row-off') return [`set those fixings ${mm(fault.edgeMm)} from the edge (edgeMm)`];
  if (fault.kind === 'lap-short')
    return [`${mm(Math.ceil(fault.wantedMm - fault.mm))} more of what lies over`, 'smaller fixings'];
  if (fault.kind === 'open') return [...shiftCures(joint, fault), 'a packing strip between them'];
  return [
    ...foldCures(joint).map(({ text }) => text),
    ...shiftCures(joint, fault),
    ...(fault.kind === 'nothing-to-fasten' ? ['a strip or a tube under both, named in "into"'] : []),
  ];
}

/** Edges that are to meet a panel which has no edge along them: on its face, along a curve, or not at all. */
function unmetFindings(layouts: readonly PanelLayout[], joints: readonly PanelJoint[]): PanelFinding[] {
  return layouts.flatMap((layout) =>
    layout.edges.flatMap((edge): readonly PanelFinding[] => {
      const name = edge.spec?.joins;
      const other = layouts.find(({ panel, facets }) => panel.id === name && facets.length > 0);
      if (other === undefined || other.panel.id === layout.panel.id) return [];
      const isMet = joints.some(
        ({ first, second }) =>
          (first.edge === edge && second.panel.id === name) || (second.edge === edge && first.panel.id === name),
      );
      if (isMet) return [];
      const joint = jointOnFace(layout, edge, other);
      return joint === undefined ? [noneFinding(layout, edge, other)] : faceFindings(joint);
    }),
  );
}

function noneFinding({ panel, facets }: PanelLayout, edge: LaidEdge, { panel: { id } }: PanelLayout): PanelFinding {
  const [[ax, ay], [bx, by]] = edge.line;
  return {
    code: 'panel-joint-none',
    level: 'fix',
    panel: panel.id,
    at: edge.id,
    part: id,
    text: `${panel.id} ${edge.id}: is to meet ${id}, but comes nowhere within ${mm(NAMED_MM)} of it`,
    source: 'geometry',
    place: placeOf(carFromFlat(facets[edge.facet]!.frame, [(ax + bx) / 2, (ay + by) / 2])),
    cures: ['another edge, or another panel, for it to meet', 'measure both edges again'],
  };
}
