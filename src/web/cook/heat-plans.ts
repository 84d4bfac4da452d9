import type { Car } from '#car';
import { finishes } from '#standards';
import type { Figure } from '../flow/figure.ts';
import type { Choices, RowField, RowPlan } from '../flow/row-plan.ts';
import { plainWays } from '../tape/facing.ts';

const figure = (
  at: string,
  label: string,
  unit: Figure['unit'],
  from: number,
  to: number,
  isNeeded = false,
): RowField => ({ kind: 'figure', at, figure: { label, unit, from, to, isNeeded } });
const place = (at: string, label: string): RowField => ({ kind: 'lengths', at, label, count: 3, isNeeded: true });
const name: RowField = { kind: 'words', at: 'name', label: 'Name', most: 200 };
const note: RowField = { kind: 'words', at: 'note', label: 'Remark', most: 2000 };

const finishChoices: Choices = finishes.map(({ id, name: words }) => [id, words]);
const coverKinds: Choices = [
  ['blanket', 'a blanket'],
  ['wrap', 'a wrap'],
  ['shield', 'a shield with air behind it'],
  ['coating', 'a coating'],
];
const keptAt: Choices = [
  ['oil', 'the oil'],
  ['coolant', 'the water'],
  ['fuel', 'the fuel'],
  ['outside-air', 'the air outside'],
];

/** How hot a part is: as measured, case by case, or what decides it. */
export const sourcePlan = (car: Pick<Car, 'cases'>): RowPlan => ({
  title: 'How hot it is',
  below:
    'The temperature of its bare surface, under any cover. What is left empty is worked out from what it gets and gives.',
  fields: [
    figure('surfaceC', 'Its surface', '°C', -60, 1500),
    ...(car.cases ?? []).map((one) => figure(`byCase.${one.id}`, `In the case ${one.name ?? one.id}`, '°C', -60, 1500)),
    { kind: 'option', at: 'keptAt', label: 'Or as hot as', of: keptAt },
    { kind: 'option', at: 'finish', label: 'Finish of its surface', of: finishChoices },
    figure('emissivity', 'Emissivity, where it was measured', '', 0.01, 1),
    figure('massKg', 'Mass in kg, for how long it stays hot', '', 0.001, 10_000),
    figure('standsC', 'The hottest it stands', '°C', -60, 1500),
  ],
  laws: null,
  more: [
    { kind: 'option', at: 'cover.kind', label: 'It is covered by', of: coverKinds },
    { kind: 'length', at: 'cover.thicknessMm', label: 'Thickness of the cover', fromMm: 0.01, toMm: 200 },
    figure('cover.conductivityWPerMK', 'Its conductivity in W/(m K)', '', 0.001, 500),
    { kind: 'length', at: 'cover.airGapMm', label: 'Air behind a shield', fromMm: 0.1, toMm: 200 },
    { kind: 'option', at: 'cover.finish', label: 'Finish of its outside', of: finishChoices },
  ],
  groups: { cover: ['cover.kind'] },
});

export const spacePlan: RowPlan = {
  title: 'Bay',
  below: 'A closed space whose air is worked out: what lies in the box between two corners is in it.',
  fields: [name, place('minMm', 'Lowest corner: rearward, right, up'), place('maxMm', 'Highest corner')],
  laws: null,
  more: [figure('otherHeatKw', 'Heat of what is not drawn', 'kW', -1000, 1000), note],
  groups: {},
};

export const openingPlan: RowPlan = {
  title: 'Opening',
  below: 'A gap or hole of the bay that is no window of a panel: an arch, a tail, a drain.',
  fields: [
    name,
    place('atMm', 'Its middle'),
    { kind: 'choice', at: 'faces', label: 'Faces, out of the bay', of: plainWays.map((way) => [way, way]) },
    figure('areaCm2', 'Area', 'cm²', 0.01, 100_000, true),
  ],
  laws: null,
  more: [
    figure('meshOpenPercent', 'Mesh over it: open share', '%', 1, 100),
    figure('dischargeCoefficient', 'Discharge coefficient, if not 0.62', '', 0.1, 1),
    { kind: 'yes', at: 'drain', label: 'A drain hole' },
    note,
  ],
  groups: {},
};

export const intakePlan: RowPlan = {
  title: 'Intake',
  below: 'What draws its air from this bay, so that it is told what hot air costs it.',
  fields: [{ kind: 'part', at: 'part', label: 'The part' }, place('atMm', 'Where it draws')],
  laws: null,
  more: [figure('flowLMin', 'Draws at full load, if not reckoned from power', 'L/min', 0.001, 1_000_000), note],
  groups: {},
};

/** Where a pressure outside can be known: openings of the bays, windows by their panel. */
export const pressurePlan = (car: Pick<Car, 'bays' | 'panels'>): RowPlan => ({
  title: 'Pressure outside',
  below: 'As a manometer read it or as you state it for this case: it is never guessed.',
  fields: [
    {
      kind: 'choice',
      at: 'at',
      label: 'Outside',
      of: [
        ...(car.bays ?? []).flatMap(({ openings = [] }) =>
          openings.map((row): [string, string] => [row.id, row.name ?? row.id]),
        ),
        ...(car.panels ?? []).flatMap(({ id, name: words, windows = [] }): [string, string][] => [
          [id, `windows of ${words ?? id}`],
          ...windows.map((row): [string, string] => [`${id}.${row.id}`, `window ${row.id} of ${words ?? id}`]),
        ]),
      ],
    },
    {
      kind: 'choice',
      at: 'how',
      label: 'It comes from',
      of: [
        ['manometer', 'a manometer'],
        ['stated', 'what you state'],
      ],
    },
  ],
  laws: {
    label: 'Given as',
    of: [
      {
        id: 'pa',
        words: 'Pa above the air about the car',
        marks: ['pa'],
        fields: [figure('pa', 'Pa', '', -20_000, 20_000, true)],
      },
      {
        id: 'water',
        words: 'mm of water',
        marks: ['mmWater'],
        fields: [figure('mmWater', 'mm of water', '', -2000, 2000, true)],
      },
      {
        id: 'cp',
        words: 'a pressure coefficient',
        marks: ['cp'],
        fields: [figure('cp', 'Coefficient', '', -20, 5, true)],
      },
    ],
  },
  more: [figure('measuredKmh', 'Read at a speed of, if not that of the case', 'km/h', 0.1, 600), note],
  groups: {},
});
