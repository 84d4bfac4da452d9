import { NativeSelect, TextInput } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import { type Car, keepOffDefaults, type PartClass } from '#car';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Check } from './check.tsx';
import { useMarks } from './drafts.ts';
import { Form } from './form.tsx';
import { celsius, emptyPart, keepOffMm, type PartDraft, partDraft, partEdits } from './part-draft.ts';
import { knownMm, placeOfDraft } from './port-draft.ts';
import { ReadField } from './read-field.tsx';
import { Solids } from './part-solids-form.tsx';
import { tapeStarts } from './tape-place.ts';
import { TakeAway } from './take-away.tsx';
import { toldAs } from './told-as.ts';
import { tapeUnit } from './tape-unit.ts';
import { NoSuch } from './no-such.tsx';

/** A part: what it is, how near lines may come, its solids by dimensions and place. */
export function PartForm({ id }: { readonly id: string | null }): ReactNode {
  const car = useCar()!;
  const unit = useSignal(tapeUnit);
  const part = id === null ? undefined : car.parts.find((candidate) => candidate.id === id);
  const [draft, setDraft] = useState<PartDraft>(part === undefined ? emptyPart : partDraft(part));
  const made = partEdits(car, id, draft, unit);
  const at =
    draft.solid === null || draft.solid.kind === 'tube' ? undefined : placeOfDraft(car, draft.solid.place, unit);
  useMarks(at === undefined ? [] : [{ label: draft.name.trim() || 'here', atMm: at.atMm, faces: null }]);
  if (id !== null && part === undefined) return <NoSuch what={`part ${id}`} />;
  const name = draft.name.trim();
  return (
    <Form
      title={part === undefined ? 'Add a part' : `Change ${part.name ?? part.id}`}
      below={part === undefined ? 'A box or a cylinder about its size will do; lines keep off what is drawn.' : part.id}
      keepWords={part === undefined ? 'Put it on the car' : 'Keep it'}
      made={
        made.ok
          ? {
              ok: true,
              value: {
                edits: made.value.edits,
                done: part === undefined ? `${name} is on the car` : `${name} changed`,
              },
            }
          : made
      }
      onKept={() => made.ok && open({ kind: 'part', id: made.value.id })}
      onLeave={() => open(id === null ? { kind: 'parts' } : { kind: 'part', id })}
      others={
        part === undefined ? null : (
          <TakeAway
            what={{ kind: 'part', id: part.id }}
            name={part.name ?? part.id}
            onGone={() => open({ kind: 'parts' })}
          />
        )
      }
    >
      {(isAsked) => (
        <>
          <WhatItIs car={car} draft={draft} onDraft={setDraft} isAsked={isAsked} own={id} />
          <Solids car={car} part={part} draft={draft} onDraft={setDraft} isAsked={isAsked} />
        </>
      )}
    </Form>
  );
}

interface PartFieldsWish {
  readonly car: Car;
  readonly draft: PartDraft;
  readonly onDraft: (draft: PartDraft) => void;
  readonly isAsked: boolean;
}

const classes = [
  { value: 'fixed', label: 'fixed' },
  { value: 'hot', label: 'hot' },
  { value: 'moving', label: 'moving' },
];

function WhatItIs({ car, draft, onDraft, isAsked, own }: PartFieldsWish & { readonly own: string | null }): ReactNode {
  const unit = useSignal(tapeUnit);
  const set = (change: Partial<PartDraft>): void => onDraft({ ...draft, ...change });
  const usual = draft.class === 'hot' && draft.shielded ? keepOffDefaults.hotShielded : keepOffDefaults[draft.class];
  return (
    <section className="tape-section" aria-label="What it is">
      <TextInput
        label="Name of the part"
        value={draft.name}
        maxLength={60}
        error={isAsked && draft.name.trim() === '' ? 'has no name yet' : undefined}
        onChange={(event) => set({ name: event.currentTarget.value })}
      />
      <div className="pair">
        <NativeSelect
          label="It is"
          value={draft.class}
          data={classes}
          onChange={(event) => set({ class: event.currentTarget.value as PartClass })}
        />
        <ReadField
          label="Lines keep off"
          text={draft.keepOff}
          placeholder={`${usual} mm, as ${draft.class} parts`}
          read={(text) => keepOffMm(text, unit)}
          told={(mm, text) => (mm === undefined ? '' : toldAs(text, mm))}
          isAsked={isAsked}
          onText={(keepOff) => set({ keepOff })}
        />
      </div>
      {draft.class === 'hot' ? <HowHot draft={draft} onDraft={onDraft} isAsked={isAsked} /> : null}
      <div className="pair">
        <NativeSelect
          label="Moves with"
          value={draft.movesWith}
          data={[
            { value: '', label: 'nothing' },
            ...car.movers.map((mover) => ({ value: mover.id, label: mover.name ?? mover.id })),
          ]}
          onChange={(event) => set({ movesWith: event.currentTarget.value })}
        />
        <ReadField
          label="Known to ±"
          text={draft.known}
          read={(text) => knownMm(text, unit)}
          told={(mm, text) => toldAs(text, mm)}
          isAsked={isAsked}
          onText={(known) => set({ known })}
        />
      </div>
      <Along car={car} own={own} draft={draft} onDraft={onDraft} />
      <Crossable draft={draft} onDraft={onDraft} />
    </section>
  );
}

function Along({
  car,
  own,
  draft,
  onDraft,
}: Omit<PartFieldsWish, 'isAsked'> & { readonly own: string | null }): ReactNode {
  const leaders = tapeStarts(car).filter(({ name }) => name !== 'datum' && name.split(' ')[1]?.split('.')[0] !== own);
  return (
    <NativeSelect
      label="Goes along with"
      description="When that is moved or measured again, this part goes with it"
      value={draft.follows}
      data={[{ value: '', label: 'nothing' }, ...leaders.map(({ name, words }) => ({ value: name, label: words }))]}
      onChange={(event) => onDraft({ ...draft, follows: event.currentTarget.value })}
    />
  );
}

function HowHot({ draft, onDraft, isAsked }: Omit<PartFieldsWish, 'car'>): ReactNode {
  const set = (change: Partial<PartDraft>): void => onDraft({ ...draft, ...change });
  return (
    <div className="pair">
      <ReadField
        label="Surface, running hot"
        text={draft.surface}
        placeholder="750 C"
        read={(text) => celsius(text)}
        told={(c, text) => (c === undefined || /c$/iu.test(text.trim()) ? '' : `= ${c} °C`)}
        isAsked={isAsked}
        onText={(surface) => set({ surface })}
      />
      <div className="checks">
        <Check label="Shielded or wrapped" checked={draft.shielded} onCheck={(shielded) => set({ shielded })} />
        <Check label="A turbine housing" checked={draft.turbine} onCheck={(turbine) => set({ turbine })} />
      </div>
    </div>
  );
}

function Crossable({ draft, onDraft }: Pick<PartFieldsWish, 'draft' | 'onDraft'>): ReactNode {
  const set = (change: Partial<PartDraft>): void => onDraft({ ...draft, ...change });
  return (
    <fieldset className="checks">
      <legend className="small soft">Lines may pass through it</legend>
      {crossings.map(([kind, words]) => (
        <Check
          key={kind}
          label={words}
          checked={draft.crossable.includes(kind)}
          onCheck={(checked) =>
            set({
              crossable: checked ? [...draft.crossable, kind] : draft.crossable.filter((other) => other !== kind),
            })
          }
        />
      ))}
    </fieldset>
  );
}

const crossings = [
  ['grommet', 'in a grommet'],
  ['bulkhead-fitting', 'by a bulkhead fitting'],
  ['tee', 'at a tee'],
] as const;
