import type { PanelAnswer } from '#answers';
import { flatLabel } from '#book';
import type { PanelFinding, PanelNest } from '#panels';
import { formatNumber, type Lengths } from '#units';
import { panelSnag } from '#snags';
import { columns } from './columns.ts';
import { snagCount, snagRows } from './snag-rows.ts';
import type { Style } from './style.ts';

const POUNDS_PER_KG = 1 / 0.45359237;
const CM2_PER_IN2 = 6.4516;
const notKnown = '-';

const count = (findings: readonly PanelFinding[], level: PanelFinding['level']): number =>
  findings.filter((finding) => finding.level === level).length;

const mass = (panel: PanelAnswer, inches: boolean): string => {
  if (panel.massKg === undefined) return notKnown;
  return inches ? `${formatNumber(panel.massKg * POUNDS_PER_KG, 2)} lb` : `${formatNumber(panel.massKg, 2)} kg`;
};
const areaOf = (cm2: number, inches: boolean): string =>
  inches ? `${formatNumber(cm2 / CM2_PER_IN2, 1)} in2` : `${formatNumber(cm2)} cm2`;
const free = (panel: PanelAnswer, inches: boolean): string =>
  panel.windows.length === 0 ? notKnown : areaOf(panel.freeCm2, inches);
const thick = (mm: number, inches: boolean): string =>
  inches ? `${formatNumber(mm / 25.4, 3)} in` : `${Number(mm.toFixed(2))} mm`;
const size = (panel: PanelAnswer, lengths: Lengths): string => {
  if (panel.sizeMm === undefined) return 'not laid out';
  const [a, b] = panel.sizeMm;
  return lengths.unit === 'in'
    ? `${formatNumber(a / 25.4, 1)} x ${formatNumber(b / 25.4, 1)} in`
    : `${formatNumber(a)} x ${formatNumber(b)} mm`;
};
const snags = (findings: readonly PanelFinding[]): string => {
  const words = (['stop', 'fix', 'note'] as const)
    .map((level) => ({ level, n: count(findings, level) }))
    .filter(({ n }) => n > 0)
    .map(({ level, n }) => `${n} ${level}`);
  return words.length === 0 ? 'none' : words.join(', ');
};

/** All panels, a row each. */
export function panelTable(panels: readonly PanelAnswer[], style: Style, lengths: Lengths): string[] {
  const inches = lengths.unit === 'in';
  const rows = panels.map((panel) => [
    panel.panel,
    size(panel, lengths),
    `${panel.sheet} ${thick(panel.thicknessMm, inches)}`,
    mass(panel, inches),
    free(panel, inches),
    String(panel.holes),
    String(panel.folds),
    snags(panel.findings),
    panel.piece === undefined ? panel.name : `${panel.name}, piece ${panel.piece.number} of ${panel.piece.of}`,
  ]);
  const [head = '', ...rest] = columns(
    [['panel', 'flat', 'sheet', 'mass', 'free', 'holes', 'folds', 'snags', 'name'], ...rows],
    [3, 4, 5, 6],
  );
  return [style.strong(head), ...rest];
}

/** Every window as it was laid: how many, what they leave free, webs, edges, drill, and what was chosen. */
export function windowRows({ panel, windows }: PanelAnswer, lengths: Lengths): string[] {
  const mm = (value: number): string => lengths.text(`${formatNumber(value, 1)} mm`);
  return windows.map(({ id, openings, rows, openCm2, freeCm2, webMm, edgeMm, drillMm, notes }) =>
    [
      `  ${panel} ${id}: ${openings} ${openings === 1 ? 'opening' : 'openings'}${rows === 1 ? '' : ` in ${rows} rows`}`,
      `${areaOf(freeCm2, lengths.unit === 'in')} free${freeCm2 < openCm2 ? ', mesh counted' : ''}`,
      ...(webMm === undefined ? [] : [`webs ${mm(webMm)}`]),
      `${mm(edgeMm)} to what is nearest`,
      `drill ${mm(drillMm)}`,
      ...notes.map((note) => lengths.text(note)),
    ].join('; '),
  );
}

const worst = { stop: 0, fix: 1, note: 2 } as const;

/** What is open about panels, worst first, with all its cures and where each limit comes from. */
export function findingRows(findings: readonly PanelFinding[], style: Style, lengths: Lengths, wide: number): string[] {
  const open = findings.toSorted((a, b) => worst[a.level] - worst[b.level]).map(panelSnag);
  return [...open.flatMap((snag) => snagRows(snag, style, lengths, wide, Infinity)), '', `${snagCount(open)}.`];
}

/** The cut list: each sheet with what lies on it, what is lost and what is kept. */
export function nestRows(nest: PanelNest, style: Style, lengths: Lengths): string[] {
  const percent = (share: number): string => `${formatNumber(100 * share, 1)} %`;
  const area = ([a, b]: readonly [number, number]): string =>
    lengths.text(`${formatNumber(a)} mm`) + ` x ${lengths.text(`${formatNumber(b)} mm`)}`;
  return [
    ...nest.sheets.flatMap((sheet, i) => [
      style.strong(
        `Sheet ${i + 1}: ${sheet.material}, ${thick(sheet.thicknessMm, lengths.unit === 'in')}, ${area(sheet.sizeMm)}`,
      ),
      `  ${sheet.patterns.map((pattern, k) => `${flatLabel(pattern)}${sheet.parts[k]!.turnDeg === 0 ? '' : ` turned ${formatNumber(sheet.parts[k]!.turnDeg)}°`}`).join(', ')}`,
      `  ${percent(sheet.wasteShare)} is lost; ${sheet.restMm === undefined ? 'no rest worth keeping' : `a rest of ${area(sheet.restMm)} is kept`}`,
    ]),
    ...(nest.left.length === 0 ? [] : [style.stop(`▲ No sheet has room for ${nest.left.join(', ')}.`)]),
    ...nest.usualSizes.map((material) =>
      style.soft(`No sheets of ${material} in the car file: usual sizes were taken (common practice, no source).`),
    ),
    `${percent(nest.wasteShare)} is lost in all; the rectangles round the panels would lose ${percent(nest.rectanglesWasteShare)}.`,
  ];
}
