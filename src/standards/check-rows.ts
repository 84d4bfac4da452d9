import type { OwnAdapter, OwnHose, OwnHoseEnd, OwnTube } from './own-catalogue.ts';
import { clampKinds, sealKinds } from './rows.ts';

/** Greatest length that a part on a car can have [mm]; beyond it a unit was mistaken. */
const mostMm = 5000;

type Fields = Readonly<Record<string, unknown>>;

/** One fault line for each named field that is not a number between 0 (excluded unless `zero`) and `mostMm`. */
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

/** What is wrong with a hose row; a new one needs its bore, outside and least radius. */
export function checkHose(own: OwnHose, where: string, known: boolean): string[] {
  const found = [
    ...numbers(own, where, ['boreMm', 'odMm', 'minBendRadiusMm'], !known),
    ...numbers(own, where, ['pressureBar'], false),
  ];
  if (found.length === 0 && own.boreMm !== undefined && own.odMm !== undefined && own.boreMm >= own.odMm) {
    return [`${where}: boreMm ${own.boreMm} is not smaller than odMm ${own.odMm}`];
  }
  if (
    found.length === 0 &&
    own.minBendRadiusMm !== undefined &&
    own.odMm !== undefined &&
    own.minBendRadiusMm < own.odMm / 2
  ) {
    return [
      `${where}: minBendRadiusMm ${own.minBendRadiusMm} is less than half of odMm ${own.odMm}; the radius to the centreline is wanted`,
    ];
  }
  return found;
}

/** What is wrong with a tube row. */
export function checkTube(own: OwnTube, where: string, known: boolean): string[] {
  const found = numbers(own, where, ['odMm', 'wallMm', 'bendRadiusMm'], !known);
  if (found.length === 0 && own.odMm !== undefined && own.wallMm !== undefined && own.wallMm * 2 >= own.odMm) {
    return [`${where}: wallMm ${own.wallMm} leaves no bore in odMm ${own.odMm}`];
  }
  return found;
}

/** What is wrong with an adapter row. */
export const checkAdapter = (own: OwnAdapter, where: string, known: boolean): string[] => [
  ...(known || (own.a !== undefined && own.b !== undefined)
    ? []
    : [`${where}: a and b are missing: the ends at its two sides`]),
  ...numbers(own, where, ['lengthMm', 'bodyOdMm', 'boreMm'], !known),
  ...(own.angleDeg !== undefined && own.angleDeg !== 0 && !known
    ? numbers(own, where, ['aLegMm', 'bLegMm'], true)
    : []),
];

/** What is wrong with a hose-end row. */
export const checkHoseEnd = (own: OwnHoseEnd, where: string, known: boolean): string[] => [
  ...(known || own.to !== undefined ? [] : [`${where}: to is missing: the end that it screws on with`]),
  ...(known || own.families !== undefined ? [] : [`${where}: families is missing: the hose families that it goes on`]),
  ...(known || own.angleDeg !== undefined ? [] : [`${where}: angleDeg is missing`]),
  ...numbers(own, where, ['nutMm', 'socketMm', 'socketOdMm', 'neckOdMm', 'boreMm'], !known, true),
  ...numbers(own, where, ['insertMm'], !known && own.cutFactorMm === undefined, true),
  ...numbers(own, where, ['cutFactorMm'], false),
  ...(own.insertMm === undefined || own.cutFactorMm === undefined
    ? []
    : [`${where}: insertMm and cutFactorMm both stand there; one gives the other`]),
];

/** One fault line where the field is not one of these words. */
function word(row: object, where: string, name: string, allowed: readonly string[], needed: boolean): string[] {
  const value = (row as Fields)[name];
  if (value === undefined && !needed) return [];
  return allowed.includes(value as string)
    ? []
    : [`${where}: ${name} is ${shown(value)}; allowed: ${allowed.join(' ')}`];
}

/** One fault line where the field is no text, or an empty one. */
function words(row: object, where: string, name: string, needed: boolean): string[] {
  const value = (row as Fields)[name];
  if (value === undefined && !needed) return [];
  return typeof value === 'string' && value !== ''
    ? []
    : [`${where}: ${name} is ${shown(value)}; some words are wanted`];
}

const shown = (value: unknown): string => (value === undefined ? 'missing' : JSON.stringify(value).slice(0, 40));

/** A part that takes from one size to another; the greater must be the greater. */
function inOrder(row: object, where: string, less: string, more: string): string[] {
  const [a, b] = [(row as Fields)[less], (row as Fields)[more]];
  return typeof a === 'number' && typeof b === 'number' && a >= b
    ? [`${where}: ${less} ${a} is not smaller than ${more} ${b}`]
    : [];
}

/** What is wrong with a seal's row. */
export const checkSeal = (own: object, where: string, known: boolean): string[] => [
  ...word(own, where, 'kind', sealKinds, !known),
  ...words(own, where, 'size', !known),
  ...numbers(own, where, ['idMm', 'sectionMm'], !known, true),
];

/** What is wrong with a clamp's row. */
export const checkClamp = (own: object, where: string, known: boolean): string[] => [
  ...word(own, where, 'kind', clampKinds, !known),
  ...numbers(own, where, ['minOdMm', 'maxOdMm', 'widthMm', 'maxC'], !known),
  ...numbers(own, where, ['standOffMm'], !known, true),
  ...words(own, where, 'screw', !known),
  ...inOrder(own, where, 'minOdMm', 'maxOdMm'),
];

/** What is wrong with a grommet's row. */
export const checkGrommet = (own: object, where: string, known: boolean): string[] => [
  ...numbers(own, where, ['lineOdMinMm', 'lineOdMaxMm', 'holeMm', 'panelMaxMm', 'outsideOdMm', 'maxC'], !known),
  ...inOrder(own, where, 'lineOdMinMm', 'lineOdMaxMm'),
  ...inOrder(own, where, 'holeMm', 'outsideOdMm'),
];
