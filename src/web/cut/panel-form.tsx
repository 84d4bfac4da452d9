import { NativeSelect, TextInput } from '@mantine/core';
import { type ReactNode, useDeferredValue, useMemo, useState } from 'react';
import type { Car, Panel } from '#car';
import { sheets } from '#standards';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { LevelMark } from '../snags/level-mark.tsx';
import { Check } from '../tape/check.tsx';
import { useMarks } from '../tape/drafts.ts';
import { plainWays } from '../tape/facing.ts';
import { Form } from '../tape/form.tsx';
import { knownMm } from '../tape/port-draft.ts';
import { ReadField } from '../tape/read-field.tsx';
import { readAs, tapeMm } from '../tape/tape-text.ts';
import { tapeUnit } from '../tape/tape-unit.ts';
import { CornerFields, TapeFields } from './corner-fields.tsx';
import { FlatPicture } from './flat-picture.tsx';
import {
  emptyPanel,
  idFault,
  laidAsTyped,
  type PanelDraft,
  panelDraft,
  panelEdits,
  panelFrom,
  thicknessMm,
  withoutLost,
} from './panel-draft.ts';
import { panelNumbers, sizeWords } from './panel-numbers.ts';

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
          {was?.template === undefined ? (
            <>
              <CornerFields draft={draft} isAsked={isAsked} onDraft={setDraft} />
              <TapeFields draft={draft} isAsked={isAsked} onDraft={setDraft} />
            </>
          ) : (
            <p>Its shape is that of a template.</p>
          )}
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

interface FieldsWish {
  readonly car: Car;
  readonly draft: PanelDraft;
  readonly was: Panel | undefined;
  readonly isAsked: boolean;
  readonly onDraft: (draft: PanelDraft) => void;
}

function WhatItIs(wish: FieldsWish): ReactNode {
  const { draft, onDraft } = wish;
  const set = (change: Partial<PanelDraft>): void => onDraft({ ...draft, ...change });
  return (
    <section className="tape-section" aria-label="What it is">
      <Named {...wish} />
      <OfSheet {...wish} />
      <HowMeant {...wish} />
      <div className="checks">
        <Check label="Comes off between runs" checked={draft.removable} onCheck={(removable) => set({ removable })} />
        <Check
          label="Cut to the lines: gets holes where they meet it"
          checked={draft.givesWay}
          onCheck={(givesWay) => set({ givesWay })}
        />
      </div>
    </section>
  );
}

function Named({ car, draft, was, onDraft }: FieldsWish): ReactNode {
  const fault = idFault(draft.id, was === undefined ? (car.panels ?? []).map(({ id }) => id) : []);
  return (
    <div className="pair">
      <TextInput
        label="Name of the panel"
        value={draft.name}
        maxLength={200}
        autoComplete="off"
        onChange={(event) => onDraft({ ...draft, name: event.currentTarget.value })}
      />
      {was === undefined ? (
        <TextInput
          label="Id, as it is marked on it"
          value={draft.id}
          maxLength={64}
          autoComplete="off"
          error={fault}
          onChange={(event) => onDraft({ ...draft, id: event.currentTarget.value.trim() })}
        />
      ) : (
        <Outside draft={draft} onDraft={onDraft} />
      )}
    </div>
  );
}

function OfSheet({ draft, isAsked, onDraft }: FieldsWish): ReactNode {
  const unit = useSignal(tapeUnit);
  return (
    <div className="pair">
      <NativeSelect
        label="Sheet"
        value={draft.sheet}
        data={sheetChoices(draft.sheet)}
        onChange={(event) => onDraft({ ...draft, sheet: event.currentTarget.value })}
      />
      <ReadField
        label="Thickness"
        text={draft.thickness}
        placeholder="1.2 mm, 0.063 in"
        read={(text) => thicknessMm(text, unit)}
        told={(mm, text) => (/mm\s*$/u.test(text) ? '' : `= ${Math.round(mm * 1000) / 1000} mm`)}
        isAsked={isAsked}
        onText={(thickness) => onDraft({ ...draft, thickness })}
      />
    </div>
  );
}

const grains = [
  { value: '', label: 'either way' },
  { value: 'along', label: 'along its first edge' },
  { value: 'across', label: 'across its first edge' },
];

function HowMeant({ car, draft, was, isAsked, onDraft }: FieldsWish): ReactNode {
  const unit = useSignal(tapeUnit);
  const others = (car.panels ?? [])
    .filter(({ id, template }) => id !== was?.id && template === undefined)
    .map(({ id, name }) => ({ value: id, label: name === undefined ? id : `${id} ${name}` }));
  return (
    <div className="pair">
      {was === undefined ? <Outside draft={draft} onDraft={onDraft} /> : null}
      <ReadField
        label="Corners known to ±"
        text={draft.known}
        read={(text) => knownMm(text, unit)}
        told={(mm, text) => readAs(text, mm)}
        isAsked={isAsked}
        onText={(known) => onDraft({ ...draft, known })}
      />
      <NativeSelect
        label="Grain of the sheet"
        value={draft.grain}
        data={grains}
        onChange={(event) => onDraft({ ...draft, grain: event.currentTarget.value as PanelDraft['grain'] })}
      />
      {others.length === 0 ? null : (
        <NativeSelect
          label="Meant as the mirror of"
          value={draft.mirrorOf}
          data={[{ value: '', label: 'no other panel' }, ...others]}
          onChange={(event) => onDraft({ ...draft, mirrorOf: event.currentTarget.value })}
        />
      )}
    </div>
  );
}

function sheetChoices(now: string): readonly { readonly value: string; readonly label: string }[] {
  const known = sheets.map(({ id, title }) => ({ value: id, label: id === title ? id : `${id}: ${title}` }));
  return known.some(({ value }) => value === now) ? known : [...known, { value: now, label: `${now}, in no table` }];
}

/** The flat is drawn as whoever looks at this face sees it. */
function Outside({ draft, onDraft }: Pick<FieldsWish, 'draft' | 'onDraft'>): ReactNode {
  return (
    <NativeSelect
      label="Its outside looks"
      value={draft.outside}
      data={[
        { value: '', label: 'so that its corners run counter-clockwise' },
        ...plainWays.map((way) => ({ value: way, label: way })),
        ...(draft.outside === 'own' ? [{ value: 'own', label: 'as it stands in the car' }] : []),
      ]}
      onChange={(event) => onDraft({ ...draft, outside: event.currentTarget.value as PanelDraft['outside'] })}
    />
  );
}
