import { NativeSelect } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import type { Car, Edit, Line } from '#car';
import { useCar } from '../bench/bench.ts';
import { Key } from '../frame/key.tsx';
import { useWhatIf, WhatIf } from './what-if.tsx';
import { portWords } from './words.ts';

/** Dash sizes that hose is commonly sold in. */
const dashes = [3, 4, 6, 8, 10, 12, 16, 20] as const;

/** Changes to try on one line: another size, or its ports swapped with another line's. Looked at before they are kept. */
export function TryOut({ line }: { readonly line: Line }): ReactNode {
  const car = useCar()!;
  const asked = useWhatIf();
  const [dash, setDash] = useState('');
  const [swap, setSwap] = useState('');
  if (line.state !== 'planned') return null;
  const edits = wished(line, dash, swap);
  return (
    <details className="opened no-print">
      <summary>What if</summary>
      <div className="try-fields">
        {line.dash === undefined ? null : (
          <NativeSelect
            label="Another size"
            value={dash}
            onChange={(event) => {
              setDash(event.currentTarget.value);
              setSwap('');
            }}
            data={[
              { value: '', label: `-${line.dash} as it is` },
              ...dashes.filter((size) => size !== line.dash).map((size) => ({ value: `${size}`, label: `-${size}` })),
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
        <Key disabled={edits.length === 0} onClick={() => asked.ask(edits)}>
          What would it change?
        </Key>
      </div>
      <WhatIf asked={asked} keepAs={swap === '' ? `${line.id} is -${dash}` : `Swapped ${swap.replace(' ', ' and ')}`} />
    </details>
  );
}

function wished(line: Line, dash: string, swap: string): readonly Edit[] {
  if (dash !== '') return [{ do: 'set-line', line: line.id, field: 'dash', value: Number(dash) }];
  const [a, b] = swap.split(' ');
  return a !== undefined && b !== undefined ? [{ do: 'swap-ports', a, b }] : [];
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
