import {
  adapterDashes,
  bossHex,
  elbow,
  fittingBoreMm,
  flareEndMm,
  flareHexMm,
  hexHeightMm,
  majorMm,
  male,
  pipeBody,
  sizeId,
  straight,
} from './adapter-parts.ts';
import type { AdapterRow } from './rows.ts';

/** Boss to hose sizes that are sold in one piece beside the same-size ones. */
const bossJumps: readonly (readonly [boss: number, flare: number])[] = [
  [4, 3],
  [4, 6],
  [6, 4],
  [6, 8],
  [8, 6],
  [8, 10],
  [10, 8],
  [10, 12],
  [12, 10],
  [12, 16],
  [16, 12],
  [16, 20],
  [20, 16],
];

const boss = (from: number, to: number): AdapterRow => {
  const hexMm = Math.max(bossHex(from), flareHexMm(to));
  return straight(
    {
      id: `boss-${from}-flare-${to}`,
      name: `-${from} O-ring boss to -${to} 37-degree male, straight`,
      a: { type: 'orb-stud', dash: from },
      b: male(to),
    },
    hexMm,
    hexHeightMm(hexMm) + flareEndMm(to),
    Math.min(fittingBoreMm(from), fittingBoreMm(to)),
  );
};

const bossElbow = (dash: number, angleDeg: 45 | 90): AdapterRow => {
  const hexMm = Math.max(bossHex(dash), flareHexMm(dash));
  const turn = angleDeg === 90 ? 0.8 : 0.5;
  return elbow(
    {
      id: `boss-${dash}-flare-${dash}-${angleDeg}`,
      name: `-${dash} O-ring boss to -${dash} 37-degree male, ${angleDeg} degrees, locknut`,
      a: { type: 'orb-stud', dash },
      b: male(dash),
    },
    angleDeg,
    [12 + turn * majorMm(dash) + 4, flareEndMm(dash) + turn * majorMm(dash)],
    hexMm,
    fittingBoreMm(dash),
    'locknut',
  );
};

const taperPairs: readonly (readonly [pipe: string, dash: number])[] = [
  ['1/8', 3],
  ['1/8', 4],
  ['1/8', 6],
  ['1/4', 4],
  ['1/4', 6],
  ['1/4', 8],
  ['3/8', 6],
  ['3/8', 8],
  ['3/8', 10],
  ['1/2', 8],
  ['1/2', 10],
  ['1/2', 12],
  ['3/4', 10],
  ['3/4', 12],
  ['3/4', 16],
  ['1', 16],
];

function taper(pipe: string, dash: number): readonly AdapterRow[] {
  const body = pipeBody[pipe];
  if (body === undefined) return [];
  const hexMm = Math.max(body.odMm + 2, flareHexMm(dash) - 2);
  const boreMm = Math.min(body.boreMm, fittingBoreMm(dash));
  const ends = { a: { type: 'npt-male', pipe } as const, b: male(dash) };
  const id = `taper-${sizeId(pipe)}-flare-${dash}`;
  const name = `${pipe} taper pipe to -${dash} 37-degree male`;
  const line = straight(
    { id, name: `${name}, straight`, ...ends },
    hexMm,
    body.proudMm + hexHeightMm(hexMm) + flareEndMm(dash),
    boreMm,
  );
  const turn = Math.max(majorMm(dash), body.odMm);
  const bent = ([45, 90] as const).map((angleDeg) => {
    const share = angleDeg === 90 ? 0.8 : 0.5;
    return elbow(
      { id: `${id}-${angleDeg}`, name: `${name}, ${angleDeg} degrees`, ...ends },
      angleDeg,
      [body.proudMm + share * turn + 4, flareEndMm(dash) + share * majorMm(dash)],
      hexMm,
      boreMm,
      'taper',
    );
  });
  return [line, ...bent];
}

const sameSize = adapterDashes.map((d) => boss(d, d));

/** O-ring boss studs to 37-degree males: same size, the usual jumps, and elbows with a locknut. */
export const bossAdapters: readonly AdapterRow[] = [
  ...sameSize,
  ...bossJumps.map(([from, to]) => boss(from, to)),
  ...adapterDashes.flatMap((d) => [bossElbow(d, 45), bossElbow(d, 90)]),
];

/** Taper pipe males to 37-degree males, straight and elbows. */
export const taperAdapters: readonly AdapterRow[] = taperPairs.flatMap(([p, d]) => taper(p, d));
