import { mmFromInches, mmPerInch } from '#units';
import { threadName } from './threads.ts';

/** A straight thread read from its name. */
export interface ThreadSize {
  readonly name: string;
  readonly majorMm: number;
  readonly pitchMm: number;
}

const metric = /^M(?<major>\d+(?:\.\d+)?)x(?<pitch>\d+(?:\.\d+)?)$/u;
const inch = /^(?:(?<whole>\d+)(?: (?=\d+\/))?)?(?:(?<top>\d+)\/(?<bottom>\d+))?-(?<tpi>\d+(?:\.\d+)?)$/u;

/** Reads "M14x1.5" or "1 5/16-12" (with or without UN, UNF); undefined if it is no such thread. */
export function threadSize(text: string): ThreadSize | undefined {
  const name = threadName(text.slice(0, 40));
  const m = metric.exec(name)?.groups;
  if (m !== undefined) return size(name, Number(m['major']), Number(m['pitch']));
  const i = inch.exec(name)?.groups;
  if (i === undefined || (i['whole'] === undefined && i['top'] === undefined)) return undefined;
  const fraction = i['top'] === undefined ? 0 : Number(i['top']) / Number(i['bottom']);
  return size(name, mmFromInches(Number(i['whole'] ?? 0) + fraction), mmPerInch / Number(i['tpi']));
}

function size(name: string, majorMm: number, pitchMm: number): ThreadSize | undefined {
  const sound = Number.isFinite(majorMm) && Number.isFinite(pitchMm) && majorMm > 0 && pitchMm > 0 && pitchMm < majorMm;
  return sound ? { name, majorMm, pitchMm } : undefined;
}
