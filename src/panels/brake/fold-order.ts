import { mm, type PanelFinding, placeOf } from '../finding.ts';
import type { LaidEdge, PanelLayout } from '../layout.ts';
import { onCar } from '../surface/facet-at.ts';
import type { BrakeTool } from './brake-tool.ts';
import { type Fold, type InTheWay, inTheWay } from './in-the-way.ts';

/**
 * The order in which a panel's folds can be made, found from the last one back: what can be folded with all others up may as well be
 * folded last, for fewer that are up are never more in the way. Told where only some orders go, and where none does.
 */
export function foldOrderFindings(layout: PanelLayout, tool: BrakeTool): readonly PanelFinding[] {
  const folds = layout.edges.flatMap(foldsOf);
  const facets = new Set(layout.edges.map(({ facet }) => facet));
  // Round a crease the sheet is not one flat on the bed.
  if (folds.length < 2 || facets.size > 1) return [];
  const order: Fold[] = [];
  let left = folds;
  while (left.length > 0) {
    const last = left.findLast((fold) => inTheWay(fold, without(left, fold), tool) === undefined);
    if (last === undefined) return [stuck(layout, left, tool)];
    order.unshift(last);
    left = without(left, last);
  }
  const isAnyOrder = folds.every((fold) => inTheWay(fold, without(folds, fold), tool) === undefined);
  return isAnyOrder ? [] : [told(layout, order, folds, tool)];
}

const without = (folds: readonly Fold[], fold: Fold): Fold[] => folds.filter((one) => one !== fold);

const foldsOf = ({ id, strip, tabs }: LaidEdge): Fold[] =>
  [strip, ...(tabs ?? [])].flatMap((one) =>
    one?.steps.some((step) => step.kind === 'bend') === true ? [{ edge: id, strip: one }] : [],
  );

const edgesOf = (folds: readonly Fold[]): string[] => [...new Set(folds.map(({ edge }) => edge))];

function reason({ fold, how, valueMm, limitMm }: InTheWay): string {
  const { edge } = fold;
  if (how === 'nose') return `${edge} stands ${mm(valueMm)} behind the bend, where the nose is ${mm(limitMm)} deep`;
  if (how === 'beam') return `${edge} stands ${mm(valueMm)} up, and the beam is ${mm(limitMm)} over the sheet`;
  if (how === 'bed' && valueMm > 0)
    return `${edge} stands out ${mm(valueMm)} behind the bend, where the bed is ${mm(limitMm)} deep`;
  if (how === 'bed') return `${edge} stands out at its end, where the bed goes on`;
  return limitMm === 0
    ? `${edge} stands at one end and another fold at the other, and the bar has no fingers`
    : `between the folds at its ends are ${mm(valueMm)}, and the narrowest finger is ${mm(limitMm)}`;
}

const whose = ({ isOwn }: BrakeTool): string =>
  isOwn ? 'the brake at hand' : 'a small box-and-pan brake (say what yours is: "brake" of the workshop)';

function stuck(layout: PanelLayout, left: readonly Fold[], tool: BrakeTool): PanelFinding {
  const rows = left.map((fold) => ({ fold, way: inTheWay(fold, without(left, fold), tool)! }));
  const { fold, way } = rows.toSorted((a, b) => short(a.way) - short(b.way))[0]!;
  return {
    ...placed(layout, fold),
    code: 'panel-fold-no-order',
    level: tool.isOwn ? 'fix' : 'note',
    text: `${layout.panel.id}: of ${edgesOf(left).join(', ')} none can be folded last on ${whose(tool)}; ${fold.edge} nearest: ${reason(way)}`,
    ...(way.how === 'ends' && way.limitMm === 0
      ? {}
      : { value: Number(way.valueMm.toFixed(1)), limit: Number(way.limitMm.toFixed(1)), unit: 'mm' }),
    cures: [
      ...(way.how === 'beam' ? [`${way.fold.edge} no higher than ${mm(Math.floor(way.limitMm))}`] : []),
      'the last one over a bar of hardwood or angle clamped on the sheet, with a mallet',
      'one of the two as a strip of its own, riveted on',
    ],
  };
}

/** By how much the tool is too large for it. */
const short = ({ how, valueMm, limitMm }: InTheWay): number => (how === 'beam' ? valueMm - limitMm : limitMm - valueMm);

function told(layout: PanelLayout, order: readonly Fold[], folds: readonly Fold[], tool: BrakeTool): PanelFinding {
  const first = folds
    .map((fold) => ({ fold, way: inTheWay(fold, without(folds, fold), tool) }))
    .find(({ way }) => way)!;
  return {
    ...placed(layout, first.fold),
    code: 'panel-fold-order',
    level: 'note',
    text: `${layout.panel.id}: fold ${edgesOf(order).join(', then ')} on ${whose(tool)}; with ${first.fold.edge} last, ${reason(first.way!)}`,
    cures: [`fold ${edgesOf(order).join(', then ')}`],
  };
}

function placed({ panel, facets }: PanelLayout, { edge, strip }: Fold) {
  const [a, b] = [strip.start[0]!, strip.end[0]!];
  return {
    panel: panel.id,
    at: edge,
    source: 'common-practice',
    place: placeOf(onCar(facets, [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2])),
  } as const;
}
