import { mmFromInches } from '#units';
import type { SourceId } from '#sources';
import type { SealRow } from './rows.ts';
import { metricORingPorts, metricWasherPorts, parallelPipes } from './threads.ts';

/** AS568 900 series: inside diameter and section [in] by boss dash. */
export interface ORingRow {
  readonly dash: number;
  readonly idIn: number;
  readonly sectionIn: number;
  readonly source: SourceId;
}

export const bossORings = [
  { dash: 2, idIn: 0.239, sectionIn: 0.064, source: 'as568' },
  { dash: 3, idIn: 0.301, sectionIn: 0.064, source: 'as568' },
  { dash: 4, idIn: 0.351, sectionIn: 0.072, source: 'as568' },
  { dash: 5, idIn: 0.414, sectionIn: 0.072, source: 'as568' },
  { dash: 6, idIn: 0.468, sectionIn: 0.078, source: 'as568' },
  { dash: 8, idIn: 0.644, sectionIn: 0.087, source: 'as568' },
  { dash: 10, idIn: 0.755, sectionIn: 0.097, source: 'as568' },
  { dash: 12, idIn: 0.924, sectionIn: 0.116, source: 'as568' },
  { dash: 14, idIn: 1.047, sectionIn: 0.116, source: 'as568' },
  { dash: 16, idIn: 1.171, sectionIn: 0.116, source: 'as568' },
  { dash: 20, idIn: 1.475, sectionIn: 0.118, source: 'as568' },
  { dash: 24, idIn: 1.72, sectionIn: 0.118, source: 'as568' },
  { dash: 32, idIn: 2.337, sectionIn: 0.118, source: 'as568' },
] as const satisfies readonly ORingRow[];

/** The boss O-ring's number: 9 and the dash in two figures. -904 is the 1/4 in tube's. Source: navy-14105 chapter 7. */
export const bossORingNumber = (dash: number): string => `9${String(dash).padStart(2, '0')}`;

/** Face-seal rings, recalled: inside diameter and section [in] by dash. */
const faceORings = [
  { dash: 4, idIn: 0.301, sectionIn: 0.07 },
  { dash: 6, idIn: 0.364, sectionIn: 0.07 },
  { dash: 8, idIn: 0.489, sectionIn: 0.07 },
  { dash: 10, idIn: 0.614, sectionIn: 0.07 },
  { dash: 12, idIn: 0.739, sectionIn: 0.07 },
  { dash: 16, idIn: 0.926, sectionIn: 0.07 },
  { dash: 20, idIn: 1.176, sectionIn: 0.07 },
  { dash: 24, idIn: 1.489, sectionIn: 0.07 },
] as const;

const mm = (inches: number): number => Number(mmFromInches(inches).toFixed(2));

const bossRows: readonly SealRow[] = bossORings.map((r) => ({
  id: `o-ring-${bossORingNumber(r.dash)}`,
  name: `O-ring ${bossORingNumber(r.dash)} for a -${r.dash} boss, rubber to suit fluid and heat`,
  kind: 'o-ring',
  size: `-${r.dash}`,
  idMm: mm(r.idIn),
  sectionMm: mm(r.sectionIn),
  source: r.source,
  measure: true,
}));

const faceRows: readonly SealRow[] = faceORings.map((r) => ({
  id: `o-ring-face-${r.dash}`,
  name: `O-ring for a -${r.dash} face seal`,
  kind: 'o-ring',
  size: `-${r.dash} face seal`,
  idMm: mm(r.idIn),
  sectionMm: mm(r.sectionIn),
  source: 'from-memory',
  measure: true,
}));

/** Ring under a metric stud: bore about the thread less 1.9 mm, section 1.6 to 2.9; recalled, by size. */
const metricSection = (major: number): number => (major <= 10 ? 1.6 : major <= 18 ? 2.2 : 2.9);
const metricRows: readonly SealRow[] = metricORingPorts.map((p) => ({
  id: `o-ring-${p.thread.toLowerCase()}`,
  name: `O-ring for an ${p.thread} port`,
  kind: 'o-ring',
  size: p.thread,
  idMm: Number((p.majorMm - 1.9).toFixed(1)),
  sectionMm: metricSection(p.majorMm),
  source: 'from-memory',
  measure: true,
}));

const washerRows: readonly SealRow[] = metricWasherPorts.map((p) => ({
  id: `washer-${p.thread.toLowerCase()}`,
  name: `sealing washer ${p.thread}, copper, aluminium or bonded`,
  kind: 'soft-washer',
  size: p.thread,
  idMm: p.majorMm + 0.2,
  sectionMm: 1.5,
  source: 'common-practice',
  measure: true,
}));

const bondedRows: readonly SealRow[] = parallelPipes.map((p) => ({
  id: `washer-g${p.pipe.replace('/', '-')}`,
  name: `bonded washer G ${p.pipe}`,
  kind: 'bonded-washer',
  size: `G ${p.pipe}`,
  idMm: Number((p.majorMm + 0.6).toFixed(1)),
  sectionMm: 2,
  source: 'from-memory',
  measure: true,
}));

const others: readonly SealRow[] = [
  {
    id: 'gasket-flange2',
    name: 'gasket for the two-bolt flange',
    kind: 'gasket',
    size: 'as the flange',
    idMm: 0,
    sectionMm: 1,
    source: 'common-practice',
    measure: true,
  },
  {
    id: 'thread-sealant',
    name: 'thread sealant for taper pipe, fit for oil and fuel; no tape in an oil system',
    kind: 'thread-sealant',
    size: 'any',
    idMm: 0,
    sectionMm: 0,
    source: 'common-practice',
    measure: false,
  },
];

/** Sizes of hose that crushed-collar ends are listed for. */
const collarDashes = [3, 4, 6, 8, 10, 12, 16, 20] as const;

/** The collar that is crushed onto the liner: new with a new end, and new again each time the end is put on. */
export const collarId = (dash: number): string => `collar-ptfe-${dash}`;

const collarRows: readonly SealRow[] = collarDashes.map((dash) => ({
  id: collarId(dash),
  name: `collar for a -${dash} crushed-collar end; a new end comes with one`,
  kind: 'collar',
  size: `-${dash}`,
  idMm: 0,
  sectionMm: 0,
  source: 'common-practice',
  measure: true,
}));

export const builtInSeals: readonly SealRow[] = [
  ...bossRows,
  ...faceRows,
  ...metricRows,
  ...washerRows,
  ...bondedRows,
  ...collarRows,
  ...others,
];
