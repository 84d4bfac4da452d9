import type { End } from './end.ts';
import type { AdapterRow, BulkheadFittingRow } from './rows.ts';
import {
  bossHex,
  elbow,
  fittingBoreMm,
  flareEndMm,
  flareHexMm,
  hexHeightMm,
  majorMm,
  straight,
} from './adapter-parts.ts';

const dashes = [3, 4, 6, 8, 10, 12, 16, 20] as const;
const male = (dash: number): End => ({ type: 'flare37-male', dash });
const female = (dash: number): End => ({ type: 'flare37-female', dash });
const pipeId = (pipe: string): string => pipe.replace('/', '-');

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
/** Outside of the pipe thread, how much of it stays outside when tight, and the usual bore [mm]; recalled. */
const taperBody: Readonly<Record<string, { odMm: number; proudMm: number; boreMm: number }>> = {
  '1/8': { odMm: 10.3, proudMm: 3, boreMm: 5 },
  '1/4': { odMm: 13.7, proudMm: 4, boreMm: 8 },
  '3/8': { odMm: 17.1, proudMm: 4, boreMm: 11 },
  '1/2': { odMm: 21.3, proudMm: 5, boreMm: 14 },
  '3/4': { odMm: 26.7, proudMm: 5, boreMm: 19 },
  '1': { odMm: 33.4, proudMm: 6, boreMm: 24 },
};

function taper(pipe: string, dash: number): readonly AdapterRow[] {
  const body = taperBody[pipe];
  if (body === undefined) return [];
  const hexMm = Math.max(body.odMm + 2, flareHexMm(dash) - 2);
  const boreMm = Math.min(body.boreMm, fittingBoreMm(dash));
  const ends = { a: { type: 'npt-male', pipe } as const, b: male(dash) };
  const id = `taper-${pipeId(pipe)}-flare-${dash}`;
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

/** Drilled restrictors sold for turbo feeds [mm]. */
const restrictorsMm = [1, 1.2, 1.5] as const;
const restricted = (row: AdapterRow): readonly AdapterRow[] =>
  restrictorsMm.map((mm) => ({
    ...row,
    id: `${row.id}-restrictor-${mm}`,
    name: `${row.name}, with ${mm} mm restrictor`,
    boreMm: mm,
    restrictorMm: mm,
  }));

const metricPairs: readonly (readonly [thread: string, dash: number])[] = [
  ['M10x1', 3],
  ['M10x1', 4],
  ['M12x1.5', 4],
  ['M12x1.5', 6],
  ['M14x1.5', 4],
  ['M14x1.5', 6],
  ['M16x1.5', 6],
  ['M16x1.5', 8],
  ['M18x1.5', 6],
  ['M18x1.5', 8],
  ['M18x1.5', 10],
  ['M22x1.5', 8],
  ['M22x1.5', 10],
  ['M22x1.5', 12],
];
const metricMajor = (thread: string): number => Number(/\d+/u.exec(thread)?.[0] ?? 0);
const metricId = (thread: string): string => thread.toLowerCase();

function metricStud(type: 'metric-washer-stud' | 'metric-orb-stud', thread: string, dash: number): AdapterRow {
  const hexMm = Math.max(metricMajor(thread) + 5, flareHexMm(dash));
  const washer = type === 'metric-washer-stud';
  return straight(
    {
      id: `${washer ? 'washer' : 'metric-o-ring'}-${metricId(thread)}-flare-${dash}`,
      name: `${thread} stud (${washer ? 'sealing washer' : 'O-ring'}) to -${dash} 37-degree male, straight`,
      a: { type, thread },
      b: male(dash),
    },
    hexMm,
    (washer ? 1.5 : 0) + hexHeightMm(hexMm) + flareEndMm(dash),
    Math.min(metricMajor(thread) * 0.55, fittingBoreMm(dash)),
  );
}

const banjoPairs: readonly (readonly [thread: string, dash: number])[] = [
  ['M10x1', 3],
  ['M10x1', 4],
  ['M12x1.5', 4],
  ['M12x1.5', 6],
  ['M14x1.5', 6],
  ['M16x1.5', 8],
  ['M18x1.5', 8],
  ['M18x1.5', 10],
];

/** A banjo on its hollow bolt: the leg from the port's face to the eye's centre holds one washer; the second washer is under the bolt's head. */
function banjo(thread: string, dash: number): AdapterRow {
  const major = metricMajor(thread);
  const eyeMm = major * 1.9;
  return elbow(
    {
      id: `banjo-${metricId(thread)}-flare-${dash}`,
      name: `${thread} banjo with bolt to -${dash} 37-degree male`,
      a: { type: 'metric-washer-stud', thread },
      b: male(dash),
      seals: [{ id: `washer-${metricId(thread)}`, qty: 1 }],
      bodyOdMm: Number(eyeMm.toFixed(2)),
    },
    90,
    [1.5 + major * 0.55, eyeMm / 2 + 3 + flareEndMm(dash)],
    major + 5,
    major * 0.35,
    'banjo',
  );
}

const pipePairs: readonly (readonly [pipe: string, dash: number])[] = [
  ['1/8', 3],
  ['1/8', 4],
  ['1/4', 4],
  ['1/4', 6],
  ['3/8', 6],
  ['3/8', 8],
  ['1/2', 8],
  ['1/2', 10],
  ['3/4', 12],
  ['1', 16],
];

const parallelStud = (pipe: string, dash: number): AdapterRow => {
  const body = taperBody[pipe];
  const od = body?.odMm ?? 10;
  const hexMm = Math.max(od + 6, flareHexMm(dash));
  return straight(
    {
      id: `parallel-${pipeId(pipe)}-flare-${dash}`,
      name: `G ${pipe} parallel stud (bonded washer) to -${dash} 37-degree male, straight`,
      a: { type: 'bspp-stud', pipe },
      b: male(dash),
    },
    hexMm,
    2 + hexHeightMm(hexMm) + flareEndMm(dash),
    Math.min(body?.boreMm ?? 4, fittingBoreMm(dash)),
  );
};

const inverted = (thread: string, dash: number): AdapterRow =>
  straight(
    {
      id: `inverted-${metricId(thread).replace('/', '-')}-flare-${dash}`,
      name: `${thread} inverted-flare male to -${dash} 37-degree male, straight`,
      a: { type: 'inverted-flare-nut', thread },
      b: male(dash),
    },
    12.7,
    8 + flareEndMm(dash),
    3,
  );

/** A pipe nut on a double-flared hard pipe; its nose is the port's seat, so it adds no length to speak of. */
const pipeNuts: readonly (readonly [thread: string, odMm: number])[] = [
  ['M10x1', 4.75],
  ['3/8-24', 4.75],
  ['7/16-24', 6.35],
  ['M12x1', 6],
];
const pipeNut = ([thread, odMm]: readonly [string, number]): AdapterRow =>
  straight(
    {
      id: `pipe-nut-${metricId(thread).replace('/', '-')}-${odMm}`,
      name: `${thread} inverted-flare nut on ${odMm} mm pipe, double flare`,
      a: { type: 'inverted-flare-nut', thread },
      b: { type: 'tube-socket', odMm },
    },
    10,
    10,
    odMm - 1.8,
  );

const reducers: readonly (readonly [from: number, to: number])[] = [
  [4, 3],
  [6, 4],
  [8, 6],
  [10, 8],
  [12, 10],
  [12, 8],
  [16, 12],
  [16, 10],
  [20, 16],
  [3, 4],
  [4, 6],
  [6, 8],
  [8, 10],
  [10, 12],
  [12, 16],
  [16, 20],
];

const reducer = (from: number, to: number): AdapterRow => {
  const hexMm = Math.max(flareHexMm(from), flareHexMm(to));
  return straight(
    {
      id: `reducer-${from}-${to}`,
      name: `-${from} 37-degree female swivel to -${to} 37-degree male`,
      a: female(from),
      b: male(to),
      clock: 'none',
    },
    hexMm,
    flareEndMm(from) + 4 + flareEndMm(to),
    Math.min(fittingBoreMm(from), fittingBoreMm(to)),
  );
};

const swivelElbow = (dash: number, angleDeg: 45 | 90): AdapterRow => {
  const share = angleDeg === 90 ? 0.8 : 0.5;
  return elbow(
    {
      id: `swivel-${dash}-${angleDeg}`,
      name: `-${dash} 37-degree swivel elbow, ${angleDeg} degrees, female to male`,
      a: female(dash),
      b: male(dash),
    },
    angleDeg,
    [flareEndMm(dash) + share * majorMm(dash), flareEndMm(dash) + share * majorMm(dash)],
    flareHexMm(dash),
    fittingBoreMm(dash),
    'swivel',
  );
};

const union = (dash: number): AdapterRow =>
  straight(
    { id: `union-${dash}`, name: `-${dash} 37-degree union, male to male`, a: male(dash), b: male(dash) },
    flareHexMm(dash),
    2 * flareEndMm(dash) + hexHeightMm(flareHexMm(dash)),
    fittingBoreMm(dash),
  );

/** Panels up to 10 mm; the hole passes the thread with half a millimetre [mm]. */
export const builtInBulkheadFittings: readonly BulkheadFittingRow[] = dashes.map((dash) => ({
  ...straight(
    { id: `bulkhead-${dash}`, name: `-${dash} 37-degree bulkhead union with locknut`, a: male(dash), b: male(dash) },
    flareHexMm(dash),
    2 * flareEndMm(dash) + hexHeightMm(flareHexMm(dash)) + 18,
    fittingBoreMm(dash),
  ),
  panelMaxMm: 10,
  holeMm: Number((majorMm(dash) + 0.5).toFixed(1)),
}));

const faceSealDashes = [4, 6, 8, 10, 12, 16, 20] as const;
const faceSeal = (dash: number): AdapterRow =>
  straight(
    {
      id: `face-seal-${dash}-flare-${dash}`,
      name: `-${dash} O-ring face-seal swivel to -${dash} 37-degree male`,
      a: { type: 'face-seal-swivel', dash },
      b: male(dash),
    },
    flareHexMm(dash) + 3,
    10 + 4 + flareEndMm(dash),
    fittingBoreMm(dash),
  );

const flange = (dash: number): AdapterRow =>
  straight(
    {
      id: `flange2-${dash}-flare-${dash}`,
      name: `two-bolt flange foot to -${dash} 37-degree male, straight`,
      a: { type: 'flange2-foot', dash },
      b: male(dash),
      bodyOdMm: Number((majorMm(dash) * 2.2).toFixed(1)),
    },
    majorMm(dash) + 4,
    10 + flareEndMm(dash),
    fittingBoreMm(dash),
  );

/** Bores of tube and coupler hose that joiners are sold for [mm]. */
const spigotMm = [19, 25, 32, 35, 38, 45, 51, 57, 63, 70, 76] as const;
const joiner = (od: number): AdapterRow => ({
  ...straight(
    {
      id: `joiner-${od}`,
      name: `${od} mm beaded joiner`,
      a: { type: 'bead', odMm: od },
      b: { type: 'bead', odMm: od },
      bodyOdMm: od + 3,
    },
    od,
    80,
    od - 3,
  ),
  hexMm: 0,
});

/** Formed silicone elbow: legs run from the hose's mouth to the corner where their axes meet. */
function formed(od: number, angleDeg: 45 | 90): AdapterRow {
  const radius = 1.5 * od;
  const leg = 60 + radius * Math.tan((angleDeg * Math.PI) / 360);
  const mouth: End = { type: 'hose-bore', odMm: od };
  return {
    ...elbow(
      {
        id: `formed-${od}-${angleDeg}`,
        name: `${od} mm silicone elbow, ${angleDeg} degrees`,
        a: mouth,
        b: mouth,
        bodyOdMm: od + 10,
      },
      angleDeg,
      [leg, leg],
      od,
      od,
      'swivel',
    ),
    hexMm: 0,
    bendRadiusMm: radius,
  };
}

/** Tube OD of the hard tube behind a nut and sleeve, by dash. */
const tubeNut = (dash: number): AdapterRow =>
  straight(
    {
      id: `tube-nut-${dash}`,
      name: `-${dash} tube nut and sleeve, 37-degree flare on the tube`,
      a: female(dash),
      b: { type: 'tube-socket', odMm: Number(((dash * 25.4) / 16).toFixed(2)) },
    },
    flareHexMm(dash),
    flareEndMm(dash) + 6,
    fittingBoreMm(dash),
  );

const sameBoss = dashes.map((d) => boss(d, d));
const metricWasher = metricPairs.map(([t, d]) => metricStud('metric-washer-stud', t, d));
const taperRows = taperPairs.flatMap(([p, d]) => taper(p, d));
const forTurboFeed = [...sameBoss, ...metricWasher, ...taperRows].filter(
  (r) => r.angleDeg === 0 && r.b.dash !== undefined && r.b.dash <= 4,
);

/** Every adapter the tool knows by itself: kinds that the trade sells in one piece, usual dimensions, to be measured. */
export const builtInAdapters: readonly AdapterRow[] = [
  ...sameBoss,
  ...bossJumps.map(([from, to]) => boss(from, to)),
  ...dashes.flatMap((d) => [bossElbow(d, 45), bossElbow(d, 90)]),
  ...taperRows,
  ...metricWasher,
  ...metricPairs.map(([t, d]) => metricStud('metric-orb-stud', t, d)),
  ...banjoPairs.map(([t, d]) => banjo(t, d)),
  ...pipePairs.map(([p, d]) => parallelStud(p, d)),
  ...(['M10x1', '3/8-24'] as const).map((t) => inverted(t, 3)),
  ...(['M10x1', '7/16-24', 'M12x1'] as const).map((t) => inverted(t, 4)),
  ...pipeNuts.map(pipeNut),
  ...reducers.map(([from, to]) => reducer(from, to)),
  ...dashes.flatMap((d) => [swivelElbow(d, 45), swivelElbow(d, 90)]),
  ...dashes.map(union),
  ...faceSealDashes.map(faceSeal),
  ...([8, 10, 12, 16] as const).map(flange),
  ...spigotMm.map(joiner),
  ...spigotMm.flatMap((od) => [formed(od, 45), formed(od, 90)]),
  ...dashes.map(tubeNut),
  ...forTurboFeed.flatMap(restricted),
];
