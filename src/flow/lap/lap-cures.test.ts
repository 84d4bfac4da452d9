import { describe, expect, it } from 'vitest';
import { catalogue } from '#standards';
import { boxCircuit, type CarChange, changedBox, cureLike } from '../dry-sump/box-car.fixture.ts';
import { drawnCircuit } from '../circuit/drawn-circuit.ts';
import { type ReadyCircuit, readyCircuit } from '../circuit/circuit-state.ts';
import { drySumpState } from '../dry-sump/dry-sump-state.ts';
import { galleryOf } from '../dry-sump/gallery.ts';
import type { Car } from '#car';
import type { DriveLog } from './drive-log.ts';
import type { LapAnswer } from './lap-answer.ts';
import { lapOf } from './lap.ts';

/** What a cure of the lap says is put into the circuit and the lap run anew: it must say the same. */

/** Ten seconds at 20 Hz: a corner between two straights, its g brought on in half a second. */
const corner = (aside: number, { oilC = 100, rpm = 6000 } = {}): DriveLog => {
  const t = Array.from({ length: 201 }, (_, i) => i / 20);
  const g = (s: number): number => aside * Math.max(0, Math.min(1, 2 * (s - 2), 2 * (8 - s)));
  return {
    timeS: Float64Array.from(t),
    rpm: Float64Array.from(t, () => rpm),
    longitudinalG: new Float64Array(t.length),
    lateralG: Float64Array.from(t, g),
    verticalG: Float64Array.from(t, () => 1),
    oilC: Float64Array.from(t, () => oilC),
    notes: [],
  };
};
const circuitOf = (car: Car): ReadyCircuit =>
  readyCircuit(car, drawnCircuit(car, catalogue(), car.circuits![0]!, new Map()), new Map());
const lap = (ready: ReadyCircuit, log: DriveLog): LapAnswer => {
  const answer = lapOf(ready, log, { shelf: catalogue() });
  if ('why' in answer) throw new Error(answer.why);
  return answer;
};
const found = ({ findings }: LapAnswer, code: string) => findings.find((row) => row.code === code)!;
const litres = (text: string | undefined): number => Number(text) / 1000;

describe('more oil than a lap began with', () => {
  const log = corner(1.4);
  const short = lap(boxCircuit({ tankL: 4, panL: 0 }), log);
  const [, more, level] = cureLike(found(short, 'lap-level'), /^([\d.]+) L more oil: ([\d.]+) L at its lowest/mu);
  const again = lap(boxCircuit({ tankL: 4 + Number(more), panL: 0 }), log);

  it('leaves the level that the cure says', () => {
    expect(short.worst.lowestTank.tankM3).toBeLessThan(0.0039);
    expect(again.worst.lowestTank.tankM3).toBeCloseTo(litres(level), 5);
  });

  it('draws air for as long as the cure says, and leaves the gallery what it says', () => {
    const bare = lap(boxCircuit({ tankL: 1.2, panL: 0 }), log);
    const fuller = lap(boxCircuit({ tankL: 1.7, panL: 0 }), log);
    const [, air] = cureLike(found(bare, 'lap-air'), /^0\.5 L more oil: air for ([\d.]+) s/mu);
    expect(fuller.worst.airS).toBeCloseTo(Number(air), 1);
    expect(fuller.worst.airS).toBeLessThan(bare.worst.airS);
    const [, bar, rpm] = cureLike(
      found(bare, 'lap-pressure'),
      /^0\.5 L more oil: ([\d.]+) bar at (\d+) rpm where it is then lowest/mu,
    );
    const { lowestForRpm } = fuller.worst;
    expect(lowestForRpm.galleryPa / 1e5).toBeCloseTo(Number(bar), 2);
    expect(lowestForRpm.rpm).toBe(Number(rpm));
  });
});

describe('baffles in a lap', () => {
  it('are reckoned as oil that stands square to the pull at once: as in a tank without a known wave', () => {
    const log = corner(0.62, { rpm: 60 });
    const ready = boxCircuit({ tankL: 1, panL: 0 });
    const square: ReadyCircuit = {
      ...ready,
      insides: ready.insides.map((row) => ({
        ...row,
        drawn: { ...row.drawn, part: { ...row.drawn.part, shapes: [] } },
      })),
    };
    const swings = lap(ready, log);
    const still = lap(square, log);
    expect([swings.wave === null, still.wave === null]).toEqual([false, true]);
    expect(still.worst.airS).toBeLessThan(swings.worst.airS);
    const [, words] = cureLike(found(swings, 'lap-air'), /^baffles that keep the oil from swinging: (.*)$/mu);
    expect(words).toBe(still.worst.airS === 0 ? 'no air drawn' : `air for ${still.worst.airS.toFixed(1)} s`);
  });
});

describe('a gallery that is low without any air', () => {
  it('has with the pump that the cure says what the cure says', () => {
    const hot = corner(0, { oilC: 130 });
    const low = found(lap(circuitOf(changedBox({}, smaller)), hot), 'lap-pressure');
    const [, cc, bar] = cureLike(low, /^without air, pressure of ([\d.]+) cc\/rev .*: \+[\d.]+ bar, ([\d.]+) bar/mu);
    const larger = circuitOf(
      changedBox({}, (car) => void Object.assign(car.circuits![0]!.pumps![0]!, { displacementCcRev: Number(cc) })),
    );
    const state = drySumpState(larger, { id: 'lap', engineRpm: 6000, oilC: 130 });
    if ('why' in state) throw new Error(state.why);
    expect(galleryOf(state.liquid)!.fromPa / 1e5).toBeCloseTo(Number(bar), 2);
    expect(low.value!).toBeLessThan(Number(bar));
  });
});

const smaller: CarChange = (car) => void Object.assign(car.circuits![0]!.pumps![0]!, { displacementCcRev: 8 });
