import { type End, type EndType, sizedBy } from './end.ts';
import type { SealCount } from './rows.ts';
import { pipeName, threadName, threadOf } from './threads.ts';

/** What makes a joint tight, and the loose parts that it needs. */
export interface SealNeed {
  readonly kind: 'cone' | 'o-ring' | 'taper-thread' | 'washer' | 'gasket' | 'clamp' | 'sleeve';
  readonly text: string;
  readonly seals: readonly SealCount[];
}

export type Mating = { readonly ok: true; readonly seal: SealNeed } | { readonly ok: false; readonly why: string };

const counterparts: Readonly<Partial<Record<EndType, readonly EndType[]>>> = {
  orb: ['orb-stud'],
  'flare37-male': ['flare37-female'],
  'flare45-male': ['flare45-female'],
  'inverted-flare': ['inverted-flare-nut'],
  'npt-male': ['npt-female'],
  'metric-orb': ['metric-orb-stud'],
  'metric-washer': ['metric-washer-stud'],
  bspp: ['bspp-stud'],
  'face-seal': ['face-seal-swivel'],
  flange2: ['flange2-foot'],
  bead: ['hose-bore'],
  barb: ['hose-bore'],
  'plain-tube': ['hose-bore', 'tube-socket'],
};

const seatNames: Readonly<Record<EndType, string>> = {
  orb: 'O-ring boss port',
  'orb-stud': 'O-ring boss stud',
  'flare37-male': '37-degree male flare',
  'flare37-female': '37-degree female flare',
  'flare45-male': '45-degree male flare',
  'flare45-female': '45-degree female flare',
  'inverted-flare': 'inverted-flare port',
  'inverted-flare-nut': 'inverted-flare nut',
  'npt-male': 'taper pipe, male',
  'npt-female': 'taper pipe, female',
  'metric-orb': 'metric O-ring port',
  'metric-orb-stud': 'metric O-ring stud',
  'metric-washer': 'metric port for a sealing washer',
  'metric-washer-stud': 'metric stud for a sealing washer',
  bspp: 'parallel pipe port',
  'bspp-stud': 'parallel pipe stud',
  'face-seal': 'O-ring face seal, male',
  'face-seal-swivel': 'O-ring face seal, swivel nut',
  flange2: 'two-bolt flange',
  'flange2-foot': 'two-bolt flange foot',
  bead: 'beaded spigot',
  barb: 'barbed spigot',
  'plain-tube': 'plain tube',
  'tube-socket': 'socket for plain tube',
  'hose-bore': 'cut hose end',
};

/** An end in trade words: "-12 37-degree male flare (1 1/16-12)". */
export function describeEnd(end: End): string {
  const thread = threadOf(end);
  const size = sizeOf(end);
  const name = seatNames[end.type];
  if (sizedBy[end.type] === 'odMm') return end.odMm === undefined ? `${name}, no size` : `${end.odMm} mm ${name}`;
  if (sizedBy[end.type] === 'dash') return `${size} ${name}${thread === undefined ? '' : ` (${thread})`}`;
  return `${thread ?? size} ${name}`;
}

/** A key that two ends share exactly when they are the same end; the seat stands in it, not only the thread. */
export const endKey = (end: End): string => `${end.type}:${sizeOf(end)}`;

function sizeOf(end: End): string {
  switch (sizedBy[end.type]) {
    case 'dash':
      return end.dash === undefined ? (end.odMm === undefined ? 'no size' : `${end.odMm} mm`) : `-${end.dash}`;
    case 'thread':
      return end.thread === undefined ? 'no thread' : threadName(end.thread);
    case 'pipe':
      return end.pipe === undefined ? 'no size' : pipeName(end.pipe);
    case 'odMm':
      return end.odMm === undefined ? 'no size' : `${end.odMm} mm`;
  }
}

/** Whether two ends make a joint, with what seals it; the order of the two does not matter. */
export function mates(a: End, b: End): Mating {
  const [first, second] = inOrder(a, b);
  const pair = counterparts[first.type]?.includes(second.type) === true;
  if (!pair) return { ok: false, why: whyNot(a, b) };
  if (second.type === 'hose-bore') return hoseOver(first, second);
  if (second.type === 'tube-socket') return tubeIn(first, second);
  if (sizeOf(first) !== sizeOf(second)) {
    return { ok: false, why: `sizes differ: ${describeEnd(a)} and ${describeEnd(b)}` };
  }
  if (sizeOf(first).startsWith('no '))
    return { ok: false, why: `${describeEnd(a)} and ${describeEnd(b)}: a size is missing` };
  return { ok: true, seal: sealOf(first) };
}

/** The one of the two that `counterparts` lists first. */
function inOrder(a: End, b: End): readonly [End, End] {
  return counterparts[a.type]?.includes(b.type) === true
    ? [a, b]
    : counterparts[b.type]?.includes(a.type) === true
      ? [b, a]
      : [a, b];
}

function whyNot(a: End, b: End): string {
  const [threadA, threadB] = [threadOf(a), threadOf(b)];
  if (a.type === b.type) return `both are ${seatNames[a.type]}; neither screws onto the other`;
  if (threadA !== undefined && threadA === threadB) {
    return `same thread ${threadA}, other seat: ${describeEnd(a)} and ${describeEnd(b)} do not seal on each other`;
  }
  return `${describeEnd(a)} does not join ${describeEnd(b)}`;
}

/** A hose stretches over a spigot a little; how much is common practice. */
const mostStretch = 0.06;
const mostLooseMm = 0.5;

function hoseOver(spigot: End, hose: End): Mating {
  const [od, bore] = [spigot.odMm, hose.odMm];
  if (od === undefined || bore === undefined)
    return { ok: false, why: `${describeEnd(spigot)} and ${describeEnd(hose)}: a size is missing` };
  if (bore > od + mostLooseMm)
    return { ok: false, why: `hose bore ${bore} mm is loose on the ${od} mm ${seatNames[spigot.type]}` };
  if (bore < od * (1 - mostStretch) - mostLooseMm)
    return { ok: false, why: `hose bore ${bore} mm is too tight for the ${od} mm ${seatNames[spigot.type]}` };
  const plain = spigot.type === 'plain-tube' ? '; bead the tube, a hose creeps off a plain end' : '';
  return {
    ok: true,
    seal: { kind: 'clamp', text: `hose clamp over the ${seatNames[spigot.type]}${plain}`, seals: [] },
  };
}

/** Tube and socket agree to a tenth of a millimetre or they are different sizes. */
const tubeFitMm = 0.11;

function tubeIn(tube: End, socket: End): Mating {
  if (tube.odMm === undefined || socket.odMm === undefined)
    return { ok: false, why: `${describeEnd(tube)} and ${describeEnd(socket)}: a size is missing` };
  if (Math.abs(tube.odMm - socket.odMm) > tubeFitMm)
    return { ok: false, why: `sizes differ: ${describeEnd(tube)} and ${describeEnd(socket)}` };
  return {
    ok: true,
    seal: {
      kind: 'sleeve',
      text: 'tube end prepared for the socket (flare, sleeve or gland as the socket says)',
      seals: [],
    },
  };
}

function sealOf(end: End): SealNeed {
  const size = sizeOf(end);
  switch (end.type) {
    case 'orb':
      return {
        kind: 'o-ring',
        text: `O-ring 9${String(end.dash).padStart(2, '0')} in the boss`,
        seals: [{ id: `o-ring-9${String(end.dash).padStart(2, '0')}`, qty: 1 }],
      };
    case 'metric-orb':
      return {
        kind: 'o-ring',
        text: `O-ring for an ${size} port`,
        seals: [{ id: `o-ring-${size.toLowerCase()}`, qty: 1 }],
      };
    case 'face-seal':
      return { kind: 'o-ring', text: `O-ring in the ${size} face`, seals: [{ id: `o-ring-face-${end.dash}`, qty: 1 }] };
    case 'metric-washer':
      return {
        kind: 'washer',
        text: `sealing washer ${size}, two at a banjo`,
        seals: [{ id: `washer-${size.toLowerCase()}`, qty: 1 }],
      };
    case 'bspp':
      return {
        kind: 'washer',
        text: `bonded washer G ${size}`,
        seals: [{ id: `washer-g${size.replace('/', '-')}`, qty: 1 }],
      };
    case 'flange2':
      return { kind: 'gasket', text: 'gasket cut to the flange', seals: [{ id: 'gasket-flange2', qty: 1 }] };
    case 'npt-male':
      return {
        kind: 'taper-thread',
        text: 'thread sealant on the male thread, first two threads bare',
        seals: [{ id: 'thread-sealant', qty: 1 }],
      };
    default:
      return {
        kind: 'cone',
        text: `metal to metal on the ${seatNames[end.type]}; nothing on the cone but oil`,
        seals: [],
      };
  }
}
