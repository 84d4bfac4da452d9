import type { Solid, SolidForm } from '#geometry';
import type { HeatSurface, Patch } from './patch.ts';

/** Whether rays meet the same and as much is taken up: solids may have been made anew. */
export const isSameSurface = (a: HeatSurface, b: HeatSurface): boolean =>
  a.emissivity === b.emissivity &&
  (a.backEmissivity ?? a.emissivity) === (b.backEmissivity ?? b.emissivity) &&
  a.solids.length === b.solids.length &&
  a.solids.every((solid, i) => isSameSolid(solid, b.solids[i]!));

/** Whether rays start from the same places. */
export const isSamePatch = (a: Patch, b: Patch): boolean => areSame(a.pieces, b.pieces);

function isSameSolid(a: Solid, b: Solid): boolean {
  if (a === b) return true;
  const [f, g] = [a.form, b.form];
  if (f.kind !== g.kind) return false;
  return f.kind === 'mesh' || g.kind === 'mesh'
    ? isSameMesh(f as MeshForm, g as MeshForm)
    : areSame(numbersOf(f), numbersOf(g));
}

type MeshForm = Extract<SolidForm, { kind: 'mesh' }>;

const numbersOf = (form: Exclude<SolidForm, MeshForm>): readonly number[] =>
  form.kind === 'box' ? [...form.centre, ...form.axes.flat(), ...form.half] : [...form.a, ...form.b, form.radiusMm];

function isSameMesh(a: MeshForm, b: MeshForm): boolean {
  const motion = ({ rows, shift }: MeshForm['motion']): number[] => [...rows.flat(), ...shift];
  if (!areSame(motion(a.motion), motion(b.motion))) return false;
  if (a.prepared === b.prepared) return true;
  const [p, q] = [a.prepared, b.prepared];
  return (
    p.sign.by === q.sign.by && areSame(p.bvh.corners, q.bvh.corners) && areSame(p.bvh.cornersLow, q.bvh.cornersLow)
  );
}

function areSame(a: ArrayLike<number>, b: ArrayLike<number>): boolean {
  if (a.length !== b.length) return false;
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}
