import type { SourceId } from '#sources';

/** Minutes for one kind of work on a car: undoing it once; doing it up again takes `fitShare` times that. */
export interface WorkMinutesRow {
  /** As the car file names it under workshop.minutes. */
  readonly work: string;
  readonly about: string;
  readonly minutes: number;
  readonly source: SourceId;
}

/** One hand, hot but touchable, tools laid out. No table of such times was found: every one is to be replaced by what the crew clocks. */
export const workMinutes = [
  { work: 'hexagon', about: 'a screw with a hexagon head', minutes: 1, source: 'from-memory' },
  { work: 'nut', about: 'a nut on a stud', minutes: 1, source: 'from-memory' },
  { work: 'socket', about: 'a socket screw', minutes: 0.8, source: 'from-memory' },
  { work: 'clip', about: 'a clip or strap with a screw', minutes: 0.5, source: 'from-memory' },
  { work: 'quarter-turn', about: 'a quarter-turn fastener', minutes: 0.1, source: 'from-memory' },
  { work: 'rivnut', about: 'a screw into a rivnut', minutes: 0.4, source: 'from-memory' },
  { work: 'rivet', about: 'a rivet, drilled out and set anew', minutes: 1, source: 'from-memory' },
  { work: 'v-band', about: 'a V-band clamp, eased off and worked loose', minutes: 2, source: 'from-memory' },
  { work: 'hand', about: 'a pin, knob or spin-on canister by hand', minutes: 0.5, source: 'from-memory' },
  {
    work: 'joint-small',
    about: 'a screwed joint of a line up to -8, or of a brake line',
    minutes: 1,
    source: 'from-memory',
  },
  {
    work: 'joint-large',
    about: 'a screwed joint of a line from -10, two spanners',
    minutes: 1.5,
    source: 'from-memory',
  },
  { work: 'joint-flange', about: 'a joint with a two-bolt flange', minutes: 2.5, source: 'from-memory' },
  { work: 'joint-washer', about: 'a hollow bolt with two washers', minutes: 1.5, source: 'from-memory' },
  { work: 'joint-bead', about: 'a hose clip on a beaded spigot', minutes: 1, source: 'from-memory' },
  { work: 'dry-break', about: 'a dry-break coupling', minutes: 0.1, source: 'from-memory' },
  { work: 'bulkhead-fitting', about: 'a line taken out of a bulkhead fitting', minutes: 2, source: 'from-memory' },
  { work: 'grommet', about: 'a line drawn through a grommet', minutes: 1.5, source: 'from-memory' },
  { work: 'tee', about: 'a tee taken out of a line', minutes: 1, source: 'from-memory' },
  { work: 'clamp', about: 'a clamp of a line', minutes: 0.5, source: 'from-memory' },
  { work: 'cap', about: 'a cap or plug put on', minutes: 0.2, source: 'from-memory' },
  {
    work: 'line-off',
    about: 'a line, all its joints undone, drawn out and laid aside',
    minutes: 0.5,
    source: 'from-memory',
  },
  {
    work: 'panel-off',
    about: 'a panel, all its fixings undone, lifted off and laid aside',
    minutes: 0.5,
    source: 'from-memory',
  },
  {
    work: 'part-by-hand',
    about: 'a part, free, worked out and carried off by hand',
    minutes: 1,
    source: 'from-memory',
  },
  { work: 'part-by-hoist', about: 'a part, free, slung and lifted out by a hoist', minutes: 15, source: 'from-memory' },
  {
    work: 'drain-setup',
    about: 'a drain opened: tray under it, plug or lowest joint undone',
    minutes: 1,
    source: 'from-memory',
  },
  { work: 'drain-litre', about: 'a litre drained into a tray', minutes: 0.5, source: 'from-memory' },
  { work: 'fill-litre', about: 'a litre filled in again', minutes: 0.3, source: 'from-memory' },
  { work: 'bleed', about: 'a hydraulic line bled, two people', minutes: 6, source: 'from-memory' },
] as const satisfies readonly WorkMinutesRow[];

export type WorkKind = (typeof workMinutes)[number]['work'];

/** Doing a fastening up takes this much of undoing it: gaskets, threads started by hand, torque. From memory. */
export const FIT_SHARE = 1.3;

/** A part up to this is lifted by hand [kg]; the car file may say otherwise for each part. */
export const BY_HAND_KG = { value: 20, source: 'common-practice' } as const;
