import { type ReactNode, useState } from 'react';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { useMarks } from '../tape/drafts.ts';
import { Form } from '../tape/form.tsx';
import { tapeMm } from '../tape/tape-text.ts';
import { tapeUnit } from '../tape/tape-unit.ts';
import { AsTyped } from './as-typed.tsx';
import { CornerFields, RadiusFields, TapeFields } from './corner-fields.tsx';
import { emptyPanel, type PanelDraft, panelDraft, panelEdits, panelFrom, withoutLost } from './panel-draft.ts';
import { WhatItIs } from './panel-what.tsx';

/** A panel by its measured corners: a new one where none is named. The flat is drawn as it is typed. */
export function PanelForm({ id }: { readonly id: string }): ReactNode {
  const car = useCar()!;
  const unit = useSignal(tapeUnit);
  const was = car.panels?.find((panel) => panel.id === id);
  const [draft, setDraft] = useState<PanelDraft>(() => (was === undefined ? emptyPanel(car) : panelDraft(was)));
  const made = panelFrom(car, draft, was, unit);
  useMarks(marksOf(draft, unit));
  if (id !== '' && was === undefined) return <p className="paper">{`There is no panel ${id} any more.`}</p>;
  const back = (to: string): void => open({ kind: 'cut', id: to === '' ? 'all' : `panel/${to}` });
  const lost = made.ok && was !== undefined ? withoutLost({ ...was, corners: made.value.corners! }).lost : [];
  return (
    <Form
      title={was === undefined ? 'Put a panel in' : `Corners of ${was.id}`}
      below="Its corners by tape, in order round it. Diagonals tell whether they are right: tape them too."
      keepWords={was === undefined ? 'Put it in' : 'Keep it'}
      made={
        made.ok
          ? {
              ok: true,
              value: {
                edits: panelEdits(was, made.value),
                done: `Panel ${draft.id} ${was === undefined ? 'is in' : 'changed'}`,
              },
            }
          : made
      }
      onKept={() => back(draft.id)}
      onLeave={() => back(id)}
    >
      {(isAsked) => (
        <>
          <WhatItIs car={car} draft={draft} was={was} isAsked={isAsked} onDraft={setDraft} />
          <CornerFields draft={draft} isAsked={isAsked} onDraft={setDraft} />
          <TapeFields draft={draft} isAsked={isAsked} onDraft={setDraft} />
          <RadiusFields draft={draft} isAsked={isAsked} onDraft={setDraft} />
          {lost.length === 0 ? null : <p className="warn warn-fix">{`◆ Goes with it: ${lost.join(', ')}`}</p>}
          <AsTyped car={car} panel={made.ok ? made.value : null} />
        </>
      )}
    </Form>
  );
}

function marksOf({ corners }: PanelDraft, unit: ReturnType<typeof tapeUnit.get>) {
  return corners.flatMap(({ id, at }) => {
    const [x, y, z] = at.map((text) => tapeMm(text, unit));
    return x?.ok && y?.ok && z?.ok
      ? [{ label: id, atMm: [x.value, y.value, z.value] as [number, number, number], faces: null }]
      : [];
  });
}
