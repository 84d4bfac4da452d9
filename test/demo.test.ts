import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Car, faultLine, readCar } from '#car';
import { describe, expect, it } from 'vitest';
import { demoCar, demoEvents, demoFiles } from '../scripts/make-demo-events.ts';
import { shapeDistance } from './shape-distance.ts';
import { root, sourceFiles } from './source-files.ts';

const text = (path: string) => readFileSync(join(root, path), 'utf8');
const base = demoCar();
const ports = base.parts.flatMap((part) => part.ports.map((port) => ({ part, port, name: `${part.id}.${port.id}` })));

describe('the demo cars', () => {
  const files = sourceFiles('demo', ['.json']).filter((file) => !file.path.includes('/scans/'));

  it.each(files.map((file) => [file.path, file]))('%s reads without a fault', (_, file) => {
    const reading = readCar(file.text);
    expect(reading.ok ? [] : reading.faults.map(faultLine)).toEqual([]);
  });

  it('have the parts, ports and lines that the fact sheet of the coupe gives', () => {
    expect(ports.length).toBe(62);
    expect(base.lines.length).toBe(31);
    expect(files.length).toBe(demoEvents.length + 3);
  });

  it('use each port of the coupe for exactly one line', () => {
    const used = base.lines.flatMap((line) => [line.from, line.to]).sort();
    expect(used).toEqual(ports.map((row) => row.name).sort());
  });
});

describe('the radiator', () => {
  it('leans its top 25 degrees rearward', () => {
    const shape = base.parts.find((part) => part.id === 'radiator')?.shapes[0];
    // hand: the middle of the core's top edge, 200 mm up the core from its centre (-480, 0, 270): 200 sin 25 rearward, 200 cos 25 up
    expect(shapeDistance([-480 + 200 * 0.422618, 0, 270 + 200 * 0.906308], shape!)).toBeCloseTo(0, 3);
    expect(shapeDistance([-480 - 200 * 0.422618, 0, 270 + 200 * 0.906308], shape!)).toBeGreaterThan(100);
  });
});

describe('every port of the coupe', () => {
  // Scanned parts are looked at where the scan is read.
  const solid = ports.filter((row) => row.part.shapes.every((shape) => shape.box ?? shape.cylinder ?? shape.tube));

  it('stands on the skin of its part, to 0.5 mm', () => {
    expect(solid.length).toBeGreaterThan(55);
    const off = solid.map(({ part, port, name }) => ({
      name,
      mm: Math.min(...part.shapes.map((shape) => shapeDistance(port.atMm, shape))),
    }));
    expect(off.filter((row) => Math.abs(row.mm) > 0.5)).toEqual([]);
  });

  it('faces out of its part', () => {
    const inward = solid.filter(({ part, port }) => {
      const length = Math.hypot(...port.faces);
      const ahead = port.atMm.map((x, i) => x + (port.faces[i]! * 10) / length) as [number, number, number];
      return part.shapes.some((shape) => shapeDistance(ahead, shape) < 9);
    });
    expect(inward.map((row) => row.name)).toEqual([]);
  });
});

describe('the changed cars', () => {
  it('are what the demo car and the changes give today', () => {
    const stale = [...demoFiles(base)].filter(([path, made]) => text(path) !== made).map(([path]) => path);
    expect(stale, 'run: npx tsx scripts/make-demo-events.ts').toEqual([]);
  });

  it('turn the turbo about its shaft: the drain swings 65 mm below it by 12 degrees', () => {
    const turbo = (JSON.parse(text('demo/fellside-4-turbo-turned.json')) as Car).parts.find(
      (part) => part.id === 'turbo',
    );
    const drain = turbo?.ports.find((port) => port.id === 'drain');
    // hand: y = 330 + 65 sin 12 = 343.51, z = 270 - 65 cos 12 = 206.42
    expect(drain?.atMm[1]).toBeCloseTo(343.514, 3);
    expect(drain?.atMm[2]).toBeCloseTo(206.42, 3);
    expect(drain?.faces[1]).toBeCloseTo(0.2079, 4);
  });

  it('change only what they say', () => {
    const linesOf = (path: string) =>
      new Map((JSON.parse(text(path)) as Car).lines.map((line) => [line.id, JSON.stringify(line)]));
    const before = linesOf('demo/fellside.json');
    const changed = (file: string) => {
      const after = linesOf(`demo/${file}`);
      return [...before].filter(([id, line]) => after.get(id) !== line).map(([id]) => id);
    };
    expect(changed('fellside-1-swap-tank-returns.json')).toEqual(['O10', 'O11']);
    expect(changed('fellside-2-header-tank-left.json')).toEqual([]);
    expect(changed('fellside-3-feed-dash-20.json')).toEqual(['O1']);
    expect(changed('fellside-6-filter-ahead-of-bulkhead.json')).toEqual(['O2', 'O3']);
    expect(changed('fellside-7-water-pipe-45.json')).toEqual(['C1', 'C2']);
    expect(changed('fellside-9-filter-off.json')).toEqual(['O2', 'O3']);
    expect(changed('fellside-10-turbo-off.json')).toEqual(['O7', 'O8', 'C6', 'C7', 'A1', 'A3']);
    expect(changed('fellside-8-engine-out.json')).toEqual(
      before.size === 31
        ? [...before.keys()].filter((id) => !['O10', 'O12', 'C5', 'F1', 'F2', 'F5', 'B1', 'B2'].includes(id))
        : [],
    );
  });
});
