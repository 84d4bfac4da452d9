import type { SourceId } from '#sources';
import { type End, describeEnd, mates } from '#standards';
import { nmFromLbFt } from '#units';
import type { Joint } from './joint-seals.ts';
import { bossTorqueRows, flatsRows, taperTurns } from './tightening-table.ts';

/** How to tighten one joint, in words for the card, and where that comes from. */
export interface Tightening {
  readonly words: string;
  readonly source: SourceId;
}

export interface TighteningWish {
  /** The nut holds a flared tube, not a hose end. */
  readonly onTube?: boolean;
  /** The builder's own torque, where one is entered [Nm]: it replaces the band. */
  readonly ownNm?: number;
}

/** How to tighten a joint: flats after the seats touch, a band of torques, turns past finger-tight, or what to watch. */
export function tightening(joint: Joint, wish: TighteningWish = {}): Tightening {
  const female = flareNut(joint);
  if (wish.ownNm !== undefined) return { words: `${wish.ownNm} Nm (your own figure)`, source: 'builder' };
  if (female !== undefined) return flareWords(female, wish.onTube === true);
  const types = new Set([joint.open.type, joint.entry.type]);
  if (types.has('orb')) return bossWords(joint.open.dash ?? joint.entry.dash);
  if (types.has('npt-male')) return taperWords(joint.open.pipe ?? joint.entry.pipe);
  return otherWords(joint, types);
}

const flareNut = ({ open, entry }: Joint): End | undefined =>
  [open, entry].find((end) => end.type === 'flare37-female' || end.type === 'flare45-female');

function flareWords(nut: End, onTube: boolean): Tightening {
  const joint = nut.type === 'flare45-female' ? 'flare45' : onTube ? 'flare37-tube' : 'flare37-hose';
  const row = flatsRows.find((r) => r.joint === joint && r.dash === nut.dash);
  if (row === undefined) {
    return {
      words: `${describeEnd(nut)}: no published flats for this size; as the maker says, hold the body with a second spanner`,
      source: 'common-practice',
    };
  }
  return {
    words: `nut by hand until the seats touch, mark nut and body, then ${range(row.flats)} flats; hold the body with a second spanner`,
    source: row.source,
  };
}

function bossWords(dash: number | undefined): Tightening {
  const row = bossTorqueRows.find((r) => r.dash === dash);
  const oiled = 'O-ring oiled';
  if (row === undefined) return { words: `${oiled}; torque as the maker says`, source: 'common-practice' };
  const [least, most] = row.torqueLbFt.map((lbFt) => Math.round(nmFromLbFt(lbFt)));
  return {
    words: `${oiled}; public manuals print ${least} to ${most} Nm for this thread: take the maker's figure, and half of it (one manual) where port or fitting is aluminium`,
    source: row.source,
  };
}

function taperWords(pipe: string | undefined): Tightening {
  const small = pipe !== undefined && (taperTurns.small.upTo as readonly string[]).includes(pipe);
  const turns = small ? taperTurns.small.turns : taperTurns.large.turns;
  return {
    words: `sealant on the male thread, first two threads bare; ${range(turns)} turns past finger-tight, never backed off`,
    source: taperTurns.source,
  };
}

function otherWords(joint: Joint, types: ReadonlySet<string>): Tightening {
  const practice = (words: string): Tightening => ({ words, source: 'common-practice' });
  if (types.has('metric-washer') || types.has('bspp'))
    return practice('new washer each time, faces clean; torque as the maker says');
  if (types.has('metric-orb') || types.has('face-seal'))
    return practice('O-ring oiled, faces touch by hand; torque as the maker says');
  if (types.has('flange2'))
    return practice('new gasket, both bolts in turn in small steps; torque as the part says; wire or lock them');
  if (types.has('inverted-flare'))
    return practice('start the nut by hand, nip it up, loosen once, tighten again; torque as the maker says');
  if (types.has('hose-bore'))
    return practice('clamp between bead and hose end, not on the bead; nip it up again after the first heat');
  const mating = mates(joint.open, joint.entry);
  return practice(mating.ok ? mating.seal.text : mating.why);
}

const range = ([least, most]: readonly [number, number]): string =>
  least === most ? quarters(least) : `${quarters(least)} to ${quarters(most)}`;

/** Quarter turns as a fitter writes them: 1 3/4. */
function quarters(value: number): string {
  const whole = Math.floor(value);
  const part = { 0.25: '1/4', 0.5: '1/2', 0.75: '3/4' }[value - whole];
  if (part === undefined) return `${value}`;
  return whole === 0 ? part : `${whole} ${part}`;
}
