import { cross, distance, norm, sub, unit, type Vec } from '#geometry';
import { findNearest } from '../nearest.ts';
import type { Path } from '../fault.ts';
import type { Lever } from '../schema/car.ts';
import type { CarView, Tell } from './car-view.ts';
import { tellTwice } from './car-view.ts';

/** A pin nearer to its axis than this does not turn about it [mm]. */
const ON_AXIS_MM = 0.5;

/** Ids twice, arms and ends that do not exist, pins on the axis, paths that stand still. */
export function checkLevers(view: CarView, tell: Tell): void {
  const levers = view.car.levers ?? [];
  tellTwice(
    levers.map((lever) => lever.id),
    ['levers'],
    'id',
    tell,
  );
  const partIds = new Set(view.parts.map((part) => part?.id));
  levers.forEach((lever, i) => {
    const at = ['levers', i] as const;
    if (partIds.has(lever.id) || view.moverIds.has(lever.id))
      tell([...at, 'id'], `"${lever.id}"`, 'an id that no part and no mover has: the lever is one itself');
    checkLever(lever, at, tell);
    if (lever.was !== undefined) checkLever({ ...lever, ...lever.was } as Lever, [...at, 'was'], tell);
    checkEnds(lever, at, view, tell);
  });
}

function checkLever(lever: Lever, at: Path, tell: Tell): void {
  tellTwice(
    lever.arms.map((arm) => arm.id),
    [...at, 'arms'],
    'id',
    tell,
  );
  const links = [...(lever.rods ?? []), ...(lever.cables ?? []), ...(lever.cylinders ?? [])];
  tellTwice(
    links.map((link) => link.id),
    at,
    'id',
    tell,
  );
  const offAxis = (point: Vec, path: Path) => {
    if (offAxisMm(lever.pivotMm, lever.axis, point) < ON_AXIS_MM)
      tell(path, 'a place on its own axis', 'a place beside the axis it turns about');
  };
  if (lever.handle !== undefined) offAxis(lever.handle.atMm, [...at, 'handle', 'atMm']);
  lever.arms.forEach((arm, k) => offAxis(arm.atMm, [...at, 'arms', k, 'atMm']));
  const arms = lever.arms.map((arm) => arm.id);
  for (const list of ['rods', 'cables', 'cylinders'] as const)
    lever[list]?.forEach((link, k) => {
      if (!arms.includes(link.arm))
        tell([...at, list, k, 'arm'], `"${link.arm}"`, () => named('an arm of this lever', link.arm, arms));
    });
  lever.cables?.forEach((cable, k) =>
    cable.pathMm.forEach((point, n) => {
      if (n > 0 && distance(point, cable.pathMm[n - 1]!) < ON_AXIS_MM)
        tell([...at, 'cables', k, 'pathMm', n], 'the same place twice', 'another place than the point before');
    }),
  );
}

function checkEnds(lever: Lever, at: Path, view: CarView, tell: Tell): void {
  const levers = view.car.levers ?? [];
  for (const from of [lever, lever.was])
    for (const list of ['rods', 'cables'] as const)
      from?.[list]?.forEach((link, k) => {
        const path = [...at, ...(from === lever ? [] : ['was']), list, k, 'to'];
        if (link.to.mover !== undefined) return checkMoverEnd(link.to.mover, link.to.atMm!, path, view, tell);
        const other = levers.find((row) => row.id === link.to.lever);
        const ids = levers.filter((row) => row !== lever).map((row) => row.id);
        if (other === undefined || other === lever)
          tell([...path, 'lever'], `"${link.to.lever ?? ''}"`, () =>
            named('another lever of this car', link.to.lever ?? '', ids),
          );
        else if (!other.arms.some((arm) => arm.id === link.to.arm))
          tell([...path, 'arm'], `"${link.to.arm ?? ''}"`, () =>
            named(
              `an arm of ${other.id}`,
              link.to.arm ?? '',
              other.arms.map((arm) => arm.id),
            ),
          );
      });
}

function checkMoverEnd(id: string, atMm: Vec, path: Path, view: CarView, tell: Tell): void {
  if (!view.judges('movers')) return;
  const mover = view.movers.find((row) => row?.id === id);
  if (mover === undefined)
    return tell([...path, 'mover'], `"${id}"`, () => named('a mover of this car', id, [...view.moverIds]));
  if (mover.pivotMm === undefined || mover.axis === undefined || mover.turnDeg === undefined)
    tell([...path, 'mover'], `"${id}", which does not swing`, 'a mover with pivotMm, axis and turnDeg');
  else if (offAxisMm(mover.pivotMm, mover.axis, atMm) < ON_AXIS_MM)
    tell([...path, 'atMm'], `a place on the axis of "${id}"`, 'a place beside the axis it swings about');
}

const offAxisMm = (pivot: Vec, axis: Vec, point: Vec): number => norm(cross(unit(axis), sub(point, pivot)));

function named(words: string, word: string, ids: readonly string[]): string {
  const nearest = findNearest(word, ids);
  return nearest === undefined ? `${words}; there is none` : `${words} (nearest: ${nearest})`;
}
