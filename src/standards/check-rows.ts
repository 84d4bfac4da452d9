import type { OwnAdapter, OwnHose, OwnHoseEnd, OwnTube } from './own-rows.ts';

/** Greatest length that a part on a car can have [mm]; beyond it a unit was mistaken. */
const mostMm = 2000;

type Fields = Readonly<Record<string, unknown>>;

/** One fault line for each named field that is not a number between 0 (excluded unless `zero`) and `most`. */
function numbers(row: object, where: string, names: readonly string[], needed: boolean, zero = false): string[] {
  return names.flatMap((name) => {
    const value = (row as Fields)[name];
    if (value === undefined) return needed ? [`${where}: ${name} is missing`] : [];
    if (typeof value !== 'number' || !Number.isFinite(value) || value < 0 || (value === 0 && !zero) || value > mostMm) {
      return [`${where}: ${name} is ${String(value)}; a number ${zero ? 'from' : 'above'} 0 to ${mostMm} is allowed`];
    }
    return [];
  });
}

export function checkHose(own: OwnHose, where: string): string[] {
  const found = numbers(own, where, ['boreMm', 'odMm', 'minBendRadiusMm', 'pressureBar'], false);
  if (found.length === 0 && own.boreMm !== undefined && own.odMm !== undefined && own.boreMm >= own.odMm) {
    return [`${where}: boreMm ${own.boreMm} is not smaller than odMm ${own.odMm}`];
  }
  return found;
}

export const checkTube = (own: OwnTube, where: string): string[] => {
  const found = numbers(own, where, ['odMm', 'wallMm', 'bendRadiusMm'], false);
  if (found.length === 0 && own.odMm !== undefined && own.wallMm !== undefined && own.wallMm * 2 >= own.odMm) {
    return [`${where}: wallMm ${own.wallMm} leaves no bore in odMm ${own.odMm}`];
  }
  return found;
};

export const checkAdapter = (own: OwnAdapter, where: string, known: boolean): string[] => [
  ...(known || (own.a !== undefined && own.b !== undefined) ? [] : [`${where}: a and b are needed: the ends at its two sides`]),
  ...numbers(own, where, ['lengthMm', 'bodyOdMm', 'boreMm'], !known),
];

export const checkHoseEnd = (own: OwnHoseEnd, where: string, known: boolean): string[] => [
  ...(known || (own.to !== undefined && own.families !== undefined && own.angleDeg !== undefined) ? [] : [`${where}: to, families and angleDeg are needed`]),
  ...numbers(own, where, ['nutMm', 'socketMm', 'socketOdMm', 'neckOdMm', 'insertMm', 'boreMm'], !known, true),
];
