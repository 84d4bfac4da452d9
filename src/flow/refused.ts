import { FlowError } from './flow-error.ts';

/** Why something is not worked out, in one line, with the lines or passages it is about. */
export interface Refused {
  readonly why: string;
  readonly where: readonly string[];
}

/** A figure that an element cannot be made of, with a case's fluid, is told in words; what else is worked out stands. */
export function guarded<T>(work: () => T): T | Refused {
  try {
    return work();
  } catch (error) {
    if (error instanceof FlowError) return { why: error.message.replace(/^flow: /, ''), where: [] };
    throw error;
  }
}
