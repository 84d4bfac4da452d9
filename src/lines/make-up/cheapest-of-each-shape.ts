import type { EndMakeUp } from './end-make-up.ts';

/** Make-ups of one shape differ only in what they cost: the cheapest stays, ties by id. */
export function cheapestOfEachShape(found: readonly EndMakeUp[]): readonly EndMakeUp[] {
  const byCost = [...found].sort((a, b) => a.cost - b.cost || compareText(a.key, b.key));
  const kept = new Map<string, EndMakeUp>();
  for (const makeUp of byCost) {
    const shape = `${makeUp.angleDeg} ${makeUp.stages.filter((s) => s.kind === 'bend').map((s) => `${s.angleRad} ${s.clock}`)}`;
    if (!kept.has(shape)) kept.set(shape, makeUp);
  }
  return [...kept.values()];
}

const compareText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
