import type { PortEnd } from '#car';
import {
  dashSizes,
  type EndType,
  faceSealThreads,
  flare45Threads,
  invertedFlareThreads,
  metricORingPorts,
  metricWasherPorts,
  parallelPipes,
  parseEnd,
  sizedBy,
  taperPipes,
  threadOf,
} from '#standards';
import type { Parsed } from '#units';
import { tapeMm, type TapeUnit } from './tape-text.ts';

/** What stands on parts, by the words it goes by in the shop; fittings' own sides are not among them. */
export const portKinds = [
  ['orb', 'O-ring boss, dash size'],
  ['flare37-male', '37° flare, male, dash size'],
  ['flare37-female', '37° flare, swivel nut, dash size'],
  ['metric-washer', 'Metric thread with sealing washer (also banjo)'],
  ['metric-orb', 'Metric O-ring port'],
  ['npt-female', 'Taper pipe thread, female'],
  ['npt-male', 'Taper pipe thread, male'],
  ['bspp', 'Parallel pipe thread'],
  ['bead', 'Spigot with a bead, for a clamped hose'],
  ['plain-tube', 'Plain tube or spigot'],
  ['barb', 'Barbed spigot'],
  ['flare45-male', '45° flare, male, dash size'],
  ['flare45-female', '45° flare, swivel nut, dash size'],
  ['inverted-flare', 'Inverted flare (brake)'],
  ['face-seal', 'O-ring face seal, dash size'],
  ['flange2', 'Two-bolt flange, dash size'],
] as const satisfies readonly (readonly [EndType, string])[];

export interface EndDraft {
  readonly type: EndType;
  /** "12", "M14x1.5", "1/8", or a diameter as it is typed. */
  readonly size: string;
}

/** The sizes that a kind comes in; none where it is a diameter to be measured. */
export function sizesOf(type: EndType): readonly { readonly size: string; readonly words: string }[] {
  switch (sizedBy[type]) {
    case 'dash':
      return dashesOf(type).map((dash) => {
        const thread = threadOf({ type, dash });
        return { size: `${dash}`, words: thread === undefined ? `-${dash}` : `-${dash} (${thread})` };
      });
    case 'thread':
      return threadsOf(type).map((thread) => ({ size: thread, words: thread }));
    case 'pipe':
      return (type.startsWith('npt') ? taperPipes : parallelPipes).map(({ pipe }) => ({
        size: pipe,
        words: `${pipe} in`,
      }));
    case 'odMm':
      return [];
  }
}

function dashesOf(type: EndType): readonly number[] {
  const rows: readonly { readonly dash: number }[] = type.startsWith('flare45')
    ? flare45Threads
    : type === 'face-seal'
      ? faceSealThreads
      : dashSizes;
  return rows.map(({ dash }) => dash);
}

function threadsOf(type: EndType): readonly string[] {
  const rows: readonly { readonly thread: string }[] =
    type === 'metric-orb' ? metricORingPorts : type === 'metric-washer' ? metricWasherPorts : invertedFlareThreads;
  return rows.map(({ thread }) => thread);
}

/** Another kind keeps the size where it comes in it. */
export function withKind(draft: EndDraft, type: EndType): EndDraft {
  const sizes = sizesOf(type);
  if (sizes.length === 0) return { type, size: sizedBy[draft.type] === 'odMm' ? draft.size : '' };
  return { type, size: sizes.some(({ size }) => size === draft.size) ? draft.size : '' };
}

/** The end that the form says, or what is missing in one line. */
export function endFrom({ type, size }: EndDraft, unit: TapeUnit): Parsed<PortEnd> {
  if (size.trim() === '')
    return {
      ok: false,
      fault: sizedBy[type] === 'odMm' ? 'is empty; an outside diameter such as 19 mm is wanted' : 'a size is wanted',
      ways: [],
    };
  if (sizedBy[type] === 'odMm') {
    const read = tapeMm(size, unit);
    if (!read.ok) return read;
    if (read.value <= 0 || read.value > 500)
      return { ok: false, fault: `"${size}" is no diameter; above 0, at most 500 mm is allowed`, ways: [] };
    return { ok: true, value: { type, odMm: Math.round(read.value * 100) / 100 } };
  }
  const read = parseEnd(`${type} ${size}`);
  return read.ok ? { ok: true, value: read.end as PortEnd } : { ok: false, fault: read.fault, ways: [] };
}

export function endDraft(end: PortEnd): EndDraft {
  const size = end.dash ?? end.thread ?? end.pipe ?? (end.odMm === undefined ? '' : `${end.odMm} mm`);
  return { type: end.type, size: `${size}` };
}
