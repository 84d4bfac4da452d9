import type { SourceId } from '#sources';

/** A figure of the trade that an answer is held against. */
export interface Guide {
  readonly value: number;
  readonly unit: string;
  readonly source: SourceId;
  readonly words: string;
}

const guide = (value: number, unit: string, source: SourceId, words: string): Guide => ({ value, unit, source, words });

/** What builders hold answers against. None of them is a law of nature; the builder's own figure stands over each. */
export const guides = {
  leastInlet: guide(-0.2, 'bar', 'common-practice', 'a displacement pump wants its inlet no deeper than this'),
  scavengeRatioLeast: guide(1.5, '', 'builders-reports', 'scavenge displacement over pressure displacement, least'),
  scavengeRatioUsual: guide(2, '', 'builders-reports', 'at least twice the pressure stage'),
  scavengeRatioMost: guide(4, '', 'builders-reports', 'more only makes foam'),
  deepestSuction: guide(0.7, 'bar', 'builders-reports', 'scavenge inlets run from 0 to this below the air outside'),
  oilPerThousandRpm: guide(0.7, 'bar', 'common-practice', 'gallery pressure for each 1000 rpm, hot'),
  feedVelocity: guide(1.2, 'm/s', 'from-memory', 'hydraulic practice for suction; a flooded short feed stands 2.5 m/s'),
  waterVelocity: guide(3, 'm/s', 'from-memory', 'water in pipes'),
  waterSuction: guide(2, 'm/s', 'from-memory', 'water in the pipe to the pump'),
  waterInlet: guide(-0.1, 'bar', 'from-memory', 'a soft hose there is sucked flat'),
  bleedFlow: guide(3, 'L/min', 'from-memory', 'a bleed that carries air off and little water'),
  tankAir: guide(1.5, 'L', 'builders-reports', 'air over the oil in the tank'),
  drainDepth: guide(0.5, '', 'common-practice', 'a gravity drain runs at most half full, so that air can pass'),
  crankcase: guide(0.05, 'bar', 'common-practice', 'pressure in the crankcase that seals stand'),
  bubble: guide(0.5, 'mm', 'from-memory', 'bubbles as small as this should have time to rise'),
  headerOverAll: guide(25, 'mm', 'builders-reports', 'the header over the highest point of the engine'),
  boilingMargin: guide(10, 'K', 'common-practice', 'between the hottest water and its boiling point'),
  ventVelocity: guide(10, 'm/s', 'from-memory', 'gas in a vent carries oil mist along above this'),
  fuelPotS: guide(10, 's', 'common-practice', 'fuel in the surge pot at full load'),
  liftOverBurn: guide(1.3, '', 'from-memory', 'lift pump over what the engine burns'),
  pressureOverBurn: guide(1.15, '', 'from-memory', 'pressure pump over what the engine burns'),
  fuelOverVapour: guide(20, 'kPa', 'from-memory', 'fuel at the inlet of a pump over its vapour pressure'),
  returnLoss: guide(20, 'kPa', 'from-memory', 'what the return line may add to the rail'),
  ventDepression: guide(1, 'kPa', 'from-memory', 'the cell below the air outside'),
} as const satisfies Readonly<Record<string, Guide>>;
