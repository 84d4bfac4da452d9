import type { ReactNode } from 'react';
import { useStanding } from '../bench/bench.ts';

/** Says where what flows is not among the snags yet, or is that of the car before its last change; nothing where it is up to date. */
export function FlowBehind({ isLong = false }: { readonly isLong?: boolean }): ReactNode {
  const flow = useStanding()?.flow;
  if (flow === undefined || flow.state === 'known' || flow.state === 'none') return null;
  if (flow.state === 'fault')
    return (
      <span className="small soft" role="status">
        {isLong ? `What flows could not be worked out: ${flow.text ?? ''}` : 'flow: not worked out'}
      </span>
    );
  const long = flow.isOld
    ? 'What flows is being worked out anew: its snags here are those from before the last change.'
    : 'What flows is being worked out: its snags join these when they are there.';
  return (
    <span className="small soft" role="status">
      {isLong ? long : flow.isOld ? 'flow: anew' : 'flow: being worked out'}
    </span>
  );
}
