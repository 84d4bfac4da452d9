import type { Path } from '../fault.ts';
import { shown } from '../fault.ts';
import type { Shape } from '../schema/car.ts';
import type { Tell } from './car-view.ts';

const KINDS = ['box', 'cylinder', 'tube', 'mesh'] as const;
const MESH_FILE = /\.(stl|ply|obj|glb|step|stp)$/i;

/** Two points closer than this are one: no tape and no scan tells them apart [mm]. */
const SAME_POINT_MM = 0.001;

/** What is wrong with one solid: none or several kinds, no thickness, a path that leaves the car's folder. */
export function checkShape(shape: Shape, at: Path, tell: Tell): void {
  const kinds = KINDS.filter((kind) => shape[kind] !== undefined);
  if (kinds.length !== 1) {
    tell(at, kinds.length === 0 ? 'no solid' : `${kinds.join(' and ')} together`, `exactly one of ${KINDS.join(', ')}`);
  }
  if (shape.box !== undefined) checkBox(shape.box, [...at, 'box'], tell);
  if (shape.cylinder !== undefined && apart(shape.cylinder.fromMm, shape.cylinder.toMm) < SAME_POINT_MM) {
    tell([...at, 'cylinder'], `both ends at ${shown(shape.cylinder.fromMm)}`, 'two ends that are apart');
  }
  if (shape.tube !== undefined) checkTube(shape.tube.pointsMm, [...at, 'tube', 'pointsMm'], tell);
  if (shape.mesh !== undefined) checkMeshFile(shape.mesh.file, [...at, 'mesh', 'file'], tell);
  if (
    shape.from !== undefined &&
    (shape.turnDeg !== undefined || shape.atMm !== undefined || shape.knownToMm !== undefined)
  ) {
    tell([...at, 'from'], 'from beside turnDeg, atMm or knownToMm', 'from alone: the origin gives those');
  }
}

function checkBox(box: NonNullable<Shape['box']>, at: Path, tell: Tell): void {
  const size = [0, 1, 2].map((i) => box.maxMm[i]! - box.minMm[i]!);
  const stands = `minMm ${shown(box.minMm)}, maxMm ${shown(box.maxMm)}`;
  if (size.some((s) => s < 0)) tell(at, stands, 'each of minMm at most that of maxMm');
  else if (size.filter((s) => s < SAME_POINT_MM).length > 1)
    tell(at, stands, 'a box with some size in at least two directions');
}

function checkTube(points: readonly (readonly number[])[], at: Path, tell: Tell): void {
  if (points.length < 2) tell(at, `${points.length} points`, 'at least two points');
  for (let i = 1; i < points.length; i++) {
    if (apart(points[i - 1]!, points[i]!) < SAME_POINT_MM) {
      tell([...at, i], `${shown(points[i])} again`, 'a point apart from the one before it');
      return;
    }
  }
}

/** A mesh file lies in or under the car's folder, on any system the car may be opened on. */
function checkMeshFile(file: string, at: Path, tell: Tell): void {
  const steps = file.split('/');
  const leaves =
    file.startsWith('/') ||
    file.startsWith('~') ||
    file.includes('\\') ||
    file.includes(':') ||
    file.includes('%') ||
    /\p{C}/u.test(file) ||
    steps.some((step) => step === '..' || step === '' || /[. ]$/.test(step.replace(/^\.$/, '')));
  if (leaves) tell(at, shown(file), 'a path such as scans/engine.stl, in or under the folder of the car file');
  else if (!MESH_FILE.test(file)) tell(at, shown(file), 'a file that ends in .stl, .ply, .obj, .glb, .step or .stp');
}

function apart(a: readonly number[], b: readonly number[]): number {
  return Math.hypot(a[0]! - b[0]!, a[1]! - b[1]!, a[2]! - b[2]!);
}
