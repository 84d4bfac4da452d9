import { type Outline, outlinePoints, type Point2 } from '#geometry';
import type { NestPart } from '../../src/panels/nesting/nest-parts.ts';
import { chance } from './shapes.ts';

/** Panel-like shapes from a seed: trapezoids, L shapes, triangles, bowed sides, rounded corners; a third with a grain. */
export function seededParts(seed: number, count: number): NestPart[] {
  const draw = chance(seed);
  const between = (a: number, b: number): number => Math.round(a + (b - a) * draw());
  return Array.from({ length: count }, (_, i): NestPart => {
    const [w, h] = [between(120, 620), between(100, 420)];
    const kind = Math.floor(draw() * 5);
    const bow = draw() < 0.4 ? { bulge: 0.05 + 0.2 * draw() } : {};
    const shapes: Outline[] = [
      [
        { at: [0, 0] },
        { at: [w, 0] },
        { at: [w - between(20, w * 0.35), h], ...bow },
        { at: [between(0, w * 0.3), h] },
      ],
      [
        { at: [0, 0] },
        { at: [w, 0] },
        { at: [w, h * 0.35] },
        { at: [w * 0.4, h * 0.35] },
        { at: [w * 0.4, h] },
        { at: [0, h] },
      ],
      [{ at: [0, 0] }, { at: [w, 0], ...bow }, { at: [between(0, w), h] }],
      [
        { at: [0, 0] },
        { at: [w, 0] },
        { at: [w, h - 30], bulge: Math.tan(Math.PI / 8) },
        { at: [w - 30, h] },
        { at: [w * 0.3, h], bulge: -0.15 },
        { at: [0, h * 0.4] },
      ],
      [
        { at: [0, h * 0.2] },
        { at: [w * 0.6, 0] },
        { at: [w, h * 0.5] },
        { at: [w * 0.7, h], ...bow },
        { at: [w * 0.1, h * 0.8] },
      ],
    ];
    const outline = shapes[kind]!;
    return { id: `S${i + 1}`, outline, ...(draw() < 0.33 ? { grainDeg: draw() < 0.5 ? 0 : 90 } : {}) };
  });
}

/** Points round a part as it lies. */
export function laidRing(outline: Outline, turnDeg: number, by: Point2, within = 0.01): Point2[] {
  const angle = (turnDeg * Math.PI) / 180;
  const [c, s] = [Math.cos(angle), Math.sin(angle)];
  return outlinePoints(outline, within).map(([x, y]): Point2 => [x * c - y * s + by[0], x * s + y * c + by[1]]);
}
