import type { Vec } from '#geometry';

/** How near the water is to boiling at one place. */
export interface BoilingSpot {
  readonly words: string;
  readonly line?: string;
  readonly atMm?: Vec;
  readonly absPa: number;
  readonly temperatureC: number;
  readonly boilsAtC: number;
  readonly marginK: number;
}

/** Water in a line in one case. */
export interface LineWater {
  readonly line: string;
  /** All along it: lines lose no heat here. */
  readonly temperatureC: number;
  readonly velocityMS: number;
  /** It leads into the pump. */
  readonly suction: boolean;
  readonly worst: BoilingSpot;
}

/** What a pump finds at its inlet. */
export interface WaterInlet {
  readonly pump: string;
  readonly words: string;
  /** Static, above the air outside [Pa]. */
  readonly gaugePa: number;
  readonly absPa: number;
  /** Over the vapour pressure [m of water]. */
  readonly overVapourM: number;
}

/** A trap of air as it stands in one attitude. */
export interface TrapWords {
  readonly words: string;
  readonly line?: string;
  readonly atMm: Vec;
  /** Null: it has no way out at all. */
  readonly depthMm: number | null;
  readonly airMl: number;
}

/** The water of a car in one case. Pressures above the air outside, unless absolute. */
export interface CoolantAnswer {
  readonly outsideAbsPa: number;
  readonly headerPa: number;
  readonly airC: number;
  /** Engine outlet that the case states; null: it does not. */
  readonly statedC: number | null;
  /** Engine outlet that flows and pressures are worked out at. */
  readonly outletC: number;
  /** Heat that the radiator takes off with the outlet at `outletC` [W]. */
  readonly carriedOffW: number;
  /** Heat that the case puts into the water [W]; null: not stated. */
  readonly heatW: number | null;
  /** Engine outlet at which that heat is carried off; null: no heat, or hotter than is worked with. */
  readonly settlesC: number | null;
  /** Networks solved to find it. */
  readonly settleRounds: number;
  /** What warmth comes into any place less what goes out, over the heat carried; by rounding. */
  readonly imbalanceShare: number;
  readonly lines: readonly LineWater[];
  readonly passages: readonly {
    readonly id: string;
    readonly inC: number;
    readonly outC: number;
    readonly heatW: number;
  }[];
  readonly inlets: readonly WaterInlet[];
  readonly worst: BoilingSpot | null;
  /** Lines that nothing runs through: their mouth in a vessel stands in the gas. */
  readonly stillLines: readonly string[];
  /** Where air stays as the car is pulled in this case. */
  readonly traps: readonly TrapWords[];
}

/** The car stood one way, and what its heights come to then. Heights against gravity [mm]. */
export interface HeightsAt {
  readonly words: string;
  readonly pitchDeg: number;
  readonly rollDeg: number;
  readonly headerBottomMm: number | null;
  readonly headerSurfaceMm: number | null;
  readonly highestMm: number | null;
  readonly highestWords: string;
  readonly highestAtMm: Vec;
  readonly traps: readonly TrapWords[];
}

/** One rung of the ladder of heights, the car level. */
export interface HeightRung {
  readonly words: string;
  readonly heightMm: number;
  readonly kind: 'header' | 'surface' | 'port' | 'bleed' | 'high-point' | 'trap';
}

/** What to open and when, while water goes in. */
export interface FillStep {
  readonly words: string;
  readonly heightMm: number;
  /** In the lines and the header up to there [L]; engine and radiator come on top. */
  readonly litres: number;
}

/** What water does by itself through a hot part after the engine is switched off. */
export interface Thermosiphon {
  readonly part: string;
  readonly words: string;
  /** Lines it runs through: hot first. */
  readonly lines: readonly string[];
  /** It runs the way the pump drives it, the other way, or not. */
  readonly runs: 'ahead' | 'stalls';
  /** Height of the hot leg [mm]. */
  readonly heightMm: number;
  /** Flow just before it boils [m3/s]. */
  readonly flowM3S: number;
  /** Heat carried then [W]. */
  readonly mostW: number;
  /** How much hotter the hot leg is then [K]. */
  readonly riseK: number;
  readonly why?: string;
  /** Water in the header that it lacks [mm]; 0: none. */
  readonly lacksMm: number;
}

/** What of a water circuit does not hang on a case. */
export interface CoolantHeights {
  readonly attitudes: readonly HeightsAt[];
  readonly bleeds: readonly {
    readonly line: string;
    /** Deepest dip on its way up, the car level [mm]. */
    readonly dipMm: number;
    readonly atMm: Vec;
  }[];
  readonly ladder: readonly HeightRung[];
  readonly fill: readonly FillStep[];
  readonly linesL: number;
  readonly headerL: number;
  readonly litresByLine: readonly { readonly line: string; readonly litres: number }[];
  readonly siphons: readonly Thermosiphon[];
}
