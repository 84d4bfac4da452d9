import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readCar } from '#car';
import { catalogue } from '#standards';
import { drawnCircuit } from './drawn-circuit.ts';
import { readyCircuit } from './circuit-state.ts';
import { flowSweeps } from './flow-sweep.ts';

const reading = readCar(readFileSync('demo/fellside.json', 'utf8'));
if (!reading.ok) throw new Error('the demo car cannot be read');
const { car } = reading;

const sweepsOf = (id: string) => {
  const circuit = car.circuits!.find((one) => one.id === id)!;
  const drawn = drawnCircuit(car, catalogue(car.catalogue), circuit, new Map());
  return flowSweeps(readyCircuit(car, drawn, new Map()), car.cases!);
};

describe('a circuit over engine speed', () => {
  const [cold, hot] = sweepsOf('oil');

  it('is asked at the coldest and the hottest running case, from 800 rpm to the fastest', () => {
    expect([cold!.case, cold!.temperatureC, hot!.temperatureC]).toEqual(['cold-start', 0, 110]);
    for (const { points, refused } of [cold!, hot!]) {
      expect(refused).toBeNull();
      expect([points.length, points[0]!.rpm, points.at(-1)!.rpm]).toEqual([15, 800, 8000]);
    }
  });

  it('never flows less or stands at less pressure at a higher speed; the inlet never rises', () => {
    for (const { points } of [cold!, hot!])
      points.slice(1).forEach((point, i) => {
        expect(point.flowM3S).toBeGreaterThanOrEqual(points[i]!.flowM3S * (1 - 1e-9));
        expect(point.pressurePa).toBeGreaterThanOrEqual(points[i]!.pressurePa - 1e-3);
        expect(point.inletPa).toBeLessThanOrEqual(points[i]!.inletPa + 1e-3);
      });
  });

  it('lets no more through than the pump sweeps: 13.5 cc/rev at 0.55 of the engine, worked by hand', () => {
    // 13.5e-6 m3 * 0.55 * 8000/60 = 9.9e-4 m3/s = 59.4 L/min.
    const last = hot!.points.at(-1)!;
    expect(last.flowM3S).toBeLessThan(9.9e-4);
    expect(last.flowM3S).toBeGreaterThan(0.75 * 9.9e-4);
  });

  it('lets less through cold than hot, and has more pressure before the gallery', () => {
    const [a, b] = [cold!.points.at(-1)!, hot!.points.at(-1)!];
    expect(a.flowM3S).toBeLessThan(b.flowM3S / 3);
    expect(a.pressurePa).toBeGreaterThan(b.pressurePa);
  });

  it('is empty for a circuit that no engine drives', () => {
    expect(sweepsOf('fuel')).toEqual([]);
  });
});
