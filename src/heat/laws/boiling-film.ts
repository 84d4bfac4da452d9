import type { FilmTable } from '../balance/thermal-net.ts';

/**
 * How readily water that boils gives off its steam [W/(m2 K)] of the bore about it: of the order of pool boiling at a few kelvin, from memory.
 * It only says by how many tenths of a kelvin water passes its boiling point: what boils away is what heat comes in.
 */
const BOILING_W_PER_M2_K = 20_000;

/** What a square metre of bore gives off as steam: nothing below the boiling point [W/m2]. */
export const boilingTable = (boilsAtC: number): FilmTable => ({
  airC: boilsAtC,
  stepK: 1,
  below: 1,
  heat: Float64Array.of(0, 0, BOILING_W_PER_M2_K),
});

/** Whether a film is one of steam. */
export const isBoiling = ({ heat }: FilmTable): boolean => heat.length === 3;
