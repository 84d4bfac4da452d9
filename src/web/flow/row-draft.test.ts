import { describe, expect, it } from 'vitest';
import { carFrom, checkCar } from '#car';
import { isUnitless } from './is-unitless.ts';
import { rowDraft, rowFrom } from './row-draft.ts';
import { clausePlan, minutesPlan, toolPlan } from '../off/off-plans.ts';
import { circuitPlan, fluidPlan, measuredPlan, passagePlan, pumpPlan, type RowPlan, vesselPlan } from './row-plan.ts';

type Row = Readonly<Record<string, unknown>>;
const made = (plan: RowPlan, was: Row, texts: Readonly<Record<string, string>>, law?: string) => {
  const draft = rowDraft(plan, was, false);
  return rowFrom(plan, { texts: { ...draft.texts, ...texts }, law: law ?? draft.law }, was, false);
};
const row = (...wish: Parameters<typeof made>): Row => {
  const read = made(...wish);
  if (!read.ok) throw new Error(read.fault);
  return read.value;
};
const fault = (...wish: Parameters<typeof made>): string => {
  const read = made(...wish);
  return read.ok ? 'none' : read.fault;
};

const pump = {
  id: 'p',
  name: 'Pressure stage',
  from: 'pump.in',
  to: 'pump.out',
  displacementCcRev: 13.500000001,
  driveRatio: 0.55,
  relief: { cracksBar: 5, fullFlowBar: 6 },
  'x-mine': 1,
};

describe('a row of a circuit as a form', () => {
  it.each([
    ['a pump', pumpPlan, pump],
    [
      'a passage',
      passagePlan,
      {
        from: 'a',
        to: 'b.c',
        thermostat: { opensC: 80, fullC: 95 },
        curveLMinKpa: [
          [10, 5],
          [20, 18],
        ],
        atC: 90,
        heats: true,
      },
    ],
    ['a restrictor', passagePlan, { from: 'a', to: 'b', restrictorMm: 3, dischargeCoefficient: 0.62 }],
    [
      'a vessel',
      vesselPlan,
      {
        part: 'tank',
        kind: 'tank',
        fillL: 8,
        inside: { cylinder: { fromMm: [0, 0, 0], toMm: [0, 0, 400], radiusMm: 90 } },
      },
    ],
    ['a circuit', circuitPlan, { id: 'oil', kind: 'dry-sump', lines: ['O1'], fluid: 'oil', hiddenL: 1 }],
    ['an oil', fluidPlan, { id: 'oil', oil: { grade: '10W-60', points: [{ atC: 40, viscosityCst: 160 }] } }],
    ['a water', fluidPlan, { id: 'w', water: {} }],
    [
      'a measured end',
      measuredPlan,
      {
        id: 'end',
        curveLMinKpa: [
          [10, 5],
          [20, 18],
        ],
        curveAtC: 90,
      },
    ],
  ] as const)('%s that is not touched stays as it is', (_, plan, was) => {
    expect(row(plan, was as Row, {})).toEqual(was);
  });

  it('one figure is changed and the rest stays to its last digit, what the form does not know too', () => {
    expect(row(pumpPlan, pump, { driveRatio: '0.6', 'relief.cracksBar': '75 psi' })).toEqual({
      ...pump,
      driveRatio: 0.6,
      // 75 psi is 5.171068 bar.
      relief: { cracksBar: 5.171068, fullFlowBar: 6 },
    });
  });

  it('another law drops what belonged to the one before', () => {
    expect(row(pumpPlan, pump, { steadyLMin: '12' }, 'steady')).toEqual({
      id: 'p',
      name: 'Pressure stage',
      from: 'pump.in',
      to: 'pump.out',
      steadyLMin: 12,
      relief: { cracksBar: 5, fullFlowBar: 6 },
      'x-mine': 1,
    });
    expect(row(passagePlan, { from: 'a', to: 'b', restrictorMm: 3 }, {}, 'open')).toEqual({
      from: 'a',
      to: 'b',
      open: true,
    });
    expect(row(fluidPlan, { id: 'f', oil: { grade: '5W-40' } }, {}, 'water')).toEqual({ id: 'f', water: {} });
  });

  it('a group that is emptied goes whole; half of one is told by the field that is missing', () => {
    expect(row(pumpPlan, pump, { 'relief.cracksBar': '', 'relief.fullFlowBar': '' })).not.toHaveProperty('relief');
    expect(fault(pumpPlan, pump, { 'relief.cracksBar': '' })).toMatch(/^Relief valve cracks at: nothing stands there/u);
    expect(fault(passagePlan, { from: 'a', to: 'b', open: true }, { 'duty.heatKw': '20' })).toMatch(
      /^\.\.\. at a flow of: /u,
    );
  });

  it('what cannot be read is told: what stands there, what is wanted', () => {
    expect(fault(pumpPlan, pump, { driveRatio: 'half' })).toMatch(/^Turns to one of the engine: "half" is no number/u);
    expect(fault(pumpPlan, {}, {})).toBe('Inlet: nothing is chosen');
    expect(fault(pumpPlan, pump, { curveLMinKpa: '20 90', atRpm: '3000' }, 'curve')).toMatch(
      /^Curve: 1 point stands there; two or more/u,
    );
    expect(fault(fluidPlan, { id: 'f', oil: {} }, { 'oil.points': '40; 100 12' })).toMatch(
      /point 1 is no pair of numbers/u,
    );
    expect(fault(vesselPlan, { part: 'tank', kind: 'tank' }, { 'inside.box.minMm': '1, 2' }, 'box')).toMatch(
      /^Least corner: three numbers/u,
    );
  });

  it('makes rows that the car file takes', () => {
    const places = { from: 'tank', to: 'tank.out' };
    const car = carFrom({
      fairlead: 1,
      parts: [
        {
          id: 'tank',
          class: 'fixed',
          shapes: [{ box: { minMm: [0, 0, 0], maxMm: [9, 9, 9] } }],
          ports: [{ id: 'out', atMm: [0, 4, 4], faces: [-1, 0, 0], end: { type: 'orb', dash: 16 } }],
        },
      ],
      lines: [],
      fluids: [{ id: 'f', ...row(fluidPlan, {}, { 'oil.points': '40 160; 100 23' }, 'oil') }],
      circuits: [
        {
          id: 'oil',
          lines: [],
          ...row(circuitPlan, {}, { kind: 'dry-sump', fluid: 'f' }),
          pumps: [row(pumpPlan, places, { displacementCcRev: '13,5', driveRatio: '0.5' }, 'displacement')],
          passages: [row(passagePlan, places, { curveLMinKpa: '10 5; 20 18' }, 'curve')],
          vessels: [
            row(
              vesselPlan,
              {},
              { part: 'tank', kind: 'tank', 'inside.box.minMm': '1,1,1', 'inside.box.maxMm': '8 8 8' },
              'box',
            ),
          ],
        },
      ],
    } as never);
    if (!car.ok) throw new Error(JSON.stringify(car.faults));
    expect(checkCar(car.car)).toEqual([]);
  });
});

it('asks for no unit where nothing is a length, pressure or the like', () => {
  expect([minutesPlan, clausePlan, toolPlan, pumpPlan].map(isUnitless)).toEqual([true, true, false, false]);
});
