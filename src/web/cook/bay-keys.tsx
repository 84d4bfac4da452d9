import type { ReactNode } from 'react';
import type { BaySpace, Case } from '#car';
import { open } from '../bench/place.ts';
import { Key } from '../frame/key.tsx';
import { type HeatFormKind, heatAddress } from './heat-place.ts';

/** What a bay is made of, each to be changed: its box, its openings, what draws from it, what presses on it in this case. */
export function BayKeys({ space, at }: { readonly space: BaySpace; readonly at: Case | undefined }): ReactNode {
  const key = (kind: HeatFormKind, which: string, words: string): ReactNode => (
    <Key
      key={`${kind} ${which}`}
      onClick={() => open({ kind: 'cook', id: heatAddress({ caseId: at?.id, about: { kind, id: which } }) })}
    >
      {words}
    </Key>
  );
  const of = (which: number | 'new'): string => `${space.id}~${which}`;
  return (
    <section className="flow-section no-print" aria-label="What the bay is made of">
      <h3>What it is made of</h3>
      <div className="keys">
        {key('space', space.id, 'Box and panels')}
        {(space.openings ?? []).map((row, i) => key('opening', of(i), row.name ?? row.id))}
        {key('opening', of('new'), 'Put an opening in')}
        {(space.intakes ?? []).map((row, i) => key('intake', of(i), `${row.part} draws here`))}
        {key('intake', of('new'), 'Put an intake in')}
        {(at?.pressures ?? []).map((row, i) => key('pressure', of(i), `Pressure outside ${row.at}`))}
        {at === undefined ? null : key('pressure', of('new'), 'Put a pressure outside in')}
      </div>
    </section>
  );
}
