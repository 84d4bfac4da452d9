import type { ReactNode } from 'react';
import { useCar } from '../bench/bench.ts';
import { CardForm } from './card-form.tsx';
import { PhotoForm } from './photo-form.tsx';
import './template.css';

/** A panel from a cardboard template: a new one from a photo, or the card of one that is there. */
export function TemplatePaper({ id }: { readonly id: string }): ReactNode {
  const car = useCar()!;
  if (id === '') return <PhotoForm />;
  const panel = car.panels?.find((one) => one.id === id);
  if (panel?.template === undefined) return <p className="paper">{`There is no template of ${id} any more.`}</p>;
  return <CardForm panel={panel} template={panel.template} />;
}
