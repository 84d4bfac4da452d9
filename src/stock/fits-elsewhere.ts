import type { TakenWay } from '#car';
import type { Way } from '#lines';
import type { Catalogue } from '#standards';
import { hoseEndId, hoseEndRows, turnsOnHose } from './hose-ends-of.ts';

/** A hose of the first car that is no longer needed where it was, and the line of the second that it does for. */
export interface FitsElsewhere {
  /** Line that it was made for. */
  readonly line: string;
  /** Line of the second car that it does for. */
  readonly fits: string;
  /** As it is; or cut shorter, where its end can be taken off and used again. */
  readonly how: 'as it is' | 'cut down';
  readonly why: string;
}

export interface LooseHose {
  readonly line: string;
  readonly way: Way | TakenWay;
}

/** Elbows of a hose stand to each other within this [deg]; SAE J516:2019. */
const ELBOWS_DEG = 3;

/** Each hose is given to at most one line, each line takes at most one: whole hoses first, then those to be cut down, shortest waste first. */
export function fitsElsewhere(
  loose: readonly LooseHose[],
  wanted: readonly LooseHose[],
  shelf: Catalogue,
): FitsElsewhere[] {
  const pairs = loose.flatMap((hose) =>
    wanted.flatMap((want) => {
      const fit = fitOf(hose.way, want.way, shelf);
      return fit === null ? [] : [{ hose, want, ...fit }];
    }),
  );
  pairs.sort((p, q) => (p.how === q.how ? p.wasteMm - q.wasteMm : p.how === 'as it is' ? -1 : 1));
  const [gone, served] = [new Set<string>(), new Set<string>()];
  const out: FitsElsewhere[] = [];
  for (const { hose, want, how, why } of pairs) {
    if (gone.has(hose.line) || served.has(want.line)) continue;
    gone.add(hose.line);
    served.add(want.line);
    out.push({ line: hose.line, fits: want.line, how, why });
  }
  return out.sort((p, q) => (p.line < q.line ? -1 : p.line > q.line ? 1 : 0));
}

interface Fit {
  readonly how: FitsElsewhere['how'];
  readonly wasteMm: number;
  readonly why: string;
}

/** Whether a single hose with its two ends does for a way; it may be put in the other way round. */
function fitOf(has: Way | TakenWay, wants: Way | TakenWay, shelf: Catalogue): Fit | null {
  const [piece, wanted] = [has.pieces[0], wants.pieces[0]];
  if (has.pieces.length !== 1 || wants.pieces.length !== 1 || piece?.hose === undefined || piece.hose !== wanted?.hose)
    return null;
  const [cutMm, wantMm] = [piece.cutLengthMm, wanted.cutLengthMm];
  if (cutMm === undefined || wantMm === undefined) return null;
  const ends = (way: Way | TakenWay): string[] =>
    way.ends.map((end) => hoseEndId(end.makeUp, shelf) ?? 'over a spigot');
  const [mine, theirs] = [ends(has), ends(wants)];
  const straight = mine.join() === theirs.join();
  if (!straight && [...mine].reverse().join() !== theirs.join()) return null;
  if (!elbowsAgree(has, wants, shelf)) return null;
  const round = straight ? '' : ', put in the other way round';
  const [less, more] = wanted.allowanceMm ?? [0, 0];
  if (cutMm >= wantMm + less && cutMm <= wantMm + more)
    return {
      how: 'as it is',
      wasteMm: Math.abs(cutMm - wantMm),
      why: `${cutMm} mm of ${piece.hose} with the same ends${round}; ${wantMm} mm (${less} to +${more}) is wanted`,
    };
  if (cutMm < wantMm || !endsComeOff(has, shelf)) return null;
  return {
    how: 'cut down',
    wasteMm: cutMm - wantMm,
    why: `${piece.hose} with the same ends${round}, cut down from ${cutMm} to ${wantMm} mm: an end comes off and goes on again`,
  };
}

/** Looked at from the other end two elbows stand at the same angle: clockwise from either. */
function elbowsAgree(has: Way | TakenWay, wants: Way | TakenWay, shelf: Catalogue): boolean {
  const [is, want] = [has.pieces[0]?.endToEndDeg ?? null, wants.pieces[0]?.endToEndDeg ?? null];
  if (is === null || want === null || turnsOnHose(has, shelf)) return true;
  return Math.abs(((is - want + 540) % 360) - 180) <= ELBOWS_DEG;
}

const endsComeOff = (way: Way | TakenWay, shelf: Catalogue): boolean =>
  hoseEndRows(
    way.ends,
    way.pieces.map((piece) => piece.hose),
    shelf,
  ).some((row) => row.fixing === 'reusable' || row.fixing === 'push-on');
