import { nearestName } from '#sources';
import { type End, type EndType, endTypes, sizedBy } from './end.ts';
import { threadSize } from './thread-size.ts';
import {
  dashSizes,
  faceSealThreads,
  flare45Threads,
  parallelPipes,
  pipeName,
  taperPipes,
  threadName,
} from './threads.ts';

export type ReadEnd = { readonly ok: true; readonly end: End } | { readonly ok: false; readonly fault: string };

const isType = (word: string): word is EndType => (endTypes as readonly string[]).includes(word);
const refused = (fault: string): ReadEnd => ({ ok: false, fault });

/** Reads an end as text: "flare37-male -12", "metric-washer M14x1.5", "npt-male 1/8", "bead 38 mm". */
export function parseEnd(text: string): ReadEnd {
  const plain = text.slice(0, 80).trim().replaceAll(/\s+/gu, ' ');
  const [word = '', ...rest] = plain.split(' ');
  const type = word.toLowerCase();
  if (!isType(type)) {
    const near = nearestName(type, endTypes);
    return refused(
      `"${plain}": no end is named "${word}"; ${near === undefined ? '' : `nearest: ${near}; `}allowed: ${endTypes.join(' ')}`,
    );
  }
  return sized(type, rest.join(' '), plain);
}

function sized(type: EndType, size: string, plain: string): ReadEnd {
  switch (sizedBy[type]) {
    case 'dash': {
      const dash = /^-?(\d{1,2})$/u.exec(size)?.[1];
      if (dash === undefined) return refused(`"${plain}": a dash size such as -12 is wanted after ${type}`);
      return dashEnd(type, Number(dash), plain);
    }
    case 'thread': {
      const thread = threadSize(size);
      if (thread === undefined)
        return refused(`"${plain}": a thread such as M14x1.5 or 3/8-24 is wanted after ${type}`);
      return { ok: true, end: { type, thread: threadName(size) } };
    }
    case 'pipe': {
      const pipe = pipeName(size);
      const table = type.startsWith('npt') ? taperPipes : parallelPipes;
      if (!table.some((r) => r.pipe === pipe))
        return refused(`"${plain}": a pipe size is wanted after ${type}: ${table.map((r) => r.pipe).join(', ')}`);
      return { ok: true, end: { type, pipe } };
    }
    case 'odMm': {
      const mm = /^(\d{1,3}(?:\.\d{1,3})?)\s?(?:mm)?$/u.exec(size)?.[1];
      if (mm === undefined || Number(mm) === 0)
        return refused(`"${plain}": a diameter such as 38 mm is wanted after ${type}`);
      return { ok: true, end: { type, odMm: Number(mm) } };
    }
  }
}

function dashEnd(type: EndType, dash: number, plain: string): ReadEnd {
  const table: readonly { readonly dash: number }[] = type.startsWith('flare45')
    ? flare45Threads
    : type.startsWith('face-seal')
      ? faceSealThreads
      : dashSizes;
  if (!table.some((r) => r.dash === dash))
    return refused(`"${plain}": ${type} comes as ${table.map((r) => `-${r.dash}`).join(' ')}`);
  return { ok: true, end: { type, dash } };
}
