import { add, scale, sub, type Vec } from '#geometry';
import { type Chain, chainRun } from './chain.ts';
import { footOnAxis, pinRadius } from './crank.ts';

const DEG = 180 / Math.PI;

/** A chain with the first arm made longer or shorter along itself. */
function withArm(chain: Chain, factor: number): Chain {
  const [first, ...rest] = chain.joints;
  if (first === undefined) return chain;
  const foot = footOnAxis(first.from, first.fromPinMm);
  const pin: Vec = add(foot, scale(sub(first.fromPinMm, foot), factor));
  return { ...chain, joints: [{ ...first, fromPinMm: pin }, ...rest] };
}

/** Places looked at either way, and times the arm is halved in on: a travel to a tenth of a degree. */
const STEPS = 12;
const HALVINGS = 20;

/** Arms from a fifth to five times as long are tried. */
const FACTORS = [0.2, 5] as const;

/** How much longer the first arm must be for the whole travel at the end: by halving, the chain run each time. */
export function armFactorFor(
  chain: Chain,
  wantedDeg: readonly [number, number],
): { readonly factor: number; readonly wasMm: number; readonly fromMm: number; readonly farMm: number } | undefined {
  const first = chain.joints[0];
  const last = chain.joints.at(-1);
  if (first === undefined || last === undefined) return undefined;
  const wanted = wantedDeg[1] - wantedDeg[0];
  const turned = (factor: number): number | undefined => {
    const run = chainRun(withArm(chain, factor), STEPS);
    if (run.states.length === 0 || run.locks.length > 0) return undefined;
    const turns = run.states.map((state) => (state.joints.at(-1)?.toRad ?? 0) * DEG);
    return Math.max(...turns) - Math.min(...turns);
  };
  let [low, high]: [number, number] = [...FACTORS];
  const least = turned(low);
  if (least === undefined || least > wanted) return undefined;
  for (let k = 0; k < HALVINGS; k++) {
    const middle = (low + high) / 2;
    const at = turned(middle);
    if (at === undefined || at > wanted) high = middle;
    else low = middle;
  }
  const got = turned(low);
  if (got === undefined || Math.abs(got - wanted) > 1) return undefined;
  const wasMm = pinRadius(first.from, first.fromPinMm);
  return { factor: low, wasMm, fromMm: wasMm * low, farMm: pinRadius(last.to, last.toPinMm) };
}
