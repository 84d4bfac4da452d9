import { mmFromInches } from '#units';
import type { SourceId } from '#sources';
import type { Fluid, TubeRow } from './rows.ts';

/** Bend radius and support distance by tube OD as the handbook prints them [in]; radius to the centreline. */
export interface TubeBendRow {
  readonly odIn: number;
  readonly dash: number;
  readonly aluminiumBendIn: number;
  readonly steelBendIn: number;
  readonly aluminiumSupportIn: number;
  readonly steelSupportIn: number;
  readonly source: SourceId;
}

export const tubeBends = [
  {
    odIn: 0.1875,
    dash: 3,
    aluminiumBendIn: 0.4375,
    steelBendIn: 0.65625,
    aluminiumSupportIn: 12,
    steelSupportIn: 14,
    source: 'faa-ac-43-13-1b-bends',
  },
  {
    odIn: 0.25,
    dash: 4,
    aluminiumBendIn: 0.5625,
    steelBendIn: 0.875,
    aluminiumSupportIn: 13.5,
    steelSupportIn: 16,
    source: 'faa-ac-43-13-1b-bends',
  },
  {
    odIn: 0.3125,
    dash: 5,
    aluminiumBendIn: 0.6875,
    steelBendIn: 1.125,
    aluminiumSupportIn: 15,
    steelSupportIn: 18,
    source: 'faa-ac-43-13-1b-bends',
  },
  {
    odIn: 0.375,
    dash: 6,
    aluminiumBendIn: 0.9375,
    steelBendIn: 1.3125,
    aluminiumSupportIn: 16.5,
    steelSupportIn: 20,
    source: 'faa-ac-43-13-1b-bends',
  },
  {
    odIn: 0.5,
    dash: 8,
    aluminiumBendIn: 1.25,
    steelBendIn: 1.75,
    aluminiumSupportIn: 19,
    steelSupportIn: 23,
    source: 'faa-ac-43-13-1b-bends',
  },
  {
    odIn: 0.625,
    dash: 10,
    aluminiumBendIn: 1.5,
    steelBendIn: 2.1875,
    aluminiumSupportIn: 22,
    steelSupportIn: 25.5,
    source: 'faa-ac-43-13-1b-bends',
  },
  {
    odIn: 0.75,
    dash: 12,
    aluminiumBendIn: 1.75,
    steelBendIn: 2.625,
    aluminiumSupportIn: 24,
    steelSupportIn: 27.5,
    source: 'faa-ac-43-13-1b-bends',
  },
  {
    odIn: 1,
    dash: 16,
    aluminiumBendIn: 3,
    steelBendIn: 3.5,
    aluminiumSupportIn: 26.5,
    steelSupportIn: 30,
    source: 'faa-ac-43-13-1b-bends',
  },
] as const satisfies readonly TubeBendRow[];

const round = (value: number, digits = 2): number => Number(value.toFixed(digits));

/** A bender grips about two diameters at the start, and cannot bend again until one diameter is straight; common practice. */
const clampDiameters = 2;
const betweenDiameters = 1;
const straights = (odMm: number): Pick<TubeRow, 'minStraightMm' | 'clampStraightMm'> => ({
  minStraightMm: round(Math.max(betweenDiameters * odMm, 10)),
  clampStraightMm: round(Math.max(clampDiameters * odMm, 25)),
});

interface DashTube {
  readonly id: string;
  readonly material: string;
  readonly wallIn: number;
  readonly metal: 'aluminium' | 'steel';
  readonly bar: number;
  readonly maxC: number;
  readonly fluids: readonly Fluid[];
}

const dashTubes: readonly DashTube[] = [
  {
    id: 'aluminium',
    material: 'aluminium 5052-O',
    wallIn: 0.035,
    metal: 'aluminium',
    bar: 25,
    maxC: 150,
    fluids: ['oil', 'oil-mist', 'water', 'fuel', 'air'],
  },
  {
    id: 'stainless',
    material: 'stainless steel, annealed',
    wallIn: 0.035,
    metal: 'steel',
    bar: 60,
    maxC: 400,
    fluids: ['oil', 'oil-mist', 'water', 'fuel', 'brake-fluid', 'air'],
  },
];

const inchTubes: readonly TubeRow[] = dashTubes.flatMap((t) =>
  tubeBends.map((b) => {
    const odMm = round(mmFromInches(b.odIn));
    return {
      id: `tube-${t.id}-${b.dash}`,
      name: `-${b.dash} ${t.material} tube, ${odMm} x ${round(mmFromInches(t.wallIn))} mm`,
      material: t.material,
      odMm,
      wallMm: round(mmFromInches(t.wallIn)),
      dash: b.dash,
      bendRadiusMm: round(mmFromInches(t.metal === 'steel' ? b.steelBendIn : b.aluminiumBendIn), 1),
      ...straights(odMm),
      supportMm: Math.floor(mmFromInches(t.metal === 'steel' ? b.steelSupportIn : b.aluminiumSupportIn)),
      pressureBar: t.bar,
      maxC: t.maxC,
      fluids: t.fluids,
      source: b.source,
      measure: true,
    };
  }),
);

/** Large aluminium tube for water and charge air: mandrel-bent at two diameters; beaded at both ends. */
const pipesMm = [
  [19, 1.5],
  [25, 1.5],
  [32, 1.6],
  [35, 1.6],
  [38, 1.6],
  [45, 1.6],
  [51, 1.6],
  [57, 1.6],
  [63, 2],
  [70, 2],
  [76, 2],
] as const;

const pipes: readonly TubeRow[] = pipesMm.map(([odMm, wallMm]) => ({
  id: `pipe-aluminium-${odMm}`,
  name: `${odMm} x ${wallMm} mm aluminium pipe, beaded ends`,
  material: 'aluminium 6063',
  odMm,
  wallMm,
  bendRadiusMm: 2 * odMm,
  ...straights(odMm),
  supportMm: 610,
  pressureBar: 5,
  maxC: 150,
  fluids: ['water', 'air', 'oil-mist'] as const,
  source: 'common-practice',
  measure: true,
}));

const brakePipes: readonly TubeRow[] = [
  {
    id: 'brake-pipe-copper-nickel',
    name: '4.75 x 0.9 mm copper-nickel brake pipe',
    material: 'copper-nickel',
    odMm: 4.75,
    wallMm: 0.9,
    dash: 3,
    bendRadiusMm: 16,
    minStraightMm: 10,
    clampStraightMm: 25,
    supportMm: 300,
    pressureBar: 200,
    maxC: 150,
    fluids: ['brake-fluid'],
    source: 'common-practice',
    measure: true,
  },
];

/** Every hard tube the tool knows by itself. */
export const builtInTubes: readonly TubeRow[] = [...inchTubes, ...pipes, ...brakePipes];
