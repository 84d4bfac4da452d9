import type { ReactNode } from 'react';
import type { Panel } from '#car';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { RowForm } from '../flow/row-form.tsx';
import type { RowPlan } from '../flow/row-plan.ts';
import { AsTyped } from './as-typed.tsx';
import { setPanel } from './panel-edits.ts';

type Crease = NonNullable<Panel['creases']>[number];

const plan: RowPlan = {
  title: 'Crease, split or relief',
  below:
    'Where a twisted panel is bent, slit, or parted into two that lap: a flat sheet follows two planes, not a twist.',
  fields: [
    {
      kind: 'choice',
      at: 'kind',
      label: 'It is',
      of: [
        ['crease', 'creased: one sheet, bent along the line'],
        ['split', 'split: two pieces, the first lapping the other'],
        ['relief', 'relieved: slit from its first corner, bent by hand where it ends'],
      ],
    },
    { kind: 'length', at: 'overlapMm', label: 'A split laps by', fromMm: 0, toMm: 10_000 },
    { kind: 'length', at: 'neckMm', label: 'A relief leaves at its end', fromMm: 1, toMm: 10_000 },
  ],
  laws: null,
  more: [],
  groups: {},
};

/** One crease across a panel, from corner to corner; a new one is of the pair that its address names. */
export function CreaseForm({ panel: id, row: ends }: { readonly panel: string; readonly row: string }): ReactNode {
  const car = useCar()!;
  const panel = car.panels?.find((one) => one.id === id);
  const [from = '', to = ''] = ends.split(' ');
  if (panel === undefined) return <p className="paper">{`There is no panel ${id} any more.`}</p>;
  const creases = panel.creases ?? [];
  const at = creases.findIndex((one) => [one.from, one.to].every((end) => end === from || end === to));
  const was = creases[at];
  const others = (row: Crease | null): readonly Crease[] => [
    ...creases.filter((_, i) => i !== at),
    ...(row === null ? [] : [row]),
  ];
  const back = (): void => open({ kind: 'cut', id: `panel/${id}` });
  return (
    <RowForm
      plan={plan}
      name={`${from}-${to}`}
      was={was ?? { from, to, kind: 'crease' }}
      edits={(row) => setPanel(panel, 'creases', others(row as unknown as Crease))}
      {...(was === undefined ? {} : { away: setPanel(panel, 'creases', others(null)) })}
      onLeave={back}
      asTyped={(row) => (
        <AsTyped
          car={car}
          panel={row === null ? null : { ...panel, creases: [...others(row as unknown as Crease)] }}
          about={`${from}-${to}`}
        />
      )}
    />
  );
}
