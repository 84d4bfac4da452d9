import type { Line, Panel } from '#car';
import {
  distanceToOutline,
  dot,
  isInOutline,
  meshSolid,
  readyOutline,
  type ReadyOutline,
  type Solid,
  straightOutline,
  sub,
  triangleMesh,
  type Vec,
} from '#geometry';
import { carFromFlat, type FlatFrame, flatFromCar, type PanelLayout, panelLayouts, panelSolid } from '#panels';
import type { AccessWorld } from '../access-world.ts';
import type { Opening } from '../removal/obstacle.ts';

/** What is cut from a part by a panel reaches this far to both sides of the panel [mm]: skins lie close. */
const DEEP_MM = 40;

/** A panel that comes off is looked at in places this far apart [mm]. */
export const SHEET_PITCH_MM = 30;

/** A panel as strip-down sees it. */
export interface PanelInWay {
  readonly panel: Panel;
  readonly solids: readonly Solid[];
  /** Each fixing, where it is on the car. */
  readonly fixings: readonly { readonly kind: string; readonly at: Vec; readonly faces: Vec }[];
  /** Ids of lines that go through it. */
  readonly lines: readonly string[];
  readonly out: Vec;
  /** Places of the sheet, `SHEET_PITCH_MM` apart at most. */
  readonly places: readonly Vec[];
  /** The opening that it leaves in the part that it is cut from. */
  readonly opening: Opening | null;
}

/** Every panel of the car that can be laid out: also those that stand in the bay as part of something else. */
export function panelsInWay(world: AccessWorld): readonly PanelInWay[] {
  const layouts = panelLayouts(world.car, { meshes: world.meshes });
  const ids = [...new Set(layouts.map(({ panel }) => panel.id))];
  return ids.flatMap((id) => {
    const pieces = layouts.filter(({ panel, flats }) => panel.id === id && flats.length > 0);
    const solids = pieces.flatMap((layout) =>
      panelSolid(closed(layout)).map(({ positions, indices }) => meshSolid(triangleMesh(positions, indices))),
    );
    const facets = pieces.flatMap((layout) => layout.facets);
    if (solids.length === 0 || facets.length === 0) return [];
    const { panel } = pieces[0]!;
    return [
      {
        panel,
        solids,
        fixings: pieces.flatMap(placedOnCar),
        lines: world.car.lines.filter((line) => goesThrough(world, line, facets, panel)).map((line) => line.id),
        out: facets[0]!.frame.out,
        places: facets.flatMap(placesOn),
        opening: panel.on === undefined || facets.length > 1 ? null : openingOf(facets[0]!),
      },
    ];
  });
}

const closed = (layout: PanelLayout): PanelLayout => ({
  ...layout,
  flats: layout.flats.map((flat) => ({ ...flat, cutOuts: [], holes: [], slots: [] })),
});

type FacetOf = PanelLayout['facets'][number];

/** The fixings of one laid-out piece on the car; a crease of the panel is not followed, fixings lie on its edges. */
function placedOnCar({ facets, fixings }: PanelLayout): PanelInWay['fixings'] {
  return fixings.map(({ kind, at }) => {
    const facet = facets.find(({ polygon }) => isInOutline(ready(polygon), at)) ?? facets[0]!;
    return { kind, at: carFromFlat(facet.frame, at), faces: facet.frame.out };
  });
}

const ready = (polygon: FacetOf['polygon']): ReadyOutline => readyOutline(straightOutline(polygon));

/** A line goes through a panel where its path crosses the sheet between its edges, or where it is said to. */
function goesThrough({ bodies }: AccessWorld, line: Line, facets: readonly FacetOf[], panel: Panel): boolean {
  if (line.through.some(({ part }) => part === panel.id)) return true;
  const outlines = facets.map(({ frame, polygon }) => ({ frame, outline: ready(polygon) }));
  return (bodies.get(line.id) ?? []).some(({ path }) =>
    outlines.some(({ frame, outline }) => crosses(path, frame, outline)),
  );
}

function crosses(path: Float64Array, frame: FlatFrame, outline: ReadyOutline): boolean {
  const { origin, out } = frame;
  const [ox, oy, oz] = origin;
  const [nx, ny, nz] = out;
  let was = 0;
  for (let i = 0; i + 2 < path.length; i += 3) {
    const high = (path[i]! - ox) * nx + (path[i + 1]! - oy) * ny + (path[i + 2]! - oz) * nz;
    if (i > 0 && was * high <= 0 && was !== high) {
      const share = was / (was - high);
      const met = (k: number): number => path[i - 3 + k]! + share * (path[i + k]! - path[i - 3 + k]!);
      if (isInOutline(outline, flatFromCar(frame, [met(0), met(1), met(2)]))) return true;
    }
    was = high;
  }
  return false;
}

/** A square grid on a facet, within its edges; its corners always. */
function placesOn({ frame, polygon }: FacetOf): Vec[] {
  const outline = ready(polygon);
  const [x0, y0, x1, y1] = outline.box;
  const steps = (low: number, high: number): number => Math.max(1, Math.ceil((high - low) / SHEET_PITCH_MM));
  const [across, up] = [steps(x0, x1), steps(y0, y1)];
  const places: Vec[] = polygon.map((corner) => carFromFlat(frame, corner));
  for (let i = 0; i <= across; i++)
    for (let k = 0; k <= up; k++) {
      const at = [x0 + ((x1 - x0) * i) / across, y0 + ((y1 - y0) * k) / up] as const;
      if (isInOutline(outline, at)) places.push(carFromFlat(frame, at));
    }
  return places;
}

/** The hole that a panel leaves. */
function openingOf({ frame, polygon }: FacetOf): Opening {
  const outline = ready(polygon);
  return {
    beside: (x, y, z) => {
      const at = flatFromCar(frame, [x, y, z]);
      return (isInOutline(outline, at) ? -1 : 1) * distanceToOutline(outline, at);
    },
    offPlane: (x, y, z) => Math.abs(dot(sub([x, y, z], frame.origin), frame.out)),
    deepMm: DEEP_MM,
  };
}
