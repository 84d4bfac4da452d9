import type { FormulaInput } from '#sources';

type Range = readonly [number, number];

/** One input of a formula of this room. */
export const input = (name: string, unit: string, range: Range, text: string): FormulaInput => ({
  name,
  unit,
  range,
  text,
});

/** Inputs that many formulas of this room share. */
export const inputs = {
  reynolds: input('reynolds', '-', [1e-3, 1e8], 'Reynolds number'),
  rough: input('relativeRoughness', '-', [0, 0.05], 'wall roughness over bore'),
  flow: input('flowM3S', 'm3/s', [0, 0.1], 'flow'),
  bore: input('boreM', 'm', [5e-4, 0.5], 'bore'),
  length: input('lengthM', 'm', [0, 100], 'length'),
  density: input('densityKgM3', 'kg/m3', [0.1, 2000], 'density'),
  viscosity: input('viscosityPaS', 'Pa s', [1e-6, 100], 'dynamic viscosity'),
  drop: input('dropPa', 'Pa', [0, 1e8], 'drop of pressure'),
  slope: input('slope', '-', [0, 1], 'sine of the fall'),
  share: input('smallOverLarge', '-', [0, 1], 'smaller bore over larger'),
  discharge: input('discharge', '-', [0.3, 1], 'discharge coefficient'),
} as const;
