import { type Panel, panelCornerIds } from '#car';
import { mirroredOutline, movedOutline, type Outline, outlineSides, type Point2, sidePoint, type Vec } from '#geometry';
import type { BalancedCorner } from '../corners/balanced-corners.ts';
import type { PanelFinding } from '../finding.ts';
import type { CutOut } from '../flat-pattern.ts';
import { degOf } from '../flat/lines.ts';
import type { OwnAxes } from '../holes/placed-holes.ts';
import { carFromFlat, type FlatFrame, flatFromCar } from './flat-frame.ts';
import { outlineOf, placedTemplate, turnedRight } from './template-layout.ts';

/** A template as a panel of corners where it lies on the car: what is folded, fixed and cut into it is worked out as in any other. */
export interface TemplatePanel {
  readonly panel: Panel;
  readonly corners: readonly BalancedCorner[];
  readonly findings: readonly PanelFinding[];
  /** What its own axes are on the drawing, and its openings there. */
  readonly drawn: (frame: FlatFrame) => { readonly axes: OwnAxes; readonly cutOuts: readonly CutOut[] };
}

/** Whether anything is done to a template's edges or cut into it as windows. */
export const isWorked = ({ edges, windows, creases }: Panel): boolean =>
  [edges, windows, creases].some((list) => (list?.length ?? 0) > 0);

/** Points along an arc by which it is told as a curved edge. */
const ON_ARC = 8;

export function templatePanel(asked: Panel, template: NonNullable<Panel['template']>): TemplatePanel {
  const { frame, turnedOver, findings } = placedTemplate(asked, template);
  const own = ([x, y]: Point2): Point2 => (turnedOver ? [-x, y] : [x, y]);
  const inCar = (at: Point2): Vec => carFromFlat(frame, own(at));
  const ids = panelCornerIds({ template });
  const traced = outlineOf(template.outlineMm);
  const knownToMm = template.knownToMm ?? 0;
  const corners = traced.map(({ at }, i) => ({ id: ids[i]!, at: inCar(at), measured: inCar(at), knownToMm }));
  const sides = outlineSides(traced);
  const edges = ids.flatMap((from, i) => {
    const to = ids[(i + 1) % ids.length]!;
    const said = asked.edges?.find((edge) => [edge.from, edge.to].every((id) => id === from || id === to));
    const side = sides.find(({ a }) => a === traced[i]!.at);
    if (side?.arc === undefined) return said === undefined ? [] : [said];
    const through = Array.from({ length: ON_ARC }, (_, k) => inCar(sidePoint(side, (k + 1) / (ON_ARC + 1))));
    return [{ ...said, from, to, throughMm: through as [number, number, number][] }];
  });
  const { template: _, ...rest } = asked;
  return {
    panel: {
      ...rest,
      outside: asked.outside ?? [...frame.out],
      corners: corners.map(({ id, at }) => ({ id, atMm: [...at] })),
      edges,
    },
    corners,
    findings,
    drawn: (drawing) => {
      const flatOf = (at: Point2): Point2 => flatFromCar(drawing, inCar(at));
      const [origin, along] = [flatOf([0, 0]), flatOf([1, 0])];
      const turnDeg = degOf([along[0] - origin[0], along[1] - origin[1]]) - (turnedOver ? 180 : 0);
      const moved = (hole: Outline): Outline =>
        movedOutline(turnedOver ? mirroredOutline(hole) : hole, origin, (turnDeg * Math.PI) / 180);
      return {
        axes: { flatOf, turnDeg },
        cutOuts: (template.holesMm ?? []).map((hole, i) => ({
          outline: turnedRight(moved(outlineOf(hole))),
          name: `opening ${i + 1}`,
        })),
      };
    },
  };
}
