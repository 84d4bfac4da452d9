import type { End } from './end.ts';
import {
  adapterDashes,
  elbow,
  female,
  fittingBoreMm,
  flareEndMm,
  flareHexMm,
  hexHeightMm,
  majorMm,
  male,
  straight,
} from './adapter-parts.ts';
import type { AdapterRow, BulkheadFittingRow } from './rows.ts';

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
export const builtInBulkheadFittings: readonly BulkheadFittingRow[] = adapterDashes.map((dash) => ({
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

/** Neighbouring sizes that stepped coupler hose is sold for [mm]. */
const stepsMm: readonly (readonly [from: number, to: number])[] = [
  [19, 25],
  [25, 32],
  [32, 38],
  [35, 38],
  [38, 45],
  [38, 51],
  [45, 51],
  [45, 57],
  [51, 57],
  [51, 63],
  [57, 63],
  [57, 70],
  [63, 70],
  [63, 76],
  [70, 76],
];
const step = (from: number, to: number): AdapterRow => ({
  ...straight(
    {
      id: `step-${from}-${to}`,
      name: `${from} to ${to} mm silicone step coupler`,
      a: { type: 'hose-bore', odMm: from },
      b: { type: 'hose-bore', odMm: to },
      bodyOdMm: to + 10,
    },
    to,
    100,
    from,
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

/** Fittings between two threaded or clamped ends: reducers, elbows, unions, face seal, flange, joiners, formed hose, tube nuts. */
export const lineAdapters: readonly AdapterRow[] = [
  ...reducers.map(([from, to]) => reducer(from, to)),
  ...adapterDashes.flatMap((d) => [swivelElbow(d, 45), swivelElbow(d, 90)]),
  ...adapterDashes.map(union),
  ...faceSealDashes.map(faceSeal),
  ...([8, 10, 12, 16] as const).map(flange),
  ...spigotMm.map(joiner),
  ...stepsMm.map(([from, to]) => step(from, to)),
  ...spigotMm.flatMap((od) => [formed(od, 45), formed(od, 90)]),
  ...adapterDashes.map(tubeNut),
];
