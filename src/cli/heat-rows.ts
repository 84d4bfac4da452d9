import {
  type HeatAnswer,
  type HeatCase,
  isOfItself,
  type LineCures,
  type LineHeat,
  type PanelHeat,
  type PartHeat,
  readsHow,
} from '#heat';
import { differenceWords } from '#book';
import { columns } from './columns.ts';
import type { FlowUnits } from './flow-units.ts';
import type { Style } from './style.ts';

const MARGIN = '    ';
const temp = (c: number): string => c.toFixed(0);

const capital = (at: HeatCase['case']): string => at.name ?? at.id;

/** A line's least margin in words: "hose 326 of 170". */
const marginWords = ({ limits }: LineHeat): string => {
  const [first] = limits;
  return first === undefined ? '' : `${first.what} ${temp(first.valueC)} of ${temp(first.limitC)}`;
};

/** What heats its worst place most. */
function sourceWords({ worst }: LineHeat): string {
  const warm = worst.shares
    .filter((share) => share.kelvin >= 1 && share.kind !== 'surroundings' && !isOfItself(share))
    .slice(0, 2);
  return warm.map(({ name, kelvin }) => `${name} +${temp(kelvin)}`).join(', ');
}

const lineRow = (line: LineHeat, isUs: boolean): string[] => [
  line.line,
  `${temp(line.worst.surfaceC)} ±${temp(line.worst.errorK)}`,
  ...(isUs ? [`${temp(line.worst.surfaceC * 1.8 + 32)} ±${temp(line.worst.errorK * 1.8)}`] : []),
  temp(line.worst.underC),
  temp(line.fluidOutC),
  line.peak === undefined ? '' : line.peak.atMin.toFixed(1),
  marginWords(line),
  sourceWords(line),
];

/** How many lines a summary names. */
const SHOWN = 8;

/** One case: its hottest lines, panels and the air of its bays; `isWhole`: all of them. */
export function heatRows(row: HeatCase, units: FlowUnits, style: Style, isWhole: boolean): string[] {
  const lines = row.lines.toSorted((a, b) => b.worst.surfaceC - a.worst.surfaceC);
  const shown = isWhole ? lines : lines.slice(0, SHOWN);
  const head = [
    'line',
    'outside °C',
    ...(units.isUs ? ['outside °F'] : []),
    'hose °C',
    'fluid °C',
    row.kind === 'soak' ? 'after min' : '',
    'least margin',
    'from',
  ];
  const soak = row.soak;
  return [
    `${style.strong(capital(row.case))}: ${row.kind === 'soak' ? `after ${soak?.after ?? ''}, ${soak?.minutes.at(-1)?.toFixed(0) ?? ''} min; each at its highest` : `${(row.heatInW / 1000).toFixed(1)} kW off what is hot`}`,
    ...columns([head, ...shown.map((line) => lineRow(line, units.isUs))], units.isUs ? [2, 3, 4, 5] : [2, 3, 4]).map(
      (text) => MARGIN + text,
    ),
    ...row.bays.map(
      (bay) =>
        `${MARGIN}${bay.name}: air ${units.temperature(bay.airC)} (${bay.how}), ${bay.speedMPerS.toFixed(1)} m/s, ${(bay.heatW / 1000).toFixed(2)} kW into it`,
    ),
    ...(isWhole ? bodyRows(row, units) : [...row.parts, ...row.panels].flatMap((body) => overRow(body, units))),
    '',
  ];
}

/** What a part or panel that says what it stands comes to beside it; of a loom or cable where. */
function standsWords(body: PartHeat | PanelHeat, units: FlowUnits): string {
  const [limit] = body.limits;
  const hottest = 'part' in body ? body.places?.reduce((best, place) => (place.c > best.c ? place : best)) : undefined;
  const where = hottest === undefined ? '' : `, ${units.lengths.one(hottest.alongMm)} along it`;
  return `${where}${limit === undefined ? '' : `, stands ${units.temperature(limit.limitC)}`}`;
}

/** A loom, cable, part or panel that comes to what it stands, or within its error of it. */
function overRow(body: PartHeat | PanelHeat, units: FlowUnits): string[] {
  const [limit] = body.limits;
  if (limit === undefined || limit.marginK >= body.errorK) return [];
  return [`${MARGIN}${body.name}: ${units.temperature(limit.valueC)}${standsWords(body, units)}`];
}

function bodyRows(row: HeatCase, units: FlowUnits): string[] {
  const panels = row.panels.map(
    (panel) =>
      `${MARGIN}${panel.panel}: ${units.temperature(panel.worstC)} at its hottest, ${units.temperature(panel.meanC)} mean${standsWords(panel, units)}`,
  );
  const parts = row.parts.map(
    (part) =>
      `${MARGIN}${part.name}: ${units.temperature(part.surfaceC)} (${part.how})${standsWords(part, units)}, ${part.toAirW.toFixed(0)} W to air, ${part.byRadiationW.toFixed(0)} W by radiation`,
  );
  const openings = row.bays.flatMap(({ openings: all }) =>
    all.map(
      (opening) =>
        `${MARGIN}${opening.name}: ${(Math.abs(opening.flowM3S) * 1000).toFixed(0)} L/s ${opening.flowM3S >= 0 ? 'out' : 'in'}, ${units.temperature(opening.airC)}`,
    ),
  );
  return [...panels, ...parts, ...openings];
}

/** Readings beside what was worked out, and how each kind of them differs by itself. */
export const readingRows = ({ readings }: HeatAnswer, units: FlowUnits): string[] => [
  ...readings.map(({ reading, workedC, differenceK, corrected }) => {
    const of = reading.line ?? reading.part ?? reading.panel ?? reading.bay ?? '';
    const said = workedC === null ? 'not worked out' : `worked out ${units.temperature(workedC)}`;
    const off =
      differenceK === null
        ? ''
        : Math.abs(differenceK) < LEAST_OFF_K
          ? ', as read'
          : `, read ${differenceK >= 0 ? 'over' : 'under'} by ${differenceWords(Math.abs(differenceK), units.isUs)}`;
    return `${MARGIN}${reading.id} ${of} (${reading.means}, ${reading.case}): read ${readWords(reading, units)}, ${said}${off}${corrected === undefined ? '' : `; ${corrected}`}`;
  }),
  ...[...new Set(readings.map(({ reading }) => reading.means))].map((means) => `${MARGIN}${readsHow[means]}`),
];

/** A difference that rounds to nothing [K]. */
const LEAST_OFF_K = 0.5;

/** Of a strip both marks: the last that turned and the first that did not. */
function readWords({ readC, belowC }: HeatAnswer['readings'][number]['reading'], units: FlowUnits): string {
  if (readC === undefined) return `below ${units.temperature(belowC ?? 0)}`;
  return belowC === undefined
    ? units.temperature(readC)
    : `${units.temperature(readC)} and under ${units.temperature(belowC)}`;
}

/** Cures of one line, the one that gains most first. */
export const cureRows = ({ line, cures }: LineCures, style: Style, units: FlowUnits): string[] => [
  style.strong(`What cures ${line}`),
  ...columns(
    cures.map((cure) => [
      Math.abs(cure.gainK) < 1
        ? 'nothing'
        : `${cure.gainK > 0 ? '-' : '+'}${differenceWords(Math.abs(cure.gainK), units.isUs)}`,
      units.text(cure.words),
      `${units.temperature(cure.beforeC)} → ${units.temperature(cure.afterC)} in ${cure.case}`,
      [
        cure.roomMm === undefined ? '' : units.lengths.fine(cure.roomMm),
        cure.grams === undefined ? '' : weightWords(cure.grams, units.isUs),
        cure.parts.length === 0 ? '' : `${cure.parts.length} ${cure.parts.length === 1 ? 'part' : 'parts'}`,
      ]
        .filter((word) => word !== '')
        .join(', '),
    ]),
    [0],
  ).map((text) => MARGIN + text),
  ...[...new Set(cures.flatMap(({ note }) => note ?? []))].map((note) => `${MARGIN}${units.text(note)}`),
  '',
];

const OUNCE_G = 28.349523;
const weightWords = (grams: number, isUs: boolean): string =>
  isUs ? `${(grams / OUNCE_G).toFixed(1)} oz` : `${grams.toFixed(0)} g`;
