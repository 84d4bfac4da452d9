import type { SourceId } from '#sources';
import type { End } from './end.ts';

/** Tube OD and threads for one dash size. Inch figures as printed. */
export interface DashRow {
  readonly dash: number;
  readonly odIn: number;
  /** 37-degree flare and O-ring boss share it, dash for dash. */
  readonly thread: string;
  readonly majorMm: number;
  readonly tpi: number;
  readonly source: SourceId;
}

export const dashSizes = [
  { dash: 2, odIn: 0.125, thread: '5/16-24', majorMm: 7.938, tpi: 24, source: 'dash-thread-tables' },
  { dash: 3, odIn: 0.1875, thread: '3/8-24', majorMm: 9.525, tpi: 24, source: 'dash-thread-tables' },
  { dash: 4, odIn: 0.25, thread: '7/16-20', majorMm: 11.112, tpi: 20, source: 'dash-thread-tables' },
  { dash: 5, odIn: 0.3125, thread: '1/2-20', majorMm: 12.7, tpi: 20, source: 'dash-thread-tables' },
  { dash: 6, odIn: 0.375, thread: '9/16-18', majorMm: 14.287, tpi: 18, source: 'dash-thread-tables' },
  { dash: 8, odIn: 0.5, thread: '3/4-16', majorMm: 19.05, tpi: 16, source: 'dash-thread-tables' },
  { dash: 10, odIn: 0.625, thread: '7/8-14', majorMm: 22.225, tpi: 14, source: 'dash-thread-tables' },
  { dash: 12, odIn: 0.75, thread: '1 1/16-12', majorMm: 26.987, tpi: 12, source: 'dash-thread-tables' },
  { dash: 14, odIn: 0.875, thread: '1 3/16-12', majorMm: 30.162, tpi: 12, source: 'dash-thread-tables' },
  { dash: 16, odIn: 1, thread: '1 5/16-12', majorMm: 33.337, tpi: 12, source: 'dash-thread-tables' },
  { dash: 20, odIn: 1.25, thread: '1 5/8-12', majorMm: 41.275, tpi: 12, source: 'dash-thread-tables' },
  { dash: 24, odIn: 1.5, thread: '1 7/8-12', majorMm: 47.625, tpi: 12, source: 'dash-thread-tables' },
  { dash: 32, odIn: 2, thread: '2 1/2-12', majorMm: 63.5, tpi: 12, source: 'dash-thread-tables' },
] as const satisfies readonly DashRow[];

export interface DashThreadRow {
  readonly dash: number;
  readonly thread: string;
  readonly source: SourceId;
}

/** 45-degree flare: same thread as 37-degree at -2 -3 -4 -5 -8 -10, other at -6 and -12: the seat, not the thread, decides. */
export const flare45Threads = [
  { dash: 2, thread: '5/16-24', source: 'flare-45-tables' },
  { dash: 3, thread: '3/8-24', source: 'flare-45-tables' },
  { dash: 4, thread: '7/16-20', source: 'flare-45-tables' },
  { dash: 5, thread: '1/2-20', source: 'flare-45-tables' },
  { dash: 6, thread: '5/8-18', source: 'flare-45-tables' },
  { dash: 8, thread: '3/4-16', source: 'flare-45-tables' },
  { dash: 10, thread: '7/8-14', source: 'flare-45-tables' },
  { dash: 12, thread: '1 1/16-14', source: 'sae-j512' },
] as const satisfies readonly DashThreadRow[];

/** O-ring face seal. The -4 thread is the -6 flare's, the -12 thread the -14 flare's. */
export const faceSealThreads = [
  { dash: 4, thread: '9/16-18', source: 'sae-j1453' },
  { dash: 6, thread: '11/16-16', source: 'sae-j1453' },
  { dash: 8, thread: '13/16-16', source: 'sae-j1453' },
  { dash: 10, thread: '1-14', source: 'sae-j1453' },
  { dash: 12, thread: '1 3/16-12', source: 'sae-j1453' },
  { dash: 16, thread: '1 7/16-12', source: 'sae-j1453' },
  { dash: 20, thread: '1 11/16-12', source: 'sae-j1453' },
  { dash: 24, thread: '2-12', source: 'from-memory' },
] as const satisfies readonly DashThreadRow[];

/** A taper pipe thread: outside of pipe, threads to the inch, hand-tight engagement L1 [in]. */
export interface PipeRow {
  readonly pipe: string;
  readonly odIn: number;
  readonly tpi: number;
  readonly l1In: number;
  readonly source: SourceId;
}

export const taperPipes = [
  { pipe: '1/8', odIn: 0.405, tpi: 27, l1In: 0.1615, source: 'asme-b1-20-1' },
  { pipe: '1/4', odIn: 0.54, tpi: 18, l1In: 0.2278, source: 'asme-b1-20-1' },
  { pipe: '3/8', odIn: 0.675, tpi: 18, l1In: 0.24, source: 'asme-b1-20-1' },
  { pipe: '1/2', odIn: 0.84, tpi: 14, l1In: 0.32, source: 'asme-b1-20-1' },
  { pipe: '3/4', odIn: 1.05, tpi: 14, l1In: 0.339, source: 'asme-b1-20-1' },
  { pipe: '1', odIn: 1.315, tpi: 11.5, l1In: 0.4, source: 'asme-b1-20-1' },
] as const satisfies readonly PipeRow[];

export interface ParallelPipeRow {
  readonly pipe: string;
  readonly majorMm: number;
  readonly tpi: number;
  readonly source: SourceId;
}

export const parallelPipes = [
  { pipe: '1/8', majorMm: 9.728, tpi: 28, source: 'iso-228' },
  { pipe: '1/4', majorMm: 13.157, tpi: 19, source: 'iso-228' },
  { pipe: '3/8', majorMm: 16.662, tpi: 19, source: 'iso-228' },
  { pipe: '1/2', majorMm: 20.955, tpi: 14, source: 'iso-228' },
  { pipe: '3/4', majorMm: 26.441, tpi: 14, source: 'iso-228' },
  { pipe: '1', majorMm: 33.249, tpi: 11, source: 'iso-228' },
] as const satisfies readonly ParallelPipeRow[];

export interface MetricPortRow {
  readonly thread: string;
  readonly majorMm: number;
  readonly pitchMm: number;
  readonly source: SourceId;
}

/** Metric ports sealed by an O-ring in the port's chamfer; the port shows a raised ridge. */
export const metricORingPorts = [
  { thread: 'M8x1', majorMm: 8, pitchMm: 1, source: 'iso-6149' },
  { thread: 'M10x1', majorMm: 10, pitchMm: 1, source: 'iso-6149' },
  { thread: 'M12x1.5', majorMm: 12, pitchMm: 1.5, source: 'iso-6149' },
  { thread: 'M14x1.5', majorMm: 14, pitchMm: 1.5, source: 'iso-6149' },
  { thread: 'M16x1.5', majorMm: 16, pitchMm: 1.5, source: 'iso-6149' },
  { thread: 'M18x1.5', majorMm: 18, pitchMm: 1.5, source: 'iso-6149' },
  { thread: 'M22x1.5', majorMm: 22, pitchMm: 1.5, source: 'iso-6149' },
  { thread: 'M27x2', majorMm: 27, pitchMm: 2, source: 'iso-6149' },
  { thread: 'M33x2', majorMm: 33, pitchMm: 2, source: 'iso-6149' },
  { thread: 'M42x2', majorMm: 42, pitchMm: 2, source: 'iso-6149' },
  { thread: 'M48x2', majorMm: 48, pitchMm: 2, source: 'iso-6149' },
  { thread: 'M60x2', majorMm: 60, pitchMm: 2, source: 'iso-6149' },
] as const satisfies readonly MetricPortRow[];

/** Metric ports sealed by a washer on a flat face, as banjo bolts use; they take no O-ring stud. */
export const metricWasherPorts = [
  { thread: 'M10x1', majorMm: 10, pitchMm: 1, source: 'iso-9974' },
  { thread: 'M12x1.5', majorMm: 12, pitchMm: 1.5, source: 'iso-9974' },
  { thread: 'M14x1.5', majorMm: 14, pitchMm: 1.5, source: 'iso-9974' },
  { thread: 'M16x1.5', majorMm: 16, pitchMm: 1.5, source: 'iso-9974' },
  { thread: 'M18x1.5', majorMm: 18, pitchMm: 1.5, source: 'iso-9974' },
  { thread: 'M22x1.5', majorMm: 22, pitchMm: 1.5, source: 'iso-9974' },
] as const satisfies readonly MetricPortRow[];

/** Inverted flare (the nut is male, the seat stands in the port): brake and clutch pipes. */
export const invertedFlareThreads = [
  { thread: 'M10x1', tubeOdMm: 4.75, source: 'common-practice' },
  { thread: '3/8-24', tubeOdMm: 4.75, source: 'sae-j512' },
  { thread: '7/16-24', tubeOdMm: 6.35, source: 'sae-j512' },
  { thread: 'M12x1', tubeOdMm: 6, source: 'common-practice' },
] as const satisfies readonly { thread: string; tubeOdMm: number; source: SourceId }[];

export const findDash = (dash: number): DashRow | undefined => dashSizes.find((r) => r.dash === dash);

/** A thread's name as it is compared: no spaces round the x, no trailing zeros in the pitch, no trailing UN or UNF. */
export function threadName(thread: string): string {
  const metric = /^m\s*(\d{1,3}(?:\.\d{1,3})?)\s*(?:[x*×]\s*(\d{1,2}(?:\.\d{1,3})?))?$/iu.exec(thread.trim());
  if (metric !== null) {
    const [, major, pitch] = metric;
    return pitch === undefined ? `M${Number(major)}` : `M${Number(major)}x${Number(pitch)}`;
  }
  return thread
    .trim()
    .replace(/["”]/gu, '')
    .replace(/\s*-?\s*un[fcjrs]{0,2}(?:-?\d[ab])?$/iu, '')
    .replace(/(\d)\s*-\s*(\d+\/\d+)/u, '$1 $2')
    .replace(/\s+/gu, ' ')
    .replace(/\s*-\s*/gu, '-');
}

/** A pipe size as it is compared: "G 1/8", "1/8 NPT" and '1/8"' are "1/8". */
export const pipeName = (pipe: string): string =>
  pipe
    .trim()
    .replace(/^(?:g|bspp?)\s*/iu, '')
    .replace(/\s*(?:npt[f]?|bspp?|["”])$/iu, '')
    .trim();

/** The thread at an end, as printed in the tables; undefined for spigots, flanges and cut ends, or a size without a row. */
export function threadOf(end: End): string | undefined {
  const inDash = (rows: readonly DashThreadRow[]): string | undefined => rows.find((r) => r.dash === end.dash)?.thread;
  switch (end.type) {
    case 'orb':
    case 'orb-stud':
    case 'flare37-male':
    case 'flare37-female':
      return inDash(dashSizes);
    case 'flare45-male':
    case 'flare45-female':
      return inDash(flare45Threads);
    case 'face-seal':
    case 'face-seal-swivel':
      return inDash(faceSealThreads);
    case 'npt-male':
    case 'npt-female':
      return end.pipe === undefined ? undefined : `${pipeName(end.pipe)} NPT`;
    case 'bspp':
    case 'bspp-stud':
      return end.pipe === undefined ? undefined : `G ${pipeName(end.pipe)}`;
    case 'inverted-flare':
    case 'inverted-flare-nut':
    case 'metric-orb':
    case 'metric-orb-stud':
    case 'metric-washer':
    case 'metric-washer-stud':
      return end.thread === undefined ? undefined : threadName(end.thread);
    default:
      return undefined;
  }
}
