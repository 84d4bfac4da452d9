// Makes demo/logs/fellside-lap.csv, an invented hill climb of 120 s at 100 Hz: `npx tsx scripts/make-demo-log.ts`. The same file at each run.
// Corners are drawn by a seeded generator; the car goes as fast as a friction circle, its power and what lies ahead let it.
import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

const SEED = 1907;
const SECONDS = 120;
const RATE_HZ = 100;
const FALL = 9.80665;
const GRIP_G = 1.55;
const MASS_KG = 980;
const POWER_W = 270_000;
const DRAG_N_PER_V2 = 0.7;
const SLOPE = 0.07;
const STEP_M = 0.5;
const WHEEL_M = 0.31;
const FINAL = 4.1;
const GEARS = [2.6, 1.85, 1.42, 1.15, 0.96];
const SHIFT_UP_RPM = 7900;
const IDLE_RPM = 3200;

const random = xoroshiro128plus(SEED);
const draw = (from: number, to: number): number => from + ((random.next() >>> 0) / 2 ** 32) * (to - from);

/** Curvature along the hill [1/m], right above 0: straights and corners with ramps into and out of them. */
function hill(lengthM: number): number[] {
  const bends: number[] = [];
  const put = (metres: number, from: number, to: number) => {
    const steps = Math.max(1, Math.round(metres / STEP_M));
    for (let i = 0; i < steps; i++) bends.push(from + ((to - from) * (i + 0.5)) / steps);
  };
  put(90, 0, 0);
  while (bends.length * STEP_M < lengthM) {
    const radius = draw(0, 1) < 0.3 ? draw(11, 18) : draw(24, 95);
    const side = draw(0, 1) < 0.5 ? -1 : 1;
    const turn = (draw(radius < 20 ? 100 : 35, radius < 20 ? 175 : 110) * Math.PI) / 180;
    const ramp = 0.35 * radius * turn;
    put(ramp, 0, side / radius);
    put(radius * turn - ramp, side / radius, side / radius);
    put(ramp, side / radius, 0);
    put(draw(0, 1) < 0.35 ? draw(8, 25) : draw(45, 190), 0, 0);
  }
  return bends;
}

/** Speeds along the hill: what corners allow, then what can be braked to, then what can be reached [m/s]. */
function speeds(bends: readonly number[]): number[] {
  const v = bends.map((bend) => Math.min(62, Math.sqrt((0.97 * GRIP_G * FALL) / Math.max(1e-4, Math.abs(bend)))));
  const left = (i: number): number => {
    const aside = (v[i]! ** 2 * Math.abs(bends[i]!)) / (GRIP_G * FALL);
    return GRIP_G * FALL * Math.sqrt(Math.max(0, 1 - aside ** 2));
  };
  for (let i = v.length - 2; i >= 0; i--)
    v[i] = Math.min(v[i]!, Math.sqrt(v[i + 1]! ** 2 + 2 * STEP_M * (0.9 * left(i + 1) + SLOPE * FALL)));
  v[0] = 2;
  for (let i = 1; i < v.length; i++) {
    const was = v[i - 1]!;
    const pull =
      Math.min(0.62 * left(i - 1), POWER_W / MASS_KG / was) - (DRAG_N_PER_V2 * was ** 2) / MASS_KG - SLOPE * FALL;
    v[i] = Math.min(v[i]!, Math.sqrt(Math.max(1, was ** 2 + 2 * STEP_M * pull)));
  }
  return v;
}

/** A first-order lag, forward and back, so that nothing is late [s]. */
function smoothed(values: readonly number[], lagS: number): number[] {
  const keep = Math.exp(-1 / RATE_HZ / lagS);
  const pass = (row: readonly number[]): number[] => {
    let held = row[0]!;
    return row.map((value) => (held = keep * held + (1 - keep) * value));
  };
  return pass(pass(values).reverse()).reverse();
}

const bends = hill(6000);
const profile = speeds(bends);
const lateral: number[] = [];
const speed: number[] = [];
let at = 0;
for (let i = 0; i <= SECONDS * RATE_HZ; i++) {
  const k = Math.min(bends.length - 1, Math.floor(at / STEP_M));
  lateral.push((profile[k]! ** 2 * bends[k]!) / FALL);
  speed.push(profile[k]!);
  at += profile[k]! / RATE_HZ;
}
const smoothSpeed = smoothed(speed, 0.06);
const longitudinal = smoothed(
  smoothSpeed.map(
    (v, i) =>
      ((smoothSpeed[Math.min(i + 1, smoothSpeed.length - 1)]! - smoothSpeed[Math.max(0, i - 1)]!) * RATE_HZ) /
        2 /
        FALL +
      (v > 0 ? SLOPE : 0),
  ),
  0.05,
);
const aside = smoothed(lateral, 0.05);
const noise = (size: number): number[] =>
  lateral.map((_, i) => (i === 0 || i === lateral.length - 1 ? 0 : draw(-size, size)));
const bumps = smoothed(noise(0.9), 0.04);
const swells = smoothed(noise(4), 0.9);
let gear = 0;
let shiftLeft = 0;
const rows = smoothSpeed.map((v, i) => {
  const rpmIn = (g: number): number => (v / WHEEL_M) * GEARS[g]! * FINAL * (60 / (2 * Math.PI));
  if (shiftLeft > 0) shiftLeft--;
  else if (gear < GEARS.length - 1 && rpmIn(gear) > SHIFT_UP_RPM) [gear, shiftLeft] = [gear + 1, 8];
  else if (gear > 0 && rpmIn(gear - 1) < 6900) [gear, shiftLeft] = [gear - 1, 8];
  const limited = Math.hypot(longitudinal[i]!, aside[i]!) / (GRIP_G * 1.02);
  const hold = limited > 1 ? 1 / limited : 1;
  return {
    rpm: Math.max(IDLE_RPM, Math.min(8200, rpmIn(gear))),
    along: longitudinal[i]! * hold,
    aside: aside[i]! * hold,
    up: 1 + bumps[i]! + swells[i]!,
    oilC: 78 + 27 * (1 - Math.exp(-i / RATE_HZ / 48)),
  };
});
const rpm = smoothed(
  rows.map((row) => row.rpm),
  0.03,
);
const fixed = (value: number, digits: number): string =>
  (Math.round(value * 10 ** digits) / 10 ** digits + 0).toFixed(digits);
const text = [
  'time [s],engine speed [rpm],longitudinal [g],lateral [g],vertical [g],oil temperature [°C]',
  ...rows.map((row, i) =>
    [
      fixed(i / RATE_HZ, 2),
      fixed(rpm[i]!, 0),
      fixed(row.along, 3),
      fixed(row.aside, 3),
      fixed(row.up, 3),
      fixed(row.oilC, 1),
    ].join(','),
  ),
  '',
].join('\n');
const folder = fileURLToPath(new URL('../demo/logs/', import.meta.url));
mkdirSync(folder, { recursive: true });
writeFileSync(`${folder}fellside-lap.csv`, text);
