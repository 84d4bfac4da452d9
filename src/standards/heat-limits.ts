import type { SourceId } from '#sources';

/** What sealing materials stand for good [degC]. Recalled figures; compounds differ. */
export const sealMaterials = [
  { id: 'nbr', name: 'nitrile rubber', mostC: 120, source: 'from-memory' },
  { id: 'hnbr', name: 'hydrogenated nitrile', mostC: 150, source: 'from-memory' },
  { id: 'epdm', name: 'EPDM', mostC: 150, source: 'from-memory' },
  { id: 'fkm', name: 'fluorocarbon rubber', mostC: 200, source: 'from-memory' },
] as const satisfies readonly {
  readonly id: string;
  readonly name: string;
  readonly mostC: number;
  readonly source: SourceId;
}[];

/** What a push-pull or brake cable stands for good: the liner of its conduit goes soft beyond, and its effort goes up first [degC]. */
export const controlCableLimit = {
  name: 'control cable with a plastic liner',
  mostC: 110,
  source: 'from-memory',
  note: 'state standsC of the cable where its maker says another',
} as const satisfies {
  readonly name: string;
  readonly mostC: number;
  readonly source: SourceId;
  readonly note: string;
};

/** What fluids stand [degC]; coolant and fuel boil by their pressure, which the flow room works out. */
export const fluidHeatLimits = [
  {
    id: 'oil',
    name: 'engine oil in the bulk',
    mostC: 150,
    source: 'common-practice',
    note: 'above it the oil ages fast; many teams stop at 130 to 140',
  },
  {
    id: 'brake-fluid',
    name: 'brake fluid with water in it, as after a year',
    mostC: 140,
    source: 'from-memory',
    note: 'wet boiling points asked for: 140 (DOT 3), 155 (DOT 4), 180 (DOT 5.1)',
  },
] as const satisfies readonly {
  readonly id: string;
  readonly name: string;
  readonly mostC: number;
  readonly source: SourceId;
  readonly note: string;
}[];
