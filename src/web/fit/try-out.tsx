import { NativeSelect } from '@mantine/core';
import { type ReactNode, useMemo, useState } from 'react';
import { otherSizes } from '#answers';
import type { Car, Line } from '#car';
import { catalogue } from '#standards';
import { useCar } from '../bench/bench.ts';
import { Key } from '../frame/key.tsx';
import { useWhatIf, WhatIf } from './what-if.tsx';
import { wished } from './wished.ts';
import { portWords } from './words.ts';

/** Changes to try on one line: another size, or its ports swapped with another line's. Looked at before they are kept. */
export function TryOut({ line }: { readonly line: Line }): ReactNode {
  const car = useCar()!;
  const asked = useWhatIf();
  const [dash, setDash] = useState('');
  const [swap, setSwap] = useState('');
  const shelf = useMemo(() => catalogue(car.catalogue), [car.catalogue]);
  if (line.state !== 'planned') return null;
  const sizes = otherSizes(shelf, line);
  const { edits, anew } = wished(shelf, line, dash, swap);
  return (
    <details className="opened no-print">
      <summary>What if</summary>
      <div className="try-fields">
        {sizes.length === 0 ? null : (
          <NativeSelect
            label="Another size"
            value={dash}
            onChange={(event) => {
              setDash(event.currentTarget.value);
              setSwap('');
            }}
            data={[
              { value: '', label: `-${line.dash} as it is` },
              ...sizes.map((size) => ({ value: `${size}`, label: `-${size}` })),
            ]}
          />
        )}
        <NativeSelect
          label="Swap ports"
          value={swap}
          onChange={(event) => {
            setSwap(event.currentTarget.value);
            setDash('');
          }}
          data={[{ value: '', label: 'no swap' }, ...swaps(car, line)]}
        />
      </div>
      <div className="keys">
        <Key disabled={edits.length === 0} onClick={() => asked.ask(edits, anew)}>
          What would it change?
        </Key>
      </div>
      <WhatIf asked={asked} keepAs={swap === '' ? `${line.id} is -${dash}` : `Swapped ${swap.replace(' ', ' and ')}`} />
    </details>
  );
}

/** Ports of the same parts that this line could change places with. */
function swaps(car: Car, line: Line): { value: string; label: string }[] {
  return [line.from, line.to].flatMap((ref) => {
    const part = car.parts.find((candidate) => candidate.id === ref.split('.')[0]);
    return (part?.ports ?? [])
      .map((port) => `${part!.id}.${port.id}`)
      .filter((other) => other !== line.from && other !== line.to)
      .map((other) => ({ value: `${ref} ${other}`, label: `${portWords(car, ref)} with ${portWords(car, other)}` }));
  });
}
