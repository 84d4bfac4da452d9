import type { CaseOf } from '../circuit/circuit-state.ts';
import type { FlowFinding } from '../finding.ts';
import { guides } from '../limits.ts';
import type { TankUnderG } from './tank-answer.ts';

type Rest = Partial<Omit<FlowFinding, 'circuit' | 'code' | 'level' | 'text' | 'source'>>;
/** Puts a finding together. */
export type Say = (
  level: FlowFinding['level'],
  code: string,
  text: string,
  source: FlowFinding['source'],
  rest?: Rest,
) => FlowFinding;

export const litres = (m3: number, digits = 1): string => (m3 * 1000).toFixed(digits);

/** What the numbers of a case rest on. */
export const oilInputs = (asked: CaseOf): NonNullable<FlowFinding['inputs']> => [
  { name: 'engine speed', value: `${asked.at.engineRpm} rpm` },
  { name: 'oil', value: `${asked.temperatureC} °C` },
  {
    name: 'kinematic viscosity',
    value: `${((1e6 * asked.fluid.viscosityPaS) / asked.fluid.densityKgM3).toFixed(1)} cSt`,
  },
  { name: 'density', value: `${asked.fluid.densityKgM3.toFixed(0)} kg/m3` },
];

/** Findings of a circuit, and of one case where it is named. */
export const teller =
  (circuit: string, asked?: CaseOf): Say =>
  (level, code, text, source, rest = {}) => ({
    circuit,
    code,
    level,
    text: asked === undefined ? text : `${asked.at.name ?? asked.at.id}: ${text}`,
    source,
    cures: [],
    ...(asked === undefined ? {} : { case: asked.at.id, inputs: oilInputs(asked) }),
    ...rest,
  });

/** What more oil would do, and whether there is room for it. */
export function moreOil(tank: Pick<TankUnderG, 'holdsM3' | 'runningM3'>, moreM3: number): string {
  const air = (tank.holdsM3 - tank.runningM3 - moreM3) * 1000;
  return air >= guides.tankAir.value
    ? `${litres(moreM3)} L more oil: covered, ${air.toFixed(1)} L of air left over it`
    : `${litres(moreM3)} L more oil would cover it but leaves ${Math.max(0, air).toFixed(1)} L of air: a larger tank`;
}
