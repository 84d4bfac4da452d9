import { useEffect, useState } from 'react';
import type { Step } from '#shelf';
import { sayFault } from '../bench/bench.ts';
import { dayAndTime } from '../bench/who.ts';
import { calls } from '../server/calls.ts';

export const NOW = 'now';

/** Points of a car's history that have a name. */
export function usePoints(id: string, revision: number): readonly Step[] {
  const [points, setPoints] = useState<readonly Step[]>([]);
  useEffect(() => {
    if (id !== '') calls.points(id).then(setPoints, sayFault);
  }, [id, revision]);
  return points;
}

/** Points to pick from: now, those with a name, the beginning, and those that are picked already. */
export function pointChoices(points: readonly Step[], picked: readonly string[]): { value: string; label: string }[] {
  const named = points.map((step) => ({
    value: `${step.revision}`,
    label: `${step.point} (change ${step.revision}, ${dayAndTime(step.atMs)})`,
  }));
  const rows = [{ value: NOW, label: 'now' }, ...named];
  const others = ['1', ...picked].filter((value) => !rows.some((row) => row.value === value));
  return [
    ...rows,
    ...[...new Set(others)].map((value) => ({ value, label: value === '1' ? 'the beginning' : `change ${value}` })),
  ];
}
