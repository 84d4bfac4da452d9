import { box, cylinder } from '#geometry';
import { describe, expect, it } from 'vitest';
import { expectedNumber, named, published, tolerance } from '../../../test/published/published.ts';
import { exchangeFactors } from './exchange-factors.ts';
import { discPiece, flatPiece, type HeatSurface, patchOf, solidPieces } from './patch.ts';
import { viewFactor } from './view-factor.ts';

const surface = (id: string, solids: HeatSurface['solids'], emissivity = 1): HeatSurface => ({
  id,
  kind: 'part',
  solids,
  emissivity,
});

describe('x', () => {
  it('discs', () => {
    for (const item of published('heat.viewfactor').filter(({ id }) => id.startsWith('vf-discs'))) {
      const { r1, r2, L } = item.inputs as { r1: number; r2: number; L: number };
      const k = 1000;
      const scene = [
        surface('a', [cylinder([0, 0, -1], [0, 0, 0], r1 * k)]),
        surface('b', [cylinder([0, 0, L * k], [0, 0, L * k + 1], r2 * k)]),
      ];
      const v = viewFactor(patchOf(0, 1, [discPiece([0, 0, 0], [0, 0, 1], r1 * k)]), 1, scene, { rays: 8192, seed: 1 });
      console.log(item.id, item.expected, v);
    }
    const room = [
      surface('inner', [box([-50, -50, -50], [50, 50, 50])], 0.3),
      surface('out', [box([-200, -200, -200], [200, 200, -190])], 0.1),
    ];
    const e = exchangeFactors({
      surfaces: room,
      patches: [patchOf(0, 0.3, solidPieces(room[0]!.solids[0]!))],
      raysPerPatch: 1024,
      seed: 3,
    });
    console.log(e, flatPiece);
  });
});
