import type { Case, HeatReading } from '#car';
import type { Vec } from '#geometry';
import type { BayAir } from './air/bay-air-answer.ts';
import type { HeatFinding } from './finding.ts';

/** Heat that comes from one thing (or goes there: negative), and how much hotter it makes the place. */
export interface HeatShare {
  /** A part, panel or line by its id; or one of these words. */
  readonly of: string | 'bay-air' | 'fluid' | 'surroundings' | 'port';
  readonly kind: 'part' | 'panel' | 'line' | 'bay-air' | 'fluid' | 'surroundings' | 'port';
  readonly name: string;
  /** To the stretch at the worst place [W]. */
  readonly watts: number;
  /** How much hotter the place is than with this one at the temperature of the air about it [K]. */
  readonly kelvin: number;
}

/** A temperature that something stands, and what it comes to. */
export interface HeatLimit {
  readonly what: 'hose' | 'tube' | 'end' | 'seal' | 'fluid' | 'sleeve' | 'part' | 'panel';
  /** What it is, in words: "-12 steel-braided rubber". */
  readonly name: string;
  readonly limitC: number;
  readonly valueC: number;
  /** Limit less value; negative where it is broken [K]. */
  readonly marginK: number;
  /** A row of the bibliography or the builder's own words. */
  readonly source: string;
  readonly atMm?: Vec;
  /** Not what it stands, but how far it is known to: beyond it nothing can be said. */
  readonly isTableEnd?: boolean;
}

/** One place along a line. */
export interface LinePoint {
  /** Along the line from its first port face [mm]. */
  readonly alongMm: number;
  readonly atMm: Vec;
  /** Hottest place of the surface there, and the mean round it [degC]. */
  readonly worstC: number;
  readonly meanC: number;
  readonly fluidC: number;
  /** Air about it [degC]. */
  readonly airC: number;
}

/** Where a line is hottest, and what makes it so. */
export interface WorstPlace {
  readonly alongMm: number;
  readonly atMm: Vec;
  /** Way out of the hottest side. */
  readonly faces: Vec;
  /** Of the outside: of the sleeve where there is one [degC]. */
  readonly surfaceC: number;
  /** Outside of the hose or tube itself, under a sleeve [degC]. */
  readonly underC: number;
  /** Inside of the wall [degC]. */
  readonly innerC: number;
  /** 95 % error of the rays, and the spread of emissivities and given temperatures, together [K]. */
  readonly errorK: number;
  readonly shares: readonly HeatShare[];
}

/** How hot a line gets in one case. */
export interface LineHeat {
  readonly line: string;
  readonly points: readonly LinePoint[];
  readonly worst: WorstPlace;
  /** Least margin first. */
  readonly limits: readonly HeatLimit[];
  /** Where it goes in and comes out by the flow; without flow: at its first and last port [degC]. */
  readonly fluidInC: number;
  readonly fluidOutC: number;
  /** Flow it was worked out with; 0: standing [m3/s]. */
  readonly flowM3S: number;
  readonly carries: 'oil' | 'water' | 'fuel' | 'air' | 'brake-fluid';
  /** Heat taken up over its length; negative: given off [W]. */
  readonly heatInW: number;
  /** In a soak: the highest of it all and when. */
  readonly peak?: Peak;
}

export interface Peak {
  readonly atMin: number;
  readonly c: number;
}

/** How hot a panel gets in one case. */
export interface PanelHeat {
  readonly panel: string;
  readonly name: string;
  readonly meanC: number;
  readonly worstC: number;
  readonly atMm: Vec;
  readonly errorK: number;
  readonly shares: readonly HeatShare[];
  readonly limits: readonly HeatLimit[];
  /** Pieces of it, for colouring. */
  readonly patches: readonly { readonly atMm: Vec; readonly c: number; readonly areaM2: number }[];
  readonly peak?: Peak;
}

/** How hot a part gets in one case. */
export interface PartHeat {
  readonly part: string;
  readonly name: string;
  /** Its outside; of a covered part the outside of the cover [degC]. */
  readonly surfaceC: number;
  /** Under the cover, where it has one [degC]. */
  readonly underC?: number;
  /** Given in the car file; following a fluid; worked out from what it gets and gives. */
  readonly how: 'given' | 'kept' | 'worked out';
  readonly emissivity: number;
  /** Heat it gives to air and by radiation [W]. */
  readonly toAirW: number;
  readonly byRadiationW: number;
  readonly errorK: number;
  /** Of one that is followed along its length (a loom, a cable): at its hottest place, which `surfaceC` tells. */
  readonly shares: readonly HeatShare[];
  readonly limits: readonly HeatLimit[];
  readonly peak?: Peak;
  /** Of one that is followed along its length: each stretch from its first point on. */
  readonly places?: readonly PartPlace[];
}

/** One stretch of a long part. */
export interface PartPlace {
  /** Its middle, from the part's first point on [mm]. */
  readonly alongMm: number;
  readonly atMm: Vec;
  readonly fromMm: Vec;
  readonly toMm: Vec;
  readonly odMm: number;
  /** Mean round it [degC]. */
  readonly c: number;
}

/** Temperatures over the minutes after switching off. All series have the length of `minutes`. */
export interface Soak {
  /** Case from whose state it begins. */
  readonly after: string;
  readonly minutes: readonly number[];
  /** Hottest place of the line at each moment [degC]. */
  readonly lines: readonly SoakSeries[];
  readonly parts: readonly SoakSeries[];
  readonly panels: readonly SoakSeries[];
  /** Air of the bays. */
  readonly bays: readonly SoakSeries[];
  /** Lines whose water boils. */
  readonly boils: readonly LineBoils[];
  readonly coversOff: readonly string[];
  readonly fanRunsMin: number;
  readonly pumpRunsMin: number;
  /** Heat in, out and stored over the whole time do not agree by this share. */
  readonly unbalanced: number;
}

/** Water that boils while it stands. */
export interface LineBoils {
  readonly line: string;
  /** Its boiling point under its cap [degC]. */
  readonly atC: number;
  readonly fromMin: number;
  /** Gone off as steam, by the heat that it took [L]. */
  readonly litres: number;
  /** From here on nothing is left in it: it goes on as a wall with steam in it; nothing runs in after. Absent: it does not come to that. */
  readonly dryMin?: number;
}

export interface SoakSeries {
  readonly id: string;
  readonly c: readonly number[];
  readonly peak: Peak;
}

/** A reading beside what was worked out. */
export interface ReadingCompared {
  readonly reading: HeatReading;
  /** What the model says there; null where the thing or the case was not worked out. */
  readonly workedC: number | null;
  /** Read less worked out [K]; of a strip between two marks: from the nearer mark, 0 between them. */
  readonly differenceK: number | null;
  /** What was corrected by it, in words; absent: nothing. */
  readonly corrected?: string;
}

/** One case of the car. */
export interface HeatCase {
  readonly case: Case;
  readonly kind: 'running' | 'soak';
  /** Least margin first. In a soak: at the peak of each. */
  readonly lines: readonly LineHeat[];
  readonly panels: readonly PanelHeat[];
  readonly parts: readonly PartHeat[];
  readonly bays: readonly BayAir[];
  /** From parts of given temperature and from fluids; to air, fluids and surroundings [W]. */
  readonly heatInW: number;
  readonly heatOutW: number;
  /** Share by which the two differ. */
  readonly unbalanced: number;
  readonly soak?: Soak;
  readonly findings: readonly HeatFinding[];
}

/** How the rays were shot. */
export interface RaysShot {
  readonly patches: number;
  readonly raysShot: number;
  readonly seed: number;
}

/** How hot everything gets, in every case that was asked. */
export interface HeatAnswer {
  readonly cases: readonly HeatCase[];
  readonly readings: readonly ReadingCompared[];
  readonly rays: RaysShot;
  /** What holds whatever the case. */
  readonly findings: readonly HeatFinding[];
}

/** What one cure is worth at a line's worst place. */
export interface HeatCure {
  readonly kind: 'gap' | 'way' | 'blanket' | 'reflecting-sleeve' | 'shield' | 'fire-sleeve' | 'cover-off' | 'pump-on';
  readonly words: string;
  /** Case it is told for. */
  readonly case: string;
  readonly beforeC: number;
  readonly afterC: number;
  /** Degrees gained [K]. */
  readonly gainK: number;
  /** What it costs: room it takes [mm], weight [g], parts to buy or make. */
  readonly roomMm?: number;
  readonly grams?: number;
  readonly parts: readonly string[];
  readonly note?: string;
  /** A plate to be made: a box about its own middle, turned about car X, Y, Z, then moved, as the car file's shapes are. */
  readonly plate?: {
    readonly minMm: Vec;
    readonly maxMm: Vec;
    readonly turnDeg: Vec;
    readonly atMm: Vec;
    readonly finish: string;
    /** It is counted with, as it gets in use [-]. */
    readonly emissivity: number;
    readonly thicknessMm: number;
    /** Its own temperature there [degC]. */
    readonly plateC: number;
  };
}

/** Cures for one line, the one that gains most first. */
export interface LineCures {
  readonly line: string;
  readonly cures: readonly HeatCure[];
}
