import { sub, type Vec } from '#geometry';
import type { Json } from '../json-text.ts';
import { findPort } from '../lookups.ts';
import { resolveOrigins } from '../placing/resolve-origins.ts';
import type { Car, Port } from '../schema/car.ts';
import type { Change } from './change.ts';
import { changed } from './change.ts';
import { changesOf, shifting } from './changes-of.ts';
import type { Edit, Edited } from './edit.ts';

/**
 * A car after an edit, with the edit that takes it back: applied to the new car, that gives the old one again. What was
 * measured is worked out anew; what cannot be placed stays where it was, so that a half-typed origin does not throw the car
 * about. The new car may be faulty (a line to a part taken away): `checkCar` tells.
 *
 * @throws CarEditError where the edit names something that is not there
 */
export function applyEdit(car: Car, edit: Edit): Edited {
  const inverses: Change[] = [];
  const touched: string[] = [];
  let now = car;
  for (const simple of flat(edit)) {
    for (const change of changesOf(now, simple)) {
      const step = changed(now as unknown as Json, change);
      now = step.document as unknown as Car;
      inverses.unshift(step.inverse);
      touched.push((change.kind === 'insert' ? step.inverse.at : change.at).join('/'));
    }
    for (const change of placingChanges(now).flatMap((one) => [one, ...ledAlong(now, one)])) {
      const step = changed(now as unknown as Json, change);
      now = step.document as unknown as Car;
      inverses.unshift(step.inverse);
    }
  }
  return { car: now, inverse: { do: 'restore', changes: inverses }, touched };
}

type Simple = Exclude<Edit, { do: 'several' }>;

function flat(edit: Edit): readonly Simple[] {
  return edit.do === 'several' ? edit.edits.flatMap(flat) : [edit];
}

/** What working the measurements out again changes: recorded like any change, so that an inverse brings back what stood there. */
function placingChanges(car: Car): Change[] {
  const placed = resolveOrigins(car).car;
  return placed.parts.flatMap((part, i) => {
    const was = car.parts[i]!;
    if (was === part) return [];
    const path = ['parts', `#${part.id}`];
    const ports = part.ports.flatMap((port, j) => portChanges(was.ports[j]!, port, [...path, 'ports', `#${port.id}`]));
    return isAlike(was.shapes, part.shapes)
      ? ports
      : [...ports, { kind: 'set', at: [...path, 'shapes'], value: part.shapes as unknown as Json } as const];
  });
}

/** Where readings put a port elsewhere, what follows it goes along. */
function ledAlong(car: Car, change: Change): readonly Change[] {
  const [, part = '', , port = '', field] = change.at;
  if (change.kind !== 'set' || field !== 'atMm') return [];
  const ref = `${part.slice(1)}.${port.slice(1)}`;
  const was = findPort(car, ref)?.port.atMm;
  return was === undefined ? [] : shifting(car, ref, sub(change.value as unknown as Vec, was));
}

function portChanges(was: Port, port: Port, path: readonly string[]): Change[] {
  return (['atMm', 'knownToMm'] as const)
    .filter((key) => !isAlike(was[key], port[key]))
    .map((key) => ({ kind: 'set', at: [...path, key], value: port[key] as Json }));
}

function isAlike(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
