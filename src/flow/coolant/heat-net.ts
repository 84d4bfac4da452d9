/** A way that water takes from one mixing place to another. */
export interface HeatBranch {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  /** Positive from `from` to `to` [m3/s]. */
  readonly flowM3S: number;
  /** Heat put in on the way [W]. */
  readonly heatW?: number;
  /** Heat given off for each kelvin over the air [W/K]. */
  readonly offWPerK?: number;
}

/** Temperatures round a net of water that flows steadily. */
export interface HeatAnswer {
  /** By mixing place [C]. */
  readonly placeC: ReadonlyMap<string, number>;
  /** By branch, in the direction of its flow [C]. */
  readonly branchC: ReadonlyMap<string, { readonly inC: number; readonly outC: number }>;
  /** Put in on the way less given off [W]. */
  readonly branchW: ReadonlyMap<string, number>;
  readonly heatInW: number;
  readonly heatOutW: number;
  /** Largest at any place: what warmth comes in less what goes out [W]. */
  readonly imbalanceW: number;
}

/** Flows below this share of the largest carry no warmth worth a row of equations. */
const STILL_SHARE = 1e-9;

/**
 * Steady temperatures: water carries its warmth along every branch and mixes where branches meet; heat goes in and off on
 * the way. Linear in the temperatures at given flows: solved at once, by elimination with pivoting.
 *
 * @param capacityJM3K - density times specific heat [J/(m3 K)]
 * @returns undefined where heat goes in and none can go off: it has no steady temperature
 */
export function heatNet(branches: readonly HeatBranch[], capacityJM3K: number, airC: number): HeatAnswer | undefined {
  const largest = Math.max(0, ...branches.map(({ flowM3S }) => Math.abs(flowM3S)));
  const live = branches.filter(({ flowM3S }) => Math.abs(flowM3S) > STILL_SHARE * largest);
  const flows = live.map((branch) => {
    const ahead = branch.flowM3S > 0;
    const carried = Math.abs(branch.flowM3S) * capacityJM3K;
    return {
      branch,
      start: ahead ? branch.from : branch.to,
      end: ahead ? branch.to : branch.from,
      carried,
      kept: 1 - Math.min(1, (branch.offWPerK ?? 0) / carried),
      gainedK: (branch.heatW ?? 0) / carried,
    };
  });
  const places = [...new Set(flows.flatMap(({ start, end }) => [start, end]))];
  const row = new Map(places.map((place, i) => [place, i]));
  const n = places.length;
  // Temperatures over the air: sum over what comes in of carried (T kept + gained) = T sum of carried.
  const matrix = places.map(() => new Float64Array(n + 1));
  for (const { start, end, carried, kept, gainedK } of flows) {
    const [s, e] = [row.get(start)!, row.get(end)!];
    matrix[e]![e]! += carried;
    matrix[e]![s]! -= carried * kept;
    matrix[e]![n]! += carried * gainedK;
  }
  // A place that nothing comes into stands at the air's temperature.
  matrix.forEach((line, i) => {
    if (line[i] === 0) line[i] = 1;
  });
  const over = eliminated(matrix);
  if (over === undefined) return undefined;
  return answered(branches, flows, places, over, airC);
}

function answered(
  branches: readonly HeatBranch[],
  flows: readonly {
    readonly branch: HeatBranch;
    readonly start: string;
    readonly end: string;
    readonly carried: number;
    readonly kept: number;
    readonly gainedK: number;
  }[],
  places: readonly string[],
  over: Float64Array,
  airC: number,
): HeatAnswer {
  const overAt = new Map(places.map((place, i) => [place, over[i]!]));
  const branchC = new Map<string, { inC: number; outC: number }>();
  const branchW = new Map<string, number>();
  const into = new Map<string, number>();
  let [heatInW, heatOutW] = [0, 0];
  for (const { branch, start, end, carried, kept, gainedK } of flows) {
    const inK = overAt.get(start)!;
    const outK = inK * kept + gainedK;
    branchC.set(branch.id, { inC: airC + inK, outC: airC + outK });
    branchW.set(branch.id, carried * (outK - inK));
    heatInW += carried * gainedK;
    heatOutW += carried * inK * (1 - kept);
    into.set(end, (into.get(end) ?? 0) + carried * (outK - overAt.get(end)!));
  }
  const placeC = new Map(places.map((place, i) => [place, airC + over[i]!]));
  for (const { id, from, to } of branches) {
    if (branchC.has(id)) continue;
    const still = placeC.get(from) ?? placeC.get(to) ?? airC;
    branchC.set(id, { inC: still, outC: still });
    for (const place of [from, to]) if (!placeC.has(place)) placeC.set(place, still);
  }
  return { placeC, branchC, branchW, heatInW, heatOutW, imbalanceW: Math.max(0, ...[...into.values()].map(Math.abs)) };
}

const SINGULAR_SHARE = 1e-11;

/** Gauss with the largest pivot of each column; the right side is the last column. */
function eliminated(matrix: Float64Array[]): Float64Array | undefined {
  const n = matrix.length;
  const largest = Math.max(0, ...matrix.map((line) => Math.max(...line.subarray(0, n).map(Math.abs))));
  for (let k = 0; k < n; k++) {
    let pivot = k;
    for (let i = k + 1; i < n; i++) if (Math.abs(matrix[i]![k]!) > Math.abs(matrix[pivot]![k]!)) pivot = i;
    if (Math.abs(matrix[pivot]![k]!) <= SINGULAR_SHARE * largest) return undefined;
    [matrix[k], matrix[pivot]] = [matrix[pivot]!, matrix[k]!];
    for (let i = k + 1; i < n; i++) {
      const factor = matrix[i]![k]! / matrix[k]![k]!;
      if (factor !== 0) for (let j = k; j <= n; j++) matrix[i]![j]! -= factor * matrix[k]![j]!;
    }
  }
  const out = new Float64Array(n);
  for (let k = n - 1; k >= 0; k--) {
    let sum = matrix[k]![n]!;
    for (let j = k + 1; j < n; j++) sum -= matrix[k]![j]! * out[j]!;
    out[k] = sum / matrix[k]![k]!;
  }
  return out;
}
