import type { Car, Panel } from '#car';
import { depthInOutline, readyOutline, type Point2, type Vec } from '#geometry';
import { panelFixing, sheetRule } from '#standards';
import { mm, type PanelFinding, placeOf } from '../finding.ts';
import type { FlatPattern } from '../flat-pattern.ts';
import type { LaidEdge, PlacedFixing } from '../layout.ts';
import type { PanelSheet } from '../panel-sheet.ts';
import { tiedFixings } from './slots.ts';

interface Fixed {
  readonly car: Pick<Car, 'parts' | 'panels' | 'movers'>;
  readonly panel: Panel;
  readonly sheet: PanelSheet;
  readonly edges: readonly LaidEdge[];
  readonly fixings: readonly PlacedFixing[];
  readonly outline: FlatPattern['outline'];
  readonly inCar: (at: Point2) => Vec;
}

const round = (value: number) => Number(value.toFixed(1));

/** What is wrong with how a panel is held. */
export function fixingFindings(of: Fixed): readonly PanelFinding[] {
  const edge = of.edges.filter(({ spec }) => spec?.fixing !== undefined);
  return [
    ...edge.flatMap((e) => [...pitchFindings(of, e), ...edgeDistance(of, e), ...intoFindings(of, e)]),
    ...ties(of),
  ];
}

const along = (edge: LaidEdge, at: Point2): number =>
  ((at[0] - edge.line[0][0]) * (edge.line[1][0] - edge.line[0][0]) +
    (at[1] - edge.line[0][1]) * (edge.line[1][1] - edge.line[0][1])) /
  edge.lengthMm;

function pitchFindings(of: Fixed, edge: LaidEdge): PanelFinding[] {
  const fixing = edge.spec!.fixing!;
  const row = panelFixing(fixing.kind, fixing.size);
  if ((fixing.holeMm ?? row.holeMm) === 0 || edge.tabs !== undefined) return [];
  const asked = fixing.pitchMm ?? row.pitchMm;
  const tell = toldOf(of, edge);
  const found = farFindings(of, edge, asked);
  if (asked > row.mostPitchMm)
    found.push(
      tell('panel-pitch-wide', 'note', asked, row.mostPitchMm, middle(edge), {
        text: `${fixing.kind} every ${mm(asked)}; ${mm(row.mostPitchMm)} is the most that is usual`,
        source: 'from-memory',
        cures: [
          `${Math.ceil(edge.lengthMm / row.mostPitchMm) + 1} along this edge, ${mm(row.mostPitchMm)} apart at most`,
        ],
      }),
    );
  const least = sheetRule('rivet-pitch-least').value * row.shankMm;
  if (asked < least)
    found.push(
      tell('panel-pitch-close', 'stop', asked, least, middle(edge), {
        text: `${fixing.kind} every ${mm(asked)}: nearer than ${mm(least)} the sheet tears between them`,
        source: sheetRule('rivet-pitch-least').source,
        cures: [`${mm(least)} or more`],
      }),
    );
  return found;
}

/** Gaps between fixings that a fold or a hole has opened beyond the pitch. */
function farFindings(of: Fixed, edge: LaidEdge, asked: number): PanelFinding[] {
  if (edge.curve !== undefined) return [];
  // The one in the corner may be set out with the edge beside it.
  const reach = Math.max(CORNER_REACH_MM, 2 * (edge.spec!.fixing!.edgeMm ?? 0));
  const own = of.fixings
    .filter((f) => f.edge === edge.id || nearEdge(edge, f.at, reach))
    .sort((a, b) => along(edge, a.at) - along(edge, b.at));
  return own.slice(1).flatMap((f, i) => {
    const gap = Math.hypot(f.at[0] - own[i]!.at[0], f.at[1] - own[i]!.at[1]);
    if (gap <= asked + reach / 2) return [];
    return [
      toldOf(of, edge)('panel-fixings-far', 'fix', gap, asked, f.at, {
        text: `${mm(gap)} between two fixings, ${mm(asked)} asked: a fold or a hole is in the way`,
        source: 'builder',
        cures: ['move what is in the way', 'seal the gap and add a clip there'],
      }),
    ];
  });
}

/** Fixings this near a corner may belong to either edge [mm]. */
const CORNER_REACH_MM = 60;

const toldOf =
  ({ panel, inCar }: Fixed, edge: LaidEdge) =>
  (
    code: string,
    level: PanelFinding['level'],
    value: number,
    limit: number,
    at: Point2,
    said: Pick<PanelFinding, 'text' | 'source' | 'cures'>,
  ): PanelFinding => ({
    code,
    level,
    panel: panel.id,
    at: edge.id,
    value: round(value),
    limit: round(limit),
    unit: 'mm',
    place: placeOf(inCar(at)),
    ...said,
    text: `${panel.id} ${edge.id}: ${said.text}`,
  });

const middle = (edge: LaidEdge): Point2 => [
  (edge.line[0][0] + edge.line[1][0]) / 2,
  (edge.line[0][1] + edge.line[1][1]) / 2,
];

function nearEdge(edge: LaidEdge, at: Point2, reach: number): boolean {
  const s = along(edge, at);
  const [a, b] = edge.line;
  const off = Math.abs((at[0] - a[0]) * (b[1] - a[1]) - (at[1] - a[1]) * (b[0] - a[0])) / edge.lengthMm;
  return s > -reach && s < edge.lengthMm + reach && off < reach;
}

/** From the centre of the worst fixing of an edge to the edge of the sheet, whichever edge that is. */
function edgeDistance({ panel, fixings, outline, inCar }: Fixed, edge: LaidEdge): PanelFinding[] {
  const own = fixings.filter((f) => f.edge === edge.id);
  if (own.length === 0) return [];
  const ready = readyOutline(outline);
  const worst = own
    .map((f) => ({ f, depth: depthInOutline(ready, f.at) }))
    .reduce((a, b) => (b.depth < a.depth ? b : a));
  const shank = panelFixing(worst.f.kind, worst.f.size).shankMm;
  const rule = sheetRule('edge-least');
  const limit = rule.value * shank;
  if (worst.depth >= limit - 0.05) return [];
  return [
    {
      code: 'panel-edge-distance',
      level: 'stop',
      panel: panel.id,
      at: edge.id,
      text: `${panel.id} ${edge.id}: a ${worst.f.kind} stands ${mm(worst.depth)} from the edge of the sheet; two diameters are ${mm(limit)}`,
      value: round(worst.depth),
      limit: round(limit),
      unit: 'mm',
      source: rule.source,
      place: placeOf(inCar(worst.f.at)),
      cures: [`${mm(limit - worst.depth)} further in`, `${mm(limit - worst.depth)} more sheet there`],
    },
  ];
}

function intoFindings({ car, panel }: Fixed, edge: LaidEdge): PanelFinding[] {
  const names = [
    { name: edge.spec?.fixing?.into, what: 'is fixed into' },
    { name: edge.spec?.joins, what: 'meets' },
  ];
  return names.flatMap(({ name, what }): PanelFinding[] => {
    if (name === undefined || car.parts.some(({ id }) => id === name) || car.panels?.some(({ id }) => id === name))
      return [];
    return [
      {
        code: 'panel-names-nothing',
        level: 'fix',
        panel: panel.id,
        at: edge.id,
        text: `${panel.id} ${edge.id}: ${what} "${name}", which the car does not have`,
        source: 'builder',
        cures: ['name a part or a panel of the car'],
      },
    ];
  });
}

function ties({ car, panel, fixings, inCar }: Fixed): PanelFinding[] {
  const byInto = new Map<string, ReturnType<typeof tiedFixings>[number]>();
  for (const tie of tiedFixings(car, panel, fixings, inCar)) {
    const had = byInto.get(tie.into);
    if (had === undefined || tie.moves.mm > had.moves.mm) byInto.set(tie.into, tie);
  }
  return [...byInto.values()].map(({ fixing, at, into, moves }) => {
    const play = (fixing.slotMm ?? fixing.holeMm) - panelFixing(fixing.kind, fixing.size).shankMm;
    return {
      code: 'panel-tied-across-movement',
      level: moves.mm > play ? 'stop' : 'note',
      panel: panel.id,
      at: fixing.edge,
      part: into,
      text: `${panel.id} ${fixing.edge}: fixed into ${into}, which moves ${mm(moves.mm)} against it; the holes give ${mm(play)}`,
      value: round(moves.mm),
      limit: round(play),
      unit: 'mm',
      source: 'geometry',
      place: placeOf(at),
      cures: [
        `fix it into what moves with it`,
        `slots of ${mm(Math.ceil(fixing.holeMm + 2 * moves.mm))} over all the way it moves, with a flexible seal`,
      ],
    };
  });
}
