declare const unitOf: unique symbol;

/** A number that carries its unit in the type: SI inside, made only by this room. */
export type Branded<Unit extends string> = number & { readonly [unitOf]: Unit };

export type Metres = Branded<'m'>;
export type SquareMetres = Branded<'m2'>;
export type CubicMetresPerSecond = Branded<'m3/s'>;
/** Above the air outside: what a gauge on the car reads. Negative = suction. */
export type PascalsGauge = Branded<'Pa gauge'>;
/** Above vacuum: what boiling and gas laws need. */
export type PascalsAbsolute = Branded<'Pa absolute'>;
/** A temperature. */
export type Kelvin = Branded<'K'>;
/** How much warmer one thing is than another; never offset by 273.15. */
export type KelvinDifference = Branded<'K difference'>;
export type Radians = Branded<'rad'>;
export type NewtonMetres = Branded<'N m'>;
export type Kilograms = Branded<'kg'>;
export type MetresPerSecond = Branded<'m/s'>;
