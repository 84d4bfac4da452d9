import type { Case } from '#car';
import type { FlowFinding } from '../finding.ts';
import type { ReadyCircuit } from './circuit-state.ts';

/** Tees known to this are well known [Pa]. */
const NEAR_PA = 100;
/** What a tee may be off by without a word of more than a note [Pa]. */
const GRAVE_PA = 2000;

/** A split that still changes what its tees lose when the rounds are over is told with how far off it is. */
export function unsettledTees(ready: ReadyCircuit, at: Case, offPa: number): FlowFinding[] {
  if (!(offPa > NEAR_PA)) return [];
  const kpa = offPa / 1000;
  const words = ready.tees.tees.map((tee) => tee.words).join(', ');
  return [
    {
      circuit: ready.drawn.circuit.id,
      case: at.id,
      code: 'tees-unsettled',
      level: offPa > GRAVE_PA ? 'fix' : 'note',
      text: `${at.name ?? at.id}: how the flow splits at its tees (${words}) does not settle: what they lose, and the pressures about them, are known to ${kpa.toFixed(1)} kPa only`,
      source: 'tp-410',
      value: kpa,
      limit: NEAR_PA / 1000,
      unit: 'kPa',
      cures: [],
      advice: ['a tee with another angle or bore, or the two lines led apart: a measured part settles it'],
    },
  ];
}
