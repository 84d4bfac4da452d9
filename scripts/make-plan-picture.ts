// Draws a planned car from the side and from above: parts in outline, hot parts hatched, each line with its id.
// npx tsx scripts/make-plan-picture.ts CAR.json PLAN.json OUT.svg   (PLAN.json: the answer of `fairlead plan CAR --json`)
import { readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';
import { bay as bayOf } from '#bay';
import { readCar } from '#car';
import { loadCarMeshes } from '#intake';
import type { Planned } from '#lines';

const [carFile, planFile, outFile] = process.argv.slice(2);
if (carFile === undefined || planFile === undefined || outFile === undefined) {
  process.stderr.write('make-plan-picture: CAR.json PLAN.json OUT.svg\n');
  process.exit(2);
}
const reading = readCar(readFileSync(carFile, 'utf8'));
if (!reading.ok) throw new Error(reading.faults.map((fault) => fault.place).join(', '));
const { meshes } = await loadCarMeshes(reading.car, dirname(carFile));
const bay = bayOf(reading.car, meshes);
const planned = JSON.parse(readFileSync(planFile, 'utf8')) as Planned;

const INK = '#22262b';
const SOFT = '#6b6a63';
const RED = '#a3341f';
const COLOUR: Readonly<Record<string, string>> = {
  oil: '#8a6100',
  water: '#23508f',
  fuel: '#7a3d80',
  brake: '#2f6b4f',
  clutch: '#2f6b4f',
  air: '#5c6d78',
  charge: '#5c6d78',
};
/** The engine bay and what leads to it [mm]. */
const X: readonly [number, number] = [1000, 2450];
const SCALE = 0.62;
const width = (X[1] - X[0]) * SCALE;

interface View {
  readonly title: string;
  readonly up: 1 | 2;
  readonly sign: 1 | -1;
  readonly from: number;
  readonly to: number;
}
const views: readonly View[] = [
  { title: 'from the left', up: 2, sign: -1, from: -20, to: 830 },
  { title: 'from above (the car’s right is down)', up: 1, sign: 1, from: -900, to: 860 },
];

function drawn(view: View, top: number): string {
  const height = (view.to - view.from) * SCALE;
  const x = (v: number) => ((v - X[0]) * SCALE).toFixed(1);
  const y = (v: number) => (top + (view.sign === 1 ? v - view.from : view.to - v) * SCALE).toFixed(1);
  const parts = bay.parts
    .filter((part) => !['floor', 'ground'].includes(part.id))
    .flatMap((part) =>
      part.solids.map((solid) => {
        const { min, max } = solid.bounds;
        const [a, b] = view.sign === 1 ? [min[view.up], max[view.up]] : [max[view.up], min[view.up]];
        const fill = part.class === 'hot' ? 'url(#hot)' : part.class === 'moving' ? 'none' : '#e9e4d6';
        const dash = part.class === 'moving' ? ' stroke-dasharray="4 3"' : '';
        const w = ((max[0] - min[0]) * SCALE).toFixed(1);
        const h = (Math.abs(b - a) * SCALE).toFixed(1);
        return `<rect x="${x(min[0])}" y="${y(a)}" width="${w}" height="${h}" fill="${fill}" fill-opacity="0.75" stroke="${part.class === 'hot' ? RED : SOFT}" stroke-width="0.8"${dash}/>`;
      }),
    );
  const lines = planned.lines.flatMap(({ line, taken }) => {
    if (taken === null) return [];
    const duty = reading.ok ? reading.car.lines.find((l) => l.id === line)!.duty : 'oil-pressure';
    const colour = COLOUR[duty.split('-')[0]!] ?? INK;
    const points = taken.bodies.flatMap((body) => body.pathMm).filter((p) => p[0] > X[0] - 60 && p[0] < X[1] + 60);
    if (points.length === 0) return [];
    const od = Math.max(3, (taken.pieces[0]?.odMm ?? 10) * SCALE * 0.8);
    const kept = points.filter((_, i) => i % 4 === 0 || i === points.length - 1);
    const d = kept.map((p, i) => `${i === 0 ? 'M' : 'L'}${x(p[0])} ${y(p[view.up])}`).join('');
    const middle = points[Math.floor(points.length / 2)]!;
    return [
      `<path d="${d}" fill="none" stroke="${INK}" stroke-width="${(od + 1.6).toFixed(1)}" stroke-linejoin="round"/>`,
      `<path d="${d}" fill="none" stroke="${colour}" stroke-width="${od.toFixed(1)}" stroke-linejoin="round"/>`,
      `<text x="${x(middle[0])}" y="${y(middle[view.up])}" class="id">${line}</text>`,
    ];
  });
  const clip = `<clipPath id="c${view.up}"><rect x="0" y="${top}" width="${width}" height="${height}"/></clipPath>`;
  return `${clip}<g clip-path="url(#c${view.up})">${parts.join('')}${lines.join('')}</g><rect x="0" y="${top}" width="${width}" height="${height}" fill="none" stroke="${INK}" stroke-width="1.5"/><text x="8" y="${top + 20}" class="view">${view.title}</text>`;
}

const heights = views.map((view) => (view.to - view.from) * SCALE);
const total = heights.reduce((sum, h) => sum + h, 0) + 40;
const tops = [0, heights[0]! + 16];
const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="-8 -8 ${width + 16} ${total}" font-family="sans-serif"><style>.id{font-size:13px;font-weight:700;fill:${INK};paint-order:stroke;stroke:#fffdf8;stroke-width:4px;text-anchor:middle}.view{font-size:14px;fill:${SOFT};paint-order:stroke;stroke:#f5f1e8;stroke-width:4px}</style><defs><pattern id="hot" width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="7" height="7" fill="#f3d9d2"/><line x1="0" y1="0" x2="0" y2="7" stroke="${RED}" stroke-width="2"/></pattern></defs><rect x="-8" y="-8" width="${width + 16}" height="${total}" fill="#f5f1e8"/>${views.map((view, i) => drawn(view, tops[i]!)).join('')}</svg>\n`;
writeFileSync(outFile, svg);
