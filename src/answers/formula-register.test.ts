import { readdirSync, readFileSync } from 'node:fs';
import { findSource, workFormula } from '#sources';
import { describe, expect, it } from 'vitest';
import { formulaPage } from './formula-page.ts';
import { formulaRegister } from './formula-register.ts';
import { readInput } from './read-input.ts';
import { workedFormula } from './worked-formula.ts';

const src = new URL('../', import.meta.url);

describe('the register of formulas', () => {
  it('holds the list of every room that has one', () => {
    const withList = readdirSync(src, { withFileTypes: true })
      .filter((entry) => entry.isDirectory() && entry.name !== 'answers')
      .map((entry) => entry.name)
      .filter((room) => {
        try {
          return /export \{[^}]*\b(?:formulas|\w+Formulas)\b[^}]*\} from/u.test(
            readFileSync(new URL(`${room}/index.ts`, src), 'utf8'),
          );
        } catch {
          return false;
        }
      });
    expect(withList.length).toBeGreaterThan(1);
    expect([...new Set(formulaRegister.map((row) => row.room))].sort()).toEqual(withList.sort());
  });

  it('gives each an id of its own, a source in the bibliography and an equation', () => {
    const ids = formulaRegister.map((row) => row.id);
    expect(ids.filter((id, i) => ids.indexOf(id) !== i)).toEqual([]);
    expect(
      formulaRegister.filter((row) => findSource(row.source) === undefined || !row.equation.includes('=')),
    ).toEqual([]);
  });

  it.each(formulaRegister.map((row) => [row.id, row]))('%s gives what its example says, within its range', (_, row) => {
    const worked = workFormula(row, row.example.given);
    expect(worked.ok && worked.findings).toEqual([]);
    const value = worked.ok ? worked.value : Number.NaN;
    expect(value).toBeCloseTo(row.example.gives, row.example.digits);
  });

  it('is printed in docs/formulas.md as it is today', () => {
    const page = readFileSync(new URL('../../docs/formulas.md', import.meta.url), 'utf8');
    expect(page, 'run: npm run docs:formulas').toBe(formulaPage(formulaRegister));
  });
});

describe('a formula worked by hand', () => {
  const worked = (id: string, ...inputs: string[]) =>
    workedFormula(
      id,
      new Map(inputs.map((text) => [text.slice(0, text.indexOf('=')), text.slice(text.indexOf('=') + 1)])),
    );
  const value = (id: string, ...inputs: string[]): number => {
    const answer = worked(id, ...inputs);
    return answer.ok ? answer.worked.value : Number.NaN;
  };
  const faults = (id: string, ...inputs: string[]): readonly string[] => {
    const answer = worked(id, ...inputs);
    return answer.ok ? [] : answer.faults;
  };

  it('takes plain numbers in its own unit, and quantities with theirs', () => {
    // hand: pi/4 * 19.05^2 = 285.0230 mm2
    expect(value('bore-area', 'boreMm=19.05')).toBeCloseTo(285.023, 3);
    expect(value('bore-area', 'boreMm=3/4 in')).toBeCloseTo(285.023, 3);
    expect(value('bore-area', 'boreMm=1.905 cm')).toBeCloseTo(285.023, 3);
    // hand: dash sizes count sixteenths of an inch, 12/16 * 25.4 = 19.05 mm
    expect(value('dash-tube-od', 'dash=-12')).toBeCloseTo(19.05, 9);
    expect(value('dash-tube-od', 'dash=12')).toBeCloseTo(19.05, 9);
  });

  it('marks what lies outside its range, and still gives the value', () => {
    const answer = worked('bore-area', 'boreMm=600');
    expect(answer.ok && answer.worked.findings.map((finding) => finding.limit)).toEqual([500]);
    expect(answer.ok && answer.worked.value).toBeCloseTo(282_743.34, 1);
  });

  it('refuses in one line each what it cannot read', () => {
    expect(faults('bore-aera')).toEqual([expect.stringContaining('nearest: bore-area')]);
    expect(faults('bore-area', 'bore=3')).toEqual([
      expect.stringMatching(/no input named "bore".*nearest: boreMm/u),
      expect.stringContaining('boreMm is missing'),
    ]);
    expect(faults('bore-area', 'boreMm=5 bar')).toEqual([expect.stringContaining('no length unit')]);
    expect(faults('bore-area', 'boreMm=')).toEqual([expect.stringContaining('is empty')]);
    expect(faults('bore-area', 'boreMm=NaN', '__proto__=1')).toHaveLength(2);
    for (const line of [...faults('bore\narea'), ...faults('bore-area', 'boreMm=1\n2')])
      expect(line).not.toContain('\n');
  });

  it('reads every unit that the register uses', () => {
    for (const row of formulaRegister)
      for (const input of row.inputs) {
        const word = input.unit === '-' ? '' : input.unit === 'degC' ? ' C' : ` ${input.unit}`;
        const read = readInput(input, `2${word}`);
        expect(read.ok && read.value, `${row.id} ${input.name}`).toBeCloseTo(2, 9);
      }
  });

  it('reads pressures and angles in other units', () => {
    const pressure = { name: 'p', unit: 'bar', text: '' };
    // published: 1 psi = 6894.757 Pa, NIST SP 811 appendix B
    expect(readInput(pressure, '75 psi')).toEqual({ ok: true, value: expect.closeTo(75 * 0.06894757, 6) });
    expect(readInput(pressure, '3 bar abs').ok).toBe(false);
    expect(readInput({ name: 'a', unit: 'rad', text: '' }, '180 deg')).toEqual({
      ok: true,
      value: expect.closeTo(Math.PI, 12),
    });
    expect(readInput({ name: 't', unit: 'degC', text: '' }, '212 F')).toEqual({
      ok: true,
      value: expect.closeTo(100, 9),
    });
  });
});
