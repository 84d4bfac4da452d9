import type { EndDrip } from '#access';
import type { Car } from '#car';
import type { StripOf, StripOfStep, StripOpen } from './strip-answer.ts';

/**
 * The steps, with what a line loses through both its ends told once: most of it through the end that lets more out, through the other only
 * what is left in it by then.
 */
export function toldOnce(steps: readonly StripOfStep[], drips: ReadonlyMap<string, EndDrip>): StripOfStep[] {
  const opened = new Set(steps.flatMap(({ opens }) => opens.map(({ line, port }) => `${line} ${port}`)));
  const byPort = new Map([...drips.values()].map((drip) => [`${drip.line} ${drip.port}`, drip]));
  const told = (open: StripOpen): StripOpen => {
    const own = byPort.get(`${open.line} ${open.port}`)!;
    const other = [...byPort.values()].find((drip) => drip.line === own.line && drip.port !== own.port);
    if (other === undefined || !opened.has(`${other.line} ${other.port}`)) return open;
    const isFirst = own.fromLineL > other.fromLineL || (own.fromLineL === other.fromLineL && own.end < other.end);
    const left = Math.max(0, own.lineHoldsL - other.fromLineL);
    return isFirst || own.fromLineL <= left ? open : { ...open, litres: own.fromVesselL + left };
  };
  return steps.map((step) => ({ ...step, opens: step.opens.map(told) }));
}

/** All that runs or is drained [L]: a vessel once, by what is drained of it. */
export const litresOf = (
  opens: readonly StripOpen[],
  steps: readonly StripOfStep[],
  drains: StripOf['drainFirst'],
): number =>
  opens.reduce((sum, open) => sum + (open.vessel === null ? open.litres : 0), 0) +
  steps.reduce((sum, { spillsL }) => sum + spillsL, 0) +
  drains.reduce((sum, { litres }) => sum + litres, 0);

/** Parts on opened joints that hold something too, how much of it the car file does not state. */
export function uncountedParts({ circuits = [], parts }: Car, opens: readonly StripOpen[]): string[] {
  const stated = new Set([
    ...circuits.flatMap(({ vessels = [] }) =>
      vessels.flatMap(({ part, fillL }) => (fillL === undefined ? [] : [part])),
    ),
    ...parts.filter(({ spillsL }) => spillsL !== undefined).map(({ id }) => id),
  ]);
  const on = opens.filter(({ fluid }) => fluid !== null).map(({ port }) => port.split('.')[0]!);
  return [...new Set(on)].filter((id) => !stated.has(id));
}

/** What the litres leave out, in a sentence; empty where nothing. */
export const uncountedWords = ({ uncounted }: Pick<StripOf, 'uncounted'>): string =>
  uncounted.length === 0
    ? ''
    : `Not counted, as no fill is stated: what stands in ${uncounted.join('; ')}, and what runs on into ${uncounted.length === 1 ? 'it' : 'them'} from further off.`;
