import { nearestName } from '#sources';
import type { FluidSpec, FuelSpec, GlycolSpec, OilSpec } from './fluid-spec.ts';
import { glycolFreezingPoint } from './glycol.ts';
import { findOilGrade, nearestOilGrade } from './j300.ts';
import type { ViscosityPoint } from './walther.ts';

type Range = readonly [min: number, max: number];

/** What stands there, short, whatever it is. */
const shown = (value: unknown): string =>
  typeof value === 'number' ? String(value) : (JSON.stringify(value) ?? String(value)).slice(0, 60);

const stands = (where: string, value: unknown, allowed: string): string =>
  `${where}: stands ${shown(value)}; allowed: ${allowed}`;

/** A fault when it is no number in the range. */
function rangeFaults(where: string, value: unknown, [min, max]: Range, unit: string): string[] {
  if (typeof value === 'number' && value >= min && value <= max) return [];
  return [stands(where, value, `${min} to ${max}${unit === '' ? '' : ` ${unit}`}`)];
}

const optionalFaults = (where: string, value: unknown, range: Range, unit: string): string[] =>
  value === undefined ? [] : rangeFaults(where, value, range, unit);

const kinds = ['oil', 'glycol', 'water', 'fuel', 'air'] as const;
type Kind = (typeof kinds)[number];

/** Temperatures that the fluids are worked at [C]. */
const temperatures: Readonly<Record<Kind, Range>> = {
  oil: [-40, 160],
  glycol: [-50, 130],
  water: [0, 150],
  fuel: [-30, 80],
  air: [-80, 800],
};
/** Absolute pressures [Pa]: liquids as good as incompressible up to here, air as good as ideal. */
const pressures: Readonly<Record<Kind, Range>> = {
  oil: [100, 5e7],
  glycol: [100, 5e7],
  water: [100, 5e7],
  fuel: [100, 5e7],
  air: [100, 1e6],
};

const gradeWords = 'a grade of SAE J300 such as 10W-60, 5W-30 or 40';

function gradeFaults(grade: unknown): string[] {
  if (typeof grade === 'string' && findOilGrade(grade) !== undefined) return [];
  const near = typeof grade === 'string' ? nearestOilGrade(grade) : undefined;
  return [stands('fluid.grade', grade, near === undefined ? gradeWords : `${gradeWords}; nearest: ${near}`)];
}

/** Kinematic viscosities and temperatures that a point may state; index table and equation reach this far. */
const pointTemperatures: Range = [-40, 160];
const pointViscosities: Range = [0.5, 1e6];
const indexViscosities: Range = [2, 70];

const isPoint = (point: unknown): point is ViscosityPoint => typeof point === 'object' && point !== null;

function pointsFaults(points: unknown, index: unknown): string[] {
  if (!Array.isArray(points) || points.length === 0)
    return [
      stands('fluid.points', points, 'two or more of { temperatureC, cSt }, or one at 100 C with viscosityIndex'),
    ];
  const each = (points as readonly unknown[]).flatMap((point, i) => {
    const where = `fluid.points[${i}]`;
    if (!isPoint(point)) return [stands(where, point, '{ temperatureC, cSt }')];
    return [
      ...rangeFaults(`${where}.temperatureC`, point.temperatureC, pointTemperatures, 'C'),
      ...rangeFaults(`${where}.cSt`, point.cSt, pointViscosities, 'mm2/s'),
    ];
  });
  if (each.length > 0) return each;
  return (points as readonly ViscosityPoint[]).length === 1
    ? onePointFaults(points[0] as ViscosityPoint, index)
    : orderFaults(points as readonly ViscosityPoint[]);
}

function onePointFaults(point: ViscosityPoint, index: unknown): string[] {
  if (index === undefined)
    return [stands('fluid.points', [point], 'two points, or one at 100 C together with viscosityIndex')];
  if (point.temperatureC !== 100)
    return [stands('fluid.points[0].temperatureC', point.temperatureC, '100 C when viscosityIndex gives the other')];
  return rangeFaults('fluid.points[0].cSt', point.cSt, indexViscosities, 'mm2/s when viscosityIndex gives the other');
}

/** Colder must be thicker, and no two at one temperature. */
function orderFaults(points: readonly ViscosityPoint[]): string[] {
  const sorted = points.toSorted((p, q) => p.temperatureC - q.temperatureC);
  return sorted.slice(1).flatMap((warm, i) => {
    const cold = sorted[i] ?? warm;
    const at = `${warm.cSt} mm2/s at ${warm.temperatureC} C beside ${cold.cSt} at ${cold.temperatureC} C`;
    if (warm.temperatureC - cold.temperatureC < 1)
      return [`fluid.points: stands ${at}; allowed: points at least 1 C apart`];
    return warm.cSt < cold.cSt ? [] : [`fluid.points: stands ${at}; allowed: thinner when warmer`];
  });
}

function oilFaults(spec: OilSpec): string[] {
  const faults = [
    ...optionalFaults('fluid.densityAt15KgM3', spec.densityAt15KgM3, [800, 1100], 'kg/m3'),
    ...optionalFaults('fluid.viscosityIndex', spec.viscosityIndex, [0, 400], ''),
  ];
  if (spec.points !== undefined) return [...pointsFaults(spec.points, spec.viscosityIndex), ...faults];
  if (spec.grade !== undefined) return [...gradeFaults(spec.grade), ...faults];
  return [
    'fluid: stands oil with neither grade nor points; allowed: a grade, two points, or one with viscosityIndex',
    ...faults,
  ];
}

function glycolFaults(spec: GlycolSpec, temperatureC: number): string[] {
  const faults = rangeFaults('fluid.massFraction', spec.massFraction, [0, 0.6], 'by mass');
  if (faults.length > 0) return faults;
  const freezesC = glycolFreezingPoint(spec.massFraction);
  if (temperatureC >= freezesC) return [];
  const from = `${freezesC.toFixed(1)} C, where ${spec.massFraction} glycol by mass begins to freeze`;
  return [stands('temperatureC', temperatureC, `from ${from}, or more glycol`)];
}

const fuelFaults = (spec: FuelSpec): string[] => [
  ...rangeFaults('fluid.ethanolFraction', spec.ethanolFraction, [0, 1], 'by volume'),
  ...optionalFaults('fluid.densityAt15KgM3', spec.densityAt15KgM3, [650, 850], 'kg/m3'),
  ...optionalFaults('fluid.viscosityCSt', spec.viscosityCSt, [0.3, 5], 'mm2/s at 20 C'),
  ...optionalFaults('fluid.reidKpa', spec.reidKpa, [10, 110], 'kPa'),
];

function ownFaults(spec: FluidSpec, temperatureC: number): string[] {
  if (spec.kind === 'oil') return oilFaults(spec);
  if (spec.kind === 'glycol') return glycolFaults(spec, temperatureC);
  return spec.kind === 'fuel' ? fuelFaults(spec) : [];
}

function kindFaults(spec: unknown): string[] {
  if (typeof spec !== 'object' || spec === null) return [stands('fluid', spec, `{ kind: ${kinds.join(' | ')}, ... }`)];
  const { kind } = spec as { readonly kind?: unknown };
  if (kinds.some((known) => known === kind)) return [];
  const near = typeof kind === 'string' ? nearestName(kind, kinds) : undefined;
  return [stands('fluid.kind', kind, `${kinds.join(', ')}${near === undefined ? '' : `; nearest: ${near}`}`)];
}

/** What is wrong with a question about a fluid, one line each: where, what stands there, what is allowed. */
export function specFaults(spec: FluidSpec, temperatureC: number, pressureAbsPa?: number): string[] {
  const unknown = kindFaults(spec);
  if (unknown.length > 0) return unknown;
  return [
    ...rangeFaults('temperatureC', temperatureC, temperatures[spec.kind], 'C'),
    ...optionalFaults('pressureAbsPa', pressureAbsPa, pressures[spec.kind], 'Pa'),
    ...ownFaults(spec, temperatureC),
  ];
}
