import type { Panel } from '#car';
import { readyOutline, type Point2, type Vec } from '#geometry';
import { sheetRule } from '#standards';
import { mm, type PanelFinding, placeOf } from '../finding.ts';
import type { FlatPattern, FoldLine } from '../flat-pattern.ts';
import type { PlacedFixing, PlacedHole } from '../layout.ts';
import type { PanelSheet } from '../panel-sheet.ts';
import { onFlat } from '../surface/facet-at.ts';
import type { Facet } from '../surface/facets.ts';
import { crossingGrowth, slantDeg } from './crossing-hole.ts';
import { gapOfHoles, gapToEdge, gapToLine, holeBody } from './hole-body.ts';
import { lighteningFindings, thinRimFindings } from './lightening-findings.ts';
import type { PanelCrossing } from './panel-crossing.ts';
import { seatFindings } from './seat-findings.ts';

interface Holed {
  readonly panel: Panel;
  readonly sheet: PanelSheet;
  readonly facets: readonly Facet[];
  readonly holes: readonly PlacedHole[];
  readonly fixings: readonly PlacedFixing[];
  readonly folds: readonly FoldLine[];
  readonly outline: FlatPattern['outline'];
  readonly crossings: readonly PanelCrossing[];
  readonly inCar: (at: Point2) => Vec;
}

const round = (value: number) => Number(value.toFixed(1));
/** Further from the sheet than this a hole's place was not measured on it [mm]. */
const OFF_SHEET_MM = 20;

/** Holes too near an edge, a fold or each other, off the sheet, or open where a fire is to be kept out. */
export function holeFindings(of: Holed): readonly PanelFinding[] {
  return [
    ...of.holes.flatMap((hole) => [
      ...nearFindings(of, hole),
      ...seatFindings(of, hole).map((row) => tell(of, hole, row)),
      ...fireFindings(of, hole),
      ...[...lighteningFindings(of, hole, webMm(of)), ...thinRimFindings(of, hole, of.sheet.thicknessMm)].map((row) =>
        tell(of, hole, row),
      ),
    ]),
    ...lineFindings(of),
    ...placeFindings(of),
  ];
}

function tell(
  of: Holed,
  hole: PlacedHole,
  row: Pick<PanelFinding, 'code' | 'level' | 'text' | 'source' | 'cures'> & {
    value?: number;
    limit?: number;
    unit?: string;
  },
): PanelFinding {
  return {
    panel: of.panel.id,
    at: hole.id,
    ...(hole.line === undefined ? {} : { line: hole.line }),
    place: placeOf(of.inCar(hole.at)),
    ...row,
    text: `${of.panel.id} ${hole.id}: ${row.text}`,
  };
}

/** Least metal round a hole [mm]. */
const webMm = ({ sheet }: Holed): number =>
  Math.max(sheetRule('ligament-thicknesses').value * sheet.thicknessMm, sheetRule('ligament-least').value);

function nearFindings(of: Holed, hole: PlacedHole): PanelFinding[] {
  const { sheet, folds, holes, fixings } = of;
  const web = webMm(of);
  const body = holeBody(hole);
  const passesMm = of.crossings.find(({ line }) => line === hole.line)?.odMm ?? 0;
  const found: PanelFinding[] = [];
  const near = (what: string, gap: number, limit: number, source: PanelFinding['source']) => {
    if (gap < limit - 0.05)
      found.push(
        tell(of, hole, {
          code: 'panel-hole-near',
          level: gap < 0 ? 'stop' : 'fix',
          text: gap < 0 ? `its rim runs into ${what}` : `its rim is ${mm(gap)} from ${what}, ${mm(limit)} wanted`,
          value: round(gap),
          limit: round(limit),
          unit: 'mm',
          source,
          cures: [
            `move it ${mm(limit - gap)} away`,
            ...(hole.diameterMm - 2 * (limit - gap) >= passesMm ? [`a hole ${mm(2 * (limit - gap))} smaller`] : []),
          ],
        }),
      );
  };
  const ready = readyOutline(of.outline);
  near('the edge of the sheet', gapToEdge(body, ready), web, sheetRule('ligament-least').source);
  for (const fold of folds) {
    const gap = gapToLine(body, fold.from, fold.to) - fold.allowanceMm / 2;
    near(
      `the bend ${fold.name}`,
      gap,
      sheetRule('hole-to-bend').value * sheet.thicknessMm + fold.radiusMm,
      sheetRule('hole-to-bend').source,
    );
  }
  holes
    .slice(holes.indexOf(hole) + 1)
    .forEach((other) =>
      near(`the hole ${other.id}`, gapOfHoles(body, holeBody(other)), web, sheetRule('ligament-least').source),
    );
  const fixing = fixings
    .map(({ at, holeMm, slotMm = holeMm, turnDeg }) =>
      gapOfHoles(body, holeBody({ at, diameterMm: holeMm, longMm: slotMm, turnDeg })),
    )
    .sort((a, b) => a - b)[0];
  if (fixing !== undefined) near('a fixing', fixing, web, sheetRule('ligament-least').source);
  return found;
}

function fireFindings(of: Holed, hole: PlacedHole): PanelFinding[] {
  // Round a hot pipe its ring stands off the sheet: what cools it lets a fire through.
  const isOpen = hole.fitted !== 'grommet' && hole.fitted !== 'bulkhead-fitting';
  if (of.panel.fireSide === undefined || !isOpen) return [];
  return [
    tell(of, hole, {
      code: 'panel-fire-opening',
      level: 'stop',
      text: `open in a panel that parts a fire from people`,
      value: round(hole.diameterMm || hole.sizeMm![0]),
      limit: 0,
      unit: 'mm',
      source: 'builders-reports',
      cures: [
        "a bulkhead fitting, or a grommet with a fire-rated sleeve and sealant round it; the event's rules and its inspectors decide",
      ],
    }),
  ];
}

/** Lines that cross askew, hot through a grommet, through sheet too thick for their fitting, or through a hole too small. */
function lineFindings(of: Holed): PanelFinding[] {
  return of.crossings.flatMap((crossing): PanelFinding[] => {
    const hole = of.holes.find(({ line, for: what }) => line === crossing.line || what === crossing.line);
    if (hole === undefined) return [];
    return [...slantFindings(of, crossing), ...fittingFindings(of, crossing), ...smallFindings(of, crossing)].map(
      (row) => tell(of, hole, row),
    );
  });
}

type Told = Parameters<typeof tell>[2];

function slantFindings(of: Holed, crossing: PanelCrossing): Told[] {
  const { facet } = onFlat(of.facets, crossing.at);
  const slant = slantDeg(facet.frame, crossing.along);
  const isPlain = crossing.kind === 'plain';
  const rule = sheetRule(isPlain ? 'plain-slant' : 'grommet-slant');
  if (slant <= rule.value) return [];
  const longMm = (deg: number): number => crossing.odMm / Math.cos((deg * Math.PI) / 180);
  return [
    {
      code: 'panel-crossing-slant',
      level: 'fix',
      text: `${crossing.line} crosses ${Math.round(slant)} degrees from square: ${isPlain ? `${mm(crossing.odMm)} across, it takes ${slant > 85 ? 'a slot along the sheet' : `${mm(longMm(slant))} of sheet`}` : `a ${crossing.kind.replace('-', ' ')} sits askew`}`,
      value: Math.round(slant),
      limit: rule.value,
      unit: 'deg',
      source: rule.source,
      cures: isPlain
        ? [
            `bring the line through nearer to square: at 30 degrees it takes ${mm(longMm(30))}`,
            'move the panel off the line there',
          ]
        : ['bring the line through square', `a plain hole of ${mm(longMm(slant))} along the slant, with an edge strip`],
    },
  ];
}

function fittingFindings({ sheet }: Holed, crossing: PanelCrossing): Told[] {
  const { line, kind, panelMaxMm, surfaceC, standsC } = crossing;
  const found: Told[] = [];
  const hottest = Math.min(standsC ?? Infinity, sheetRule('hot-pipe').value);
  if (kind === 'grommet' && surfaceC !== undefined && surfaceC >= hottest)
    found.push({
      code: 'panel-grommet-hot',
      level: 'stop',
      text: `${line} is ${Math.round(surfaceC)} degC there: no rubber grommet lasts`,
      value: Math.round(surfaceC),
      limit: hottest,
      unit: 'C',
      source: sheetRule('hot-pipe').source,
      cures: [`a plain hole of ${mm(crossing.odMm + 2 * sheetRule('hot-through-panel').value)} with a stand-off ring`],
    });
  if (kind !== 'plain' && panelMaxMm !== undefined && sheet.thicknessMm > panelMaxMm + 1e-9)
    found.push({
      code: 'panel-too-thick',
      level: 'fix',
      text: `the ${kind.replace('-', ' ')} of ${line} takes sheet of ${mm(panelMaxMm)}; this is ${mm(sheet.thicknessMm)}`,
      value: sheet.thicknessMm,
      limit: panelMaxMm,
      unit: 'mm',
      source: 'builder',
      cures: [`a ${kind.replace('-', ' ')} for ${mm(sheet.thicknessMm)}`, 'a thinner plate let into the panel there'],
    });
  return found;
}

function smallFindings(of: Holed, crossing: PanelCrossing): Told[] {
  const own = of.panel.holes?.find((row) => row.for === crossing.line);
  const goes = (crossing.movesMm ?? 0) + crossingGrowth(crossing);
  const needs = crossing.odMm + 2 * goes;
  if (own?.diameterMm === undefined || own.diameterMm >= needs) return [];
  return [
    {
      code: 'panel-hole-small',
      level: own.diameterMm < crossing.odMm ? 'stop' : 'fix',
      text: `${mm(own.diameterMm)} for ${crossing.line} of ${mm(crossing.odMm)}, which moves and grows ${mm(goes)} there`,
      value: own.diameterMm,
      limit: round(needs),
      unit: 'mm',
      source: 'geometry',
      cures: [`${mm(Math.ceil(needs))} or more`],
    },
  ];
}

function placeFindings(of: Holed): PanelFinding[] {
  return (of.panel.holes ?? []).flatMap((own): PanelFinding[] => {
    const hole = of.holes.find(({ id }) => id === own.id);
    if (hole === undefined)
      return [
        {
          code: 'panel-hole-placeless',
          level: 'fix',
          panel: of.panel.id,
          at: own.id,
          text: `${of.panel.id} ${own.id}: neither its place on the car nor on the flat is given: it is left off`,
          source: 'builder',
          cures: ['give atMm or flatMm'],
        },
      ];
    if (own.atMm === undefined) return [];
    const { outMm } = onFlat(of.facets, own.atMm);
    if (Math.abs(outMm) <= OFF_SHEET_MM) return [];
    return [
      tell(of, hole, {
        code: 'panel-hole-off-sheet',
        level: 'note',
        text: `its place is ${mm(Math.abs(outMm))} off the sheet; it was carried straight onto it`,
        value: round(Math.abs(outMm)),
        limit: OFF_SHEET_MM,
        unit: 'mm',
        source: 'geometry',
        cures: ['measure it on the sheet'],
      }),
    ];
  });
}
