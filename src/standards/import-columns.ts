/** Columns of a builder's list; text as it stands, numbers in the unit of the name. */
export const textColumns = [
  'table',
  'id',
  'name',
  'family',
  'families',
  'thread',
  'end',
  'a',
  'b',
  'fixing',
  'clock',
  'material',
  'radiusMeasured',
  'fluids',
  'conductive',
  'source',
  'partNumber',
  'supplier',
  'currency',
] as const;

export const numberColumns = [
  'dash',
  'threadOdMm',
  'boreMm',
  'odMm',
  'wallMm',
  'minBendRadiusMm',
  'bendRadiusMm',
  'pressureBar',
  'vacuumBar',
  'minC',
  'maxC',
  'angleDeg',
  'nutMm',
  'afterBendMm',
  'socketMm',
  'socketOdMm',
  'neckOdMm',
  'nutHexMm',
  'insertMm',
  'cutFactorMm',
  'hexMm',
  'bodyOdMm',
  'lengthMm',
  'aLegMm',
  'bLegMm',
  'minStraightMm',
  'clampStraightMm',
  'supportMm',
  'price',
] as const;

export type TextColumn = (typeof textColumns)[number];
export type NumberColumn = (typeof numberColumns)[number];
export const importColumns: readonly string[] = [...textColumns, ...numberColumns];

/** The tables that a list may fill, as its `table` column names them. */
export const importTables = ['hose', 'hose-end', 'adapter', 'tube'] as const;
export type ImportTable = (typeof importTables)[number];
