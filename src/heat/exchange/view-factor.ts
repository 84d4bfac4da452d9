import { exchangeFactors } from './exchange-factors.ts';
import type { HeatSurface, Patch } from './patch.ts';

/** A view factor by rays and how well it is known. */
export interface ViewFactor {
  /** Share of what `from` gives off by the cosine law that reaches the other at once [-]. */
  readonly share: number;
  /** Half the width of its 95 % interval [-]; not 0 where no ray met it. */
  readonly error95: number;
}

/**
 * The view factor from a patch to a surface with everything else in the way.
 *
 * @param scene - all surfaces, the one seen and the patch's own among them
 * @param to - index of the one seen; `scene.length` for what is left over: the surroundings
 */
export function viewFactor(
  from: Patch,
  to: number,
  scene: readonly HeatSurface[],
  wish: { readonly rays: number; readonly seed: number },
): ViewFactor {
  // Black surfaces reflect nothing: what is taken up is what arrives.
  const surfaces = scene.map(({ id, kind, solids }) => ({ id, kind, solids, emissivity: 1 }));
  const found = exchangeFactors({ surfaces, patches: [from], raysPerPatch: wish.rays, seed: wish.seed });
  const at = found.to.indexOf(to);
  return at < 0 ? { share: 0, error95: found.unmetError95 } : { share: found.share[at]!, error95: found.error95[at]! };
}
