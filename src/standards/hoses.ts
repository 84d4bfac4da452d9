import { barFromPsi, mmFromInches } from '#units';
import {
  coolantHoseSizes,
  fuelHoseSizes,
  type HoseSizeRow,
  type MetricHoseRow,
  ptfeSizes,
  rubberBraidSizes,
  siliconeSizes,
  signalHoseSizes,
  textileSizes,
} from './hose-table.ts';
import type { Fluid, HoseRow } from './rows.ts';

type Shared = Pick<HoseRow, 'family' | 'minC' | 'maxC' | 'vacuumBar' | 'fluids' | 'conductive'>;

const round = (value: number, digits: number): number => Number(value.toFixed(digits));

/** Wire of the coil that is pushed into a suction hose so that it cannot collapse [mm]; common practice. */
const coilWireMm = 1.2;

interface InchFamily {
  readonly id: string;
  readonly name: string;
  readonly dashMeans: 'tube-od' | 'bore';
  readonly shared: Shared;
  readonly sizes: readonly HoseSizeRow[];
  readonly coil?: boolean;
  /** Most pressure whatever the table says [bar]. */
  readonly mostBar?: number;
}

/** Rubber and PTFE tables state the inside of the bend; the centreline lies half an outside diameter further out. */
function inchRow(family: InchFamily, size: HoseSizeRow): HoseRow {
  const odMm = mmFromInches(size.odIn);
  const bar = barFromPsi(size.psi);
  return {
    ...family.shared,
    id: `${family.id}-${size.dash}`,
    name: `-${size.dash} ${family.name}`,
    dash: size.dash,
    dashMeans: family.dashMeans,
    boreMm: round(mmFromInches(size.boreIn) - (family.coil === true ? 2 * coilWireMm : 0), 2),
    odMm: round(odMm, 2),
    minBendRadiusMm: round(mmFromInches(size.bendIn) + odMm / 2, 1),
    radiusMeasured: 'inside',
    pressureBar: Math.floor(Math.min(bar, family.mostBar ?? bar)),
    source: size.source,
    measure: true,
  };
}

const oily: readonly Fluid[] = ['oil', 'oil-mist', 'water', 'fuel', 'air'];
const ptfeFluids: readonly Fluid[] = ['oil', 'oil-mist', 'water', 'brake-fluid', 'air'];

const rubber: Shared = {
  family: 'rubber-braid',
  minC: -54,
  maxC: 121,
  vacuumBar: null,
  fluids: oily,
  conductive: null,
};
const ptfe: Shared = {
  family: 'ptfe-smooth',
  minC: -54,
  maxC: 204,
  vacuumBar: null,
  fluids: ptfeFluids,
  conductive: false,
};

const inchFamilies: readonly InchFamily[] = [
  {
    id: 'rubber-braid',
    name: 'rubber hose, textile and one steel-wire braid',
    dashMeans: 'tube-od',
    shared: rubber,
    sizes: rubberBraidSizes,
  },
  {
    id: 'rubber-braid-coil',
    name: 'rubber hose, steel-wire braid, with a support coil inside for suction',
    dashMeans: 'tube-od',
    shared: { ...rubber, vacuumBar: 0.9 },
    sizes: rubberBraidSizes.filter((s) => s.dash >= 10 && s.dash <= 24),
    coil: true,
  },
  {
    id: 'ptfe-steel',
    name: 'smooth-bore PTFE hose, steel-wire braid',
    dashMeans: 'tube-od',
    shared: ptfe,
    sizes: ptfeSizes,
  },
  {
    id: 'ptfe-steel-conductive',
    name: 'smooth-bore PTFE hose, conductive liner, steel-wire braid',
    dashMeans: 'tube-od',
    shared: { ...ptfe, conductive: true, fluids: [...ptfeFluids, 'fuel'] },
    sizes: ptfeSizes.filter((s) => s.dash >= 4),
  },
  {
    id: 'ptfe-aramid-conductive',
    name: 'smooth-bore PTFE hose, conductive liner, aramid braid',
    dashMeans: 'tube-od',
    shared: { ...ptfe, maxC: 150, conductive: true, fluids: ['oil', 'oil-mist', 'water', 'fuel', 'air'] },
    sizes: ptfeSizes.filter((s) => s.dash >= 4),
    mostBar: 40,
  },
  {
    id: 'rubber-textile',
    name: 'rubber hose, textile braid',
    dashMeans: 'bore',
    shared: {
      family: 'rubber-textile',
      minC: -40,
      maxC: 100,
      vacuumBar: null,
      fluids: ['oil', 'oil-mist', 'water', 'air'],
      conductive: null,
    },
    sizes: textileSizes,
  },
];

interface MetricFamily {
  readonly id: string;
  readonly name: string;
  readonly shared: Shared;
  readonly sizes: readonly MetricHoseRow[];
}

const metricFamilies: readonly MetricFamily[] = [
  {
    id: 'fuel-hose',
    name: 'fuel-injection hose',
    shared: { family: 'fuel-hose', minC: -40, maxC: 125, vacuumBar: null, fluids: ['fuel'], conductive: null },
    sizes: fuelHoseSizes,
  },
  {
    id: 'coolant-hose',
    name: 'rubber coolant hose',
    shared: { family: 'coolant-hose', minC: -40, maxC: 120, vacuumBar: null, fluids: ['water'], conductive: null },
    sizes: coolantHoseSizes,
  },
  {
    id: 'silicone',
    name: 'silicone coupler hose',
    shared: { family: 'silicone', minC: -50, maxC: 170, vacuumBar: null, fluids: ['water', 'air'], conductive: null },
    sizes: siliconeSizes,
  },
  {
    id: 'silicone',
    name: 'silicone hose for boost and vacuum signals',
    shared: { family: 'silicone', minC: -50, maxC: 170, vacuumBar: 0.5, fluids: ['air'], conductive: null },
    sizes: signalHoseSizes,
  },
];

function metricRow(family: MetricFamily, size: MetricHoseRow): HoseRow {
  return {
    ...family.shared,
    id: `${family.id}-${size.boreMm}`,
    name: `${size.boreMm} mm ${family.name}`,
    boreMm: size.boreMm,
    odMm: size.odMm,
    minBendRadiusMm: size.bendMm,
    radiusMeasured: 'centreline',
    pressureBar: size.bar,
    source: size.source,
    measure: true,
  };
}

/** Every hose the tool knows by itself; all of them usual sizes, to be measured. */
export const builtInHoses: readonly HoseRow[] = [
  ...inchFamilies.flatMap((f) => f.sizes.map((s) => inchRow(f, s))),
  ...metricFamilies.flatMap((f) => f.sizes.map((s) => metricRow(f, s))),
];
