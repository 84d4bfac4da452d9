import { describe, expect, it } from 'vitest';
import { waterCar } from '../coolant/water-car.fixture.ts';
import { catalogue } from '#standards';
import { readyCircuit } from './circuit-state.ts';
import { drawnCircuit } from './drawn-circuit.ts';
import { movedPorts } from './moved-heights.ts';

describe('a port put lower', () => {
  it('takes the end of its line along, and a straight line stays straight', () => {
    const car = waterCar();
    const drawn = drawnCircuit(car, catalogue(), car.circuits![0]!, new Map());
    const moved = movedPorts(readyCircuit(car, drawn, new Map()), (spot) => (spot === 'radiator.in' ? -90 : 0));
    const path = moved.drawn.runs.find(({ line }) => line === 'W1')!.stretches.flatMap(({ pathMm }) => pathMm);
    // From (1500, 0, 540) to (0, -250, 450 - 90): by the share of the way along X.
    for (const [x, , z] of path) expect(z).toBeCloseTo(540 - (180 * (1500 - x)) / 1500, 9);
    expect(path.at(-1)![2]).toBe(360);
  });
});
