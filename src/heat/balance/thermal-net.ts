/** Nodes that are solved together: their links reach no further than `half` from each other. */
export interface NetBlock {
  readonly from: number;
  readonly to: number;
  readonly half: number;
}

/** Heat that a square metre gives to the air about it, by its temperature: straight between points `stepK` apart from the air's own. */
export interface FilmTable {
  readonly airC: number;
  readonly stepK: number;
  /** Points below the air's temperature. */
  readonly below: number;
  /** [W/m2], 0 at `below`. */
  readonly heat: Float64Array;
}

/** What two groups of nodes exchange by radiation: sigma K (E_a - E_b), E the mean of T^4 over a group by its weights. */
export interface RadiantPair {
  /** [m2]. */
  readonly k: number;
  readonly nodesA: Int32Array;
  readonly weightsA: Float64Array;
  readonly nodesB: Int32Array;
  readonly weightsB: Float64Array;
}

/** A network of heat: temperatures are in degC, radiation by absolute ones. */
export interface ThermalNet {
  readonly nodes: number;
  /** Blocks in order; together they hold every node. */
  readonly blocks: readonly NetBlock[];
  /** 1: the temperature is given. */
  readonly fixed: Uint8Array;
  /** [J/K]; counts in time only. */
  readonly capacity: Float64Array;
  /** Put in by what is not drawn [W]. */
  readonly source: Float64Array;
  /** To the air: a node, its area there [m2] and the row of `films`. */
  readonly filmNode: Int32Array;
  readonly filmArea: Float64Array;
  readonly film: Int32Array;
  /** May be put anew between steps in time. */
  films: readonly FilmTable[];
  /** By radiation to what lies outside the car [m2]. */
  readonly outsideK: Float64Array;
  readonly outsideC: number;
  readonly pairs: readonly RadiantPair[];
  /** Conduction: between nodes a and b [W/K]. */
  readonly linkA: Int32Array;
  readonly linkB: Int32Array;
  readonly linkG: Float64Array;
  /** Carried along by flow: node `flowTo` gets `flowWPerK` (T_from - T_to). */
  readonly flowFrom: Int32Array;
  readonly flowTo: Int32Array;
  readonly flowWPerK: Float64Array;
}

/** Where heat comes in and goes out of a network [W]. */
export interface NetHeat {
  /** From nodes of given temperature that give, sources and flow that comes in hotter than it leaves. */
  readonly inW: number;
  /** To the air, to the outside, to given nodes that take. */
  readonly outW: number;
  readonly toFilmsW: Float64Array;
  readonly toOutsideW: number;
}
