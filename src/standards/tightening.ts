import type { SourceId } from '#sources';
import { nmFromInLb, nmFromLbFt } from '#units';
import type { End } from './end.ts';
import { pipeName } from './threads.ts';
import {
  bossTorques,
  flareTorques,
  flatsRows,
  type Range,
  softMetalShare,
  taperTightening,
} from './tightening-table.ts';

/** What the nut holds: a hose end, or a flared tube of soft or hard metal. */
export type Held = 'hose' | 'aluminium-tube' | 'steel-tube';

/** How a joint is tightened. `torqueNm` is a printed range; `bandNm` is only the spread of sources that disagree, never a figure to set. */
export interface Tightening {
  readonly torqueNm?: Range;
  readonly bandNm?: Range;
  readonly mostNm?: number;
  readonly flats?: Range;
  readonly turns?: Range;
  readonly text: string;
  readonly sources: readonly SourceId[];
}

const nmRange = ([min, max]: Range, toNm: (x: number) => number): Range => [round(toNm(min)), round(toNm(max))];
const round = (nm: number): number => Number(nm.toFixed(1));

/** How to tighten the joint at this end, by the tables; undefined where they have nothing and the maker's figure is needed. */
export function tightening(end: End, held: Held = 'hose'): Tightening | undefined {
  switch (end.type) {
    case 'flare37-male':
    case 'flare37-female':
      return flare37(end.dash, held);
    case 'flare45-male':
    case 'flare45-female':
      return flatsOnly('flare45', end.dash);
    case 'orb':
    case 'orb-stud':
      return boss(end.dash);
    case 'npt-male':
    case 'npt-female':
      return taper(end.pipe);
    default:
      return undefined;
  }
}

function flare37(dash: number | undefined, held: Held): Tightening | undefined {
  const row = flareTorques.find((r) => r.dash === dash);
  const flats = flatsRows.find(
    (r) => r.dash === dash && r.joint === (held === 'hose' ? 'flare37-hose' : 'flare37-tube'),
  );
  const inLb = { hose: row?.hoseInLb, 'aluminium-tube': row?.aluminiumTubeInLb, 'steel-tube': row?.steelTubeInLb }[
    held
  ];
  if (inLb === undefined && flats === undefined) return undefined;
  return {
    ...(inLb === undefined ? {} : { torqueNm: nmRange(inLb, nmFromInLb) }),
    ...(flats === undefined ? {} : { flats: flats.flats }),
    text: 'threads and back of the nut oiled, nothing on the cone but oil; hold the body with a second wrench; flats count from first contact of the seats',
    sources: [...(row === undefined ? [] : [row.source]), ...(flats === undefined ? [] : [flats.source])],
  };
}

function flatsOnly(joint: 'flare45', dash: number | undefined): Tightening | undefined {
  const row = flatsRows.find((r) => r.joint === joint && r.dash === dash);
  if (row === undefined) return undefined;
  return { flats: row.flats, text: 'flats count from first contact of the seats', sources: [row.source] };
}

/** Never one torque: the widest band of the four manuals. */
function boss(dash: number | undefined): Tightening | undefined {
  if (dash === undefined) return undefined;
  const pairs = bossTorques
    .map((r) => (r.lbFt as Readonly<Record<number, Range>>)[dash])
    .filter((p) => p !== undefined);
  if (pairs.length === 0) return undefined;
  const band: Range = [Math.min(...pairs.map((p) => p[0])), Math.max(...pairs.map((p) => p[1]))];
  return {
    bandNm: nmRange(band, nmFromLbFt),
    text: `sources disagree by up to 2.3 times: use the fitting maker's figure for the metal in hand; one manual allows ${softMetalShare * 100} % where fitting, plug or port is not steel`,
    sources: ['equipment-manuals'],
  };
}

function taper(pipe: string | undefined): Tightening | undefined {
  const row = taperTightening.find((r) => r.pipe === pipeName(pipe ?? ''));
  if (row === undefined) return undefined;
  return {
    turns: row.turns,
    mostNm: round(nmFromLbFt(row.mostLbFt)),
    text: 'turns past finger tight with sealant; never backed off to aim an elbow; the most torque is for steel, less in aluminium',
    sources: [row.source],
  };
}
