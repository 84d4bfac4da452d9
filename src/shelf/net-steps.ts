import type { Edit } from '#car';
import type { StepRow } from './store.ts';

/** What some steps come to, each with who did it: what was done and taken back again among them counts for nothing. */
export interface NetStep {
  readonly revision: number;
  readonly who: string;
  readonly edits: readonly Edit[];
}

/** Undo and redo act on the newest step that stands, so that a stack sorts them out. */
export function netSteps(steps: readonly StepRow[]): readonly NetStep[] {
  const stack: NetStep[] = [];
  for (const step of steps) {
    const isBack = (step.kind === 'undo' || step.kind === 'redo') && stack.at(-1)?.revision === step.of;
    if (isBack) stack.pop();
    else stack.push({ revision: step.revision, who: step.who, edits: JSON.parse(step.done) as Edit[] });
  }
  return stack;
}
