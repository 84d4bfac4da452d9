import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import { bay } from '#bay';
import { type Car, carFrom } from '#car';
import type { Body, TriangleMesh, Vec } from '#geometry';
import { type HeatSurface, linePatches, panelPatches, partPatch, type Patch } from '#heat';
import { loadCarMeshes } from '#intake';
import { panelLayouts } from '#panels';

/** The demo car as radiation sees it. */
export interface DemoScene {
  readonly surfaces: readonly HeatSurface[];
  readonly patches: readonly Patch[];
}

const SIZE = { segmentMm: 20, sectors: 8 };
const PANEL_MM = 100;
/** Usual ones: what a bench and a proof ask does not hang on them. */
const EMISSIVITY = { part: 0.8, panel: 0.09, line: 0.9 };

/** The demo car with its planned ways taken. */
export function takenDemo(): Car {
  const file = new URL('../screen/fellside-taken.json.gz', import.meta.url);
  const reading = carFrom(JSON.parse(gunzipSync(readFileSync(file)).toString()));
  if (!reading.ok) throw new Error(JSON.stringify(reading.faults));
  return reading.car;
}

/** Its scans, read. */
export async function demoMeshes(car: Car): Promise<ReadonlyMap<string, TriangleMesh>> {
  return (await loadCarMeshes(car, fileURLToPath(new URL('../../demo', import.meta.url)))).meshes;
}

/**
 * All parts, panels and lines of the demo, with patches for each.
 *
 * @param meshes - none: parts that are scans take up no space
 */
export function demoScene(car: Car, meshes: ReadonlyMap<string, TriangleMesh> = new Map()): DemoScene {
  const surfaces: HeatSurface[] = [];
  const patches: Patch[] = [];
  const put = (surface: HeatSurface, made: readonly Patch[]): void => {
    surfaces.push(surface);
    patches.push(...made);
  };
  const layouts = panelLayouts(car, { meshes });
  const isPanel = new Set(layouts.map(({ panel }) => panel.id));
  for (const { id, solids } of bay(car, meshes).parts) {
    if (solids.length === 0 || isPanel.has(id)) continue;
    const made = partPatch(surfaces.length, EMISSIVITY.part, solids);
    put({ id, kind: 'part', solids, emissivity: EMISSIVITY.part }, [made]);
  }
  for (const layout of layouts) {
    const both = { outside: EMISSIVITY.panel, inside: EMISSIVITY.panel };
    const made = panelPatches(surfaces.length, both, layout, PANEL_MM);
    put({ id: layout.panel.id, kind: 'panel', solids: made.solids, emissivity: EMISSIVITY.panel }, made.patches);
  }
  for (const { id, taken } of car.lines) {
    if (!taken) continue;
    const bodies = taken.bodies.map(({ part, pathMm, odMm }): Body => {
      return { part, path: Float64Array.from((pathMm as unknown as Vec[]).flat()), radiusMm: odMm / 2 };
    });
    const made = linePatches(surfaces.length, EMISSIVITY.line, bodies, SIZE);
    put({ id: `line ${id}`, kind: 'line', solids: made.solids, emissivity: EMISSIVITY.line }, made.patches);
  }
  return { surfaces, patches };
}
