import { readCar } from '#car';
import { leverAnswer } from '#levers';
import { describe, expect, it } from 'vitest';
import { rowDraft, rowFrom } from '../flow/row-draft.ts';
import { leverOfRow, leverPlan } from './new-lever.ts';

/** As a builder would type it, in inches. */
const typed = {
  name: 'Handbrake lever',
  acts: 'hand',
  pivotMm: '28; 12; 12 in',
  axis: 'across',
  handleMm: '28; 12; 24 in',
  armMm: '28; 12; 13 1/2 in',
  lowDeg: '0',
  highDeg: '25',
  boreMm: '5/8 in',
  farMm: '31; 12; 13 1/2 in',
  usualN: '250',
};

describe('a lever put in by form', () => {
  it('is a lever of the car, whose arms alone make its ratio as drawn: 12 in to 1 1/2 in is 8 to 1 (hand)', () => {
    const draft = rowDraft(leverPlan, {}, true);
    const read = rowFrom(leverPlan, { texts: { ...draft.texts, ...typed }, law: 'cylinder' }, {}, true, 'in');
    if (!read.ok) throw new Error(read.fault);
    const lever = leverOfRow(read.value, 'handbrake-lever');
    const reading = readCar(JSON.stringify({ fairlead: 1, parts: [], movers: [], lines: [], levers: [lever] }));
    if (!reading.ok) throw new Error('the lever is none of a car');
    const { car } = reading;
    expect(car.levers).toEqual([lever]);
    const [output] = leverAnswer(car, lever).outputs;
    expect(output!.restRatio).toBeCloseTo(8, 6);
    expect(lever.cylinders![0]).toMatchObject({ boreMm: 15.88, farMm: [787.4, 304.8, 342.9] });
  });

  it('says which field is missing, in one line', () => {
    const draft = rowDraft(leverPlan, {}, true);
    const texts = { ...draft.texts, ...typed, armMm: '28; 12' };
    const read = rowFrom(leverPlan, { texts, law: 'bare' }, {}, true, 'in');
    expect(read).toMatchObject({
      ok: false,
      fault: expect.stringMatching(/^Pin of the arm .*three lengths are wanted/u),
    });
  });
});
