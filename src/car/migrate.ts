import type { Fault } from './fault.ts';
import { shown } from './fault.ts';
import type { Json } from './json-text.ts';
import { CAR_VERSION } from './schema/car.ts';

type Fields = { [key: string]: Json };

/** Step n turns a file of version n into version n + 1. The format is at its first version, so there is none yet. */
const STEPS: Readonly<Record<number, (file: Fields) => Fields>> = {};

/** A car file of any known version as the newest one; a newer one is refused, and the file stays as it is. */
export function migrated(
  file: Fields,
  steps: Readonly<Record<number, (file: Fields) => Fields>> = STEPS,
  newest: number = CAR_VERSION,
): { readonly file: Fields } | { readonly fault: Fault } {
  const version = file['fairlead'];
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) {
    return {
      fault: { place: 'fairlead', stands: shown(version), allowed: `the version of the file format, ${newest}` },
    };
  }
  if (version > newest) {
    return {
      fault: {
        place: 'fairlead',
        stands: `${version}, written by a newer Fairlead`,
        allowed: `up to ${newest}; the file is left as it is`,
      },
    };
  }
  let out = file;
  for (let n = version; n < newest; n++) {
    const step = steps[n];
    if (step === undefined)
      return {
        fault: {
          place: 'fairlead',
          stands: String(version),
          allowed: `${newest}: no way is known from ${n} to ${n + 1}`,
        },
      };
    out = { ...step(out), fairlead: n + 1 };
  }
  return { file: out };
}
