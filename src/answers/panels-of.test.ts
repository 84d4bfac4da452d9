import { readFileSync } from 'node:fs';
import { gunzipSync } from 'node:zlib';
import { carFrom } from '#car';
import { linesWorld } from '#lines';
import { panelLayouts } from '#panels';
import { describe, expect, it } from 'vitest';
import { panelCrossings } from './panel-crossings.ts';
import { snagsOf } from './snags-of.ts';
import { panelsOf } from './panels-of.ts';

/** The demo car with the ways taken in the tests, without its scans. */
const world = (() => {
  const file = new URL('../../test/screen/fellside-taken.json.gz', import.meta.url);
  const reading = carFrom(JSON.parse(gunzipSync(readFileSync(file)).toString()));
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  const car = {
    ...reading.car,
    parts: reading.car.parts.map((part) => ({ ...part, shapes: part.shapes.filter(({ mesh }) => mesh === undefined) })),
  };
  return linesWorld(car, new Map());
})();

describe('what goes through the panels of the demo car', () => {
  const bodies = new Map(world.car.lines.map(({ id, taken }) => [id, (taken?.bodies ?? []) as never]));
  const found = panelCrossings(world, bodies, panelLayouts(world.car));

  it('finds by itself which lines cross the upper bulkhead panel, each where its taken way meets the plane', () => {
    const through = found.filter(({ panel }) => panel === 'PN1');
    // By hand from the bulkhead fittings' places in the car file: F3 at Y -420 Z 600, F4 at Y -500 Z 480.
    for (const [line, y, z] of [
      ['F3', -420, 600],
      ['F4', -500, 480],
    ] as const) {
      const { at, along, kind } = through.find((crossing) => crossing.line === line)!;
      expect([at[0], at[1], at[2]].map((mm) => Math.round(mm))).toEqual([1350, y, z]);
      expect(Math.abs(along[0])).toBeCloseTo(1, 3);
      expect(kind).toBe('bulkhead-fitting');
    }
    // B2 and H1 cross the bulkhead under the panel, at Z 60 and 200.
    expect(through.map(({ line }) => line)).not.toContain('B2');
  });

  it('what is bolted through has the hole of its fitting, what goes in a grommet the hole of its grommet', () => {
    const { bulkheadFittings, grommets } = world.shelf;
    const kinds = found.filter(({ kind }) => kind !== 'plain');
    expect(new Set(kinds.map(({ kind }) => kind))).toEqual(new Set(['bulkhead-fitting', 'grommet']));
    for (const { kind, holeMm, odMm } of kinds) {
      const rows: readonly { readonly holeMm: number }[] = kind === 'grommet' ? grommets : bulkheadFittings;
      expect(rows.map((row) => row.holeMm)).toContain(holeMm);
      // A grommet's hole is larger than the line; a fitting's is smaller than its hexagon, which bears on the sheet.
      if (kind === 'grommet') expect(holeMm).toBeGreaterThan(odMm);
      else expect(holeMm).toBeLessThan(odMm);
    }
  });

  it('a panel that gives way is told what meets it; the others are kept off by the lines', () => {
    const panels = new Set(found.filter(({ kind }) => kind === 'plain').map(({ panel }) => panel));
    expect(panels).toEqual(new Set(['PN5']));
    const layout = panelsOf(world).find(({ panel }) => panel.id === 'PN5')!;
    expect(layout.holes.map(({ line }) => line)).toEqual(expect.arrayContaining(['C7', 'A2']));
    for (const { id, givesWay, on } of world.car.panels!)
      expect([id, world.bay.partById.has(id)]).toEqual([id, givesWay !== true && on === undefined]);
  });

  it('what a load does to a panel is among the snags, and not in the layouts', () => {
    const lid = world.car.panels!.find(({ id }) => id === 'PN4')!;
    const loadedCar = { fairlead: 1, parts: [], panels: [{ ...lid, load: { shakeHz: 200, held: 'simply' } }] };
    const reading = carFrom(JSON.parse(JSON.stringify(loadedCar)));
    if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
    const loaded = linesWorld(reading.car, new Map());
    const isLow = ({ code }: { code: string }) => code === 'panel-frequency-low';
    expect(
      panelsOf(loaded)
        .flatMap(({ findings }) => findings)
        .filter(isLow),
    ).toEqual([]);
    const told = snagsOf(loaded, { lines: [], lineGaps: [], takenUp: 0, stopped: false }).filter(({ id }) =>
      id.endsWith('frequency-low'),
    );
    expect(told).toMatchObject([{ id: 'PN4-panel-frequency-low', level: 'stop', panel: 'PN4' }]);
  });

  it('a part in the way of a panel is told with how deep; moved clear of it, it is not', () => {
    const lifted = (byMm: number) => {
      const parts = world.car.parts.map((part) =>
        part.id === 'plenum'
          ? { ...part, shapes: part.shapes.map((shape) => ({ ...shape, atMm: [0, 300, byMm] as const })) }
          : part,
      );
      const moved = linesWorld({ ...world.car, parts, lines: [] } as never, new Map());
      const [pn3] = panelsOf(moved).filter(({ panel }) => panel.id === 'PN3');
      return pn3!.findings.find(({ part }) => part === 'plenum');
    };
    // By hand: the plenum's top is at Z 740, the strip rises from 800 at X 1370 to 815 at X 2180; the plenum ends at X 1880.
    const over = lifted(120);
    expect(over?.code).toBe('part-through-panel');
    // Lifted by 120 it spans Z 760 to 860: the strip lies 43.1 mm inside it at its front end, X 1540, and 49.4 at its rear.
    expect(-over!.value!).toBeGreaterThan(45);
    expect(-over!.value!).toBeLessThanOrEqual(49.5);
    expect(lifted(20)).toBeUndefined();
  });
});
