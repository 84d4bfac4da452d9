import {
  elbow,
  fittingBoreMm,
  flareEndMm,
  flareHexMm,
  hexHeightMm,
  male,
  pipeBody,
  sizeId,
  straight,
} from './adapter-parts.ts';
import type { AdapterRow } from './rows.ts';

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

function metricStud(type: 'metric-washer-stud' | 'metric-orb-stud', thread: string, dash: number): AdapterRow {
  const hexMm = Math.max(metricMajor(thread) + 5, flareHexMm(dash));
  const washer = type === 'metric-washer-stud';
  return straight(
    {
      id: `${washer ? 'washer' : 'metric-o-ring'}-${sizeId(thread)}-flare-${dash}`,
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
      id: `banjo-${sizeId(thread)}-flare-${dash}`,
      name: `${thread} banjo with bolt to -${dash} 37-degree male`,
      a: { type: 'metric-washer-stud', thread },
      b: male(dash),
      seals: [{ id: `washer-${sizeId(thread)}`, qty: 1 }],
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
  const body = pipeBody[pipe];
  const od = body?.odMm ?? 10;
  const hexMm = Math.max(od + 6, flareHexMm(dash));
  return straight(
    {
      id: `parallel-${sizeId(pipe)}-flare-${dash}`,
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
      id: `inverted-${sizeId(thread)}-flare-${dash}`,
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
      id: `pipe-nut-${sizeId(thread)}-${odMm}`,
      name: `${thread} inverted-flare nut on ${odMm} mm pipe, double flare`,
      a: { type: 'inverted-flare-nut', thread },
      b: { type: 'tube-socket', odMm },
    },
    10,
    10,
    odMm - 1.8,
  );

/** Metric studs sealed by a washer, to 37-degree males. */
export const washerAdapters: readonly AdapterRow[] = metricPairs.map(([t, d]) =>
  metricStud('metric-washer-stud', t, d),
);

/** Every other stud for a metric, parallel-pipe or inverted-flare port. */
export const metricAdapters: readonly AdapterRow[] = [
  ...metricPairs.map(([t, d]) => metricStud('metric-orb-stud', t, d)),
  ...banjoPairs.map(([t, d]) => banjo(t, d)),
  ...pipePairs.map(([p, d]) => parallelStud(p, d)),
  ...(['M10x1', '3/8-24'] as const).map((t) => inverted(t, 3)),
  ...(['M10x1', '7/16-24', 'M12x1'] as const).map((t) => inverted(t, 4)),
  ...pipeNuts.map(pipeNut),
];
