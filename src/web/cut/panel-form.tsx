import { type ReactNode, useDeferredValue, useMemo, useState } from 'react';
import type { Car, Panel } from '#car';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { LevelMark } from '../snags/level-mark.tsx';
import { useMarks } from '../tape/drafts.ts';
import { Form } from '../tape/form.tsx';
import { tapeMm } from '../tape/tape-text.ts';
import { tapeUnit } from '../tape/tape-unit.ts';
import { CornerFields, TapeFields } from './corner-fields.tsx';
import { FlatPicture } from './flat-picture.tsx';
import {
  emptyPanel,
  laidAsTyped,
  type PanelDraft,
  panelDraft,
  panelEdits,
  panelFrom,
  withoutLost,
} from './panel-draft.ts';
import { panelNumbers, sizeWords } from './panel-numbers.ts';
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

/** What comes of the numbers as they are typed. */
function AsTyped({ car, panel }: { readonly car: Car; readonly panel: Panel | null }): ReactNode {
  const isInch = useSignal(tapeUnit) === 'in';
  // Typing goes before drawing.
  const key = useDeferredValue(panel === null ? '' : JSON.stringify(panel));
  const pieces = useMemo(() => (key === '' ? [] : laidAsTyped(car, JSON.parse(key) as Panel)), [car, key]);
  const { sizeMm } = panelNumbers(pieces);
  const [first] = pieces;
  const open = pieces.flatMap(({ findings }) => findings);
  return (
    <section className="tape-section" aria-label="The flat as typed">
      <h2>{sizeMm === null ? 'The flat is drawn when its corners stand' : `Flat: ${sizeWords(sizeMm, isInch)}`}</h2>
      {pieces.map((layout) => (
        <FlatPicture key={layout.piece?.number ?? 0} layout={layout} isInch={isInch} />
      ))}
      {first === undefined ? null : (
        <ul className="cut-told">
          {open.map(({ code, at, level, text }) => (
            <li key={`${code} ${at ?? ''}`}>
              <LevelMark level={level} /> {text}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}
