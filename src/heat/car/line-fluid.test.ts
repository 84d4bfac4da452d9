import { describe, expect, it } from 'vitest';
import { type Case, type Line, readCar } from '#car';
import { catalogue } from '#standards';
import { lineFluid } from './line-fluid.ts';

const port = (id: string) => ({ id, atMm: [0, 0, 0], faces: [1, 0, 0], end: { type: 'plain-tube', odMm: 20 } });
const reading = readCar(
  JSON.stringify({
    fairlead: 1,
    name: 'Two pots',
    parts: [{ id: 'pot', class: 'fixed', ports: [port('a'), port('b')], shapes: [] }],
    lines: [],
  }),
);
if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
const { car } = reading;
const hot: Case = { id: 'hot', engineRpm: 5000, oilC: 110, coolantC: 95, airC: 25 };

const runs = (line: Partial<Line>, at: Case = hot, isOff = false) => {
  const whole = { id: 'X', from: 'pot.a', to: 'pot.b', duty: 'oil-pressure', boreMm: 20, pieces: [], ...line } as Line;
  const { inC, flowM3S, isUsualFlow } = lineFluid({ car, line: whole, shelf: catalogue(), at, flow: null, isOff });
  return { inC, lMin: Number((flowM3S * 60_000).toFixed(3)), isUsualFlow };
};

describe('what runs in a line that no circuit works out', () => {
  it('hand: pi/4 x 20 mm squared at 1 m/s is 18.850 L/min, fuel half of it, a bleed a fifth', () => {
    expect(runs({})).toEqual({ inC: 110, lMin: 18.85, isUsualFlow: true });
    expect(runs({ duty: 'water' })).toEqual({ inC: 95, lMin: 18.85, isUsualFlow: true });
    expect(runs({ duty: 'fuel' }).lMin).toBe(9.425);
    expect(runs({ duty: 'water-bleed' }).lMin).toBe(3.77);
  });

  it('is what the car file states where it does, even nothing', () => {
    expect(runs({ flowLMin: 7 })).toEqual({ inC: 110, lMin: 7, isUsualFlow: false });
    expect(runs({ flowLMin: 0 })).toEqual({ inC: 110, lMin: 0, isUsualFlow: false });
  });

  it('stands in vents and brake lines, in an engine that stands and after it is switched off', () => {
    const still = { lMin: 0, isUsualFlow: false };
    expect(runs({ duty: 'oil-vent' })).toMatchObject(still);
    expect(runs({ duty: 'brake' })).toMatchObject(still);
    expect(runs({}, { ...hot, engineRpm: 0 })).toMatchObject(still);
    expect(runs({}, hot, true)).toMatchObject(still);
  });
});
