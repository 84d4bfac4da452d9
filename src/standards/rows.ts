import type { SourceId } from '#sources';
import type { End } from './end.ts';

/** What may run in a line. */
export const allFluids = ['oil', 'water', 'fuel', 'brake-fluid', 'air', 'oil-mist'] as const;
export type Fluid = (typeof allFluids)[number];

/** What every row carries. `source` is a row of the bibliography or the builder's own words. */
export interface Row {
  readonly id: string;
  readonly name: string;
  readonly source: SourceId | (string & {});
  /** True where the dimensions are a usual part's, not this one's: measure the part in your hand. */
  readonly measure: boolean;
  /** The builder's own part number, supplier and price, where given. */
  readonly partNumber?: string;
  readonly supplier?: string;
  readonly price?: number;
  readonly currency?: string;
}

export type AssumedOfHose = 'pressureBar' | 'minC' | 'maxC' | 'fluids';

/** A hose by the metre, or a formed length. */
export interface HoseRow extends Row {
  readonly family: string;
  readonly dash?: number;
  /** Some families count the dash by the tube that it replaces, some by their bore: a -8 differs by half in area. */
  readonly dashMeans?: 'tube-od' | 'bore';
  readonly boreMm: number;
  readonly odMm: number;
  /** Least bend radius to the centreline. */
  readonly minBendRadiusMm: number;
  /** How the table or maker states it; `inside` figures had OD/2 added to give `minBendRadiusMm`. */
  readonly radiusMeasured: 'centreline' | 'inside';
  readonly pressureBar: number;
  readonly minC: number;
  readonly maxC: number;
  /** Depth of vacuum below the air outside that it stands [bar], null where unknown. */
  readonly vacuumBar: number | null;
  readonly fluids: readonly Fluid[];
  /** Liner leads static away (fuel wants it); null where unknown. */
  readonly conductive: boolean | null;
  /** What the builder did not say of their own hose and was taken from the usual one: a note, never a refusal. */
  readonly assumed?: readonly AssumedOfHose[];
}

export type HoseEndAngleDeg = 0 | 30 | 45 | 60 | 90 | 120 | 150 | 180;
export type Fixing = 'crimped' | 'crushed-collar' | 'reusable' | 'push-on';

/** What holds a hose: seat face, nut and neck straight, bend, straight, socket. Lengths along its own centreline. */
export interface HoseEndRow extends Row {
  readonly families: readonly string[];
  readonly hoseDash?: number;
  readonly hoseBoreMm?: number;
  /** Its own end: a flare37-female screws onto a flare37-male. */
  readonly to: End;
  readonly angleDeg: HoseEndAngleDeg;
  readonly fixing: Fixing;
  /** Nut and neck straight before the bend, from the seat face. */
  readonly nutMm: number;
  readonly bendRadiusMm: number;
  /** Straight between bend and socket. */
  readonly afterBendMm: number;
  readonly socketMm: number;
  readonly socketOdMm: number;
  readonly neckOdMm: number;
  readonly nutHexMm: number;
  /** How far the hose goes into the socket, or over the spigot. */
  readonly insertMm: number;
  readonly boreMm: number;
  readonly reusable: boolean;
  /** Turns freely on its seat until tightened. */
  readonly canTurn: boolean;
}

export interface SealCount {
  readonly id: string;
  readonly qty: number;
}

export type ClockSetting = 'none' | 'swivel' | 'locknut' | 'taper' | 'banjo';

/** A fitting with an end each side. Straight: `lengthMm` from a's face to b's sealing face. Elbow: two legs that meet at its centre. */
export interface AdapterRow extends Row {
  readonly a: End;
  readonly b: End;
  readonly lengthMm: number;
  readonly aLegMm?: number;
  readonly bLegMm?: number;
  readonly angleDeg: 0 | 45 | 90;
  /** Centreline radius of the elbow; absent = the legs meet in a corner. */
  readonly bendRadiusMm?: number;
  /** Greatest diameter, hexes across corners. */
  readonly bodyOdMm: number;
  readonly hexMm: number;
  readonly boreMm: number;
  readonly clock: ClockSetting;
  readonly seals: readonly SealCount[];
  /** Must be in before its part is mounted. */
  readonly before?: boolean;
  /** Orifice [mm]; only chosen when the line asks for it. */
  readonly restrictorMm?: number;
}

/** An adapter that goes through a panel and is held by a nut. */
export interface BulkheadFittingRow extends AdapterRow {
  readonly panelMaxMm: number;
  readonly holeMm: number;
}

export const sealKinds = ['o-ring', 'bonded-washer', 'soft-washer', 'gasket', 'thread-sealant', 'collar'] as const;

export interface SealRow extends Row {
  readonly kind: (typeof sealKinds)[number];
  /** What it seals: an end type's size in words ("-8", "M14x1.5"). */
  readonly size: string;
  readonly idMm: number;
  readonly sectionMm: number;
}

export interface TubeRow extends Row {
  readonly material: string;
  readonly odMm: number;
  readonly wallMm: number;
  readonly dash?: number;
  /** Centreline radius of the usual bender. */
  readonly bendRadiusMm: number;
  /** Least straight between two bends. */
  readonly minStraightMm: number;
  /** Least straight that the bender holds at the start. */
  readonly clampStraightMm: number;
  /** Most distance between supports. */
  readonly supportMm: number;
  readonly pressureBar: number;
  readonly maxC: number;
  readonly fluids: readonly Fluid[];
}

export const clampKinds = ['p-clip', 'hose-clamp', 'line-separator'] as const;

export interface ClampRow extends Row {
  readonly kind: (typeof clampKinds)[number];
  readonly minOdMm: number;
  readonly maxOdMm: number;
  readonly widthMm: number;
  /** From the fixing face to the centre of the line. */
  readonly standOffMm: number;
  readonly screw: string;
  readonly maxC: number;
}

export interface GrommetRow extends Row {
  readonly lineOdMinMm: number;
  readonly lineOdMaxMm: number;
  readonly holeMm: number;
  readonly panelMaxMm: number;
  readonly outsideOdMm: number;
  readonly maxC: number;
}

/** What closes an open port or line while work is done, or for good. */
export interface PlugRow extends Row {
  readonly closes: End;
  readonly hexMm: number;
  readonly proudMm: number;
  readonly seals: readonly SealCount[];
}

/** A weld-in boss: the port that it makes in a skin. */
export interface BungRow extends Row {
  readonly port: End;
  readonly bodyOdMm: number;
  readonly heightMm: number;
  readonly holeMm: number;
  readonly material: string;
}
