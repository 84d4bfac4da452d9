/** Every kind of thread-and-seat, spigot or cut end that can stand at one side of a joint. */
export const endTypes = [
  'orb',
  'orb-stud',
  'flare37-male',
  'flare37-female',
  'flare45-male',
  'flare45-female',
  'inverted-flare',
  'inverted-flare-nut',
  'npt-male',
  'npt-female',
  'metric-orb',
  'metric-orb-stud',
  'metric-washer',
  'metric-washer-stud',
  'bspp',
  'bspp-stud',
  'face-seal',
  'face-seal-swivel',
  'flange2',
  'flange2-foot',
  'bead',
  'barb',
  'plain-tube',
  'tube-socket',
  'hose-bore',
] as const;

export type EndType = (typeof endTypes)[number];

/**
 * One side of a joint. What sizes it depends on the type: `dash` (tube OD in 1/16 in), `thread` ("M14x1.5"), `pipe` ("1/8"),
 * or `odMm`: the tube's outside for bead, barb, plain-tube and tube-socket, the bore for hose-bore [mm].
 */
export interface End {
  readonly type: EndType;
  readonly dash?: number | undefined;
  readonly thread?: string | undefined;
  readonly pipe?: string | undefined;
  readonly odMm?: number | undefined;
}

/** Which field sizes each type. A two-bolt flange may carry a dash (the opening it passes) or an odMm. */
export const sizedBy: Readonly<Record<EndType, 'dash' | 'thread' | 'pipe' | 'odMm'>> = {
  orb: 'dash',
  'orb-stud': 'dash',
  'flare37-male': 'dash',
  'flare37-female': 'dash',
  'flare45-male': 'dash',
  'flare45-female': 'dash',
  'inverted-flare': 'thread',
  'inverted-flare-nut': 'thread',
  'npt-male': 'pipe',
  'npt-female': 'pipe',
  'metric-orb': 'thread',
  'metric-orb-stud': 'thread',
  'metric-washer': 'thread',
  'metric-washer-stud': 'thread',
  bspp: 'pipe',
  'bspp-stud': 'pipe',
  'face-seal': 'dash',
  'face-seal-swivel': 'dash',
  flange2: 'dash',
  'flange2-foot': 'dash',
  bead: 'odMm',
  barb: 'odMm',
  'plain-tube': 'odMm',
  'tube-socket': 'odMm',
  'hose-bore': 'odMm',
};
