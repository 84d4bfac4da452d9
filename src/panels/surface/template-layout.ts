import { type Panel, panelCornerIds } from '#car';
import {
  distance,
  dot,
  mirroredOutline,
  outlineArea,
  outlinePoints,
  reversedOutline,
  type Outline,
  type Point2,
  type Vec,
} from '#geometry';
import { mm, type PanelFinding, placeOf } from '../finding.ts';
import type { FlatPattern } from '../flat-pattern.ts';
import { outlineWords } from '../flat/words.ts';
import { holeCuts } from '../holes/hole-cuts.ts';
import { holeFindings } from '../holes/hole-findings.ts';
import type { PanelCrossing } from '../holes/panel-crossing.ts';
import { type OwnAxes, placedHoles } from '../holes/placed-holes.ts';
import { sealRows } from '../holes/seal-rows.ts';
import type { PanelLayout } from '../layout.ts';
import { slotOutline } from '../slot-outline.ts';
import { panelSheet } from '../panel-sheet.ts';
import { carFromFlat, type FlatFrame } from './flat-frame.ts';
import { fitted, type RigidFit, rigidFit } from './rigid-fit.ts';

type Template = NonNullable<Panel['template']>;

/** Corners and bulges of the car file as an outline. */
export const outlineOf = (points: Template['outlineMm']): Outline =>
  points.map(([x, y, bulge]) => (bulge === undefined ? { at: [x, y] } : { at: [x, y], bulge }));

const turnedLeft = (outline: Outline) => (outlineArea(outline) < 0 ? reversedOutline(outline) : outline);
/** Gone round as openings are. */
export const turnedRight = (outline: Outline) => (outlineArea(outline) > 0 ? reversedOutline(outline) : outline);

const AT_REST: FlatFrame = { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], out: [0, 0, 1] };

/**
 * A panel from a cardboard template: its outline as traced, laid onto the car by the points that were found on both, least squares.
 * Traced from the inside it is turned over, so that the drawing shows the outside face. What goes through it is cut into it.
 */
export function templateLayout(
  panel: Panel,
  template: Template,
  crossings: readonly PanelCrossing[] = [],
): PanelLayout {
  const sheet = panelSheet(panel);
  const placed = placedTemplate(panel, template);
  const flip = (outline: Outline) => (placed.turnedOver ? mirroredOutline(outline) : outline);
  const outline = turnedLeft(flip(outlineOf(template.outlineMm)));
  const cutOuts = (template.holesMm ?? []).map((hole, i) => ({
    outline: turnedRight(flip(outlineOf(hole))),
    name: `opening ${i + 1}`,
  }));
  const corners = placed.matches.map(({ flat, at, leftMm }, i) => ({
    id: String(i + 1),
    measured: at,
    knownToMm: template.knownToMm ?? 0,
    at,
    outMm: leftMm,
    flat,
  }));
  const { frame } = placed;
  const facets = [{ ring: [], frame, polygon: outlinePoints(outline, 0.5) }];
  const own: OwnAxes = { flatOf: ([x, y]) => (placed.turnedOver ? [-x, y] : [x, y]), turnDeg: 0 };
  const named = panelCornerIds(panel).map((id, i) => {
    const [x, y] = template.outlineMm[i]!;
    return { id, at: own.flatOf([x, y]) };
  });
  const through = corners.length > 0 ? crossings : [];
  const holes = placedHoles(panel, facets, own, through);
  const bare = { panel, sheet, facets, holes, fixings: [], folds: [], outline, crossings: through };
  return {
    panel,
    sheet,
    facets,
    creases: [],
    edges: [],
    corners,
    tapes: [],
    fixings: [],
    holes,
    windows: [],
    findings: [...placed.findings, ...holeFindings({ ...bare, inCar: (at) => carFromFlat(frame, at) })],
    flats: [templateFlat({ panel, sheet, outline, cutOuts, holes, corners, named, frame })],
  };
}

type Laid = Pick<PanelLayout, 'panel' | 'sheet' | 'holes' | 'corners'> &
  Pick<FlatPattern, 'outline' | 'cutOuts'> & {
    /** Corners of its outline, by which its edges are named. */
    readonly named: FlatPattern['corners'];
    readonly frame: FlatFrame;
  };

function templateFlat({ panel, sheet, outline, cutOuts, holes, corners, named, frame }: Laid): FlatPattern {
  const made = holeCuts(holes, [], sheet.thicknessMm);
  const open = [...cutOuts, ...made.cutOuts];
  const taken = [...open.map((cut) => cut.outline), ...made.slots.map(slotOutline)];
  return {
    panel: panel.id,
    name: panel.name ?? panel.id,
    sheet: sheet.id,
    thicknessMm: sheet.thicknessMm,
    outline,
    cutOuts: open,
    holes: made.holes,
    slots: made.slots,
    folds: [],
    meshes: [],
    seals: sealRows(holes, [], panel.fireSide),
    marks: [],
    // Without its place on the car it has no up.
    words: outlineWords(panel.id, outline, taken, corners.length > 0 ? [frame.x[2], frame.y[2]] : undefined),
    corners: named,
  };
}

interface Placed {
  readonly frame: FlatFrame;
  readonly turnedOver: boolean;
  readonly matches: readonly { readonly flat: Point2; readonly at: Vec; readonly leftMm: number }[];
  readonly findings: readonly PanelFinding[];
}

/** A template laid onto the car by the points that were found on both. */
export function placedTemplate(panel: Panel, template: Template): Placed {
  const at = template.matches.map((match) => match.atMm as Vec);
  const flats = (turnedOver: boolean) =>
    template.matches.map(({ flatMm: [x, y] }): Point2 => (turnedOver ? [-x, y] : [x, y]));
  if (at.length < 3) return { frame: AT_REST, turnedOver: false, matches: [], findings: [few(panel, at.length)] };
  const fit = (turnedOver: boolean) =>
    rigidFit(
      flats(turnedOver).map(([x, y]): Vec => [x, y, 0]),
      at,
    );
  const first = fit(false);
  const out: Vec = [first.turn[0][2], first.turn[1][2], first.turn[2][2]];
  const turnedOver = panel.outside !== undefined && dot(out, panel.outside) < 0;
  const best = turnedOver ? fit(true) : first;
  const frame = frameOf(best);
  const matches = flats(turnedOver).map((flat, k) => ({
    flat,
    at: at[k]!,
    leftMm: distance(carFromFlat(frame, flat), at[k]!),
  }));
  return { frame, turnedOver, matches, findings: templateFindings(panel, template, turnedOver, matches) };
}

function frameOf(fit: RigidFit): FlatFrame {
  const column = (i: 0 | 1 | 2): Vec => [fit.turn[0][i], fit.turn[1][i], fit.turn[2][i]];
  return { origin: fitted(fit, [0, 0, 0]), x: column(0), y: column(1), out: column(2) };
}

function few(panel: Panel, count: number): PanelFinding {
  return {
    code: 'panel-template-unplaced',
    level: 'fix',
    panel: panel.id,
    text: `${panel.id}: ${count} points of its template are known on the car: its flat is drawn, its place is not known`,
    value: count,
    limit: 3,
    unit: 'points',
    source: 'geometry',
    cures: ['find three points of the template on the car, well apart'],
  };
}

function templateFindings(
  panel: Panel,
  template: Template,
  turnedOver: boolean,
  matches: Placed['matches'],
): PanelFinding[] {
  const found: PanelFinding[] = [];
  if (turnedOver)
    found.push({
      code: 'panel-template-turned',
      level: 'note',
      panel: panel.id,
      text: `${panel.id}: its template was traced from the inside; the drawing is turned over to show the outside face`,
      source: 'geometry',
      cures: [],
    });
  const limit = template.knownToMm ?? 1;
  const worst = matches.reduce((a, b) => (b.leftMm > a.leftMm ? b : a));
  if (worst.leftMm > limit)
    found.push({
      code: 'panel-template-off',
      level: 'fix',
      panel: panel.id,
      at: String(matches.indexOf(worst) + 1),
      text: `${panel.id}: laid onto the car, its template is ${mm(worst.leftMm)} off at point ${matches.indexOf(worst) + 1}; ${mm(limit)} is how well it is known`,
      value: Number(worst.leftMm.toFixed(1)),
      limit,
      unit: 'mm',
      source: 'least-squares',
      place: placeOf(worst.at),
      cures: ['find that point again on both', 'the surface is curved there: a flat template cannot follow it'],
    });
  return found;
}
