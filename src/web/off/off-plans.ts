import type { Car } from '#car';
import { type ToolKind, workMinutes } from '#standards';
import type { Figure } from '../flow/figure.ts';
import type { Choices, RowField, RowPlan } from '../flow/row-plan.ts';

type Clause = NonNullable<Car['rulePacks']>[number]['clauses'][number];

const figure = (
  at: string,
  label: string,
  unit: Figure['unit'],
  from: number,
  to: number,
  rest: Partial<Figure> = {},
): RowField => ({
  kind: 'figure',
  at,
  figure: { label, unit, from, to, ...rest },
});
const words = (at: string, label: string, most: number): RowField => ({ kind: 'words', at, label, most });
const length = (at: string, label: string, toMm: number): RowField => ({
  kind: 'length',
  at,
  label,
  fromMm: 0.1,
  toMm,
});

const plan = (title: string, below: string, fields: readonly RowField[], more: readonly RowField[] = []): RowPlan => ({
  title,
  below,
  fields,
  laws: null,
  more,
  groups: {},
});

export const breakPlan = plan('Break', 'Time there is to work, and what is to be changed in it.', [
  words('name', 'Name, such as Between two runs', 200),
  figure('minutes', 'Time there is', 'min', 0.1, 10_000, { isNeeded: true }),
]);

/** Every kind of work, with the usual minutes beside its field. */
export const minutesPlan = plan(
  'Minutes',
  'To undo one, one alone. The usual minutes are from memory: clock your own. An empty field is left to what is usual.',
  workMinutes.map(({ work, about, minutes }) =>
    figure(work, `${about[0]!.toUpperCase()}${about.slice(1)} (usual ${minutes})`, 'min', 0.001, 1000),
  ),
);

export const handPlan = plan(
  'Hand',
  'Room that the hand of who works takes. What is empty is left to the usual hand, which is from memory.',
  [
    length('acrossMm', 'Across the hand', 500),
    length('thickMm', 'Thick', 500),
    length('armMm', 'Thickness of the arm', 500),
    { kind: 'yes', at: 'measured', label: 'Measured' },
  ],
);

const toolKinds: Readonly<Record<ToolKind, string>> = {
  'open-end': 'open-end spanner',
  ring: 'ring spanner',
  ratchet: 'ratchet and socket',
  'crow-foot': 'crow-foot',
  'hex-key': 'hex key',
  driver: 'screwdriver',
  hand: 'by hand',
};

export const toolName = (kind: unknown): string => toolKinds[kind as ToolKind] ?? String(kind);

const choices = (of: Readonly<Record<string, string>>): Choices => Object.entries(of);

export const toolPlan = plan(
  'Tool',
  'What the tool in the hand measures. A size left out stands for all sizes; what is left out is the usual tool, which is marked as not measured.',
  [
    { kind: 'choice', at: 'kind', label: 'Kind', of: choices(toolKinds) },
    length('acrossFlatsMm', 'Size across flats', 200),
    length('headMm', 'Outside of its head', 500),
    length('thickMm', 'Thickness of its head', 500),
    length('lengthMm', 'Length of its handle', 3000),
    { kind: 'yes', at: 'measured', label: 'Measured on the tool in the hand' },
  ],
);

export const dayPlan = plan('Day the car ran', 'Hoses, seals and parts that were on the car by then count it.', [
  words('on', 'Day, such as 2026-11-25', 40),
  figure('runs', 'Runs', '', 0, 1000, { isNeeded: true, isCount: true }),
  figure('heatCycles', 'Heat cycles, if not one a run', '', 0, 1000, { isCount: true }),
  words('note', 'Remark', 2000),
]);

export const packPlan = plan(
  'Rules',
  'What one rule book asks, in your own words and with its year. The event and its scrutineer decide, never this page.',
  [words('name', 'Name in words', 200), figure('year', 'Year', '', 1900, 2200, { isNeeded: true, isCount: true })],
);

const abouts: Readonly<Record<Clause['about'], string>> = {
  line: 'lines',
  part: 'parts',
  panel: 'panels',
  vent: 'vents and bleeds',
  clamp: 'clamps of lines',
  bulkhead: 'what passes a bulkhead',
};

export const measures: Readonly<Record<Clause['measure'], string>> = {
  'gap-mm': 'least gap to what is named below [mm]',
  'bend-share': 'tightest bend, as a share of the least allowed',
  'pressure-share': 'pressure it stands, as a share of the working pressure',
  'clamp-pitch-mm': 'longest stretch between clamps [mm]',
  'length-mm': 'length along its middle [mm]',
  'height-mm': "height over the car's zero [mm]",
  'wall-mm': 'thinnest wall or sheet [mm]',
  'volume-l': 'what it holds [L]',
  'bore-mm': 'least bore [mm]',
  'temperature-c': 'hottest place [°C]',
  'hole-clearance-mm': 'room in its hole, all round [mm]',
  state: 'its state, or a further one',
  material: 'a word in the name of every piece',
  sealed: 'the hole is filled',
  sleeve: 'a word in its sleeve',
  'by-eye': 'nothing: for the eye',
};

export const clausePlan = plan(
  'Clause',
  'In your own words. At least and at most are in the unit of what is measured; a word is for state, material, sleeve.',
  [
    words('clause', 'Number of the clause', 40),
    words('text', 'What it asks', 2000),
    { kind: 'choice', at: 'about', label: 'It is about', of: choices(abouts) },
    { kind: 'choice', at: 'measure', label: 'What is measured', of: choices(measures) },
    figure('least', 'At least', '', -1e6, 1e6),
    figure('most', 'At most', '', -1e6, 1e6),
    words('is', 'Must be this word', 80),
    words('to', 'Gap to: a part, or hot, moving, fixed', 80),
  ],
  [
    words('duties', 'Only lines with these duties, with commas', 400),
    words('parts', 'Only these parts or panels, with commas', 2000),
    { kind: 'yes', at: 'photo', label: 'Wants a photograph' },
  ],
);
