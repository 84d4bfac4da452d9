import type { Car } from '#car';
import type { Figure } from '../flow/figure.ts';
import type { Choices, RowField, RowPlan } from '../flow/row-plan.ts';
import { plainWays } from '../tape/facing.ts';

type Head = NonNullable<Car['parts'][number]['fasteners']>[number]['head'];

const heads: Readonly<Record<Head, string>> = {
  hexagon: 'a screw with a hexagon head',
  nut: 'a nut on a stud',
  socket: 'a socket screw',
  clip: 'a clip or strap with a screw',
  'quarter-turn': 'a quarter-turn fastener',
  rivet: 'a rivet',
  'v-band': 'a V-band clamp',
  hand: 'a pin or knob, by hand',
};
export const headWords = (head: unknown): string => heads[head as Head] ?? String(head);

const words = (at: string, label: string, most = 200): RowField => ({ kind: 'words', at, label, most });
const figure = (at: string, label: string, unit: Figure['unit'], from: number, to: number): RowField => ({
  kind: 'figure',
  at,
  figure: { label, unit, from, to },
});
const length = (at: string, label: string, toMm: number): RowField => ({
  kind: 'length',
  at,
  label,
  fromMm: 0.1,
  toMm,
});

export const fastenerPlan = (car: Pick<Car, 'parts' | 'panels'>): RowPlan => ({
  title: 'Fastener',
  below: 'What holds the part: the tool room looks whether a tool goes on it, strip-down counts its minutes.',
  fields: [
    words('name', 'Name'),
    { kind: 'choice', at: 'head', label: 'It is', of: Object.entries(heads) as Choices },
    { kind: 'lengths', at: 'atMm', label: 'Middle of its head: rearward, right, up', count: 3, isNeeded: true },
    { kind: 'choice', at: 'faces', label: 'The tool comes from', of: plainWays.map((way) => [way, way]) },
    length('acrossFlatsMm', 'Across its flats', 200),
    {
      kind: 'option',
      at: 'into',
      label: 'Goes into',
      of: [...car.parts, ...(car.panels ?? [])].map(({ id, name }): [string, string] => [id, name ?? id]),
    },
  ],
  laws: null,
  more: [
    words('size', 'Thread, such as M8', 40),
    length('lengthMm', 'Drawn out by, to come free', 2000),
    figure('minutes', 'Minutes, if not the usual ones', 'min', 0.001, 100_000),
    words('note', 'Remark', 2000),
  ],
  groups: {},
});

export const partOffPlan: RowPlan = {
  title: 'How it comes off',
  below: 'What it hangs on, which way it goes, how it is lifted, and its dates. Several are put with commas between.',
  fields: [
    words('sitsOn', 'Held to or carried by these parts', 2000),
    words('comesAfter', 'Only after these parts are off', 2000),
    words('pulls', 'Ways to try first, such as up, left', 200),
    {
      kind: 'option',
      at: 'lifts',
      label: 'Lifted',
      of: [
        ['hand', 'by hand'],
        ['hoist', 'by hoist'],
      ],
    },
    figure('massKg', 'Mass in kg', '', 0.001, 10_000),
    figure('spillsL', 'Runs out of it as it comes off', 'L', 0, 1000),
    { kind: 'yes', at: 'gives', label: 'It bends, such as a belt' },
    { kind: 'yes', at: 'staysOn', label: 'Never comes off' },
  ],
  laws: null,
  more: [
    words('life.madeOn', 'Made on, such as 2026-11-25', 40),
    words('life.fittedOn', 'Fitted on', 40),
    words('life.testedOn', 'Tested on', 40),
    figure('life.runs', 'Runs it has done', '', 0, 1e6),
    figure('life.heatCycles', 'Heat cycles it has seen', '', 0, 1e6),
    figure('life.standsRuns', 'Runs it stands', '', 0.001, 1e6),
    figure('life.standsHeatCycles', 'Heat cycles it stands', '', 0.001, 1e6),
    figure('life.standsMonths', 'Months it stands from being made', '', 0.001, 1200),
  ],
  groups: {},
};
