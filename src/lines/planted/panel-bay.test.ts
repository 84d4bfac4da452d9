import { describe, expect, it } from 'vitest';
import type { Vec } from '#geometry';
import { lineWays } from '../line-ways.ts';
import type { Way } from '../way.ts';
import { discsOf, sampledGap } from './body-skin.ts';
import { PANEL, type PanelBayWant, panelBay } from './panel-bay.ts';
import type { ReadWay } from './read-way.ts';
import { leastDistance, shapeDistance } from './solid-distance.ts';
import { worldOfBay } from './solved-bay.ts';

function bestWay(seed: number, want: PanelBayWant): Way {
  const world = worldOfBay({ car: panelBay(seed, want), meshes: new Map() } as never);
  return lineWays(world, world.car.lines[0]!, null, 1)[0]!;
}

const fittingOf = (way: Way): { readonly at: Vec; readonly along: Vec } => {
  const path = way.bodies.find((body) => body.part === 'bulkhead-fitting')!.pathMm;
  const [a, b] = [path[0]!, path.at(-1)!];
  const length = Math.hypot(...a.map((c, k) => b[k]! - c));
  return {
    at: a.map((c, k) => (c + b[k]!) / 2) as unknown as Vec,
    along: a.map((c, k) => (b[k]! - c) / length) as unknown as Vec,
  };
};

/** Everything that the way says of its gaps, against dense sampling that shares no code with the planner. */
function gapFaults(seed: number, want: PanelBayWant, way: Way): string[] {
  const read = JSON.parse(JSON.stringify(way)) as ReadWay;
  const discs = discsOf(read.bodies);
  return panelBay(seed, want).parts.flatMap((part) => {
    if (part.id === 'panel') return [];
    const { gapMm } = sampledGap(
      discs,
      leastDistance(part.shapes.map((s) => shapeDistance(s as never, new Map()))),
      150,
    );
    const stated = read.gaps.find((gap) => gap.part === part.id)?.gapMm ?? 150;
    return Math.abs(Math.max(0, stated) - Math.max(0, gapMm)) > 0.3 ? [`${part.id}: ${stated} stated, ${gapMm}`] : [];
  });
}

describe('a crossing that the tool places', () => {
  // The first of the places ranked by corridor alone, as the tool chose before it counted both sides: found with that version, frozen.
  it.each<[number, Vec, number]>([[6, [0, -120, -80], 1123.3]])(
    'frozen, second: seed %i is cheaper than at the place ranked by corridors alone, square, its gaps true',
    (seed, atMm, before) => {
      const want: PanelBayWant = { kind: 'bulkhead-fitting' };
      const way = bestWay(seed, want);
      expect(way.fails).toEqual([]);
      const fixed = bestWay(seed, { ...want, atMm, faces: [1, 0, 0] });
      expect(fixed.cost).toBeCloseTo(before, 0);
      expect(way.cost).toBeLessThan(before - 10);
      // hand: the fitting stands square in the panel's middle plane, with room to its edge.
      const { at, along } = fittingOf(way);
      expect(along.map((c) => Number(c.toFixed(6)))).toEqual([1, 0, 0]);
      expect(at[0]).toBeCloseTo(0, 6);
      expect(Math.max(Math.abs(at[1]), Math.abs(at[2]))).toBeLessThan(PANEL.halfMm - 12);
      expect(gapFaults(seed, want, way)).toEqual([]);
    },
  );
});
