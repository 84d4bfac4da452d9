import type { ReactNode } from 'react';
import type { Order } from '#stock';
import { keep, useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { BoxCount } from './box-count.tsx';

/** The box that belongs to this car alone; what the shop has for all its cars is joined to it. */
export function BoxList({ order }: { readonly order: Order }): ReactNode {
  const car = useCar()!;
  const had = car.box ?? [];
  return (
    <>
      <p className="soft">
        What lies ready for this car alone. What the shop has for all its cars is counted with it:{' '}
        <button type="button" className="word" onClick={() => open({ kind: 'shop' })}>
          The shop
        </button>
      </p>
      <BoxCount
        key={JSON.stringify(had)}
        had={had}
        order={order}
        file="box.csv"
        onKeep={(rows) => void keep([{ do: 'set-box', rows }], 'Box counted')}
      />
    </>
  );
}
