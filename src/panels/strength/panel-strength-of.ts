import type { Panel } from '#car';
import { type Outline, outlineArea } from '#geometry';
import { nearestName } from '#sources';
import { sheets } from '#standards';
import type { PanelFinding } from '../finding.ts';
import { placeOf } from '../finding.ts';
import { toStraight } from '../holes/hole-body.ts';
import type { PanelLayout } from '../layout.ts';
import { panelWindows } from '../panel-windows.ts';
import { onCar } from '../surface/facet-at.ts';
import { massSaved } from './holes-and-lugs.ts';
import { boxMiddle, platesOpenings } from './plate-openings.ts';
import { type PlatePart, type PlateParts, plateParts } from './plate-parts.ts';
import { type Estimated, type PanelLoad, type PanelStrength, panelStrength } from './panel-strength.ts';
import type { EdgeHold, PlateSheet } from './plate-bending.ts';
import { type JudgedPanel, strengthFindings, windowFindings, type WorkedOtherwise } from './strength-findings.ts';

/** What a panel's load does to it; numbers absent where they cannot be worked out: a finding then says why. */
export interface StrengthOfPanel {
  readonly strength?: PanelStrength;
  /** What its windows and holes of 20 mm and more take off it; absent where it has none. */
  readonly massSavedKg?: number;
  readonly findings: readonly PanelFinding[];
}

type Load = NonNullable<Panel['load']>;
/** A load says something with one of these. */
const SAYS = ['pressureKpa', 'shakeG', 'shakeHz', 'shearNPerMm', 'pressNPerMm'] as const;

/**
 * Strength of a panel as laid out, under the `load` of the car file; its own frequency and the mass saved where that says only how
 * it is held. Where it says nothing: null, or what an `unloaded` panel is by itself if each of its edges is held by something.
 * A second of work and more: two meshes, and again for every cure.
 */
export function panelStrengthOf(
  layout: PanelLayout,
  wish: { readonly unloaded?: boolean } = {},
): StrengthOfPanel | null {
  const { panel, piece } = layout;
  const load = panel.load ?? {};
  const isHeldSaid = load.held !== undefined || layout.edges.some(({ spec }) => spec?.held !== undefined);
  const says = SAYS.some((key) => (load[key] ?? 0) !== 0) || isHeldSaid;
  if (!says && (wish.unloaded !== true || looseEdges(layout).length > 0)) return null;
  const answer = workedOut(layout, load);
  const web = layout.web ?? layout.flats[0]?.outline;
  const place =
    web === undefined || layout.facets.length === 0 ? {} : { place: placeOf(onCar(layout.facets, boxMiddle(web))) };
  const at = piece === undefined ? {} : { at: `piece ${piece.number}` };
  return {
    ...answer,
    findings: answer.findings.map((finding) => ({ ...place, ...at, ...finding, text: `${panel.id}: ${finding.text}` })),
  };
}

function workedOut(layout: PanelLayout, load: Load): StrengthOfPanel {
  const { panel, sheet, windows } = layout;
  const plate = plateSheet(layout);
  const web = layout.web ?? layout.flats[0]?.outline;
  if (web === undefined) return unknown(panel, 'it is not laid out', 'what stops it from being laid out');
  const parts = plateParts(layout, web);
  if ('why' in parts) return unknown(panel, parts.why, 'test it on the car');
  if (plate === undefined)
    return unknown(
      panel,
      `stiffness of ${sheet.id} is in no table`,
      `a sheet of the table (nearest: ${
        nearestName(
          sheet.id,
          sheets.map(({ id }) => id),
        ) ?? 'none'
      }), or test it on the car`,
    );
  const judged: JudgedPanel = {
    panel: panel.id,
    thicknessMm: sheet.thicknessMm,
    ...(sheet.row?.yieldMpa === undefined ? {} : { yieldMpa: sheet.row.yieldMpa }),
    load: Object.fromEntries(SAYS.flatMap((key) => (load[key] === undefined ? [] : [[key, load[key]]]))),
  };
  const ofWindows = windows.flatMap((field) => windowFindings(judged, field, askedOf(panel, field.id)));
  const work: Work = { layout, web, parts, plate, load: judged.load, held: load.held };
  const strength = strengthOn(work, {});
  if ('why' in strength)
    return { findings: [...ofWindows, ...unknown(panel, strength.why, 'test it on the car').findings] };
  const webs = windows.flatMap(({ webMm }) => (webMm === undefined ? [] : [webMm]));
  const told = strengthFindings(
    judged,
    strength,
    onceEach(work),
    ...(webs.length === 0 ? [] : ([Math.min(...webs)] as const)),
  );
  const mm2 = platesOpenings(layout, web, windows).outlines.reduce((sum, one) => sum + Math.abs(outlineArea(one)), 0);
  return {
    strength,
    ...(mm2 === 0 ? {} : { massSavedKg: massSaved(mm2, sheet.thicknessMm, plate.densityKgM3) }),
    findings: [...ofWindows, ...told],
  };
}

function unknown(panel: Panel, why: string, cure: string): StrengthOfPanel {
  const text = `its strength is not worked out: ${why}`;
  return {
    findings: [
      { code: 'panel-strength-unknown', level: 'note', panel: panel.id, text, source: 'plate-theory', cures: [cure] },
    ],
  };
}

/** The sheet as plates need it; undefined where no table has its stiffness. */
function plateSheet({ sheet: { row, thicknessMm } }: PanelLayout): PlateSheet | undefined {
  if (row?.stiffnessGpa === undefined || row.poisson === undefined) return undefined;
  const { stiffnessGpa, poisson, densityKgM3 } = row;
  return { thicknessMm, stiffnessMpa: 1000 * stiffnessGpa, poisson, densityKgM3 };
}

function askedOf(panel: Panel, id: string): { readonly freeMm2?: number; readonly edgeMm?: number } {
  const { freeCm2, edgeMm } = panel.windows?.find((window) => window.id === id) ?? {};
  return { ...(freeCm2 === undefined ? {} : { freeMm2: 100 * freeCm2 }), ...(edgeMm === undefined ? {} : { edgeMm }) };
}

interface Work {
  readonly layout: PanelLayout;
  readonly web: Outline;
  readonly parts: PlateParts;
  readonly plate: PlateSheet;
  readonly load: PanelLoad;
  readonly held: Load['held'];
}

type Change = Parameters<WorkedOtherwise>[0];

/** Each change is worked out once, however many findings ask for it. */
function onceEach(work: Work): WorkedOtherwise {
  const known = new Map<string, PanelStrength | undefined>();
  return (change) => {
    const key = JSON.stringify([change.webMm, change.count, change.thicknessMm]);
    if (!known.has(key)) {
      const answer = strengthOn(work, change);
      known.set(key, 'why' in answer ? undefined : answer);
    }
    return known.get(key);
  };
}

function strengthOn(work: Work, change: Change): PanelStrength | { readonly why: string } {
  const { layout, web, load } = work;
  const { webMm, count } = change;
  const again = {
    ...(webMm === undefined ? {} : { webMm }),
    ...(count === undefined ? {} : { count }),
  };
  const windows = Object.keys(again).length === 0 ? layout.windows : relaid(work, again);
  if (windows === undefined) return { why: 'its windows have no room so' };
  const parts = windows === layout.windows ? work.parts : plateParts({ ...layout, windows }, web);
  if ('why' in parts) return parts;
  const answers: PanelStrength[] = [];
  for (const part of parts.parts) {
    const answer = strengthOfPart(work, part, change.thicknessMm);
    if ('why' in answer) return answer;
    answers.push(answer);
  }
  const isLoadedInPlane = (load.pressNPerMm ?? 0) !== 0 || (load.shearNPerMm ?? 0) !== 0;
  return weakest(answers, [
    ...parts.limits,
    ...(parts.isPlane || !isLoadedInPlane
      ? []
      : ['what presses and shears its edges is not worked out with a crease or slit; test it']),
    ...heldLimits(work),
  ]);
}

function strengthOfPart(
  { load, plate, held, parts }: Work,
  { layout, web, lips }: PlatePart,
  thicknessMm: number | undefined,
): PanelStrength | { readonly why: string } {
  const openings = platesOpenings(layout, web, layout.windows);
  const { pressNPerMm: _, shearNPerMm: __, ...across } = load;
  const answer = panelStrength(
    web,
    openings.outlines,
    thicknessMm === undefined ? plate : { ...plate, thicknessMm },
    heldSides(layout, web, held ?? 'simply', lips),
    parts.isPlane ? load : across,
  );
  return 'why' in answer ? answer : { ...answer, limits: [...answer.limits, ...openings.limits] };
}

/** Of several parts the slowest, what gives most, what is stressed most; of one, itself. */
function weakest(answers: readonly PanelStrength[], limits: readonly string[]): PanelStrength {
  const most = (of: (answer: PanelStrength) => Estimated | undefined): PanelStrength | undefined =>
    answers.filter((one) => of(one) !== undefined).toSorted((a, b) => of(b)!.value - of(a)!.value)[0];
  const slow = answers.toSorted((a, b) => a.frequencyHz.value - b.frequencyHz.value)[0]!;
  const { deflectionMm } = most((one) => one.deflectionMm) ?? {};
  const { stressMpa, stressAt } = most((one) => one.stressMpa) ?? {};
  return {
    ...slow,
    ...(deflectionMm && { deflectionMm }),
    ...(stressMpa && { stressMpa, stressAt: stressAt! }),
    nodes: answers.reduce((sum, { nodes }) => sum + nodes, 0),
    limits: onceInWords([...answers.flatMap((one) => one.limits), ...limits]),
  };
}

/** What several parts say alike but for their numbers, once. */
const onceInWords = (limits: readonly string[]): string[] =>
  [...new Map(limits.toReversed().map((words) => [words.replaceAll(/\d+/gu, '#'), words])).values()].toReversed();

/** The panel's windows laid again with something else asked of them; undefined where one of them has no room. */
function relaid({ layout, web }: Work, again: Change): PanelLayout['windows'] | undefined {
  const { panel, sheet, edges, fixings, holes, facets } = layout;
  const { fields, findings } = panelWindows({
    panel: { ...panel, windows: (panel.windows ?? []).map((window) => ({ ...window, ...again })) },
    ...{ sheet, web, edges, fixings, holes },
    folds: layout.flats[0]?.folds ?? [],
    inCar: (at) => onCar(facets, at),
  });
  // Rows that go on over other panels stay as they are.
  const rows = layout.windows.filter(({ id }) => !fields.some((field) => field.id === id));
  return findings.length > 0 ? undefined : [...fields, ...rows];
}

/** How each side of the sheet is held: lips of a slit not at all, else as its edge says, else as the whole panel. */
function heldSides(
  { edges }: PanelLayout,
  web: Outline,
  usual: EdgeHold,
  lips: readonly boolean[],
): EdgeHold | readonly EdgeHold[] {
  if (!lips.includes(true) && edges.every(({ spec }) => spec?.held === undefined)) return usual;
  return web.map(({ at: [ax, ay] }, i) => {
    if (lips[i] === true) return 'free';
    const [bx, by] = web[(i + 1) % web.length]!.at;
    // Rounded corners and curved edges have sides of their own: each belongs to the edge that it is nearest to.
    const off = ({ line }: PanelLayout['edges'][number]): number => toStraight([(ax + bx) / 2, (ay + by) / 2], line);
    return edges.reduce((a, b) => (off(b) < off(a) - 1e-9 ? b : a)).spec?.held ?? usual;
  });
}

/** Edges that nothing holds in the car file. */
const looseEdges = ({ edges }: PanelLayout): PanelLayout['edges'] =>
  edges.filter(
    ({ spec, strip, tabs }) =>
      strip === undefined &&
      tabs === undefined &&
      spec?.fixing === undefined &&
      spec?.joins === undefined &&
      spec?.held === undefined,
  );

/** What is taken of its edges without the car saying so. */
function heldLimits({ layout, held }: Work): string[] {
  const loose = looseEdges(layout);
  const { piece } = layout;
  return [
    ...(held === undefined && layout.edges.some(({ spec }) => spec?.held === undefined)
      ? ['how its edges are held is not said: simply held is taken']
      : []),
    ...(loose.length === 0
      ? []
      : [`nothing holds ${loose.map(({ id }) => id).join(', ')} in the car file, taken as held all the same`]),
    ...(piece === undefined ? [] : ['the seam to its other piece is taken as held']),
  ];
}
