import { addScaled, depthInOutline, dot, lerp, outlinePoints, readyOutline, type Vec } from '#geometry';
import { mm, type PanelFinding, placeOf } from '../finding.ts';
import { fittedArcs } from '../flat/fitted-arcs.ts';
import type { LaidEdge, PanelLayout } from '../layout.ts';
import { onFlat } from '../surface/facet-at.ts';
import { carFromFlat } from '../surface/flat-frame.ts';
import { type EdgeOnCar, edgesOnCar, profileAt } from './edge-profile.ts';
import { jointCloses } from './joint-fault.ts';

/** An edge held against the panel it is to meet, wherever on it: on its face, or along a curved edge of it. */
export interface JointOnFace {
  readonly layout: PanelLayout;
  readonly edge: LaidEdge;
  readonly other: PanelLayout;
  /** From one end of the edge to the other: the middle of the sheet's end, or of its flange where that lies along the face. */
  readonly stations: readonly { readonly at: Vec; readonly gapMm: number }[];
  /** A flange of it lies along the other's face. */
  readonly lies: boolean;
  /** The turn with which a flange would lie on it, + to the inside [deg]; absent at a curved edge. */
  readonly liesAtDeg?: number;
}

/** Further away than this an edge meets nothing [mm]. */
const MEETS_MM = 200;
const STATIONS = 9;
/** Places on a curved edge are no further apart [mm]. */
const APART_MM = 30;
const ARCS_WITHIN_MM = 0.5;
const CHORD_MM = 0.1;
const USUAL_MM = 3;
/** Sheets within 25 degrees of each other are one surface with a joint in it [cosine]. */
const ONE_PLANE = Math.cos((25 * Math.PI) / 180);
/** A flange within this of the face lies on it [deg]. */
const LIES_DEG = 10;

/** Straight edges that no other edge runs along, and curved ones, against the panel that they name. */
export function jointOnFace(layout: PanelLayout, edge: LaidEdge, other: PanelLayout): JointOnFace | undefined {
  const straight = edgesOnCar(layout).find((one) => one.edge === edge);
  const made = straight === undefined ? curvedStations(layout, edge, other) : straightStations(straight, other);
  const least = Math.min(...made.stations.map(({ gapMm }) => gapMm));
  return least > MEETS_MM ? undefined : { layout, edge, other, ...made };
}

type Made = Pick<JointOnFace, 'stations' | 'lies' | 'liesAtDeg'>;

function straightStations(of: EdgeOnCar, other: PanelLayout): Made {
  const middle = lerp(of.from, of.to, 0.5);
  const { out } = onFlat(other.facets, middle).facet.frame;
  const turn = (Math.atan2(dot(of.across, out), dot(of.out, out)) * 180) / Math.PI;
  const liesAtDeg = turn > 90 ? turn - 180 : turn < -90 ? turn + 180 : turn;
  const flange = of.edge.spec?.flange;
  const has = flange === undefined ? undefined : flange.towards === 'inside' ? flange.turnDeg : -flange.turnDeg;
  const off = has === undefined ? Infinity : Math.abs(((((has - liesAtDeg) % 180) + 270) % 180) - 90);
  const lies = off <= LIES_DEG;
  const stations = Array.from({ length: STATIONS }, (_, i) => {
    const at = lerp(of.from, of.to, i / (STATIONS - 1));
    const pieces = profileAt(of, at);
    const piece = pieces.find(({ name }) => name === 'flange');
    const t = of.sheet.thicknessMm;
    const place =
      lies && piece !== undefined
        ? addScaled(lerp(piece.from, piece.to, 0.5), piece.out, -t / 2)
        : addScaled(pieces[0]!.to, of.out, -t / 2);
    return { at: place, gapMm: gapTo(place, other, lies ? t / 2 : 0) };
  });
  return { stations, lies, liesAtDeg };
}

function curvedStations(layout: PanelLayout, { curve = [], facet }: LaidEdge, other: PanelLayout): Made {
  const { frame } = layout.facets[facet]!;
  // As it is cut: arcs through the points taken along it.
  const cut = outlinePoints([...fittedArcs(curve, ARCS_WITHIN_MM).arcs, { at: curve.at(-1)! }], CHORD_MM);
  const places = cut.flatMap((to, i) => {
    if (i === 0) return [to];
    const from = cut[i - 1]!;
    const steps = Math.max(1, Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / APART_MM));
    return Array.from({ length: steps }, (_, k): readonly [number, number] => [
      from[0] + ((to[0] - from[0]) * (k + 1)) / steps,
      from[1] + ((to[1] - from[1]) * (k + 1)) / steps,
    ]);
  });
  const stations = places.map((p) => {
    const at = carFromFlat(frame, p, layout.sheet.thicknessMm / 2);
    const past = pastMm(at, frame.out, other);
    return { at, gapMm: past > 0 ? -past : gapTo(at, other, 0) };
  });
  return { stations, lies: false };
}

/** From a place to the sheet of a panel, its thickness counted; less what lies about the place itself [mm]. */
function gapTo(at: Vec, { facets, web, sheet }: PanelLayout, halfMm: number): number {
  const flat = onFlat(facets, at);
  const over = Math.max(0, Math.abs(flat.outMm + sheet.thicknessMm / 2) - sheet.thicknessMm / 2 - halfMm);
  const beside = web === undefined ? 0 : Math.max(0, -depthInOutline(readyOutline(web), flat.at));
  return Math.hypot(over, beside);
}

/** How far a place of a sheet that runs on in the same plane lies past the edge of the other one [mm]. */
function pastMm(at: Vec, out: Vec, { facets, web, sheet }: PanelLayout): number {
  const flat = onFlat(facets, at);
  const isInPlane = Math.abs(dot(out, flat.facet.frame.out)) > ONE_PLANE;
  if (web === undefined || !isInPlane || Math.abs(flat.outMm + sheet.thicknessMm / 2) > sheet.thicknessMm) return 0;
  return depthInOutline(readyOutline(web), flat.at);
}

/** What is open where an edge ends on another panel's face or along its curve. */
export function faceFindings(joint: JointOnFace): readonly PanelFinding[] {
  const { layout, edge, other, stations, lies } = joint;
  const { panel } = layout;
  const closes = jointCloses.value;
  const worst = stations.reduce((a, b) => (b.gapMm > a.gapMm ? b : a));
  const doubt = Math.hypot(panel.knownToMm ?? USUAL_MM, other.panel.knownToMm ?? USUAL_MM);
  const about = {
    panel: panel.id,
    at: edge.id,
    part: other.panel.id,
    source: jointCloses.source,
    place: placeOf(worst.at),
    inputs: [{ name: 'known to, both together', value: `± ${mm(doubt)}` }],
  } as const;
  const [start, end] = [stations[0]!.gapMm, stations.at(-1)!.gapMm];
  if (worst.gapMm > closes)
    return [
      {
        ...about,
        code: 'panel-joint-apart',
        level: worst.gapMm > closes + doubt ? 'stop' : 'fix',
        text: `${panel.id} ${edge.id}: ${lies ? 'its flange stands' : 'it ends'} ${mm(worst.gapMm)} from ${other.panel.id} at the most, known to ± ${mm(doubt)}: ${mm(start)} at ${edge.from}, ${mm(end)} at ${edge.to}`,
        value: Number(worst.gapMm.toFixed(1)),
        limit: closes,
        unit: 'mm',
        cures: [
          `carry it ${mm(start)} further at ${edge.from}, ${mm(end)} at ${edge.to}`,
          ...(lies || joint.liesAtDeg === undefined ? [] : [flangeWords(joint.liesAtDeg, other)]),
        ],
      },
    ];
  const past = -Math.min(...stations.map(({ gapMm }) => gapMm));
  if (past > closes && edge.spec?.overlapMm === undefined)
    return [
      {
        ...about,
        code: 'panel-joint-overlaps',
        level: past > closes + doubt ? 'stop' : 'fix',
        place: placeOf(stations.find(({ gapMm }) => gapMm === -past)!.at),
        text: `${panel.id} ${edge.id}: they take the same sheet, it goes ${mm(past)} past the edge of ${other.panel.id} at the most, known to ± ${mm(doubt)}`,
        value: Number(past.toFixed(1)),
        limit: closes,
        unit: 'mm',
        cures: [`trim it back by as much`, `an overlap of ${mm(Math.ceil(past))} and ${other.panel.id} under it`],
      },
    ];
  const isFixed = edge.spec?.fixing !== undefined && edge.spec.fixing.into === undefined;
  if (!isFixed || lies || joint.liesAtDeg === undefined) return [];
  return [
    {
      ...about,
      code: 'panel-joint-nothing-to-fasten',
      level: edge.spec?.flange === undefined ? 'note' : 'fix',
      text: `${panel.id} ${edge.id}: ends on the face of ${other.panel.id} and nothing of it lies there: its fixings hold nothing`,
      cures: [flangeWords(joint.liesAtDeg, other)],
    },
  ];
}

const flangeWords = (deg: number, { panel }: PanelLayout): string =>
  `a flange turned ${Math.round(Math.abs(deg))} degrees ${deg >= 0 ? 'inside' : 'outside'}, or ${Math.round(180 - Math.abs(deg))} ${deg >= 0 ? 'outside' : 'inside'}: it lies along ${panel.id}`;
