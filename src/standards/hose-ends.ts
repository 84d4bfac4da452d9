import { mmFromInches } from '#units';
import { cutFactorIn } from './cut-factors.ts';
import { fixingRow } from './fixings.ts';
import { nutHexMm } from './hexes.ts';
import type { Fixing, HoseEndAngleDeg, HoseEndRow, HoseRow } from './rows.ts';
import { findDash } from './threads.ts';

export const hoseEndAngles = [0, 30, 45, 60, 90, 120, 150, 180] as const satisfies readonly HoseEndAngleDeg[];
export const hoseEndDashes = [3, 4, 6, 8, 10, 12, 16, 20] as const;

/** Usual proportions of a hose end by the hose's outside diameter [mm]: assumed, so measure the part in your hand. */
const usual = {
  nutMm: (od: number) => 22 + 0.4 * od,
  bendRadiusMm: (od: number) => 1.1 * od,
  tailMm: (od: number) => 12 + 0.8 * od,
  socketMm: (od: number) => 8 + 0.65 * od,
  socketOdMm: (od: number) => 1.15 * od,
  /** The hose stops just short of the socket's bottom. */
  shortOfBottomMm: 2,
} as const;

const round = (mm: number): number => Number(mm.toFixed(2));

/** Families that take screw-on ends by dash; each with the fixings that exist for it. */
const fixingsOf: Readonly<Record<string, readonly Fixing[]>> = {
  'rubber-braid': ['crimped', 'reusable'],
  'ptfe-smooth': ['crimped', 'crushed-collar'],
  'rubber-textile': ['push-on'],
};

/** Push-on ends are made up to 90 degrees in the trade at large; nothing sharper is listed. */
const existing = (fixing: Fixing, angleDeg: HoseEndAngleDeg): boolean => fixing !== 'push-on' || angleDeg <= 90;

/** Length from seat to the hose's cut end for a straight end, from the naval table where it has the size [mm]. */
function straightNutMm(family: string, dash: number, odMm: number): number {
  const factorIn = cutFactorIn(family === 'ptfe-smooth' ? 'ptfe-flared-straight' : 'rubber-end', dash);
  if (factorIn === undefined) return usual.nutMm(odMm);
  return mmFromInches(factorIn) - usual.shortOfBottomMm;
}

function flareEnd(hose: HoseRow, family: string, dash: number, fixing: Fixing, angleDeg: HoseEndAngleDeg): HoseEndRow {
  const od = hose.odMm;
  const socketMm = usual.socketMm(od);
  const tubeOd = mmFromInches(findDash(dash)?.odIn ?? dash / 16);
  const straight = angleDeg === 0;
  return {
    id: `end-${fixing}-${family}-${dash}-${angleDeg}`,
    name: `-${dash} hose end, ${straight ? 'straight' : `${angleDeg} degrees`}, ${fixing}, 37-degree swivel nut`,
    families: [family],
    hoseDash: dash,
    to: { type: 'flare37-female', dash },
    angleDeg,
    fixing,
    nutMm: round(straight ? straightNutMm(family, dash, od) : usual.nutMm(od)),
    bendRadiusMm: straight ? 0 : round(usual.bendRadiusMm(od)),
    afterBendMm: straight ? 0 : round(usual.tailMm(od) - socketMm),
    socketMm: round(socketMm),
    socketOdMm: round(usual.socketOdMm(od)),
    neckOdMm: round(Math.max(tubeOd + 2, 0.85 * od)),
    nutHexMm: nutHexMm(dash),
    insertMm: round(socketMm - usual.shortOfBottomMm),
    boreMm: round(hose.boreMm * 0.9),
    reusable: fixingRow(fixing).reusable,
    canTurn: true,
    source: 'generic-dimensions',
    measure: true,
  };
}

/** A cut hose pushed over a bead or barb with a clamp: the port face is the spigot's tip, the hose goes over it. */
function pushOver(hose: HoseRow): HoseEndRow {
  const overlap = round(Math.min(40, 15 + 0.4 * hose.boreMm));
  return {
    id: `over-spigot-${hose.id}`,
    name: `${hose.boreMm} mm hose over a bead or barb, with a clamp`,
    families: [hose.family],
    hoseBoreMm: hose.boreMm,
    to: { type: 'hose-bore', odMm: hose.boreMm },
    angleDeg: 0,
    fixing: 'push-on',
    nutMm: 0,
    bendRadiusMm: 0,
    afterBendMm: 0,
    socketMm: 0,
    socketOdMm: round(hose.odMm + 6),
    neckOdMm: hose.odMm,
    nutHexMm: 0,
    insertMm: overlap,
    boreMm: hose.boreMm,
    reusable: true,
    canTurn: true,
    source: 'common-practice',
    measure: true,
  };
}

/**
 * The usual ends for one hose, sized by its own outside diameter: screw ends for a hose with a dash whose family takes them,
 * else the clamped joint over a spigot. None for a size that the trade's usual ends leave out: those are the builder's own rows.
 */
export function genericHoseEnds(hose: HoseRow): readonly HoseEndRow[] {
  const fixings = fixingsOf[hose.family];
  const { dash } = hose;
  if (fixings === undefined) return [pushOver(hose)];
  if (dash === undefined || !(hoseEndDashes as readonly number[]).includes(dash)) return [];
  const screwed = fixings.flatMap((fixing) =>
    hoseEndAngles
      .filter((angle) => existing(fixing, angle))
      .map((angle) => flareEnd(hose, hose.family, dash, fixing, angle)),
  );
  return hose.family === 'rubber-textile' ? [...screwed, pushOver(hose)] : screwed;
}
