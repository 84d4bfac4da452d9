import { stlBinary } from '#intake';

/** A block of 300 x 200 x 120 mm with a blind hole of 27 mm, 40 deep, in its top at (100, 80): what a scan of a housing with a port is. */
export function boredBlock(): Uint8Array {
  const sides = 64;
  const [x0, y0, radius] = [100, 80, 13.5];
  const points: number[] = [];
  const corners: number[] = [];
  const point = (x: number, y: number, z: number): number => points.push(x, y, z) / 3 - 1;
  const turn = (i: number): [number, number] => [
    Math.cos((2 * Math.PI * i) / sides),
    Math.sin((2 * Math.PI * i) / sides),
  ];
  const onRim = (i: number): [number, number] => {
    const [c, s] = turn(i);
    const alongX = c > 1e-12 ? (300 - x0) / c : c < -1e-12 ? -x0 / c : Infinity;
    const alongY = s > 1e-12 ? (200 - y0) / s : s < -1e-12 ? -y0 / s : Infinity;
    const far = Math.min(alongX, alongY);
    return [x0 + c * far, y0 + s * far];
  };
  const ring = (z: number, at: (i: number) => [number, number]): number[] =>
    Array.from({ length: sides }, (_, i) => point(...at(i), z));
  const round = (i: number): [number, number] => [x0 + radius * turn(i)[0], y0 + radius * turn(i)[1]];
  const halfway = (i: number): [number, number] => {
    const [a, b] = [round(i), onRim(i)];
    return [a[0] + 0.2 * (b[0] - a[0]), a[1] + 0.2 * (b[1] - a[1])];
  };
  const rings = [
    ring(80, round),
    ring(100, round),
    ring(120, round),
    ring(120, halfway),
    ring(120, onRim),
    ring(0, onRim),
  ];
  for (const [n, inner] of rings.slice(0, -1).entries())
    for (let i = 0; i < sides; i++) {
      const [a, b, c, d] = [inner[i]!, rings[n + 1]![i]!, rings[n + 1]![(i + 1) % sides]!, inner[(i + 1) % sides]!];
      corners.push(a, b, c, a, c, d);
    }
  for (const [z, flat, isUp] of [
    [80, rings[0]!, true],
    [0, rings.at(-1)!, false],
  ] as const) {
    const middle = point(x0, y0, z);
    for (let i = 0; i < sides; i++) {
      const [a, b] = [flat[i]!, flat[(i + 1) % sides]!];
      corners.push(middle, ...(isUp ? [a, b] : [b, a]));
    }
  }
  return stlBinary({ positions: Float64Array.from(points), indices: Uint32Array.from(corners) });
}
