import type { Fault } from './fault.ts';
import { shown } from './fault.ts';
import { carFaults } from './car-faults.ts';
import { doublyPlaced, filled, withoutDerived } from './filled.ts';
import type { Json } from './json-text.ts';
import { readJson } from './json-text.ts';
import { migrated } from './migrate.ts';
import { resolveOrigins } from './placing/resolve-origins.ts';
import { MOST_FAULTS } from './schema-faults.ts';
import type { Car } from './schema/car.ts';

export type CarReading = { readonly ok: true; readonly car: Car } | { readonly ok: false; readonly faults: Fault[] };

const FAULTS_SHOWN = 50;

/** A car file's text as a car, or everything that is wrong with it: at most 50 faults and a last one that counts the rest. */
export function readCar(text: string): CarReading {
  const reading = readJson(text);
  return reading.ok ? carFrom(reading.value) : { ok: false, faults: capped(reading.faults) };
}

/** A car from JSON already read, under the same checks as a file. */
export function carFrom(value: Json): CarReading {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    return {
      ok: false,
      faults: [{ place: 'car file', stands: shown(value), allowed: 'an object {...} with "fairlead": 1' }],
    };
  }
  const step = migrated(value);
  if ('fault' in step) return { ok: false, faults: [step.fault] };
  const file = filled(step.file);
  const faults = [...doublyPlaced(step.file), ...carFaults(file)];
  if (faults.length > 0) return { ok: false, faults: capped(faults) };
  const placed = resolveOrigins(file as unknown as Car);
  if (placed.report.faults.length > 0) return { ok: false, faults: capped(placed.report.faults) };
  return { ok: true, car: placed.car };
}

/** What is wrong with a car in memory, under the same checks as a file; empty after every edit that a builder may keep. */
export function checkCar(car: Car): Fault[] {
  const reading = carFrom(withoutDerived(car as unknown as { [key: string]: Json }));
  return reading.ok ? [] : reading.faults;
}

function capped(faults: readonly Fault[]): Fault[] {
  const out = faults.slice(0, FAULTS_SHOWN).map(({ place, stands, allowed }) => ({ place, stands, allowed }));
  const rest = faults.length - FAULTS_SHOWN;
  if (rest > 0)
    out.push({
      place: 'car file',
      stands: faults.length < MOST_FAULTS ? `and ${rest} more faults` : `and at least ${rest} more faults`,
      allowed: 'none',
    });
  return out;
}
