import type { BaySpace, Car } from '#car';
import { cross, norm, sub, type Vec } from '#geometry';
import { carFromFlat, meshOpenShare, type PanelLayout, type PanelOpening, panelOpenings } from '#panels';
import type { MeshOver } from './mesh-loss.ts';
import { USUAL_DISCHARGE } from './vent-formulas.ts';

/** An opening of a bay, whatever the case. */
export interface BayOpening {
  readonly opening: string;
  readonly name: string;
  readonly panel?: string;
  readonly atMm: Vec;
  readonly faces: Vec;
  readonly areaM2: number;
  readonly dischargeCoefficient: number;
  readonly mesh?: MeshOver;
  /** From its lowest to its highest place [m]. */
  readonly heightM: number;
  readonly isDrain: boolean;
  readonly lets?: 'in' | 'out';
}

/** A bay with all that opens it, and the panels that may come off. */
export interface SpaceOfBay {
  readonly bay: BaySpace;
  readonly openings: readonly BayOpening[];
  /** A panel that is off, as one opening. */
  readonly bare: ReadonlyMap<string, BayOpening>;
}

/** Every bay of the car with the openings of its panels as they are laid out. */
export function baySpaces(car: Car, layouts: readonly PanelLayout[]): readonly SpaceOfBay[] {
  return (car.bays ?? []).map((bay) => {
    const own = layouts.filter(({ panel }) => bay.panels?.includes(panel.id) ?? hasCornerIn(bay, panel.corners));
    return {
      bay,
      openings: [...own.flatMap((layout) => openingsOfPanel(car, layout)), ...(bay.openings ?? []).map(ownOpening)],
      bare: new Map(own.flatMap((layout) => withoutPanel(layout))),
    };
  });
}

const hasCornerIn = ({ minMm, maxMm }: BaySpace, corners: PanelLayout['panel']['corners']): boolean =>
  (corners ?? []).some(({ atMm }) => atMm?.every((mm, k) => mm >= minMm[k]! && mm <= maxMm[k]!));

/** A window is one opening, however many cells it is cut in; so is a hole that nothing fills. */
function openingsOfPanel(car: Car, layout: PanelLayout): readonly BayOpening[] {
  const { panel } = layout;
  const master = car.panels?.find(({ id }) => id === panel.mirrorOf?.panel);
  const windows = panel.windows ?? master?.windows ?? [];
  const open = panelOpenings(layout).filter(({ of, fitted }) => of !== undefined && (fitted ?? 'drain') === 'drain');
  const ids = [...new Set(open.map(({ of }) => of!))];
  return ids.map((id) => {
    const window = windows.find((row) => row.id === id);
    const mesh = window?.mesh;
    const gap = mesh?.woven?.openingMm;
    const punched = mesh?.round ?? mesh?.square ?? mesh?.hexagon;
    const cells = open.filter(({ of }) => of === id);
    return {
      ...placeOfCells(cells),
      opening: `${panel.id}.${id}`,
      name: `${window?.name ?? id} of ${panel.id}`,
      panel: panel.id,
      dischargeCoefficient: USUAL_DISCHARGE,
      isDrain: cells.some(({ fitted }) => fitted === 'drain'),
      ...(window?.lets === undefined ? {} : { lets: window.lets }),
      ...(mesh === undefined
        ? {}
        : {
            mesh: {
              openShare: meshOpenShare(mesh),
              ...(gap === undefined ? {} : { wireGapM: gap / 1000 }),
              ...(punched === undefined ? {} : { punched: true }),
            },
          }),
    };
  });
}

function placeOfCells(cells: readonly PanelOpening[]): Pick<BayOpening, 'atMm' | 'faces' | 'areaM2' | 'heightM'> {
  const points = cells.flatMap(({ outline }) => outline);
  const areaMm2 = cells.reduce((sum, cell) => sum + cell.areaMm2, 0);
  const heights = points.map((p) => p[2]);
  return {
    atMm: middle(points),
    faces: cells[0]!.normal,
    areaM2: areaMm2 / 1e6,
    heightM: (Math.max(...heights) - Math.min(...heights)) / 1000,
  };
}

function ownOpening(row: NonNullable<BaySpace['openings']>[number]): BayOpening {
  const areaM2 = row.areaCm2 / 1e4;
  const upright = Math.hypot(row.faces[0], row.faces[1]) / norm(row.faces);
  return {
    opening: row.id,
    name: row.name ?? row.id,
    atMm: row.atMm,
    faces: row.faces,
    areaM2,
    dischargeCoefficient: row.dischargeCoefficient ?? USUAL_DISCHARGE,
    // Its shape is not known: as high as the square of its area, as far as it stands upright.
    heightM: Math.sqrt(areaM2) * upright,
    isDrain: row.drain === true,
    ...(row.meshOpenPercent === undefined ? {} : { mesh: { openShare: row.meshOpenPercent / 100 } }),
  };
}

function withoutPanel({ panel, facets }: PanelLayout): readonly (readonly [string, BayOpening])[] {
  const rings = facets.map(({ polygon, frame }) => polygon.map((p) => carFromFlat(frame, p)));
  const points = rings.flat();
  if (points.length < 3) return [];
  const heights = points.map((p) => p[2]);
  return [
    [
      panel.id,
      {
        opening: panel.id,
        name: `${panel.id}, off`,
        panel: panel.id,
        atMm: middle(points),
        faces: facets[0]!.frame.out,
        areaM2: rings.reduce((sum, ring) => sum + ringArea(ring), 0) / 1e6,
        dischargeCoefficient: USUAL_DISCHARGE,
        heightM: (Math.max(...heights) - Math.min(...heights)) / 1000,
        isDrain: false,
      },
    ],
  ];
}

function ringArea(ring: readonly Vec[]): number {
  const [a] = ring;
  const sum = ring.reduce<Vec>(
    (at, p, i) => {
      const q = ring[(i + 1) % ring.length]!;
      const [x, y, z] = cross(sub(p, a!), sub(q, a!));
      return [at[0] + x / 2, at[1] + y / 2, at[2] + z / 2];
    },
    [0, 0, 0],
  );
  return norm(sum);
}

const middle = (points: readonly Vec[]): Vec => {
  const sum = points.reduce<Vec>((at, p) => [at[0] + p[0], at[1] + p[1], at[2] + p[2]], [0, 0, 0]);
  return [sum[0] / points.length, sum[1] / points.length, sum[2] / points.length];
};
