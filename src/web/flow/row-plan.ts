import type { Figure } from './figure.ts';
import type { SizesField } from './sizes-field.ts';

/** One field of a row of the car file as a form has it; `at` is its place in the row, `relief.cracksBar`. */
export type RowField =
  | { readonly kind: 'figure'; readonly at: string; readonly figure: Figure }
  | { readonly kind: 'words'; readonly at: string; readonly label: string; readonly most: number }
  | { readonly kind: 'spot'; readonly at: string; readonly label: string }
  | { readonly kind: 'part'; readonly at: string; readonly label: string }
  | { readonly kind: 'fluid'; readonly at: string; readonly label: string }
  | { readonly kind: 'choice'; readonly at: string; readonly label: string; readonly of: Choices }
  | { readonly kind: 'yes'; readonly at: string; readonly label: string }
  /** Points of two numbers each: a curve, viscosities. */
  | { readonly kind: 'points'; readonly at: string; readonly label: string; readonly pairs: Pairs }
  /** Three numbers [mm]; of a direction, which may stay open, without a unit. */
  | { readonly kind: 'place'; readonly at: string; readonly label: string; readonly isDirection?: true }
  /** Some of several, by their ids. */
  | { readonly kind: 'ids'; readonly at: string; readonly label: string; readonly of: Choices }
  /** Corners of a closed outline [mm], each with the bulge of the side that leaves it where that is an arc. */
  | { readonly kind: 'outline'; readonly at: string; readonly label: string; readonly example: string }
  /** A length in any unit of the tape. */
  | LengthField
  /** Several lengths beside each other: a size, a place. */
  | {
      readonly kind: 'lengths';
      readonly at: string;
      readonly label: string;
      readonly count: number;
      readonly isNeeded?: boolean;
    }
  | SizesField
  /** One of several, or none. */
  | { readonly kind: 'option'; readonly at: string; readonly label: string; readonly of: Choices }
  /** A side of something with corners, by its two ends. */
  | { readonly kind: 'side'; readonly at: string; readonly label: string; readonly of: Choices };

export interface LengthField {
  readonly kind: 'length';
  readonly at: string;
  readonly label: string;
  readonly fromMm: number;
  readonly toMm: number;
  readonly isNeeded?: boolean;
}

export type Choices = readonly (readonly [value: string, words: string])[];

/** How points are written, and what the car file calls their two numbers where it names them. */
export interface Pairs {
  readonly units: string;
  readonly example: string;
  readonly least: number;
  readonly names?: readonly [string, string];
}

/** One of several things of which a row is exactly one. */
export interface RowLaw {
  readonly id: string;
  readonly words: string;
  /** Fields of the row that tell it is this one. */
  readonly marks: readonly string[];
  readonly fields: readonly RowField[];
  /** What stands in the row for it beside its fields. */
  readonly stands?: Readonly<Record<string, unknown>>;
}

/** A row of the car file as a form: what every one has, which of several it is, what it may have. */
export interface RowPlan {
  readonly title: string;
  readonly below: string;
  readonly fields: readonly RowField[];
  readonly laws: { readonly label: string; readonly of: readonly RowLaw[] } | null;
  readonly more: readonly RowField[];
  /** Groups that stand whole or not at all, by their place. */
  readonly groups: Readonly<Record<string, readonly string[]>>;
}

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
const words = (at: string, label: string, most = 200): RowField => ({ kind: 'words', at, label, most });
const spot = (at: string, label: string): RowField => ({ kind: 'spot', at, label });
const lossPairs: Pairs = { units: 'L/min kPa', example: '25 9; 50 25', least: 2 };
const points = (at: string, label: string, pairs: Pairs): RowField => ({ kind: 'points', at, label, pairs });

const relief = (isNeeded: boolean): RowField[] => [
  figure('relief.cracksBar', 'Relief valve cracks at', 'bar', 0.001, 1000, isNeeded),
  figure('relief.fullFlowBar', 'Relief valve passes its full flow at', 'bar', 0.001, 1000, isNeeded),
  figure('relief.fullFlowLMin', 'Full flow of the relief valve', 'L/min', 0.001, 100_000),
];
const note = words('note', 'Remark', 2000);

export const pumpPlan: RowPlan = {
  title: 'Pump or stage',
  below:
    'One stage of a pump is one pump here. A measured point of delivery says how much slips back; without one usual figures stand in.',
  fields: [words('name', 'Name'), spot('from', 'Inlet'), spot('to', 'Outlet')],
  laws: {
    label: 'It is known by',
    of: [
      {
        id: 'displacement',
        words: 'its displacement',
        marks: ['displacementCcRev'],
        fields: [
          figure('displacementCcRev', 'Displacement', 'cc/rev', 0.001, 100_000, true),
          figure('driveRatio', 'Turns to one of the engine', '', 0.001, 20, true),
          figure('volumetricPercent', 'Delivers of its displacement', '%', 1, 100),
          figure('volumetricAtBar', '... against', 'bar', 0.001, 1000),
          figure('volumetricAtCst', '... with oil of', 'cSt', 0.001, 1e6),
        ],
      },
      {
        id: 'curve',
        words: 'its measured curve',
        marks: ['curveLMinKpa'],
        fields: [
          points('curveLMinKpa', 'Curve', lossPairs),
          figure('atRpm', 'Measured at', 'rpm', 1, 100_000, true),
          figure('driveRatio', 'Turns to one of the engine', '', 0.001, 20),
        ],
      },
      {
        id: 'steady',
        words: 'what it delivers, whatever the engine does (electric)',
        marks: ['steadyLMin'],
        fields: [figure('steadyLMin', 'Delivers', 'L/min', 0.001, 100_000, true)],
      },
    ],
  },
  more: [...relief(false), figure('leastInletBar', 'Least inlet it stands', 'bar', -1, 10), note],
  groups: { relief: ['relief.cracksBar', 'relief.fullFlowBar'] },
};

export const passagePlan: RowPlan = {
  title: 'Way through a part',
  below:
    'Filter, cooler, gallery, drilling, valve: exactly one law each. A cooler or thermostat says what it does besides.',
  fields: [words('name', 'Name'), spot('from', 'Where it begins'), spot('to', 'Where it ends')],
  laws: {
    label: 'It loses',
    of: [
      { id: 'open', words: 'nothing worth counting', marks: ['open'], fields: [], stands: { open: true } },
      {
        id: 'curve',
        words: 'as measured',
        marks: ['curveLMinKpa'],
        fields: [points('curveLMinKpa', 'Curve', lossPairs), figure('atC', 'Measured at', '°C', -60, 1000)],
      },
      {
        id: 'restrictor',
        words: 'as a restrictor',
        marks: ['restrictorMm'],
        fields: [
          figure('restrictorMm', 'Bore of the restrictor', 'mm', 0.001, 500, true),
          figure('dischargeCoefficient', 'Discharge coefficient', '', 0.1, 1),
        ],
      },
      {
        id: 'bore',
        words: 'as a drilling or pipe',
        marks: ['boreMm'],
        fields: [
          figure('boreMm', 'Bore', 'mm', 0.001, 500, true),
          figure('lengthMm', 'Length', 'mm', 0.001, 100_000, true),
        ],
      },
      {
        id: 'check',
        words: 'as a check valve',
        marks: ['checkBar'],
        fields: [figure('checkBar', 'Opens at', 'bar', 0, 100, true)],
      },
      { id: 'relief', words: 'as a relief valve', marks: ['relief'], fields: relief(true) },
      {
        id: 'screen',
        words: 'as a screen',
        marks: ['screenOpenPercent'],
        fields: [figure('screenOpenPercent', 'Open share', '%', 1, 100, true)],
      },
    ],
  },
  more: [
    figure('thermostat.opensC', 'Thermostat begins to open', '°C', -60, 1000),
    figure('thermostat.fullC', 'Thermostat fully open', '°C', -60, 1000),
    figure('duty.heatKw', 'Cooler gives off', 'kW', 0.001, 5000),
    figure('duty.flowLMin', '... at a flow of', 'L/min', 0.001, 100_000),
    figure('duty.entryDifferenceK', '... hot side less air, entering', 'K', 0.001, 500),
    figure('duty.airMPerS', '... air at the core', 'm/s', 0.001, 200),
    figure('duty.coreM2', 'Face of the core', 'm²', 0.0001, 100),
    { kind: 'yes', at: 'heats', label: 'The engine puts its heat in here' },
    note,
  ],
  groups: {
    thermostat: ['thermostat.opensC', 'thermostat.fullC'],
    duty: ['duty.heatKw', 'duty.flowLMin', 'duty.entryDifferenceK'],
  },
};

const vesselKinds: Choices = [
  ['tank', 'Oil tank'],
  ['pan', 'Pan'],
  ['pot', 'Pot, of a turbo'],
  ['header', 'Header tank'],
  ['cell', 'Fuel cell'],
  ['surge-pot', 'Surge pot'],
  ['catch-tank', 'Catch tank'],
  ['housing', 'Housing'],
  ['outside', 'Open to the air'],
];

export const vesselPlan: RowPlan = {
  title: 'Vessel',
  below: 'A part with a free surface in it. What it holds is reckoned from its shape where nothing is stated.',
  fields: [
    { kind: 'part', at: 'part', label: 'The part' },
    { kind: 'choice', at: 'kind', label: 'It is', of: vesselKinds },
  ],
  laws: {
    label: 'Its inside is',
    of: [
      { id: 'drawn', words: 'as the part is drawn', marks: [], fields: [] },
      {
        id: 'cylinder',
        words: 'an upright cylinder',
        marks: ['inside.cylinder'],
        fields: [
          { kind: 'place', at: 'inside.cylinder.fromMm', label: 'Middle of one end' },
          { kind: 'place', at: 'inside.cylinder.toMm', label: 'Middle of the other end' },
          figure('inside.cylinder.radiusMm', 'Radius', 'mm', 0.001, 5000, true),
        ],
      },
      {
        id: 'box',
        words: 'a box along the car axes',
        marks: ['inside.box'],
        fields: [
          { kind: 'place', at: 'inside.box.minMm', label: 'Least corner' },
          { kind: 'place', at: 'inside.box.maxMm', label: 'Greatest corner' },
        ],
      },
    ],
  },
  more: [
    figure('fillL', 'Runs with', 'L', 0, 10_000),
    figure('leastFillL', 'Never less than', 'L', 0, 10_000),
    figure('volumeL', 'Holds to the brim', 'L', 0.001, 10_000),
    figure('capBar', 'Cap opens at', 'bar', 0, 1000),
    figure('pressureBar', 'Pressure in it', 'bar', -1, 1000),
    note,
  ],
  groups: {},
};

const circuitKinds: Choices = [
  ['dry-sump', 'Dry sump: oil, tank, scavenge stages'],
  ['coolant', 'Water'],
  ['fuel', 'Fuel'],
  ['other', 'Not worked out (brakes, clutch, air)'],
];

export const circuitPlan: RowPlan = {
  title: 'Circuit',
  below:
    'What a fluid goes round in. Its lines are ticked below; its pumps, ways through parts and vessels are put in one by one.',
  fields: [
    words('name', 'Name'),
    { kind: 'choice', at: 'kind', label: 'It is', of: circuitKinds },
    { kind: 'fluid', at: 'fluid', label: 'Its fluid' },
  ],
  laws: null,
  more: [
    figure('hiddenL', 'Held up in the engine', 'L', 0, 1000),
    figure('breatherBar', 'Breather filter holds back', 'bar', 0, 10),
    figure('breatherLMin', '... at a flow of', 'L/min', 0.001, 100_000),
    figure('burnLPerH', 'Fuel burnt at full load', 'L/h', 0, 10_000),
    note,
  ],
  groups: {},
};

export const fluidPlan: RowPlan = {
  title: 'Fluid',
  below: 'Oil by two viscosities from its data sheet, or by its grade; a grade is a band, so that answers are one too.',
  fields: [words('name', 'Name')],
  laws: {
    label: 'It is',
    of: [
      {
        id: 'oil',
        words: 'engine oil',
        marks: ['oil'],
        fields: [
          words('oil.grade', 'Grade, such as 10W-60', 20),
          points('oil.points', 'Viscosities', {
            units: '°C cSt',
            example: '40 160; 100 23',
            least: 1,
            names: ['atC', 'viscosityCst'],
          }),
          figure('oil.densityAt15KgM3', 'Density at 15 °C', 'kg/m³', 500, 1500),
        ],
        stands: { oil: {} },
      },
      {
        id: 'glycol',
        words: 'water with glycol',
        marks: ['glycol'],
        fields: [figure('glycol.massPercent', 'Glycol by mass', '%', 0, 60, true)],
      },
      { id: 'water', words: 'plain water', marks: ['water'], fields: [], stands: { water: {} } },
      {
        id: 'fuel',
        words: 'petrol or a blend',
        marks: ['fuel'],
        fields: [
          figure('fuel.ethanolPercent', 'Ethanol by volume', '%', 0, 100),
          figure('fuel.densityAt15KgM3', 'Density at 15 °C', 'kg/m³', 500, 1500),
          figure('fuel.viscosityCst', 'Viscosity at 20 °C', 'cSt', 0.001, 1000),
          figure('fuel.reidKpa', 'Reid vapour pressure', 'kPa', 0, 200),
        ],
        stands: { fuel: {} },
      },
      { id: 'air', words: 'air', marks: ['air'], fields: [], stands: { air: {} } },
      { id: 'other', words: 'not worked with (brake fluid)', marks: ['other'], fields: [], stands: { other: {} } },
    ],
  },
  more: [note],
  groups: {},
};

/** What a fitting was measured to lose. */
export const measuredPlan: RowPlan = {
  title: 'Measured loss',
  below:
    'Flow and loss of this fitting as it was measured, with the fluid of the circuit. It takes the place of what is reckoned for every fitting of this kind on the car.',
  fields: [points('curveLMinKpa', 'Curve', lossPairs), figure('curveAtC', 'Measured at', '°C', -60, 500)],
  laws: null,
  more: [],
  groups: {},
};
