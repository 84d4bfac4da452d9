import type { ReactNode } from 'react';
import { JoinPaper } from './join-paper.tsx';

/** The papers on which the car is measured in; `what` is what stands in the address after "tape". */
export function TapePaper({ what }: { readonly what: string }): ReactNode {
  return what === 'join' ? <JoinPaper /> : null;
}
