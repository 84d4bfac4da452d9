import type { ReactNode } from 'react';
import { CableForm } from './cable-form.tsx';
import { CreaseForm } from './crease-form.tsx';
import { CurveForm } from './curve-form.tsx';
import { CutList } from './cut-list.tsx';
import { LeverForm } from './lever-form.tsx';
import { LeverPaper } from './lever-paper.tsx';
import { LeverRowForm } from './lever-row-forms.tsx';
import { NewLeverForm } from './new-lever-form.tsx';
import { LoadForm } from './load-form.tsx';
import { PanelForm } from './panel-form.tsx';
import { PanelPaper } from './panel-paper.tsx';
import { TemplatePaper } from '../template/template-paper.tsx';
import { BrakeForm, EdgeForm, HoleForm, SheetForm, WindowForm } from './panel-row-forms.tsx';
import '../fit/fit.css';
import '../flow/flow.css';
import './cut.css';

/** What there is to cut, or one thing of it; `id` is what stands in the address after "cut": "all", "panel/PN1", "corners/PN1", "window/PN1/V1". */
export function CutPaper({ id: what }: { readonly id: string }): ReactNode {
  const [kind = '', id = '', ...rest] = what.split('/');
  const row = rest.join('/');
  if (kind === 'panel') return <PanelPaper id={id} key={what} />;
  if (kind === 'corners') return <PanelForm id={id} key={what} />;
  if (kind === 'template') return <TemplatePaper id={id} key={what} />;
  if (kind === 'edge') return <EdgeForm panel={id} row={row} key={what} />;
  if (kind === 'curve') return <CurveForm panel={id} row={row} key={what} />;
  if (kind === 'crease') return <CreaseForm panel={id} row={row} key={what} />;
  if (kind === 'load') return <LoadForm panel={id} key={what} />;
  if (kind === 'window') return <WindowForm panel={id} row={row} key={what} />;
  if (kind === 'hole') return <HoleForm panel={id} row={row} key={what} />;
  if (kind === 'sheet') return <SheetForm row={id} key={what} />;
  if (kind === 'brake') return <BrakeForm key={what} />;
  if (kind === 'new-lever') return <NewLeverForm />;
  if (kind === 'lever') return <LeverPaper id={id} key={what} />;
  if (kind === 'cable') return <CableForm lever={id} cable={row} key={what} />;
  if (kind === 'hangs') return <LeverRowForm lever={id} row={row} key={what} />;
  if (kind === 'set') return <LeverForm id={id} key={what} />;
  return <CutList />;
}
