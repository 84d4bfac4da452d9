import { nearestName } from '#sources';
import type { HoseRow } from '#standards';
import { type HoseFinding, type LineConditions, hoseFitness } from './hose-fitness.ts';

/** A hose that a line could take, and what is open about it. */
export interface HoseChoice {
  readonly hose: HoseRow;
  readonly findings: readonly HoseFinding[];
}

export interface HoseChoices {
  /** Hoses without a broken limit, best first. */
  readonly hoses: readonly HoseChoice[];
  /** Hoses of the right size that break a limit, least broken first. */
  readonly refused: readonly HoseChoice[];
  /** One line where there is nothing to choose from. */
  readonly missing?: string;
}

/**
 * The hoses that suit a line. With an id only that hose is looked at (the builder chose it). Else every hose of the line's dash,
 * or of its bore, ranked: fewest open points, the builder's own, tightest bend, thinnest; ties by id.
 */
export function chooseHoses(line: LineConditions, hoses: readonly HoseRow[], id?: string): HoseChoices {
  const pool = id === undefined ? hoses.filter((hose) => isOfSize(hose, line)) : hoses.filter((hose) => hose.id === id);
  if (pool.length === 0) return { hoses: [], refused: [], missing: missingWords(line, hoses, id) };
  const choices = pool.map((hose) => ({ hose, findings: hoseFitness(hose, line) }));
  const ranked = choices.sort((a, b) => byMerit(a, b));
  return { hoses: ranked.filter((c) => stops(c) === 0), refused: ranked.filter((c) => stops(c) > 0) };
}

/** Hose bores within this share of the one asked are looked at, nearest first. */
const boreShare = 0.1;

function isOfSize(hose: HoseRow, line: LineConditions): boolean {
  if (line.dash !== undefined) return hose.dash === line.dash;
  return line.boreMm !== undefined && Math.abs(hose.boreMm - line.boreMm) <= boreShare * line.boreMm;
}

const stops = (choice: HoseChoice): number => choice.findings.filter((f) => f.level === 'stop').length;
const fixes = (choice: HoseChoice): number => choice.findings.filter((f) => f.level === 'fix').length;
const isOwn = (choice: HoseChoice): number => (choice.hose.source === 'builder' ? 0 : 1);

function byMerit(a: HoseChoice, b: HoseChoice): number {
  return (
    stops(a) - stops(b) ||
    fixes(a) - fixes(b) ||
    isOwn(a) - isOwn(b) ||
    a.hose.minBendRadiusMm - b.hose.minBendRadiusMm ||
    a.hose.odMm - b.hose.odMm ||
    (a.hose.id < b.hose.id ? -1 : a.hose.id > b.hose.id ? 1 : 0)
  );
}

function missingWords(line: LineConditions, hoses: readonly HoseRow[], id: string | undefined): string {
  if (id !== undefined) {
    const ids = hoses.map((hose) => hose.id);
    const near = nearestName(id, ids) ?? ids.find((known) => known.includes(id.toLowerCase()));
    if (near !== undefined) return `no hose "${id}" in the catalogue; nearest: ${near}`;
    const fitting = hoses.filter((hose) => line.dash !== undefined && hose.dash === line.dash).map((hose) => hose.id);
    return `no hose "${id}" in the catalogue${fitting.length === 0 ? '' : `; of -${line.dash} there are: ${fitting.join(', ')}`}`;
  }
  if (line.dash !== undefined) return `no -${line.dash} hose in the catalogue`;
  if (line.boreMm !== undefined) return `no hose within 10 % of ${line.boreMm} mm bore in the catalogue`;
  return 'the line has neither dash nor boreMm nor hose: one of them is needed to choose a hose';
}
