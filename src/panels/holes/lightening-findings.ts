import type { Panel } from '#car';
import { type Outline, readyOutline } from '#geometry';
import { mm } from '../finding.ts';
import type { PlacedHole } from '../layout.ts';
import { lighteningFaults } from '../strength/lightening.ts';
import { gapOfHoles, gapToEdge, holeBody } from './hole-body.ts';

/** Sheet thinner than this keeps a lightening hole flat only with a rim folded at 45 degrees [mm]. Source: from-memory. */
const FLANGED_BELOW_MM = 2;
/** A hole smaller than this is a fixing's or a pilot, not one to save mass [mm]. */
const LEAST_LIGHTENING_MM = 12;

/** Round holes of a panel that nothing goes through and nothing sits in: they are there to save mass. */
export function lighteningHoles(panel: Panel, holes: readonly PlacedHole[]): readonly PlacedHole[] {
  const own = new Map((panel.holes ?? []).map((hole) => [hole.id, hole]));
  return holes.filter(({ id, diameterMm, longMm = diameterMm, line }) => {
    const hole = own.get(id);
    return (
      hole !== undefined &&
      hole.for === undefined &&
      hole.fitted === undefined &&
      line === undefined &&
      longMm === diameterMm &&
      diameterMm >= LEAST_LIGHTENING_MM
    );
  });
}

interface Rated {
  readonly panel: Panel;
  readonly holes: readonly PlacedHole[];
  readonly outline: Outline;
}

/**
 * What one lightening hole breaks of the usual rules of pitch and edge; each pair of holes is told once.
 *
 * @param webMm - least metal round any hole [mm]: what is nearer than that is told as such
 */
export function lighteningFindings({ panel, outline, holes }: Rated, hole: PlacedHole, webMm: number) {
  const light = lighteningHoles(panel, holes);
  const turn = light.indexOf(hole);
  if (turn < 0) return [];
  const body = holeBody(hole);
  const gaps = holes
    .filter((other) => other !== hole && !light.slice(0, turn).includes(other))
    .map((other) => gapOfHoles(body, holeBody(other)));
  // A hole over more than 0.6 of the sheet's depth has a rim nearer to an edge than half of it: told by that.
  const { diameterMm: d } = hole;
  return lighteningFaults(d, Math.min(...gaps) + d, Infinity, gapToEdge(body, readyOutline(outline)))
    .filter(({ value }) => value >= webMm - 0.05)
    .map(({ text, value, limit }) => ({
      code: 'panel-lightening',
      level: 'note' as const,
      text: `nothing is said to go through it, so it saves mass: ${text} ${mm(value)}, at least ${mm(limit)} is usual`,
      value: Number(value.toFixed(1)),
      limit: Number(limit.toFixed(1)),
      unit: 'mm',
      source: 'common-practice' as const,
      cures: [`move it ${mm(limit - value)} away, or a smaller hole`, 'say what goes through it, if something does'],
    }));
}

/** Lightening holes in sheet that is thin for plain ones: told once a panel, at the first of them. */
export function thinRimFindings({ panel, holes }: Rated, hole: PlacedHole, thicknessMm: number) {
  const light = lighteningHoles(panel, holes);
  if (light[0] !== hole || thicknessMm >= FLANGED_BELOW_MM) return [];
  const also =
    light.length === 1
      ? ''
      : `, as ${light
          .slice(1)
          .map(({ id }) => id)
          .join(', ')},`;
  return [
    {
      code: 'panel-lightening-rim',
      level: 'note' as const,
      text: `it lightens${also} sheet of ${thicknessMm} mm: below ${mm(FLANGED_BELOW_MM)} a rim is usually flanged at 45 degrees; no stiffness is counted for that`,
      value: thicknessMm,
      limit: FLANGED_BELOW_MM,
      unit: 'mm',
      source: 'from-memory' as const,
      cures: ['a flange of 4 to 6 mm round each, or plain holes with their rims rounded; test it'],
    },
  ];
}
