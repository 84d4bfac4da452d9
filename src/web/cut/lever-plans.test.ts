import { readCar, type Car, type Lever } from '#car';
import { leverAnswer } from '#levers';
import { describe, expect, it } from 'vitest';
import type { Row } from '../flow/row-form.tsx';
import type { RowPlan } from '../flow/row-plan.ts';
import { rowDraft, rowFrom } from '../flow/row-draft.ts';
import {
  bracketOfRow,
  bracketPlan,
  bracketRow,
  cablePlan,
  crossingPlan,
  cylinderOfRow,
  cylinderPlan,
  cylinderRow,
  linkOfRow,
  linkRow,
  pieceOfRow,
  piecePlan,
  pieceRow,
  rodPlan,
  workedFields,
  workedPlan,
  workedRow,
} from './lever-plans.ts';

function carOf(levers: readonly object[], movers: readonly object[] = []): Car {
  const reading = readCar(JSON.stringify({ fairlead: 1, parts: [], movers, lines: [], levers }));
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.car;
}
const shape = {
  pointsMm: [
    [0, 0, 0],
    [0, 10, 50],
    [0, 0, 100],
  ],
  radiusMm: 8,
};
/** A stick with one of everything, and what it works. */
const stick = {
  id: 'stick',
  name: 'Stick',
  acts: 'hand',
  knownToMm: 2,
  pivotMm: [0, 0, 0],
  axis: [0, 1, 0],
  handle: { atMm: [0, 0, 200] },
  arms: [{ id: 'low', atMm: [0, 0, -50] }],
  turnDeg: [-15, 15],
  stopsDeg: [-16, 16],
  force: { usualN: 40, rangeN: [20, 120] },
  shapes: [shape, { pointsMm: [[0, 0, 200]], radiusMm: 22 }],
  wheel: { centreMm: [0, -200, 240], axis: [1, 0, -0.3], rimRadiusMm: 165 },
  rods: [{ id: 'r', arm: 'low', to: { lever: 'far', arm: 'in' }, lostShare: 0.04 }],
  cables: [
    {
      id: 'c',
      name: 'Cable',
      arm: 'low',
      to: { mover: 'box', atMm: [500, 0, -50] },
      pathMm: [
        [100, 0, -50],
        [250, 30, -50],
        [400, 0, -50],
      ],
      odMm: 9,
      slackMm: 0,
      standsC: 150,
    },
  ],
  cylinders: [{ id: 'h', arm: 'low', farMm: [80, 0, -50], boreMm: 15.9, wantedBar: [40, 70], freeMm: 0 }],
  bracket: {
    sheet: '4130',
    thicknessMm: 3,
    widthMm: 90,
    heightMm: 60,
    pin: { atMm: [0, 45], diameterMm: 10 },
    held: 'bolts',
    holes: [{ atMm: [0, 25], diameterMm: 12 }],
    bolts: {
      diameterMm: 6.5,
      atMm: [
        [-30, 10],
        [-30, 30],
        [30, 10],
      ],
    },
  },
};
const far = {
  id: 'far',
  acts: 'link',
  pivotMm: [300, 0, 0],
  axis: [0, 1, 0],
  arms: [{ id: 'in', atMm: [300, 0, -50] }],
  turnDeg: [-20, 20],
};
const box = { id: 'box', pivotMm: [500, 0, 0], axis: [0, 1, 0], turnDeg: [-30, 30] };

/** What the form makes of a row of which nothing, or some texts, were changed. */
function kept(
  plan: RowPlan,
  row: Row,
  texts: Readonly<Record<string, string>> = {},
  isInch = false,
  law?: string,
): Row {
  const draft = rowDraft(plan, row, isInch);
  const made = rowFrom(plan, { law: law ?? draft.law, texts: { ...draft.texts, ...texts } }, row, isInch);
  if (!made.ok) throw new Error(made.fault);
  return made.value;
}

describe('what hangs on a lever, by form', () => {
  const car = carOf([stick, far], [box]);
  const lever = car.levers![0] as Lever;

  it.each([true, false])('nothing typed changes nothing (inches: %s)', (isInch) => {
    const same = (plan: RowPlan, row: Row): Row => kept(plan, row, {}, isInch);
    expect(linkOfRow(same(rodPlan(car, lever), linkRow(lever.rods![0]!)))).toEqual(lever.rods![0]);
    expect(linkOfRow(same(cablePlan(car, lever, false), linkRow(lever.cables![0]!)))).toEqual(lever.cables![0]);
    expect(cylinderOfRow(same(cylinderPlan(car, lever), cylinderRow(lever.cylinders![0]!)))).toEqual(
      lever.cylinders![0],
    );
    for (const piece of lever.shapes!) expect(pieceOfRow(same(piecePlan, pieceRow(piece)), piece)).toEqual(piece);
    expect(bracketOfRow(same(bracketPlan, bracketRow(lever.bracket!)))).toEqual(lever.bracket);
    for (const [field, value] of workedFields(same(workedPlan, workedRow(lever)))) expect(value).toEqual(lever[field]);
  });

  it('a rod typed in inches works what it says: 8 in to 2 in on to 2 in is 4 to 1 (hand)', () => {
    const plain = carOf([{ ...stick, rods: undefined, cables: undefined, cylinders: undefined }, far]);
    const typed = { name: 'Shift rod', arm: 'low', toArm: 'far/in' };
    const rod = linkOfRow(kept(rodPlan(plain, plain.levers![0]!), {}, typed, true, 'lever'));
    expect(rod).toEqual({ name: 'Shift rod', arm: 'low', to: { lever: 'far', arm: 'in' } });
    const made = carOf([{ ...plain.levers![0]!, rods: [{ ...rod, id: 'shift-rod' }] }, far]);
    expect(leverAnswer(made, made.levers![0]!).outputs[0]!.restRatio).toBeCloseTo(4, 6);
  });

  it('a cable in inches is held where it was typed; bolts one over the other stand', () => {
    const typed = {
      name: 'K',
      arm: 'low',
      fromMm: '4; 0; -2 in',
      toMm: '16; 0; -2',
      odMm: '1/2 in',
      mover: 'box',
      atMm: '20; 0; -2',
    };
    expect(linkOfRow(kept(cablePlan(car, lever, true), {}, typed, true, 'mover'))).toMatchObject({
      to: { mover: 'box', atMm: [508, 0, -50.8] },
      pathMm: [
        [101.6, 0, -50.8],
        [406.4, 0, -50.8],
      ],
      odMm: 12.7,
    });
    // 257 F is 125 degC (hand).
    expect(kept(cablePlan(car, lever, false), linkRow(lever.cables![0]!), { standsC: '257' }, true)['standsC']).toBe(
      125,
    );
    expect(kept(crossingPlan, {}, { part: 'wall', atMm: '10; 0; -2 in', holeMm: '3/4' }, true)).toEqual({
      part: 'wall',
      atMm: [254, 0, -50.8],
      holeMm: 19.05,
    });
    expect(
      kept(bracketPlan, bracketRow(lever.bracket!), { 'bolts.atMm': '-1 x 1/2; 1 1/4 x 1/2 in' }, true)['bolts'],
    ).toEqual({
      diameterMm: 6.5,
      atMm: [
        [-25.4, 12.7],
        [31.75, 12.7],
      ],
    });
    const lit = kept(bracketPlan, bracketRow(lever.bracket!), { light: '0 x 1 x 1/2 in' }, true);
    expect(bracketOfRow(lit)['holes']).toEqual([{ atMm: [0, 25.4], diameterMm: 12.7 }]);
    expect(bracketOfRow(kept(bracketPlan, lit, { light: '' }))).not.toHaveProperty('holes');
    expect(kept(bracketPlan, bracketRow(lever.bracket!), {}, false, 'weld')).toMatchObject({ held: 'weld' });
    expect(kept(bracketPlan, bracketRow(lever.bracket!), {}, false, 'weld')).not.toHaveProperty('bolts');
  });

  it.each([
    [{ arm: 'low' }, /^Which arm: nothing is chosen/u],
    [{ arm: '', toArm: 'far/in' }, /^On this lever it hangs on: nothing is chosen/u],
    [
      { arm: 'low', toArm: 'far/in', lostShare: '4' },
      /^Share of the force .*"4" is out of range; 0 to 0.9 is allowed/u,
    ],
  ])('%j: one line that says what is wanted', (texts, fault) => {
    const plan = rodPlan(car, lever);
    const draft = rowDraft(plan, {}, false);
    expect(rowFrom(plan, { law: 'lever', texts: { ...draft.texts, ...texts } }, {}, false)).toMatchObject({
      ok: false,
      fault: expect.stringMatching(fault),
    });
  });
});
