import type { BayAdvice, BayAir } from './bay-air-answer.ts';
import type { BayOpening } from './bay-space.ts';
import type { ReadyBay } from './ready-bay.ts';
import { settledAir } from './settled-air.ts';

/** Bay air that areas are wanted for where nobody says otherwise [degC]: what looms and silicone live with. Source: common-practice. */
export const USUAL_WANT_C = 90;
/** What one more opening is told in [m2]. */
const MORE_M2 = 0.005;
/** No panel is opened further than this many times [-], and how near the area is told [-]. */
const MOST_TIMES = 64;
const NEAR = 0.005;

/** What more area would do at each opening; and, where the bay is hotter than wanted, the area that each panel would want for it. */
export function adviceFor(ready: ReadyBay, air: BayAir): BayAdvice | undefined {
  if (air.how !== 'worked out' || air.unsettled !== undefined || ready.open.length === 0) return undefined;
  const wantC = ready.ask.wantC ?? USUAL_WANT_C;
  const airWith = (areaOf: (row: BayOpening) => number) => settledAir({ ...ready, areaOf }).at.airC;
  return {
    wantC,
    per50Cm2: ready.open.map((row) => ({
      opening: row.opening,
      name: row.name,
      changeK: airWith((other) => other.areaM2 + (other === row ? MORE_M2 / share(row) : 0)) - air.airC,
    })),
    wanted: air.airC <= wantC ? [] : panelsOf(ready).map((panel) => wantedOf(ready, panel, wantC, airWith)),
  };
}

/** Fifty square centimetres free: the mesh that is there counts. */
const share = (row: BayOpening): number => row.mesh?.openShare ?? 1;

const panelsOf = ({ open }: ReadyBay): readonly string[] => [
  ...new Set(open.flatMap(({ panel, opening }) => (panel === undefined || panel === opening ? [] : [panel]))),
];

function wantedOf(
  { open }: ReadyBay,
  panel: string,
  wantC: number,
  airWith: (areaOf: (row: BayOpening) => number) => number,
): BayAdvice['wanted'][number] {
  const own = open.filter((row) => row.panel === panel);
  const freeCm2 = own.reduce((sum, row) => sum + row.areaM2 * share(row), 0) * 1e4;
  const airAt = (times: number) => airWith((row) => row.areaM2 * (row.panel === panel ? times : 1));
  let [low, high] = [1, 2];
  while (airAt(high) > wantC) {
    if (high >= MOST_TIMES) return { panel, name: panel, freeCm2, wantCm2: null };
    [low, high] = [high, high * 2];
  }
  while (high / low > 1 + NEAR) {
    const times = Math.sqrt(low * high);
    if (airAt(times) > wantC) low = times;
    else high = times;
  }
  return { panel, name: panel, freeCm2, wantCm2: high * freeCm2 };
}
