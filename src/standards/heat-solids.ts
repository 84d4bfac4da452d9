import type { SourceId } from '#sources';

/** What a solid conducts and stores, near room temperature unless `at` says more. */
export interface HeatSolidRow {
  readonly id: string;
  readonly name: string;
  readonly conductivityWPerMK: number;
  readonly heatCapacityJPerKgK: number;
  readonly densityKgM3: number;
  /** By temperature, where it is known: [K, W/(m K), J/(kg K)]. */
  readonly at?: readonly (readonly [kelvin: number, conductivityWPerMK: number, heatCapacityJPerKgK: number])[];
  readonly source: SourceId;
  readonly note?: string;
}

export const heatSolids = [
  {
    id: 'stainless-304',
    name: 'stainless 304',
    conductivityWPerMK: 14.9,
    heatCapacityJPerKgK: 477,
    densityKgM3: 7900,
    at: [
      [300, 14.9, 477],
      [400, 16.6, 515],
      [600, 19.8, 557],
    ],
    source: 'stainless-appendix',
  },
  {
    id: 'stainless-321',
    name: 'stainless 321, counted as 347',
    conductivityWPerMK: 14.2,
    heatCapacityJPerKgK: 480,
    densityKgM3: 7900,
    at: [
      [300, 14.2, 480],
      [600, 18.9, 559],
      [1000, 24.7, 606],
    ],
    source: 'stainless-appendix',
  },
  {
    id: 'stainless-316',
    name: 'stainless 316',
    conductivityWPerMK: 13.4,
    heatCapacityJPerKgK: 468,
    densityKgM3: 8000,
    at: [
      [300, 13.4, 468],
      [600, 18.3, 550],
      [1000, 24.2, 602],
    ],
    source: 'stainless-appendix',
  },
  {
    id: 'aluminium',
    name: 'aluminium, 6061',
    conductivityWPerMK: 167,
    heatCapacityJPerKgK: 896,
    densityKgM3: 2700,
    source: 'materials-database',
  },
  {
    id: 'aluminium-5052',
    name: 'aluminium, 5052',
    conductivityWPerMK: 138,
    heatCapacityJPerKgK: 880,
    densityKgM3: 2680,
    source: 'from-memory',
  },
  {
    id: 'steel',
    name: 'steel',
    conductivityWPerMK: 50,
    heatCapacityJPerKgK: 470,
    densityKgM3: 7850,
    source: 'from-memory',
  },
  {
    id: 'cast-iron',
    name: 'cast iron',
    conductivityWPerMK: 45,
    heatCapacityJPerKgK: 500,
    densityKgM3: 7200,
    source: 'from-memory',
  },
  {
    id: 'epdm',
    name: 'rubber, as EPDM',
    conductivityWPerMK: 0.2,
    heatCapacityJPerKgK: 2000,
    densityKgM3: 1000,
    source: 'materials-database',
    note: 'filled hose rubbers conduct 0.2 to 0.3',
  },
  {
    id: 'ptfe',
    name: 'PTFE',
    conductivityWPerMK: 0.24,
    heatCapacityJPerKgK: 1000,
    densityKgM3: 2180,
    source: 'materials-database',
    note: 'another table prints 0.35 at 300 K and 0.45 at 400 K: 40 % apart',
  },
  {
    id: 'silicone',
    name: 'silicone rubber with fabric',
    conductivityWPerMK: 0.2,
    heatCapacityJPerKgK: 1300,
    densityKgM3: 1200,
    source: 'from-memory',
  },
  {
    id: 'glass-cloth',
    name: 'glass or silica cloth, braided',
    conductivityWPerMK: 0.08,
    heatCapacityJPerKgK: 800,
    densityKgM3: 900,
    source: 'from-memory',
    note: 'mostly air: 0.05 to 0.15 by how it is packed and how hot it is',
  },
  {
    id: 'silica-felt',
    name: 'ceramic or silica felt, as of a blanket',
    conductivityWPerMK: 0.1,
    heatCapacityJPerKgK: 1000,
    densityKgM3: 130,
    source: 'from-memory',
    note: 'rises with heat: 0.06 at 200, 0.2 at 800 degC',
  },
] as const satisfies readonly HeatSolidRow[];

export type HeatSolidId = (typeof heatSolids)[number]['id'];

/** The solid with this id, which is in the table. */
export const heatSolid = (id: HeatSolidId): HeatSolidRow => heatSolids.find((row) => row.id === id)!;
