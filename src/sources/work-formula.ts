import type { Finding } from './finding.ts';
import type { Formula, FormulaInput } from './formula.ts';
import { nearestName } from './nearest-name.ts';

/** A formula worked by hand: the value with range notes, or what is wrong with the inputs, one line each. */
export type Worked =
  | { readonly ok: true; readonly value: number; readonly unit: string; readonly findings: readonly Finding[] }
  | { readonly ok: false; readonly faults: readonly string[] };

/** Works a formula for inputs given by name. Out of range is noted, never clamped; a missing, unknown or non-finite input is a fault. */
export function workFormula(formula: Formula, given: Readonly<Record<string, number>>): Worked {
  const faults = [...unknownInputs(formula, given), ...formula.inputs.flatMap((i) => faultOf(formula, i, given))];
  if (faults.length > 0) return { ok: false, faults };
  const value = formula.evaluate(given);
  if (!Number.isFinite(value)) {
    const at = formula.inputs.map((i) => `${i.name}=${given[i.name]}`).join(' ');
    return {
      ok: false,
      faults: [`${formula.id}: no finite result at ${at}; the inputs lie where the equation has no answer`],
    };
  }
  return {
    ok: true,
    value,
    unit: formula.result.unit,
    findings: formula.inputs.flatMap((i) => rangeNote(formula, i, given)),
  };
}

function unknownInputs(formula: Formula, given: Readonly<Record<string, number>>): string[] {
  const names = formula.inputs.map((i) => i.name);
  return Object.keys(given)
    .filter((name) => !names.includes(name))
    .map((name) => {
      const near = nearestName(name, names);
      const meant =
        near === undefined ? `allowed: ${names.join(', ')}` : `nearest: ${near}; allowed: ${names.join(', ')}`;
      return `${formula.id}: no input named "${name.slice(0, 40)}"; ${meant}`;
    });
}

function faultOf(formula: Formula, input: FormulaInput, given: Readonly<Record<string, number>>): string[] {
  const value = Object.hasOwn(given, input.name) ? given[input.name] : undefined;
  if (value === undefined) return [`${formula.id}: ${input.name} is missing [${input.unit}]: ${input.text}`];
  if (!Number.isFinite(value))
    return [`${formula.id}: ${input.name} is ${value}; a finite number in ${input.unit} is wanted`];
  return [];
}

function rangeNote(formula: Formula, input: FormulaInput, given: Readonly<Record<string, number>>): Finding[] {
  const value = given[input.name];
  if (value === undefined || input.range === undefined) return [];
  const [min, max] = input.range;
  if (value >= min && value <= max) return [];
  return [
    {
      code: 'formula-range',
      level: 'fix',
      text: `${formula.id}: ${input.name} = ${value} ${input.unit} is outside ${min} to ${max}, where the equation holds`,
      value,
      limit: value < min ? min : max,
      unit: input.unit,
      source: formula.source,
    },
  ];
}
