/** Terms of the series stop where they are below this share of the sum. */
const LEAST_SHARE = 1e-14;
const MOST_TERMS = 2000;

/**
 * Effectiveness of a cross-flow core, neither stream mixed: a radiator with fins between its tubes.
 *
 *     eff = 1/(Cr N) sum_n [1 - e^-N sum_(m<=n) N^m/m!] [1 - e^(-Cr N) sum_(m<=n) (Cr N)^m/m!]
 *
 * @param ntu - N = UA/Cmin [-]
 * @param capacityRatio - Cr = Cmin/Cmax [-]; 0: one stream keeps its temperature
 * @returns heat given off over the most that could be [-]
 * @valid 0 <= ntu <= 200; 0 <= capacityRatio <= 1
 * @source mason-1955
 * @example crossFlowEffectiveness(2, 0.75) // 0.67108
 */
export function crossFlowEffectiveness(ntu: number, capacityRatio: number): number {
  if (ntu <= 0) return 0;
  if (capacityRatio < 1e-9) return -Math.expm1(-ntu);
  const other = capacityRatio * ntu;
  let [termA, termB] = [Math.exp(-ntu), Math.exp(-other)];
  let [headA, headB] = [termA, termB];
  let sum = 0;
  for (let n = 0; n < MOST_TERMS; n++) {
    const step = Math.max(0, 1 - headA) * Math.max(0, 1 - headB);
    sum += step;
    // The terms fall once n is past both exponents; before, none may be the last.
    if (n > ntu && step < LEAST_SHARE * sum) break;
    termA *= ntu / (n + 1);
    termB *= other / (n + 1);
    headA += termA;
    headB += termB;
  }
  return sum / other;
}

/**
 * The handbooks' short form of the same; up to 2 % high. A check, not used in the work.
 *
 *     eff = 1 - exp(N^0.22/Cr (exp(-Cr N^0.78) - 1))
 *
 * @param ntu - [-]
 * @param capacityRatio - [-], above 0
 * @returns effectiveness [-]
 * @valid 0 < ntu <= 200; 0 < capacityRatio <= 1
 * @source heat-exchanger-handbook
 * @example crossFlowEffectivenessShort(2, 0.75) // 0.6752
 */
export const crossFlowEffectivenessShort = (ntu: number, capacityRatio: number): number =>
  1 - Math.exp((ntu ** 0.22 / capacityRatio) * Math.expm1(-capacityRatio * ntu ** 0.78));

/**
 * Effectiveness of counterflow: the most that any arrangement can give.
 *
 *     eff = (1 - exp(-N (1 - Cr)))/(1 - Cr exp(-N (1 - Cr)));  N/(1 + N) at Cr = 1
 *
 * @param ntu - [-]
 * @param capacityRatio - [-]
 * @returns effectiveness [-]
 * @valid 0 <= ntu <= 200; 0 <= capacityRatio <= 1
 * @source heat-exchanger-handbook
 * @example counterFlowEffectiveness(3, 1) // 0.75
 */
export function counterFlowEffectiveness(ntu: number, capacityRatio: number): number {
  if (1 - capacityRatio < 1e-9) return ntu / (1 + ntu);
  const drop = Math.exp(-ntu * (1 - capacityRatio));
  return (1 - drop) / (1 - capacityRatio * drop);
}

/**
 * Effectiveness of parallel flow.
 *
 *     eff = (1 - exp(-N (1 + Cr)))/(1 + Cr)
 *
 * @param ntu - [-]
 * @param capacityRatio - [-]
 * @returns effectiveness [-]
 * @valid 0 <= ntu <= 200; 0 <= capacityRatio <= 1
 * @source heat-exchanger-handbook
 * @example parallelFlowEffectiveness(3, 1) // 0.49876
 */
export const parallelFlowEffectiveness = (ntu: number, capacityRatio: number): number =>
  -Math.expm1(-ntu * (1 + capacityRatio)) / (1 + capacityRatio);

/**
 * Effectiveness of cross-flow with one stream mixed.
 *
 *     the lesser mixed: eff = 1 - exp(-(1 - exp(-Cr N))/Cr);  the greater mixed: eff = (1 - exp(-Cr (1 - exp(-N))))/Cr
 *
 * @param ntu - [-]
 * @param capacityRatio - [-], above 0
 * @param mixed - which stream is mixed: that of the lesser or of the greater capacity [-]
 * @returns effectiveness [-]
 * @valid 0 <= ntu <= 200; 0 < capacityRatio <= 1
 * @source heat-exchanger-handbook
 * @example crossFlowMixedEffectiveness(2, 0.75, 'greater') // 0.63623
 */
export const crossFlowMixedEffectiveness = (ntu: number, capacityRatio: number, mixed: 'lesser' | 'greater'): number =>
  mixed === 'greater'
    ? -Math.expm1(capacityRatio * Math.expm1(-ntu)) / capacityRatio
    : -Math.expm1(Math.expm1(-capacityRatio * ntu) / capacityRatio);

/** More transfer units than this are more than a number can tell from all. */
const MOST_NTU = 200;
const HALVINGS = 60;

/** Transfer units that give this effectiveness; undefined where no number of them does. */
export function ntuOfEffectiveness(wanted: number, of: (ntu: number) => number): number | undefined {
  if (!(wanted > 0) || of(MOST_NTU) < wanted) return undefined;
  let [low, high] = [0, MOST_NTU];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (of(middle) < wanted) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
