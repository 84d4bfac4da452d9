import { useEffect } from 'react';
import type { ToCut } from '#crew';
import { kept, sayFault } from '../bench/bench.ts';
import { signal, useSignal } from '../bench/signal.ts';
import { calls } from '../server/calls.ts';

interface Answered {
  readonly car: string;
  readonly at: string;
  readonly cut: ToCut;
}

const last = signal<Answered | null>(null);
let asked = '';

/** What there is to cut of the car as it stands: asked once for each change, whoever shows it. After a change the answer from before stays until it is there. */
export function useCarCut(): { readonly cut: ToCut | null; readonly isOld: boolean } {
  const now = useSignal(kept);
  const had = useSignal(last);
  const id = now?.id ?? '';
  const at = `${id} ${now?.revision ?? 0}`;
  const isAsked = (now?.car.panels?.length ?? 0) + (now?.car.levers?.length ?? 0) > 0;
  useEffect(() => {
    if (!isAsked || asked === at) return;
    asked = at;
    calls.cut(id).then(
      (cut) => {
        if (asked === at) last.set({ car: id, at, cut });
      },
      (fault: unknown) => {
        if (asked !== at) return;
        asked = '';
        sayFault(fault);
      },
    );
  }, [id, at, isAsked]);
  if (!isAsked) return { cut: NOTHING, isOld: false };
  return { cut: had?.car === id ? had.cut : null, isOld: had?.car === id && had.at !== at };
}

const NOTHING: ToCut = { panels: [], levers: [] };
