import type { Duty } from '#car';
import { duties } from '#standards';

const words: Readonly<Partial<Record<Duty, string>>> = {
  'oil-suction': 'oil, suction (tank to pump)',
  'oil-pressure': 'oil, under pressure',
  'oil-scavenge': 'oil, scavenge (pumped back to the tank)',
  'oil-return': 'oil, return to the tank',
  'oil-drain': 'oil, drain (falls by itself)',
  'oil-vent': 'oil, vent or breather',
  'water-bleed': 'water, bleed or vent',
  'fuel-return': 'fuel, return',
  'fuel-vent': 'fuel, vent',
  'charge-air': 'charge air',
};

export const dutyOptions = duties.map((value) => ({ value, label: words[value] ?? value }));
