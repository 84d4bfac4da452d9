import type { ReactNode } from 'react';
import type { Order } from '#stock';
import { keep, kept } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { BoxCount } from './box-count.tsx';

/** The box that belongs to this car alone; what the shop has for all its cars is joined to it. */
export function BoxList({ order }: { readonly order: Order }): ReactNode {
  const now = useSignal(kept)!;
  const had = now.car.box ?? [];
  return (
    <>
      <p className="soft">
        What lies ready for this car alone. What the shop has for all its cars is counted with it:{' '}
        <button type="button" className="word" onClick={() => open({ kind: 'shop' })}>
          The shop
        </button>
      </p>
      <BoxCount
        had={had}
        order={order}
        file="box.csv"
        by={now.undo?.who}
        onKeep={(rows) => keep([{ do: 'set-box', rows }], 'Box counted')}
      />
    </>
  );
}
