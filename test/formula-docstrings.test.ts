import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { sources } from '#sources';
import * as units from '#units';
import { describe, expect, it } from 'vitest';
import { evaluatedNames, exportedFunctions, formulaDocstring, isFormula } from './formula-docstring.ts';
import { printedNumbers } from './printed-number.ts';
import { root, sourceFiles } from './source-files.ts';

const sourceIds = new Set<string>(sources.map((row) => row.id));

/** What is missing in a formula's docstring, one line each. */
function lacks(name: string, params: readonly string[], docstring: string): string[] {
  const doc = formulaDocstring(docstring);
  const lines: string[] = [];
  if (!/^[A-Z].*[.:]/.test(doc.sentence)) lines.push('no sentence that says what it is');
  if (!/[=<>~]/.test(doc.equation)) lines.push('no equation, indented by four, in plain text');
  for (const param of params.filter((param) => !/\[[^\]]+\]/.test(doc.params.get(param) ?? '')))
    lines.push(`no @param ${param} with [unit]`);
  for (const param of [...doc.params.keys()].filter(
    (param) => !params.some((name) => param === name || param.startsWith(`${name}.`)),
  ))
    lines.push(`@param ${param} is no parameter`);
  if (!/\[[^\]]+\]/.test(doc.returns ?? '')) lines.push('no @returns with [unit]');
  if (!doc.valid) lines.push('no @valid range');
  if (doc.sources.length === 0) lines.push('no @source');
  for (const source of doc.sources.filter((id) => !sourceIds.has(id)))
    lines.push(`@source ${source} is not in the bibliography`);
  if (doc.examples.length === 0) lines.push('no @example');
  for (const example of doc.examples.filter((text) => !text.includes(`${name}(`)))
    lines.push(`@example does not call ${name}: ${example}`);
  return lines;
}

/** What an example gives when it is run, as a line when that is not what it prints. */
function untrue(example: string, scope: Readonly<Record<string, unknown>>): string | undefined {
  const [expression = '', printed = ''] = example.split(/\s*\/\/\s*/);
  const expected = printedNumbers(printed);
  let given: unknown;
  try {
    given = new Function(...Object.keys(scope), `return (${expression});`)(...Object.values(scope));
  } catch (fault) {
    return `${expression} throws ${String(fault)}`;
  }
  const values = Array.isArray(given) ? given : [given];
  const isTrue =
    expected.length >= values.length &&
    values.every((value, i) => Math.abs(Number(value) - expected[i]!.value) <= expected[i]!.halfDigit);
  return isTrue ? undefined : `${expression} gives ${JSON.stringify(given)}, not ${printed}`;
}

const files = sourceFiles('src', ['.ts']).filter((file) => !/\.(test|d)\.ts$/.test(file.path));
const formulas = files.flatMap((file) =>
  exportedFunctions(file.path, file.text)
    .filter((fn) => isFormula(fn.docstring))
    .map((fn) => ({ file: file.path, ...fn })),
);

describe('every formula', () => {
  it('is among those looked at', () => {
    expect(sourceIds.size).toBeGreaterThan(10);
    expect(formulas.length).toBeGreaterThan(5);
  });

  it('says what it is, its equation, units, range, source and an example', () => {
    const told = formulas.flatMap((fn) =>
      lacks(fn.name, fn.params, fn.docstring).map((line) => `${fn.file} ${fn.name}: ${line}`),
    );
    expect(told).toEqual([]);
  });

  it('has examples that are true to the digits printed', async () => {
    const told: string[] = [];
    for (const fn of formulas) {
      const module = (await import(pathToFileURL(join(root, fn.file)).href)) as Record<string, unknown>;
      for (const example of formulaDocstring(fn.docstring).examples) {
        const line = untrue(example, { ...units, ...module });
        if (line) told.push(`${fn.file} ${fn.name}: ${line}`);
      }
    }
    expect(told).toEqual([]);
  });

  it('that a register row works out has such a docstring', () => {
    const named = new Set(formulas.map((fn) => fn.name));
    const rows = files.flatMap((file) =>
      evaluatedNames(file.path, file.text).map((called) => ({ file: file.path, called })),
    );
    expect(rows.filter((row) => !row.called.some((name) => named.has(name)))).toEqual([]);
  });
});

describe('the check itself', () => {
  const good = `*
 * Area of a disc.
 *
 *     A = pi r^2
 *
 * @param radius - its radius [m]
 * @returns area [m2]
 * @valid radius >= 0
 * @source ${[...sourceIds][0]} p. 1
 * @example disc(2) // 12.57
 `;
  const scope = { disc: (r: number) => Math.PI * r * r };

  it('passes a whole docstring', () => {
    expect(lacks('disc', ['radius'], good)).toEqual([]);
    expect(untrue(formulaDocstring(good).examples[0]!, scope)).toBeUndefined();
  });

  it('tells each thing that is missing', () => {
    expect(lacks('disc', ['radius'], good.replace(/@source \S+/, '@source nobody-1900'))).toEqual([
      '@source nobody-1900 is not in the bibliography',
    ]);
    expect(lacks('disc', ['radius'], good.replace('[m]', ''))).toEqual(['no @param radius with [unit]']);
    expect(lacks('disc', ['radius'], good.replace('    A = pi r^2', ''))).toEqual([
      'no equation, indented by four, in plain text',
    ]);
    expect(lacks('disc', ['radius'], good.replace('@valid', '@where'))).toEqual(['no @valid range']);
    expect(untrue('disc(2) // 12.56', scope)).toMatch(/gives 12.566/);
    expect(untrue('disc(2)', scope)).toMatch(/not/);
  });
});
