import type { ClockSetting, End, HoseEndRow } from '#standards';
import type { ClockHow } from './end-make-up.ts';
import { type Link, entryOf } from './mating-chains.ts';

const swivelTypes: ReadonlySet<End['type']> = new Set([
  'flare37-female',
  'flare45-female',
  'face-seal-swivel',
  'inverted-flare-nut',
]);

/** How an adapter's clock is set in its joint towards the port; a row states it for its a side, the b side follows from its thread. */
export function linkClock(link: Link): ClockSetting {
  if (!link.flipped) return link.row.clock;
  const { type } = entryOf(link);
  if (swivelTypes.has(type)) return 'swivel';
  return type === 'npt-male' || type === 'npt-female' ? 'taper' : 'none';
}

/** A crimped hose's end-to-end angle may be off by this [deg]; SAE J516:2019, elbow angles. */
export const endToEndKnownDeg = 3;

const settingWords: Readonly<Record<ClockHow, string>> = {
  none: 'nothing to turn',
  swivel: 'swivel: free until tightened',
  locknut: 'locknut boss: free until its nut is tightened',
  banjo: 'banjo: free until its bolt is tightened',
  taper: 'taper: only where it comes tight, never backed off',
  'crimped-pair': `crimped: fixed to the other end; the angle from end to end is set before crimping, ±${endToEndKnownDeg}°`,
};

/** How the end's clock is set, and how an elbow adapter's before it; in one line for the card. */
export function clockSetting(links: readonly Link[], hoseEnd: HoseEndRow): { how: ClockHow; words: string } {
  const elbow = links.find((l) => l.row.angleDeg !== 0);
  const adapter: ClockHow = elbow === undefined ? 'none' : linkClock(elbow);
  const adapterWords = elbow === undefined ? [] : [`${elbow.row.angleDeg} degree adapter, ${settingWords[adapter]}`];
  if (hoseEnd.angleDeg === 0) return { how: adapter, words: adapterWords[0] ?? settingWords.none };
  const { how, words } = hoseEndClock(hoseEnd);
  return { how, words: [...adapterWords, words].join('; ') };
}

/** A bent end on a swivel nut turns to its clock; crimped, it then takes the whole hose with it, so that the pair counts too. */
function hoseEndClock(hoseEnd: HoseEndRow): { how: ClockHow; words: string } {
  const fixed = hoseEnd.fixing === 'crimped';
  if (!hoseEnd.canTurn) return { how: 'crimped-pair', words: settingWords['crimped-pair'] };
  if (!fixed) return { how: 'swivel', words: settingWords.swivel };
  return {
    how: 'swivel',
    words: `${settingWords.swivel}; with a bend at the far end too, ${settingWords['crimped-pair']}`,
  };
}
