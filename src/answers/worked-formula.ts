import { nearestName, type Worked, workFormula } from '#sources';
import { formulaRegister, type RegisteredFormula } from './formula-register.ts';
import { readInput } from './read-input.ts';

export type WorkedByName =
  | {
      readonly ok: true;
      readonly formula: RegisteredFormula;
      readonly given: Readonly<Record<string, number>>;
      readonly worked: Worked & { ok: true };
    }
  | { readonly ok: false; readonly faults: readonly string[] };

export type FoundFormula =
  | { readonly ok: true; readonly formula: RegisteredFormula }
  | { readonly ok: false; readonly faults: readonly string[] };

/** The formula with this id; a wrong id is a fault that names the nearest. */
export function formulaNamed(id: string): FoundFormula {
  const formula = formulaRegister.find((row) => row.id === id);
  if (formula !== undefined) return { ok: true, formula };
  const near = nearestName(
    id,
    formulaRegister.map((row) => row.id),
  );
  const meant = near === undefined ? '' : `nearest: ${near}; `;
  const shown = id.slice(0, 60).replace(/\p{C}/gu, '?');
  return {
    ok: false,
    faults: [`formula: no formula "${shown}"; ${meant}allowed: an id that "fairlead formula" lists`],
  };
}

/** A formula worked for inputs as a builder types them: `boreMm=19`, `boreMm="3/4 in"`. */
export function workedFormula(id: string, typed: ReadonlyMap<string, string>): WorkedByName {
  const found = formulaNamed(id);
  if (!found.ok) return found;
  const { formula } = found;
  const given: Record<string, number> = {};
  const faults: string[] = [];
  for (const [name, text] of typed) {
    const input = formula.inputs.find((row) => row.name === name);
    // Left to workFormula, which names the nearest input.
    if (input === undefined) Object.defineProperty(given, name, { value: 0, enumerable: true });
    else {
      const read = readInput(input, text);
      if (read.ok) given[name] = read.value;
      else {
        faults.push(`${formula.id}: ${name} [${input.unit}]: ${read.fault}`);
        given[name] = 0;
      }
    }
  }
  const worked = workFormula(formula, given);
  if (faults.length > 0)
    return {
      ok: false,
      faults: worked.ok ? faults : [...faults, ...worked.faults.filter((line) => !line.includes('no finite result'))],
    };
  return worked.ok ? { ok: true, formula, given, worked } : { ok: false, faults: worked.faults };
}
