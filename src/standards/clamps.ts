import type { ClampRow, GrommetRow } from './rows.ts';

/** Cushioned P-clips come for each millimetre or so; a clip takes a line up to its size, and 2 mm under by its rubber [mm]. */
const clipSizesMm = [6, 8, 10, 12, 14, 16, 18, 20, 22, 25, 28, 32, 35, 38, 42, 45, 48, 51, 57, 64, 70, 76, 88] as const;

const pClip = (size: number, index: number): ClampRow => ({
  id: `p-clip-${size}`,
  name: `cushioned P-clip for ${size} mm`,
  kind: 'p-clip',
  minOdMm: index === 0 ? size - 2 : (clipSizesMm[index - 1] ?? size - 2),
  maxOdMm: size,
  widthMm: size <= 20 ? 13 : 15,
  standOffMm: size / 2 + 3,
  screw: size <= 16 ? 'M5' : 'M6',
  maxC: 120,
  source: 'common-practice',
  measure: true,
});

const hoseClampSizes = [
  [8, 12],
  [11, 16],
  [16, 22],
  [20, 32],
  [25, 40],
  [32, 50],
  [40, 60],
  [50, 70],
  [60, 80],
  [70, 90],
] as const;

const hoseClamp = ([minOdMm, maxOdMm]: readonly [number, number]): ClampRow => ({
  id: `hose-clamp-${minOdMm}-${maxOdMm}`,
  name: `worm-drive hose clamp ${minOdMm} to ${maxOdMm} mm, lined for silicone`,
  kind: 'hose-clamp',
  minOdMm,
  maxOdMm,
  widthMm: 12,
  standOffMm: 0,
  screw: '7 mm hex',
  maxC: 200,
  source: 'common-practice',
  measure: true,
});

/** Line to line: holds two lines of one size apart [mm]. */
const separatorSizes = [12, 16, 20, 25, 32] as const;
const separator = (size: number): ClampRow => ({
  id: `separator-${size}`,
  name: `two-line separator for ${size} mm`,
  kind: 'line-separator',
  minOdMm: size - 4,
  maxOdMm: size,
  widthMm: 15,
  standOffMm: size / 2 + 4,
  screw: 'M5',
  maxC: 120,
  source: 'common-practice',
  measure: true,
});

export const builtInClamps: readonly ClampRow[] = [
  ...clipSizesMm.map(pClip),
  ...hoseClampSizes.map(hoseClamp),
  ...separatorSizes.map(separator),
];

const grommetSizesMm = [6, 8, 10, 12, 15, 18, 20, 23, 26, 29, 32, 36, 40, 45, 50, 55, 61, 67, 73, 80, 90] as const;

/** A grommet's hole is 6 mm over the line, its lip 6 mm over the hole; common practice, measure it [mm]. */
export const builtInGrommets: readonly GrommetRow[] = grommetSizesMm.map((size, i) => ({
  id: `grommet-${size}`,
  name: `grommet for ${size} mm, close fitting`,
  lineOdMinMm: i === 0 ? size - 2 : (grommetSizesMm[i - 1] ?? size - 2),
  lineOdMaxMm: size,
  holeMm: size + 6,
  panelMaxMm: 3,
  outsideOdMm: size + 12,
  maxC: 120,
  source: 'common-practice',
  measure: true,
}));
