import { type Car, type Panel, panelCornerIds } from '#car';
import { sheets } from '#standards';
import type { Figure } from '../flow/figure.ts';
import type { Choices, RowField, RowPlan } from '../flow/row-plan.ts';

const LARGEST_MM = 100_000;

const length = (at: string, label: string, toMm: number, isNeeded = false, fromMm = 0): RowField => ({
  kind: 'length',
  at,
  label,
  fromMm,
  toMm,
  ...(isNeeded ? { isNeeded } : {}),
});
const figure = (
  at: string,
  label: string,
  unit: Figure['unit'],
  from: number,
  to: number,
  isNeeded = false,
): RowField => ({
  kind: 'figure',
  at,
  figure: { label, unit, from, to, ...(isNeeded ? { isNeeded } : {}) },
});
const count = (at: string, label: string, to: number): RowField => ({
  kind: 'figure',
  at,
  figure: { label, unit: '', from: 1, to, isCount: true },
});
const words = (at: string, label: string, most = 200): RowField => ({ kind: 'words', at, label, most });
const option = (at: string, label: string, of: Choices): RowField => ({ kind: 'option', at, label, of });
const note = words('note', 'Remark', 2000);

const sides: Choices = [
  ['inside', 'to the inside'],
  ['outside', 'to the outside'],
];
type Fixing = NonNullable<NonNullable<Panel['edges']>[number]['fixing']>['kind'];
const fixingWords: Readonly<Record<Fixing, string>> = {
  rivet: 'rivets',
  rivnut: 'screws into rivet nuts',
  screw: 'screws',
  'quarter-turn': 'quarter-turn fasteners',
  bond: 'glue',
  weld: 'weld',
};

/** What is done to one edge. */
export function edgePlan(car: Car, panel: Panel, title: string): RowPlan {
  const others = neighbours(car, panel);
  const parts: Choices = car.parts.map(({ id, name }) => [id, name ?? id]);
  return {
    title,
    below: `Edge of ${panel.id}. A flange is folded up from it; its height is outside, from the outside face.`,
    fields: [
      length('flange.heightMm', 'Flange: height', 10_000),
      figure('flange.turnDeg', 'Flange: bent through', 'deg', 1, 170),
      option('flange.towards', 'Flange: folded', sides),
      length('flange.radiusMm', 'Flange: inside radius', 1000),
      option('fixing.kind', 'Held by', Object.entries(fixingWords)),
      words('fixing.size', 'Size of the fixing, such as M5', 40),
      length('fixing.pitchMm', 'At most apart', 10_000),
      length('fixing.holeMm', 'Hole for it', 100, false, 0.1),
      length('overlapMm', 'Lies over what it meets by', 10_000),
    ],
    laws: null,
    more: [
      length('fixing.edgeMm', 'Fixing to the edge of the sheet', 10_000),
      length('fixing.endMm', 'First fixing to the corner', 10_000),
      length('fixing.slotMm', 'Slotted along the edge by', 100),
      option('fixing.into', 'Holds on to', [...parts, ...others]),
      option('joins', 'Meets the panel', others),
      length('joggle.stepMm', 'Joggle: height of the step', 100, false, 0.1),
      length('joggle.landMm', 'Joggle: land beyond it', 10_000),
      option('joggle.towards', 'Joggle: steps', sides),
      count('tabs.count', 'Tabs: how many', 1000),
      length('tabs.widthMm', 'Tabs: width', 10_000),
      length('tabs.heightMm', 'Tabs: height', 10_000),
      figure('tabs.turnDeg', 'Tabs: bent through', 'deg', 0, 170),
      option('tabs.towards', 'Tabs: folded', sides),
      length('reliefMm', 'Relief holes where its fold meets another', 100, false, 0.1),
      option('held', 'Held, for its strength', [
        ['simply', 'against tilting not at all: fixings some way apart'],
        ['clamped', 'firmly: flanged, or fixings close together'],
        ['free', 'not at all'],
      ]),
      { kind: 'yes', at: 'sealed', label: 'Sealed along its length' },
      note,
    ],
    groups: {
      flange: ['flange.heightMm', 'flange.turnDeg', 'flange.towards'],
      fixing: ['fixing.kind'],
      joggle: ['joggle.stepMm', 'joggle.landMm', 'joggle.towards'],
      tabs: ['tabs.count', 'tabs.widthMm', 'tabs.heightMm'],
    },
  };
}

type Shape = NonNullable<Panel['windows']>[number]['shape'];
const shapeWords: Readonly<Record<Shape, string>> = {
  trapezoid: 'trapezoids, as the panel leans',
  slot: 'slots',
  round: 'round holes',
  hexagon: 'hexagons',
  own: 'an outline of its own',
};

export function edgeChoices(panel: Panel): Choices {
  const ids = panelCornerIds(panel);
  return ids.map((id, i) => {
    const to = ids[(i + 1) % ids.length]!;
    return [`${id} ${to}`, `${id}-${to}`] as const;
  });
}

const neighbours = (car: Car, panel: Panel): Choices =>
  (car.panels ?? [])
    .filter(({ id }) => id !== panel.id)
    .map(({ id, name }) => [id, name === undefined ? id : `${id} ${name}`]);

const howLarge: RowPlan['laws'] = {
  label: 'How large',
  of: [
    {
      id: 'size',
      words: 'so long and so high',
      marks: ['sizeMm'],
      fields: [{ kind: 'lengths', at: 'sizeMm', label: 'Along and across its edge', count: 2, isNeeded: true }],
    },
    {
      id: 'free',
      words: 'as a free area wants',
      marks: ['freeCm2'],
      fields: [figure('freeCm2', 'Free area wanted, mesh counted', 'cm²', 0.01, 1e6, true)],
    },
    { id: 'fill', words: 'as large as there is room', marks: [], fields: [] },
  ],
};

const meshFields: readonly RowField[] = [
  figure('mesh.openPercent', 'Mesh: open share', '%', 1, 100),
  length('mesh.woven.openingMm', 'Woven mesh: opening', 100, false, 0.01),
  length('mesh.woven.wireMm', 'Woven mesh: wire', 100, false, 0.01),
  length('mesh.round.holeMm', 'Punched mesh: hole', 100, false, 0.01),
  length('mesh.round.pitchMm', 'Punched mesh: pitch', 100, false, 0.01),
  length('mesh.frameMm', 'Mesh: width of its frame', 10_000),
];

/** A window or a field of windows, of an outline of its own too. */
export function windowPlan(car: Car, panel: Panel): RowPlan {
  const shapes = Object.entries(shapeWords);
  const others = neighbours(car, panel);
  return {
    title: 'Window',
    below: `In ${panel.id}. Where it stands and how large it is, is chosen where nothing is said.`,
    fields: [
      words('name', 'Name'),
      {
        kind: 'choice',
        at: 'shape',
        label: 'Openings',
        of: shapes,
      },
      count('count', 'How many in a row', 1000),
      count('rows', 'Rows', 1000),
    ],
    laws: howLarge,
    more: [
      { kind: 'side', at: 'along', label: 'Along the edge (none: the longest)', of: edgeChoices(panel) },
      length('centreAlongMm', 'Middle, along that edge', LARGEST_MM, false, -LARGEST_MM),
      length('centreAcrossMm', 'Middle, in from that edge', LARGEST_MM, false, -LARGEST_MM),
      option('ends', 'Its ends stand (none: as leaves more; slots square)', [
        ['leaning', 'as the panel leans'],
        ['square', 'square to its edge'],
      ]),
      ...(others.length === 0
        ? []
        : [{ kind: 'ids', at: 'inLineWith', label: 'Goes on in one line over the panels', of: others } as const]),
      {
        kind: 'outline',
        at: 'outlineMm',
        label: 'Outline of its own: corners of one opening about its middle',
        example: '-20 -15; 20 -15; 14 15; -14 15 mm',
      },
      length('webMm', 'Web between two openings, at least', 10_000),
      length('edgeMm', 'To the edge, a fold or a fixing, at least', 10_000),
      length('cornerDrillMm', 'Drill or hole saw for the corners', 500, false, 0.1),
      ...meshFields,
      option('lets', 'Air is meant to go', [
        ['out', 'out'],
        ['in', 'in'],
      ]),
      note,
    ],
    groups: {},
  };
}

export function holePlan(panel: Panel): RowPlan {
  return {
    title: 'Hole',
    below: `In ${panel.id}. Lines on their ways get their holes by themselves; this is for what else goes through.`,
    fields: [
      words('for', 'What goes through it'),
      { kind: 'lengths', at: 'flatMm', label: 'On the flat: along the first edge; in from it', count: 2 },
      { kind: 'lengths', at: 'atMm', label: 'Or on the car: rearward; right; up', count: 3 },
    ],
    laws: {
      label: 'It is',
      of: [
        {
          id: 'round',
          words: 'round',
          marks: ['diameterMm'],
          fields: [length('diameterMm', 'Diameter', 5000, true, 0.1)],
        },
        {
          id: 'square',
          words: 'four-sided',
          marks: ['sizeMm'],
          fields: [
            { kind: 'lengths', at: 'sizeMm', label: 'Along and across the first edge', count: 2, isNeeded: true },
            length('cornerDrillMm', 'Drill for its corners', 500, false, 0.1),
          ],
        },
      ],
    },
    more: [
      option('fitted', 'What sits in it', [
        ['grommet', 'a grommet'],
        ['bulkhead-fitting', 'a bulkhead fitting'],
        ['ring', 'a ring'],
        ['plain', 'nothing'],
        ['drain', 'it is a drain'],
      ]),
      note,
    ],
    groups: {},
  };
}

export const sheetPlan: RowPlan = {
  title: 'Sheet at hand',
  below: 'What panels can be cut from. The grain runs along its first length.',
  fields: [
    { kind: 'choice', at: 'sheet', label: 'Sheet', of: sheets.map(({ id, title }) => [id, title] as const) },
    length('thicknessMm', 'Thickness', 50, true, 0.01),
    { kind: 'lengths', at: 'sizeMm', label: 'Long and wide', count: 2, isNeeded: true },
    count('qty', 'How many', 10_000),
  ],
  laws: null,
  more: [],
  groups: {},
};

export const brakePlan: RowPlan = {
  title: 'Brake',
  below:
    'What folds are held against: measured at the brake, square to the bend. What is left empty is that of a small box-and-pan brake.',
  fields: [
    length('noseMm', 'Nose or fingers: deep behind the bend', 10_000, false, 1),
    length('highMm', 'From the sheet up to the beam', 10_000, false, 1),
    length('fingerMm', 'Narrowest finger (0: one straight bar)', 10_000),
  ],
  laws: null,
  more: [
    length('beamMm', 'Beam: deep behind the bend', 10_000, false, 1),
    length('bedMm', 'Bed: deep behind the bend', 10_000, false, 1),
  ],
  groups: {},
};
