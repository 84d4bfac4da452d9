import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { applyEdit, type Car, checkCar, readCar } from '#car';
import { crossingsOf, lineDraft, lineEdits, portsFor } from './line-draft.ts';

const reading = readCar(readFileSync(new URL('../../../demo/fellside.json', import.meta.url), 'utf8'));
if (!reading.ok) throw new Error('the demo car is no car');
const { car } = reading;
const kept = (line: string, change: Partial<ReturnType<typeof lineDraft>>): Car => {
  const old = car.lines.find(({ id }) => id === line)!;
  const made = lineEdits(old, { ...lineDraft(old), ...change }, 'mm');
  if (!made.ok) throw new Error(made.fault);
  return made.value.edits.reduce((now, edit) => applyEdit(now, edit).car, car);
};

describe('a line in the form', () => {
  it('every line of the demo car opened and kept again changes nothing', () => {
    for (const line of car.lines) {
      const made = lineEdits(line, lineDraft(line), 'mm');
      expect([line.id, made.ok && made.value.edits]).toEqual([line.id, []]);
    }
  });

  // hand: 75 psi = 75 * 6894.757 Pa = 5.171 bar; 220 F = 104.4 C.
  it('pressure and temperature in any unit, size and crossing', () => {
    const line = car.lines.find(({ through }) => through.length > 0)!;
    const now = kept(line.id, { pressure: '75 psi', temperature: '220 F', through: [] });
    expect(checkCar(now)).toEqual([]);
    expect(now.lines.find(({ id }) => id === line.id)).toMatchObject({
      pressureBar: 5.17,
      temperatureC: 104.4,
      through: [],
    });
  });

  it('a line that is made keeps what it joins; a way taken goes where another hose is wanted', () => {
    const old = { ...car.lines[0]!, state: 'made' as const };
    const free = portsFor(car, old).map(({ value }) => value);
    expect(free).toContain(old.from);
    expect(free).not.toContain(car.lines[1]!.from);
    expect(lineEdits(old, { ...lineDraft(old), size: { pick: '20', bore: '' } }, 'mm')).toMatchObject({
      ok: false,
      fault: expect.stringMatching(/is made: what it joins and its size stay/),
    });
    expect(lineEdits(old, { ...lineDraft(old), temperature: '120 C' }, 'mm').ok).toBe(true);
    const taken = { ...car.lines[0]!, taken: { ends: [], pieces: [], bodies: [] } };
    expect(lineEdits(taken, { ...lineDraft(taken), size: { pick: '20', bore: '' } }, 'mm')).toMatchObject({
      ok: true,
      value: { drops: true, edits: [{ do: 'several', edits: [{ do: 'take-way', line: taken.id }, {}] }] },
    });
  });

  it('offers the ways through', () => {
    expect(crossingsOf(car).length).toBeGreaterThan(0);
  });
});
