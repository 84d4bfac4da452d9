import type { Car, CrossingKind, Through } from '#car';
import type { Parsed } from '#units';
import { facing, type FacingDraft, facingDraft, facingOf } from './facing.ts';
import { emptyPlace, placeDraft, type PlaceDraft, placeOfDraft } from './port-draft.ts';
import type { TapeUnit } from './tape-text.ts';

/** A place that a line passes, as it is typed: through what and how; where and which way, if that is fixed. */
export interface ThroughDraft {
  /** "part kind". */
  readonly way: string;
  readonly fixed: { readonly place: PlaceDraft; readonly facing: FacingDraft | null } | null;
  /** As it was, where it was. */
  readonly was: Through | null;
}

export const throughDraft = (step: Through): ThroughDraft => ({
  way: `${step.part} ${step.kind}`,
  fixed:
    step.atMm === undefined
      ? null
      : {
          place: placeDraft(step.atMm, 0),
          facing: step.faces === undefined ? null : facingDraft(step.faces),
        },
  was: step,
});

/** A place to be typed, where the line was left free to pass. */
export const freshPlace: NonNullable<ThroughDraft['fixed']> = { place: emptyPlace, facing: null };
export const freshFacing = facingOf('forward');

/** The places that the form says, in order; what was not touched stays as it was. */
export function throughOf(car: Car, drafts: readonly ThroughDraft[], unit: TapeUnit): Parsed<Through[]> {
  const steps: Through[] = [];
  for (const draft of drafts) {
    const { way, fixed, was } = draft;
    if (was !== null && JSON.stringify(throughDraft(was)) === JSON.stringify(draft)) {
      steps.push(was);
      continue;
    }
    const [part = '', kind = ''] = way.split(' ');
    const { atMm: _a, faces: _f, ...kept } = was ?? { part, kind: kind as CrossingKind };
    if (fixed === null) {
      steps.push(kept);
      continue;
    }
    const place = placeOfDraft(car, fixed.place, unit);
    const faces = fixed.facing === null ? undefined : facing(fixed.facing);
    if (place === undefined)
      return { ok: false, fault: `a distance to the place in ${part} is missing or cannot be read`, ways: [] };
    if (faces !== undefined && !faces.ok) return faces;
    steps.push({ ...kept, atMm: place.atMm, ...(faces === undefined ? {} : { faces: faces.value }) });
  }
  return { ok: true, value: steps };
}
