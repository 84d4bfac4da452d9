import { adviceFor } from './bay-advice.ts';
import type { BayAir } from './bay-air-answer.ts';
import type { BayAirAsk } from './bay-air-ask.ts';
import { bayFindings } from './bay-findings.ts';
import { readyBay } from './ready-bay.ts';
import { settledAir } from './settled-air.ts';
import { toldAir } from './told-air.ts';

/** Temperature, flows and directions of a bay's air: mass and heat balance. */
export function bayAir(ask: BayAirAsk): BayAir {
  const ready = readyBay(ask);
  const settled = settledAir(ready);
  const answer = toldAir(ready, settled);
  if (ask.advises !== true) return answer;
  const advice = adviceFor(ready, answer);
  return { ...answer, ...(advice === undefined ? {} : { advice }), findings: bayFindings(ready, answer, advice) };
}
