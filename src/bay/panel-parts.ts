import type { Car, Panel, Part } from '#car';
import { meshSolid, type Solid, type TriangleMesh, triangleMesh } from '#geometry';
import { panelLayouts, type PanelLayout, panelSolid } from '#panels';

interface PanelPart {
  readonly part: Part;
  readonly solids: readonly Solid[];
}

/** Cars whose panels are kept: before and after a change. A bay is made anew at every edit, its panels seldom change. */
const MOST_KEPT = 4;
const kept = new Map<string, readonly PanelPart[]>();

/**
 * The panels of the car as parts of the bay: what lines keep off, and may pass where the line says so. Not among them: a panel that
 * is cut from a part or lies on it (that part stands for it), and one that gives way to the lines.
 *
 * @param meshes - by file: panels on a scan stand where their corners are snapped to
 */
export function panelParts(car: Car, meshes: ReadonlyMap<string, TriangleMesh>): readonly PanelPart[] {
  if (car.panels === undefined || car.panels.length === 0) return [];
  const key = JSON.stringify([car.panels, car.movers, scansUnder(car, meshes)]);
  const made = kept.get(key) ?? panelsAsParts(car, meshes);
  kept.delete(key);
  kept.set(key, made);
  for (const oldest of kept.keys()) {
    if (kept.size <= MOST_KEPT) break;
    kept.delete(oldest);
  }
  return made;
}

/** Meshes have no name of their own but the order in which they were first met: one that is read anew is another. */
const numbers = new WeakMap<TriangleMesh, number>();
let numbered = 0;

function numberOf(mesh: TriangleMesh): number {
  const number = numbers.get(mesh) ?? ++numbered;
  numbers.set(mesh, number);
  return number;
}

/** What the places of panels on scans hang on: the shapes of those parts, and which meshes they are. */
const scansUnder = (car: Car, meshes: ReadonlyMap<string, TriangleMesh>) =>
  car.parts
    .filter(({ id }) => car.panels?.some(({ onScan }) => onScan === id))
    .map(({ id, shapes }) => [
      id,
      shapes,
      shapes.map(({ mesh }) => {
        const read = mesh && meshes.get(mesh.file);
        return read === undefined ? 0 : numberOf(read);
      }),
    ]);

const panelsAsParts = (car: Car, meshes: ReadonlyMap<string, TriangleMesh>): readonly PanelPart[] =>
  panelLayouts(car, { meshes }).flatMap((layout) => {
    const { panel } = layout;
    if (panel.on !== undefined || panel.givesWay === true) return [];
    const solids = panelSolid(closed(layout)).map(({ positions, indices }) =>
      meshSolid(triangleMesh(positions, indices)),
    );
    return solids.length === 0 ? [] : [{ part: asPart(panel), solids }];
  });

/** Windows have mesh behind them, holes what they are for: neither is a way through, and a line that passes says so. */
const closed = (layout: PanelLayout): PanelLayout => ({
  ...layout,
  flats: layout.flats.map((flat) => ({ ...flat, cutOuts: [], holes: [], slots: [] })),
});

const asPart = (panel: Panel): Part => ({
  id: panel.id,
  name: panel.name ?? panel.id,
  class: panel.class ?? 'fixed',
  ...(panel.movesWith === undefined ? {} : { movesWith: panel.movesWith }),
  ...(panel.knownToMm === undefined ? {} : { knownToMm: panel.knownToMm }),
  crossable: ['grommet', 'bulkhead-fitting'],
  shapes: [],
  ports: [],
});
