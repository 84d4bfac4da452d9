import { readFileSync } from 'node:fs';
import { applyEdit, type Car, checkCar, readCar } from '#car';
import { describe, expect, it } from 'vitest';
import { figuresAsked, type ReadingDraft, readingDraft, readingEdits } from './reading-draft.ts';

const reading = readCar(readFileSync(new URL('../../../demo/fellside.json', import.meta.url), 'utf8'));
if (!reading.ok) throw new Error('the demo car is no car');
const { car } = reading;

const blank = readingDraft({}, 'full-load', false);
const typed = (more: Partial<ReadingDraft>, texts: Partial<ReadingDraft['texts']> = {}): ReadingDraft => ({
  ...blank,
  ...more,
  texts: { ...blank.texts, ...texts },
});

function after(draft: ReadingDraft, was?: NonNullable<Car['heatReadings']>[number], isInch = false): Car {
  const made = readingEdits(car, draft, was, isInch);
  if (!made.ok) throw new Error(made.fault);
  return made.value.edits.reduce((now, edit) => applyEdit(now, edit).car, car);
}

describe('a temperature that was read', () => {
  it('is put in, checked with the whole car; in °F where that is typed', () => {
    const draft = typed({ of: 'line/O7', caseId: 'switched-off', on: '2026-11-26' }, { readC: '290 F', atMin: '6' });
    const next = after(draft);
    expect(checkCar(next)).toEqual([]);
    expect(next.heatReadings!.at(-1)).toEqual({
      id: 'T',
      case: 'switched-off',
      line: 'O7',
      // hand: (290 - 32)/1.8
      readC: 143.333333,
      atMin: 6,
      means: 'strip',
      on: '2026-11-26',
    });
  });

  it('asks for what goes with it: minutes only switched off, marks only of strips and paint, a place along only on a line', () => {
    expect(figuresAsked(car, typed({ of: 'bay/engine-bay', means: 'probe' }))).toEqual(['readC']);
    expect(figuresAsked(car, typed({ of: 'line/O7', caseId: 'switched-off' }))).toEqual([
      'readC',
      'belowC',
      'alongMm',
      'atMin',
    ]);
  });

  it.each<[string, ReadingDraft, RegExp]>([
    ['nothing chosen', typed({}), /^Read on: nothing is chosen/],
    ['no case', typed({ caseId: '', of: 'line/O7' }), /^Case: nothing is chosen/],
    ['nothing read', typed({ of: 'line/O7' }), /^Read: nothing stands there/],
    ['a word', typed({ of: 'line/O7' }, { readC: 'hot' }), /^Read: /],
    [
      'marks the wrong way round',
      typed({ of: 'line/O7' }, { readC: '149', belowC: '143' }),
      /^First mark that did not turn: a mark above/,
    ],
  ])('says in one line what is missing: %s', (_, draft, fault) => {
    const made = readingEdits(car, draft, undefined, false);
    expect(made.ok ? '' : made.fault).toMatch(fault);
  });

  it('is changed field by field, and what was not touched stays', () => {
    const [was] = car.heatReadings!;
    const same = readingEdits(car, readingDraft(was!, undefined, true), was, true);
    expect(same.ok && same.value.edits).toEqual([]);
    const next = after({ ...readingDraft(was!, undefined, false), corrects: true, of: 'part/turbo' }, was);
    expect(checkCar(next)).toEqual([]);
    const { line: _, ...rest } = was!;
    expect(next.heatReadings![0]).toEqual({ ...rest, part: 'turbo', corrects: true });
  });
});
