import type { SourceId } from '#sources';

/** A sheet to make panels of. Strengths are typical design minima along the grain, as printed, not allowables of a bought sheet. */
export interface SheetRow {
  readonly id: string;
  readonly title: string;
  readonly densityKgM3: number;
  /** Ultimate and yield strength in tension [MPa], stiffness [GPa], Poisson's ratio; absent where only mass is known. */
  readonly ultimateMpa?: number;
  readonly yieldMpa?: number;
  readonly stiffnessGpa?: number;
  readonly poisson?: number;
  /** Growth with heat [1e-6/K]. */
  readonly growthPerMk?: number;
  /** Row of the table of least bend radii; `rule`: so many thicknesses at any thickness; absent: it is not bent. */
  readonly bends?: string | { readonly leastTimes: number; readonly usualTimes: number; readonly source: SourceId };
  /** Share of the thickness at which a bend keeps its length, and the spread that handbooks print. */
  readonly kFactor?: number;
  readonly kFactorRange?: readonly [number, number];
  readonly source: SourceId;
  /** What the row's numbers do not cover. */
  readonly note?: string;
}

/** k that the FAA and Navy formula implies: 0.0078 T N over T N pi/180. */
const HANDBOOK_K = 0.447;
const aluminium = { poisson: 0.33, growthPerMk: 23.6, kFactor: HANDBOOK_K, kFactorRange: [0.38, 0.447] } as const;

export const sheets = [
  row5052('5052-O', '5052-O aluminium, soft', 172, 65),
  row5052('5052-H32', '5052-H32 aluminium, quarter hard', 214, 159),
  row5052('5052-H34', '5052-H34 aluminium, half hard', 234, 179),
  row6061('6061-O', '6061-O aluminium, soft', 124, 55),
  row6061('6061-T4', '6061-T4 aluminium', 207, 110),
  row6061('6061-T6', '6061-T6 aluminium', 290, 241),
  {
    id: '2024-O',
    title: '2024-O aluminium, soft',
    densityKgM3: 2768,
    ultimateMpa: 186,
    yieldMpa: 76,
    stiffnessGpa: 72.4,
    ...aluminium,
    bends: '2024-O',
    source: 'mil-hdbk-5',
    note: 'soft: strength counts only after heat treatment',
  },
  {
    id: '2024-T3',
    title: '2024-T3 aluminium',
    densityKgM3: 2768,
    ultimateMpa: 434,
    yieldMpa: 290,
    stiffnessGpa: 72.4,
    ...aluminium,
    bends: '2024-T3',
    source: 'mil-hdbk-5',
  },
  {
    id: '7075-T6',
    title: '7075-T6 aluminium',
    densityKgM3: 2796,
    ultimateMpa: 538,
    yieldMpa: 469,
    stiffnessGpa: 71,
    ...aluminium,
    bends: '7075-T6',
    source: 'mil-hdbk-5',
  },
  {
    id: '4130',
    title: '4130 steel, normalised',
    densityKgM3: 7833,
    ultimateMpa: 655,
    yieldMpa: 517,
    stiffnessGpa: 200,
    poisson: 0.32,
    growthPerMk: 12.3,
    bends: { leastTimes: 1.5, usualTimes: 3, source: 'common-practice' },
    kFactor: HANDBOOK_K,
    kFactorRange: [0.42, 0.467],
    source: 'mil-hdbk-5',
    note: 'normalised, up to 4.8 mm',
  },
  {
    id: '304',
    title: '304 stainless, annealed',
    densityKgM3: 7920,
    ultimateMpa: 517,
    yieldMpa: 207,
    stiffnessGpa: 193,
    poisson: 0.29,
    growthPerMk: 17.2,
    bends: { leastTimes: 0.5, usualTimes: 1, source: 'common-practice' },
    kFactor: 0.465,
    kFactorRange: [0.446, 0.483],
    source: 'mil-hdbk-5',
  },
  {
    id: 'Ti-6Al-4V',
    title: 'Ti-6Al-4V titanium, annealed',
    densityKgM3: 4429,
    ultimateMpa: 924,
    yieldMpa: 869,
    stiffnessGpa: 110,
    poisson: 0.31,
    growthPerMk: 8.6,
    bends: { leastTimes: 4.5, usualTimes: 6, source: 'from-memory' },
    kFactor: HANDBOOK_K,
    kFactorRange: [0.4, 0.5],
    source: 'mil-hdbk-5',
    note: 'bent cold; less radius bent hot',
  },
  {
    id: 'CFRP',
    title: 'Carbon fibre laminate: mass only',
    densityKgM3: 1550,
    source: 'from-memory',
    note: 'not bent; strength is that of its own lay-up',
  },
] as const satisfies readonly SheetRow[];

function row5052(id: string, title: string, ultimateMpa: number, yieldMpa: number): SheetRow {
  return {
    id,
    title,
    densityKgM3: 2685,
    ultimateMpa,
    yieldMpa,
    stiffnessGpa: 69.6,
    ...aluminium,
    bends: id,
    source: 'mil-hdbk-5',
  };
}

function row6061(id: string, title: string, ultimateMpa: number, yieldMpa: number): SheetRow {
  return {
    id,
    title,
    densityKgM3: 2713,
    ultimateMpa,
    yieldMpa,
    stiffnessGpa: 68.3,
    ...aluminium,
    bends: id,
    source: 'mil-hdbk-5',
  };
}

/** What a panel is made of where the car does not say. */
export const USUAL_SHEET = '5052-H32';

/** The sheet of this id; undefined for a builder's own that no row knows. */
export function findSheet(id: string): SheetRow | undefined {
  return (sheets as readonly SheetRow[]).find((row) => row.id.toLowerCase() === id.toLowerCase());
}
