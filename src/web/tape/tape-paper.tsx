import type { ReactNode } from 'react';
import { ScanPaper } from '../scan/scan-paper.tsx';
import { CarForm } from './car-form.tsx';
import { JoinPaper } from './join-paper.tsx';
import { LineForm } from './line-form.tsx';
import { MoverForm } from './mover-form.tsx';
import { OriginForm, OriginsPaper } from './origin-form.tsx';
import { PartForm } from './part-form.tsx';
import { PortForm } from './port-form.tsx';
import { ReadingsForm } from './readings-form.tsx';

/** The papers on which the car is measured in; `id` is what stands in the address after "tape": "join", "part/tank", "port/tank.out". */
export function TapePaper({ id: what }: { readonly id: string }): ReactNode {
  const [kind = '', ...rest] = what.split('/');
  const id = rest.join('/');
  if (kind === 'part') return <PartForm id={id === '' ? null : id} key={id} />;
  if (kind === 'port') return <PortForm of={id} key={id} />;
  if (kind === 'line') return <LineForm id={id} key={id} />;
  if (kind === 'origins') return <OriginsPaper />;
  if (kind === 'origin') return <OriginForm id={id === '' ? null : id} key={id} />;
  if (kind === 'readings') return <ReadingsForm of={id} key={id} />;
  if (kind === 'scan') return <ScanPaper />;
  if (kind === 'car') return <CarForm />;
  if (kind === 'mover') return <MoverForm id={id === '' ? null : id} key={id} />;
  return <JoinPaper />;
}
