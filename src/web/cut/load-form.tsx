import type { ReactNode } from 'react';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { RowForm } from '../flow/row-form.tsx';
import type { RowField, RowPlan } from '../flow/row-plan.ts';
import type { FigureUnit } from '../flow/figure.ts';
import { setPanel } from './panel-edits.ts';

const figure = (at: string, label: string, unit: FigureUnit, to: number): RowField => ({
  kind: 'figure',
  at,
  figure: { label, unit, from: 0, to },
});

const plan: RowPlan = {
  title: 'What it must stand',
  below: 'What is left empty is not asked. From it follow deflection, stress, its own frequency and when it buckles.',
  fields: [
    {
      kind: 'option',
      at: 'held',
      label: 'Its edges are held',
      of: [
        ['simply', 'against tilting not at all: fixings some way apart'],
        ['clamped', 'firmly: flanged, or fixings close together'],
      ],
    },
    figure('pressureKpa', 'Pressure across it', 'kPa', 1000),
    figure('shakeG', 'Shaken by', 'g', 100),
    figure('shakeHz', 'Shaken at', 'Hz', 10_000),
    figure('shearNPerMm', 'Shear along its edges', 'N/mm', 10_000),
    figure('pressNPerMm', 'Pressed along its long way', 'N/mm', 10_000),
  ],
  laws: null,
  more: [],
  groups: {},
};

/** What a panel must stand, and how its edges are held. */
export function LoadForm({ panel: id }: { readonly panel: string }): ReactNode {
  const car = useCar()!;
  const panel = car.panels?.find((one) => one.id === id);
  if (panel === undefined) return <p className="paper">{`There is no panel ${id} any more.`}</p>;
  const { load } = panel;
  return (
    <RowForm
      plan={plan}
      name={id}
      was={load ?? {}}
      edits={(row) => setPanel(panel, 'load', row)}
      {...(load === undefined ? {} : { away: setPanel(panel, 'load', {}) })}
      onLeave={() => open({ kind: 'cut', id: `panel/${id}` })}
    />
  );
}
