import type { Panel } from '#car';
import { commonOutlines, straightOutline, type Vec } from '#geometry';
import { leastBendRadius, sheetRule } from '#standards';
import { mm, type PanelFinding, placeOf } from '../finding.ts';
import type { LaidEdge } from '../layout.ts';
import type { PanelSheet } from '../panel-sheet.ts';
import { minus } from './lines.ts';
import type { LaidStrip } from './strip.ts';
import type { CornerCut } from './strip-ends.ts';

interface Edges {
  readonly panel: Panel;
  readonly edges: readonly LaidEdge[];
  readonly sheet: PanelSheet;
  /** Corner at which each edge begins. */
  readonly cuts: readonly CornerCut[];
  readonly middleOf: (edge: LaidEdge) => Vec;
}

const round = (value: number) => Number(value.toFixed(1));

/** What is wrong with the folds and ends of a panel's edges. */
export function edgeFindings(of: Edges): readonly PanelFinding[] {
  return [
    ...of.edges.flatMap((edge) => [...radiusFindings(of, edge), ...flangeFindings(of, edge)]),
    ...reliefFindings(of),
    ...collisions(of),
  ];
}

const stripsOf = (edge: LaidEdge): readonly LaidStrip[] =>
  edge.strip === undefined ? (edge.tabs ?? []) : [edge.strip];

function radiusFindings({ panel, sheet, middleOf }: Edges, edge: LaidEdge): PanelFinding[] {
  const bend = stripsOf(edge)[0]?.steps.find((step) => step.kind === 'bend');
  if (bend?.kind !== 'bend') return [];
  const shared = { panel: panel.id, at: edge.id, place: placeOf(middleOf(edge)), unit: 'mm' } as const;
  const least = sheet.row && leastBendRadius(sheet.row, sheet.thicknessMm);
  if (least === undefined)
    return [
      {
        ...shared,
        code: 'panel-bend-unknown',
        level: sheet.row === undefined ? 'note' : 'stop',
        text: `${panel.id} ${edge.id}: ${sheet.row === undefined ? `nothing is known of how tight ${sheet.id} bends` : `${sheet.id} is not bent cold`}`,
        source: sheet.row?.source ?? 'builder',
        cures: [
          sheet.row === undefined
            ? 'bend a strip of it over the same radius first'
            : 'make the flange of another piece',
        ],
      },
    ];
  const found: PanelFinding[] = [];
  if (bend.radiusMm < least.usualMm - 1e-9)
    found.push({
      ...shared,
      code: 'panel-bend-tight',
      level: bend.radiusMm < least.leastMm - 1e-9 ? 'stop' : 'fix',
      text: `${panel.id} ${edge.id}: bent to ${mm(bend.radiusMm)} inside; ${sheet.id} of ${mm(sheet.thicknessMm)} wants ${mm(least.leastMm)} to ${mm(least.usualMm)}${least.beyondTable ? ' (thicker than the table goes)' : ''}`,
      value: round(bend.radiusMm),
      limit: round(least.usualMm),
      source: least.source,
      cures: [
        `a radius of ${mm(least.usualMm)}`,
        'bend a strip of the same sheet first and look for cracks along the bend',
      ],
    });
  if (panel.grain !== undefined) found.push(...grainFinding(panel, edge, bend.radiusMm, 2 * least.usualMm, shared));
  return found;
}

/** Within this of the grain a bend runs along it [deg]. */
const ALONG_GRAIN_DEG = 30;

function grainFinding(
  panel: Panel,
  edge: LaidEdge,
  radiusMm: number,
  wantedMm: number,
  shared: Pick<PanelFinding, 'panel' | 'at' | 'place' | 'unit'> & { unit: 'mm' },
): PanelFinding[] {
  const [dx, dy] = minus(edge.line[1], edge.line[0]);
  const toFirst = (Math.atan2(Math.abs(dy), Math.abs(dx)) * 180) / Math.PI;
  const toGrain = panel.grain === 'along' ? toFirst : 90 - toFirst;
  if (toGrain >= ALONG_GRAIN_DEG || radiusMm >= wantedMm || wantedMm === 0) return [];
  return [
    {
      ...shared,
      code: 'panel-bend-along-grain',
      level: 'note',
      text: `${panel.id} ${edge.id}: bent ${Math.round(toGrain)} degrees from the grain: it cracks sooner that way`,
      value: round(radiusMm),
      limit: round(wantedMm),
      source: 'common-practice',
      cures: [`lay the grain the other way`, `twice the least radius, ${mm(wantedMm)}`],
    },
  ];
}

function flangeFindings({ panel, sheet, middleOf }: Edges, edge: LaidEdge): PanelFinding[] {
  const shared = { panel: panel.id, at: edge.id, place: placeOf(middleOf(edge)), unit: 'mm' } as const;
  if (edge.curve !== undefined && (edge.spec?.flange ?? edge.spec?.joggle ?? edge.spec?.tabs) !== undefined)
    return [
      {
        ...shared,
        code: 'panel-flange-on-curve',
        level: 'stop',
        text: `${panel.id} ${edge.id}: a curved edge takes no straight fold: the flange is left off`,
        source: 'geometry',
        cures: [
          'cut it into tabs on straight edges between corners',
          'shrink or stretch it over a former: not worked out here',
        ],
      },
    ];
  const found: PanelFinding[] = [];
  const strip = stripsOf(edge)[0];
  const flatMm = sheetRule('flange-beyond-bend').value * sheet.thicknessMm;
  const hasBend = strip?.steps.some((step) => step.kind === 'bend') ?? false;
  if (strip !== undefined && hasBend && strip.landMm < flatMm - 1e-9)
    found.push({
      ...shared,
      code: 'panel-flange-low',
      level: strip.landMm <= 0 ? 'stop' : 'fix',
      text: `${panel.id} ${edge.id}: only ${mm(strip.landMm)} stays flat beyond its bend: a brake holds no less than ${mm(flatMm)}`,
      value: round(strip.landMm),
      limit: round(flatMm),
      source: sheetRule('flange-beyond-bend').source,
      cures: [`make it ${mm(flatMm - strip.landMm)} higher`],
    });
  const overlap = edge.spec?.overlapMm;
  if (edge.strip !== undefined && overlap !== undefined && edge.strip.landMm < overlap - 1e-9)
    found.push({
      ...shared,
      code: 'panel-overlap-short',
      level: 'fix',
      text: `${panel.id} ${edge.id}: is to lie over what it meets by ${mm(overlap)}; ${mm(edge.strip.landMm)} of it is flat there`,
      value: round(edge.strip.landMm),
      limit: round(overlap),
      source: 'geometry',
      cures: [`make it ${mm(overlap - edge.strip.landMm)} wider`],
    });
  return found;
}

/** Relief holes of the builder's own that are smaller than the bends want. */
const reliefFindings = ({ panel, edges, cuts, middleOf }: Edges): PanelFinding[] =>
  cuts.flatMap(({ reliefMm = 0, reliefLeastMm = 0 }, i): PanelFinding[] => {
    const edge = edges[i]!;
    if (reliefMm >= reliefLeastMm - 1e-9) return [];
    return [
      {
        code: 'panel-relief-small',
        level: 'fix',
        panel: panel.id,
        at: edge.id,
        text: `${panel.id} ${edge.from}: a relief hole of ${mm(reliefMm)} where two folds meet; ${mm(reliefLeastMm)} is the least: the sheet tears or bulges in the corner`,
        value: round(reliefMm),
        limit: round(reliefLeastMm),
        unit: 'mm',
        source: sheetRule('relief-radii').source,
        place: placeOf(middleOf(edge)),
        cures: [`drill ${mm(reliefLeastMm)} there`],
      },
    ];
  });

/** Strips that run into each other on the flat, or whose flanks meet before their free edge. */
function collisions({ panel, edges, middleOf }: Edges): PanelFinding[] {
  const strips = edges.flatMap((edge) => stripsOf(edge).map((strip) => ({ edge, strip })));
  const found: PanelFinding[] = [];
  const tell = (edge: LaidEdge, text: string, value: number, cures: readonly string[]) =>
    found.push({
      code: 'panel-flanges-collide',
      level: 'stop',
      panel: panel.id,
      at: edge.id,
      text,
      value: round(value),
      limit: 0,
      unit: 'mm',
      source: 'geometry',
      place: placeOf(middleOf(edge)),
      cures,
    });
  for (const { edge, strip } of strips) {
    const [from, to] = [strip.start.at(-1)!, strip.end.at(-1)!];
    const free = (to[0] - from[0]) * strip.base.along[0] + (to[1] - from[1]) * strip.base.along[1];
    if (free <= 0)
      tell(
        edge,
        `${panel.id} ${edge.id}: its flange is cut away from both ends before it is ${mm(strip.reachMm)} wide`,
        free,
        ['a lower flange, or none on an edge beside it'],
      );
  }
  for (let i = 0; i < strips.length; i++)
    for (let j = i + 1; j < strips.length; j++) {
      const common = commonOutlines(shapeOf(strips[i]!.strip), shapeOf(strips[j]!.strip));
      const wide = Math.max(
        0,
        ...common.map((piece) => Math.hypot(...minus(piece[0]!.at, piece[Math.floor(piece.length / 2)]!.at))),
      );
      if (wide > 0.01)
        tell(
          strips[i]!.edge,
          `${panel.id}: the strips of ${strips[i]!.edge.id} and ${strips[j]!.edge.id} take the same sheet`,
          wide,
          ['a lower flange on one of the two', 'a corner more between them'],
        );
    }
  return found;
}

const shapeOf = (strip: LaidStrip) => straightOutline([...strip.start, ...strip.end.toReversed()]);
