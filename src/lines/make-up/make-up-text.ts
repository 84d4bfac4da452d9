import { type End, type HoseRow, describeEnd } from '#standards';
import type { ClockFrame } from './clock-frame.ts';
import { clockWords } from './clock-words.ts';
import type { EndMakeUp } from './end-make-up.ts';

const fixingWords: Readonly<Record<EndMakeUp['fixing'], string>> = {
  crimped: 'crimped end',
  'crushed-collar': 'crushed-collar end',
  reusable: 'reusable end',
  'push-on': 'push-on end',
  clamped: 'hose pushed on, clamped',
  tube: 'tube',
};

/** How the end is turned, where it is known. */
export interface TurnedTo {
  readonly frame: ClockFrame;
  readonly clockDeg: number | null;
  /** An elbow adapter's own clock. */
  readonly adapter?: { readonly frame: ClockFrame; readonly clockDeg: number };
}

/**
 * One line for an end, from the port outwards: "-16 O-ring boss port → adapter ... → 45° reusable end, tail points left, down
 * (half past nine)". Seals and clamps stand in the parts list, not here.
 */
export function makeUpText(makeUp: EndMakeUp, port: End, turned?: TurnedTo, hose?: HoseRow): string {
  const adapters = makeUp.parts
    .filter((p) => p.kind === 'adapter')
    .map((p) => adapterText(p.name, turned, p.id, makeUp));
  const hoseText = hose === undefined ? '' : ` on ${hose.name}`;
  const end = `${endText(makeUp)}${hoseText}${clockText(turned)}`;
  return [describeEnd(port), ...adapters, end].join(' → ');
}

function endText(makeUp: EndMakeUp): string {
  if (makeUp.fixing === 'clamped' || makeUp.fixing === 'tube') return fixingWords[makeUp.fixing];
  return makeUp.angleDeg === 0
    ? `straight ${fixingWords[makeUp.fixing]}`
    : `${makeUp.angleDeg}° ${fixingWords[makeUp.fixing]}`;
}

const clockText = (turned: TurnedTo | undefined): string =>
  turned === undefined || turned.clockDeg === null ? '' : `, ${clockWords(turned.clockDeg, turned.frame)}`;

function adapterText(name: string, turned: TurnedTo | undefined, id: string, makeUp: EndMakeUp): string {
  const bent = makeUp.stages.some((s) => s.kind === 'bend' && s.clock === 1 && s.part === id);
  if (!bent || turned?.adapter === undefined) return `adapter ${name}`;
  return `adapter ${name}, ${clockWords(turned.adapter.clockDeg, turned.adapter.frame)}`;
}
