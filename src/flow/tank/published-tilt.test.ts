import { expect, it } from 'vitest';
import {
  expectedNumber,
  expectedOf,
  named,
  published,
  type PublishedValue,
  tolerance,
} from '../../../test/published/published.ts';
import { Levels, oilSurface } from './level.ts';
import { hoofVolume, surfaceAngle, wallRise } from './slosh-formulas.ts';
import { type Tank, tankOfBox, tankOfMesh } from './tank.ts';
import { cylinderMesh } from './tank-shapes.ts';

/** Rows whose inputs or results are lists or words: the reader of this area knows them. */
type Loose = Readonly<Record<string, number | string | null | readonly number[]>>;
const inputOf = (item: PublishedValue, name: string): number => {
  const value = item.inputs[name];
  if (typeof value !== 'number') throw new Error(`${item.id} has no input "${name}"`);
  return value;
};
const looseInput = (item: PublishedValue, name: string) => (item.inputs as unknown as Loose)[name];
const looseResult = (item: PublishedValue, name: string) => (item.expected as unknown as Loose)[name];
const near = (item: PublishedValue, value: number, expected: number) =>
  expect(Math.abs(value - expected)).toBeLessThanOrEqual(Math.max(tolerance(item, expected), 1e-12));

/** The oil along X at a sideways pull, as heights over the floor: at x, where it meets the floor and where the lid [m]. */
function tilted(tank: Tank, slope: number, oilM3: number) {
  // Speeding up by `slope` g throws the oil rearward, which is +X.
  const surface = oilSurface(tank, { longitudinalG: slope, lateralG: 0, verticalG: 1 }, oilM3);
  if (surface.kind === 'none') throw new Error(surface.why);
  return {
    heightM: (xM: number) => (surface.heightMm - surface.up[0] * xM * 1000) / surface.up[2] / 1000,
    xAtM: (zM: number) => (surface.heightMm - surface.up[2] * zM * 1000) / surface.up[0] / 1000,
  };
}

/** Walls of the closed box and the wetted floor and lid, with the names of the rows. */
function checkBox(item: PublishedValue): void {
  const [length, fill, high] = [inputOf(item, 'L'), inputOf(item, 'h_fill'), inputOf(item, 'H')];
  const tank = tankOfBox([0, 0, 0], [length * 1000, 100, high * 1000]);
  const oil = tilted(tank, inputOf(item, 'a_over_g'), length * fill * 0.1);
  const [low, top] = [oil.heightM(0), oil.heightM(length)];
  near(item, Math.max(0, low), expectedOf(item, 'low'));
  near(item, Math.min(high, top), expectedOf(item, 'high'));
  near(item, low >= 0 ? length : length - oil.xAtM(0), expectedOf(item, 'wet_length'));
  near(item, top <= high ? 0 : length - oil.xAtM(high), expectedOf(item, 'roof_length'));
}

/** A prism of 1,440 sides: its second moment is off by 3e-6. */
const FINE = 1440;

function checkCylinder(item: PublishedValue): void {
  const [radius, fill, slope] = [inputOf(item, 'R'), inputOf(item, 'h_fill'), inputOf(item, 'a_over_g')];
  const tank = tankOfMesh(cylinderMesh([0, 0, 0], [0, 0, 1000], radius * 1000, FINE));
  const oil = tilted(tank, slope, Math.PI * radius ** 2 * fill);
  near(item, oil.heightM(radius), expectedOf(item, 'high'));
  near(item, Math.max(0, oil.heightM(-radius)), expectedOf(item, 'low'));
  const dryTo = looseResult(item, 'x0');
  if (typeof dryTo === 'number') near(item, oil.xAtM(0), dryTo);
  else expect(oil.heightM(-radius)).toBeGreaterThan(0);
}

/** Spill, bared corner, bared half: the acceleration at which our surface does it, found by halving, and the force on the oil. */
function checkSpill(item: PublishedValue): void {
  const [length, width, deep, fill] = ['L', 'b', 'd', 'h'].map((name) => inputOf(item, name)) as [
    number,
    number,
    number,
    number,
  ];
  const gravity = inputOf(item, 'g');
  const tank = tankOfBox([0, 0, 0], [length * 1000, width * 1000, deep * 1000]);
  const open = tankOfBox([0, 0, 0], [length * 1000, width * 1000, 4 * deep * 1000]);
  const halved = (isBefore: (slope: number) => boolean) => {
    let [low, high] = [1e-3, 2];
    for (let k = 0; k < 60; k++) {
      const middle = (low + high) / 2;
      if (isBefore(middle)) low = middle;
      else high = middle;
    }
    return low;
  };
  // Spilled to the rim, the surface goes through the rim: what is left is what lies below that plane.
  const throughRim = (slope: number) => {
    const levels = new Levels(tank);
    levels.look({ longitudinalG: slope, lateralG: 0, verticalG: 1 });
    const [ux, , uz] = levels.up;
    return levels.below(ux * length * 1000 + uz * deep * 1000).volumeM3;
  };
  const whole = length * width * fill;
  const dryTo = (slope: number) => tilted(tank, slope, throughRim(slope)).xAtM(0);
  const slopes = [
    halved((slope) => tilted(open, slope, whole).heightM(length) < deep),
    halved((slope) => dryTo(slope) < 0),
    halved((slope) => dryTo(slope) < length / 2),
  ];
  const oils = [whole, throughRim(slopes[1]!), throughRim(slopes[2]!)];
  (looseResult(item, 'a') as readonly number[]).forEach((a, i) => near(item, slopes[i]! * gravity, a));
  (looseResult(item, 'net_force_N') as readonly number[]).forEach((force, i) =>
    near(item, inputOf(item, 'rho') * oils[i]! * slopes[i]! * gravity, force),
  );
}

/** The closed form, and the mesh below the same plane. */
function checkHoof(item: PublishedValue, perM3: number): void {
  const radius = inputOf(item, 'R');
  const [slope, dryTo] =
    item.id === 'ungula-classic' ? [inputOf(item, 'h') / radius, 0] : [inputOf(item, 'slope'), inputOf(item, 'x0')];
  const volume = hoofVolume(radius, dryTo, slope) * perM3;
  if (item.id === 'ungula-classic') {
    // Its tolerance is finer than its eight printed digits; the row's own place says what they stand for: (2 R)^3 / 6.
    near(item, volume, (2 * radius) ** 3 / 6);
    expect(volume).toBeCloseTo(expectedNumber(item), 7);
  } else near(item, volume, expectedNumber(item));
  const tall = slope * (radius - dryTo) * 1100;
  const levels = new Levels(tankOfMesh(cylinderMesh([0, 0, 0], [0, 0, tall], radius * 1000, FINE)));
  levels.look({ longitudinalG: slope, lateralG: 0, verticalG: 1 });
  const meshVolume = levels.below(levels.up[0] * dryTo * 1000).volumeM3 * perM3;
  expect(meshVolume / expectedNumber(item)).toBeCloseTo(1, 4);
}

function check(item: PublishedValue): void {
  if (item.id === 'tilt-fishtank') {
    const slope = inputOf(item, 'a') / inputOf(item, 'g');
    near(item, surfaceAngle(inputOf(item, 'a'), 0, inputOf(item, 'g')), expectedOf(item, 'theta_deg'));
    const lengths = looseInput(item, 'L') as readonly number[];
    const rises = looseResult(item, 'rise_m') as readonly number[];
    lengths.forEach((length, i) => {
      near(item, wallRise(length * 1000, slope) / 1000, rises[i]!);
      const tank = tankOfBox([0, 0, 0], [length * 1000, 500, 1000]);
      near(item, tilted(tank, slope, tank.volumeM3 / 2).heightM(length) - 0.5, rises[i]!);
    });
  } else if (item.id === 'tilt-rect-3-35') checkSpill(item);
  else if (/^tilt-rect-\d$/.test(item.id)) checkBox(item);
  else if (/^tilt-cyl-\d$/.test(item.id)) checkCylinder(item);
  else if (item.id === 'ungula-classic') checkHoof(item, 1);
  else if (/^ungula-\d$/.test(item.id)) checkHoof(item, 1000);
  else if (/^tilt-angle-\d$/.test(item.id))
    near(item, surfaceAngle(inputOf(item, 'ax'), inputOf(item, 'az'), inputOf(item, 'g')), expectedNumber(item));
  else throw new Error(`nobody checks ${item.id}`);
}

it.each(published('slosh.tilt').map((item) => [named(item), item] as const))('%s', (_, item) => {
  check(item);
});

it('a row that nobody knows fails', () => {
  const [first] = published('slosh.tilt');
  expect(() => check({ ...first!, id: 'tilt-new' })).toThrow('nobody checks tilt-new');
});
