import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

type P = [number, number];

/** Signed area of a polygon [mm2]. */
export function outlineArea(points: readonly P[]): number {
  return points.reduce((sum, [x, y], i) => {
    const [u, v] = points[(i + 1) % points.length]!;
    return sum + (x * v - u * y) / 2;
  }, 0);
}

/** A star-shaped polygon with up to twelve small openings on a grid, clockwise, none touching. */
export function seededOutlinePoints(seed: number): { outside: P[]; openings: P[][] } {
  const generator = xoroshiro128plus(seed);
  const between = (low: number, high: number) => low + ((generator.next() >>> 0) / 2 ** 32) * (high - low);
  const count = Math.floor(between(5, 40));
  const outside = Array.from({ length: count }, (_, i): P => {
    const angle = (2 * Math.PI * (i + between(-0.3, 0.3))) / count;
    const reach = between(300, 500);
    return [reach * Math.cos(angle), reach * Math.sin(angle)];
  });
  const openings: P[][] = [];
  const sides = count < 8 ? 1 : 3;
  for (let u = 0; u < sides; u++)
    for (let v = 0; v < sides; v++) {
      const [x, y] = [(u - (sides - 1) / 2) * 60, (v - (sides - 1) / 2) * 60];
      const corners = Math.floor(between(3, 14));
      const turned = between(0, 6);
      openings.push(
        Array.from({ length: corners }, (_, i): P => {
          const angle = turned - (2 * Math.PI * i) / corners;
          const reach = between(10, 25);
          return [x + reach * Math.cos(angle), y + reach * Math.sin(angle)];
        }),
      );
    }
  return { outside, openings };
}
