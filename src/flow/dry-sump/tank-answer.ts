import type { TankWave } from '../tank/first-wave.ts';
import type { Cover } from '../tank/outlet.ts';
import type { StepTilt } from '../tank/surface-motion.ts';
import type { GGPicture, GreatestG } from '../tank/under-g.ts';

/** A tank's outlet at any g: the same in every case. */
export interface TankUnderG {
  readonly part: string;
  /** "part.port" of the feed. */
  readonly outlet: string;
  readonly line: string;
  readonly holdsM3: number;
  readonly runningM3: number;
  /** The least that the builder allows. */
  readonly statedLeastM3: number | null;
  /** The least fill that keeps the bore covered in every case, and the case that asks for it; null where no fill does. */
  readonly least: { readonly oilM3: number; readonly case: string } | null;
  /** The greatest g by direction of the plan at the running fill, at the least stated, at the least that the cases ask for. */
  readonly greatest: readonly { readonly oilM3: number; readonly rows: readonly GreatestG[] }[];
  /** Coverings over longitudinal and lateral g from -2 to 2 g, at the running fill, the least stated and the least that the cases ask for. */
  readonly pictures: readonly GGPicture[];
  /** Over the oil while it runs, and when the oil that the engine hides has come back. */
  readonly airOverM3: { readonly running: number; readonly standing: number };
  /** Pans and pots, standing on the level: what lies below their pick-ups, and what is stated to run in them. */
  readonly keeps: readonly {
    readonly vessel: string;
    readonly belowM3: number;
    readonly statedM3: number;
    /** How far the lowest pick-up's bore stands over the floor. */
    readonly overFloorMm: number;
    /** What they would keep with the lowest pick-up's bore at the floor. */
    readonly atFloorM3: number;
  }[];
}

/** A pick-up in a pan or pot, at the g of a case. */
export interface PickUpInCase {
  readonly spot: string;
  readonly stage: string;
  readonly words: string;
  readonly vessel: string;
  readonly cover: Cover;
  /** The pan must hold this much before it draws any oil, and this much before it draws no air. */
  readonly firstM3: number;
  readonly wholeM3: number;
}

/** A tank in one case. */
export interface TankInCase {
  readonly part: string;
  readonly outlet: string;
  readonly oilM3: number;
  readonly cover: Cover;
  /** The least fill that keeps the bore covered at this g; null where none does. */
  readonly leastM3: number | null;
  readonly drawnM3S: number;
  readonly returnedM3S: number;
  /** What pans keep back at this g beyond what stands in them, before their pick-ups draw. */
  readonly keptBackM3: number;
  /** Until the bore draws air, the g held from when nothing is amiss: Infinity where as much comes back in time. */
  readonly secondsCovered: number;
  /** The first wave, where the shape has a published one: after this g comes on at once. */
  readonly wave: { readonly wave: TankWave; readonly step: StepTilt; readonly cover: Cover } | null;
  readonly pickUps: readonly PickUpInCase[];
  readonly air: DeAeration | null;
}

/** What becomes of air in the tank. Plug flow, bubbles with a dirty skin (the rule in used oil). */
export interface DeAeration {
  readonly dwellS: number;
  readonly depthM: number;
  /** The smallest bubble that rises through the oil in that time; smaller ones go round again. */
  readonly smallestM: number;
  /** Its Reynolds number; above 1 the law says it rises faster than it does. */
  readonly reynolds: number;
}
