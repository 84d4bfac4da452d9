import type { SourceId } from '#sources';
import type { Fluid } from './rows.ts';

export const duties = [
  'oil-suction',
  'oil-pressure',
  'oil-scavenge',
  'oil-return',
  'oil-drain',
  'oil-vent',
  'water',
  'water-bleed',
  'fuel',
  'fuel-return',
  'fuel-vent',
  'brake',
  'clutch',
  'air',
  'charge-air',
] as const;

export type Duty = (typeof duties)[number];

/** What a duty asks of a line before the car says otherwise. */
export interface DutyNeed {
  readonly duty: Duty;
  readonly fluid: Fluid;
  /** Most working pressure, gauge. */
  readonly pressureBar: number;
  readonly minC: number;
  readonly maxC: number;
  /** Depth of vacuum the line must stand [bar]; 0 = none. */
  readonly vacuumBar: number;
  readonly conductiveLiner: boolean;
  /** The bore may grow on the way but not shrink. */
  readonly boreNotShrinking: boolean;
  /** Falls all the way from `from` to `to`. */
  readonly mustFall: boolean;
  /** Rises all the way, so that air leaves. */
  readonly mustRise: boolean;
  /** Least gap to hot things, where the duty asks for one of its own [mm]. */
  readonly keepOffHotMm: number | null;
  /** Most distance between clamps [mm]. */
  readonly clampMm: number;
  readonly source: SourceId;
}

const plain = {
  vacuumBar: 0,
  conductiveLiner: false,
  boreNotShrinking: false,
  mustFall: false,
  mustRise: false,
  keepOffHotMm: null,
  clampMm: 610,
  source: 'common-practice',
} as const;
const fuel = {
  ...plain,
  fluid: 'fuel',
  minC: -20,
  maxC: 80,
  conductiveLiner: true,
  keepOffHotMm: 76,
  clampMm: 300,
} as const;

export const dutyRows = [
  {
    ...plain,
    duty: 'oil-suction',
    fluid: 'oil',
    pressureBar: 0.5,
    minC: -10,
    maxC: 130,
    vacuumBar: 0.7,
    source: 'builders-reports',
  },
  { ...plain, duty: 'oil-pressure', fluid: 'oil', pressureBar: 10, minC: -10, maxC: 120 },
  {
    ...plain,
    duty: 'oil-scavenge',
    fluid: 'oil',
    pressureBar: 0.5,
    minC: -10,
    maxC: 130,
    vacuumBar: 0.7,
    source: 'builders-reports',
  },
  { ...plain, duty: 'oil-return', fluid: 'oil', pressureBar: 3, minC: -10, maxC: 120 },
  {
    ...plain,
    duty: 'oil-drain',
    fluid: 'oil',
    pressureBar: 0.2,
    minC: -10,
    maxC: 150,
    boreNotShrinking: true,
    mustFall: true,
    source: 'builders-reports',
  },
  { ...plain, duty: 'oil-vent', fluid: 'oil-mist', pressureBar: 0.5, minC: -10, maxC: 120 },
  { ...plain, duty: 'water', fluid: 'water', pressureBar: 2, minC: -20, maxC: 120 },
  { ...plain, duty: 'water-bleed', fluid: 'water', pressureBar: 2, minC: -20, maxC: 120, mustRise: true },
  { ...fuel, duty: 'fuel', pressureBar: 6 },
  { ...fuel, duty: 'fuel-return', pressureBar: 2 },
  { ...fuel, duty: 'fuel-vent', pressureBar: 0.5 },
  { ...plain, duty: 'brake', fluid: 'brake-fluid', pressureBar: 100, minC: -20, maxC: 120, keepOffHotMm: 76 },
  { ...plain, duty: 'clutch', fluid: 'brake-fluid', pressureBar: 60, minC: -20, maxC: 120, keepOffHotMm: 76 },
  { ...plain, duty: 'air', fluid: 'air', pressureBar: 2, minC: -20, maxC: 100 },
  { ...plain, duty: 'charge-air', fluid: 'air', pressureBar: 2, minC: -20, maxC: 160 },
] as const satisfies readonly DutyNeed[];

/** What the duty asks of a line before the car says otherwise. */
export function dutyNeeds(duty: Duty): DutyNeed {
  const row = dutyRows.find((r) => r.duty === duty);
  if (row === undefined) throw new RangeError(`standards: no duty "${String(duty)}"; there are ${duties.join(', ')}`);
  return row;
}
