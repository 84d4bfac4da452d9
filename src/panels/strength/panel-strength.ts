import { type Outline, outlineLength, readyOutline } from '#geometry';
import {
  type BendingPlate,
  bendingPlate,
  bucklingFactor,
  type EdgeHold,
  plateFrequency,
  type PlateSheet,
  pressedPlate,
} from './plate-bending.ts';
import { type Fineness, type PlateMesh, plateMesh } from './plate-mesh.ts';
import { stretchedSheet } from './plate-stretch.ts';

/** What a panel must stand. */
export interface PanelLoad {
  /** Pressure across it [kPa]; shaken by so many g square to it: its own weight so many times over. */
  readonly pressureKpa?: number;
  readonly shakeG?: number;
  /** In-plane forces on its edges [N/mm]: pressed along its long way, and shear. */
  readonly pressNPerMm?: number;
  readonly shearNPerMm?: number;
}

/** A number and by how much it may be off, by two meshes. */
export interface Estimated {
  readonly value: number;
  readonly off: number;
}

/** A panel's strength worked out, and where the model ends. */
export interface PanelStrength {
  readonly frequencyHz: Estimated;
  readonly deflectionMm?: Estimated;
  readonly stressMpa?: Estimated;
  readonly stressAt?: readonly [number, number];
  /** Greatest stress of what pulls on its edges in its plane, at windows and holes as much as elsewhere [MPa]. */
  readonly planeMpa?: Estimated;
  /** The in-plane forces may grow by this until the panel buckles. */
  readonly bucklingFactor?: Estimated;
  readonly nodes: number;
  /** Where the answer no longer holds, in words; each says to test it. */
  readonly limits: readonly string[];
}

const G = 9.80665;
/** Triangles along the shorter way of a panel, coarse and fine. */
const COARSE = 9;
const FINE = 15;
type Meshed = typeof COARSE | typeof FINE;
/** Nodes beyond which the mesh is made coarser: a second's work. */
const MOST_NODES = 1700;

/** Strength of a flat panel with openings, held along its outline. Two meshes; the finer one's numbers, off by what they differ. */
export function panelStrength(
  outline: Outline,
  openings: readonly Outline[],
  sheet: PlateSheet,
  held: EdgeHold | readonly EdgeHold[],
  load: PanelLoad,
): PanelStrength | { readonly why: string } {
  const { box } = readyOutline(outline);
  const short = Math.min(box[2] - box[0], box[3] - box[1]);
  const run = (n: Meshed): Run | { readonly why: string } => {
    const plate = bendingPlate(fittingMesh(outline, openings, finenessOf(short, n)), sheet, held);
    return 'why' in plate ? plate : { plate, ...numbersOf(plate, load, box) };
  };
  const coarse = run(COARSE);
  if ('why' in coarse) return coarse;
  const fine = run(FINE);
  if ('why' in fine) return fine;
  const estimated = (value: (of: Run) => number | undefined): Estimated | undefined => {
    const [a, b] = [value(coarse), value(fine)];
    return a === undefined || b === undefined ? undefined : { value: b, off: Math.abs(b - a) };
  };
  const inPlane = edgeForces(load, box);
  const planeMpa = inPlane && planeStress(outline, openings, sheet, inPlane, short);
  const [deflectionMm, stressMpa, buckling] = [
    estimated((n) => n.deflectionMm),
    estimated((n) => n.stressMpa),
    estimated((n) => n.bucklingFactor),
  ];
  return {
    frequencyHz: estimated((n) => n.frequencyHz)!,
    ...(deflectionMm && { deflectionMm }),
    ...(stressMpa && { stressMpa, stressAt: fine.stressAt! }),
    ...(planeMpa && { planeMpa }),
    ...(buckling && { bucklingFactor: buckling }),
    nodes: fine.plate.mesh.xs.length,
    limits: [
      ...modelEnds(sheet, deflectionMm?.value ?? 0, short, openings.length),
      ...(fine.unknown ?? coarse.unknown ?? []),
    ],
  };
}

function finenessOf(short: number, n: Meshed): Fineness {
  const sizeMm = short / n;
  return n === COARSE ? { sizeMm, quarter: 2, across: 1 } : { sizeMm, quarter: 3, across: 2 };
}

/** Greatest stress of forces on its edges, by two meshes that are finer round arcs; undefined where it would float. */
function planeStress(
  outline: Outline,
  openings: readonly Outline[],
  sheet: PlateSheet,
  edge: readonly [number, number, number],
  short: number,
): Estimated | undefined {
  const [coarse, fine] = ([COARSE, FINE] as const).map((n) => {
    const fineness = finenessOf(short, n);
    const quarter = n === COARSE ? ROUND_ARCS / 2 : ROUND_ARCS;
    const answer = stretchedSheet(fittingMesh(outline, openings, { ...fineness, quarter }), sheet, { edge });
    return 'why' in answer ? undefined : answer.stressMpa;
  });
  return coarse === undefined || fine === undefined ? undefined : { value: fine, off: Math.abs(fine - coarse) };
}

/** A mesh no larger than a second's work: made coarser, webs first, until it is. */
function fittingMesh(outline: Outline, openings: readonly Outline[], wanted: Fineness): PlateMesh {
  const { sizeMm } = wanted;
  let fine = wanted;
  const rims = openings.reduce((sum, opening) => sum + outlineLength(opening), 0);
  if (rims / sizeMm > MOST_NODES / 2) fine = { ...fine, quarter: 1, across: 1 };
  for (;;) {
    const mesh = plateMesh(outline, openings, fine);
    if (mesh.xs.length <= MOST_NODES || fine.across < 0.5) return mesh;
    fine = { sizeMm: fine.sizeMm * 1.2, quarter: Math.max(1, fine.quarter - 1), across: fine.across * 0.7 };
  }
}

interface Run extends Numbers {
  readonly plate: BendingPlate;
}

interface Numbers {
  readonly frequencyHz: number;
  readonly deflectionMm?: number;
  readonly stressMpa?: number;
  readonly stressAt?: readonly [number, number];
  readonly bucklingFactor?: number;
  /** What could not be worked out, in words. */
  readonly unknown?: readonly string[];
}

type Box = readonly [number, number, number, number];

/** Forces on its edges along x, along y and in shear [N/mm], pull positive; pressed along its long way. */
function edgeForces({ pressNPerMm = 0, shearNPerMm = 0 }: PanelLoad, box: Box): [number, number, number] | undefined {
  if (pressNPerMm === 0 && shearNPerMm === 0) return undefined;
  const isLong = box[2] - box[0] >= box[3] - box[1];
  return [isLong ? -pressNPerMm : 0, isLong ? 0 : -pressNPerMm, shearNPerMm];
}

/** Sides of triangles round a quarter of an arc where stress in the plane is looked for: at holes it climbs within a few millimetres. */
const ROUND_ARCS = 6;

function numbersOf(plate: BendingPlate, load: PanelLoad, box: Box): Numbers {
  const { sheet, mesh } = plate;
  const weight = sheet.densityKgM3 * 1e-9 * sheet.thicknessMm * G * (load.shakeG ?? 0);
  const pressure = (load.pressureKpa ?? 0) / 1000 + weight;
  const pressed = pressure === 0 ? undefined : pressedPlate(plate, pressure);
  const edge = edgeForces(load, box);
  const stretched = edge === undefined ? undefined : stretchedSheet(mesh, sheet, { edge });
  return {
    frequencyHz: plateFrequency(plate),
    ...(pressed && { deflectionMm: pressed.deflectionMm, stressMpa: pressed.stressMpa, stressAt: pressed.stressAt }),
    ...(stretched && 'why' in stretched && { unknown: [`buckling is not worked out: ${stretched.why}; test it`] }),
    ...(stretched && !('why' in stretched) && { bucklingFactor: bucklingFactor(plate, stretched.forces) }),
  };
}

/** Thickness ratio above which a flat panel drums whatever its numbers say. Source: common-practice. */
const DRUMS_AT = 150;

function modelEnds(sheet: PlateSheet, deflectionMm: number, short: number, openings: number): string[] {
  const limits: string[] = [];
  if (deflectionMm > sheet.thicknessMm / 2)
    limits.push(
      `deflection is over half the thickness: the sheet then carries as a membrane too, real deflection and stress are less; test it`,
    );
  if (short / sheet.thicknessMm > DRUMS_AT)
    limits.push(
      `${Math.round(short / sheet.thicknessMm)} thicknesses across: it may oil-can, which forming decides and no number here; test it`,
    );
  if (openings > 0)
    limits.push('cracks at window corners come from shaking over time, which is not worked out; look at them');
  return limits;
}
