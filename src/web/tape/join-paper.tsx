import { NativeSelect, TextInput } from '@mantine/core';
import { type ReactNode, useEffect, useRef, useState } from 'react';
import { type Car, type Duty, findLineAt } from '#car';
import { keep, useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { workOutAtOnce } from '../fit/work-out-at-once.ts';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { useMarks } from './drafts.ts';
import { dutyOptions } from './duty-words.ts';
import { FirstFault } from './first-fault.tsx';
import { facing } from './facing.ts';
import { emptyEnd, emptyJoin, type EndDraftOf, type JoinDraft, joinEdits, sizeOf } from './join-draft.ts';
import { LineSizeFields } from './line-size-fields.tsx';
import { placeOfDraft } from './port-draft.ts';
import { PortFields } from './port-fields.tsx';
import { UnitKeys } from './read-field.tsx';
import { tapeUnit } from './tape-unit.ts';
import './tape.css';

/** What do you want to join? Two ports by tape, or that are there, and what runs between them. */
export function JoinPaper(): ReactNode {
  const car = useCar();
  const unit = useSignal(tapeUnit);
  const [draft, setDraft] = useState<JoinDraft>(emptyJoin);
  const [asked, setAsked] = useState(0);
  const paper = useRef<HTMLFormElement>(null);
  useMarks(car === null ? [] : marksOf(car, draft, unit));
  if (car === null) return null;
  const joined = joinEdits(car, draft, unit);
  const isEmpty = car.parts.length === 0;
  const end = (i: 0 | 1, next: EndDraftOf): void =>
    setDraft({ ...draft, ends: i === 0 ? [next, draft.ends[1]] : [draft.ends[0], next] });
  const work = async (): Promise<void> => {
    setAsked(asked + 1);
    if (!joined.ok) return;
    if (!(await keep(joined.edits, `${joined.line} is on the car`))) return;
    workOutAtOnce.set(joined.line);
    open({ kind: 'line', id: joined.line });
  };
  return (
    <form
      className="paper tape-paper"
      ref={paper}
      noValidate
      onSubmit={(event) => {
        event.preventDefault();
        void work();
      }}
    >
      <PaperHead
        below={
          isEmpty
            ? 'Two ports and what runs between them are enough for a first answer. Parts get their shapes later.'
            : 'Two ports, on the car already or measured now, and what runs between them.'
        }
      >
        What do you want to join?
      </PaperHead>
      <UnitKeys />
      <EndSection car={car} title="From" end={draft.ends[0]} isAsked={asked > 0} onEnd={(next) => end(0, next)} />
      <EndSection car={car} title="To" end={draft.ends[1]} isAsked={asked > 0} onEnd={(next) => end(1, next)} />
      <LineBetween car={car} draft={draft} isAsked={asked > 0} onDraft={setDraft} />
      <ThirdPort car={car} draft={draft} isAsked={asked > 0} onDraft={setDraft} />
      <FirstFault asked={asked} fault={joined.ok ? null : joined.fault} within={paper} />
      <div className="keys tape-do">
        <Key type="submit" weight="do">
          Work it out
        </Key>
        {isEmpty ? <Key onClick={() => open({ kind: 'cut', id: 'corners/' })}>Or begin with a panel</Key> : null}
        {isEmpty ? <Key onClick={() => open({ kind: 'parts' })}>Begin with parts instead</Key> : null}
      </div>
    </form>
  );
}

interface DraftWish {
  readonly car: Car;
  readonly draft: JoinDraft;
  readonly isAsked: boolean;
  readonly onDraft: (draft: JoinDraft) => void;
}

function LineBetween({ car, draft, isAsked, onDraft }: DraftWish): ReactNode {
  const unit = useSignal(tapeUnit);
  return (
    <section className="tape-section" aria-labelledby="join-line">
      <h2 id="join-line">The line between them</h2>
      <NativeSelect
        label="It carries"
        value={draft.duty}
        data={dutyOptions}
        onChange={(event) => onDraft({ ...draft, duty: event.currentTarget.value as Duty })}
      />
      <LineSizeFields
        draft={sizeOf(car, draft, unit)}
        isOfPorts={draft.size === null}
        isAsked={isAsked}
        onDraft={(size) => onDraft({ ...draft, size })}
      />
    </section>
  );
}

function ThirdPort({ car, draft, isAsked, onDraft }: DraftWish): ReactNode {
  const { third } = draft;
  const around = useRef<HTMLDivElement>(null);
  const wanted = useRef(false);
  // Whoever asked for it goes on in it, not below it.
  useEffect(() => {
    if (wanted.current) around.current?.querySelector<HTMLElement>('select, input')?.focus();
    wanted.current = false;
  }, [third]);
  return (
    <div className="tape-third" ref={around}>
      {third === null ? null : (
        <EndSection
          car={car}
          title="A third port, to be joined later"
          end={third}
          isAsked={isAsked}
          onEnd={(next) => onDraft({ ...draft, third: next })}
        />
      )}
      <div className="keys">
        <Key
          onClick={() => {
            wanted.current = third === null;
            onDraft({ ...draft, third: third === null ? emptyEnd('forward') : null });
          }}
        >
          {third === null ? 'Measure a third port too' : 'Leave the third port out'}
        </Key>
      </div>
    </div>
  );
}

function marksOf(car: Car, draft: JoinDraft, unit: ReturnType<typeof tapeUnit.get>) {
  const named = [
    ['From', draft.ends[0]],
    ['To', draft.ends[1]],
    ...(draft.third === null ? [] : [['3', draft.third] as const]),
  ] as const;
  return named.flatMap(([label, end]) => {
    const placed = end.use === '' ? placeOfDraft(car, end.port.place, unit) : undefined;
    const faces = facing(end.port.facing);
    return placed === undefined
      ? []
      : [
          {
            label: end.part.trim() === '' ? label : end.part.trim(),
            atMm: placed.atMm,
            faces: faces.ok ? faces.value : null,
          },
        ];
  });
}

interface SectionWish {
  readonly car: Car;
  readonly title: string;
  readonly end: EndDraftOf;
  readonly isAsked: boolean;
  readonly onEnd: (end: EndDraftOf) => void;
}

/** One end: a free port of the car, or a new one by tape. */
function EndSection({ car, title, end, isAsked, onEnd }: SectionWish): ReactNode {
  const id = `join-${title.replaceAll(/\W+/gu, '-')}`;
  const free = car.parts.flatMap((part) =>
    part.ports
      .map((port) => ({ value: `${part.id}.${port.id}`, label: `${part.name ?? part.id}: ${port.name ?? port.id}` }))
      .filter(({ value }) => findLineAt(car, value) === undefined),
  );
  return (
    <section className="tape-section" aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      {free.length === 0 ? null : (
        <NativeSelect
          label="Port"
          value={end.use}
          data={[{ value: '', label: 'a new one, by tape' }, ...free]}
          onChange={(event) => onEnd({ ...end, use: event.currentTarget.value })}
        />
      )}
      {end.use === '' ? (
        <>
          <div className="pair">
            <TextInput
              label="Part that the port is on"
              placeholder="Oil tank"
              value={end.part}
              maxLength={60}
              list="parts-of-the-car"
              error={isAsked && end.part.trim() === '' ? 'has no name yet' : undefined}
              onChange={(event) => onEnd({ ...end, part: event.currentTarget.value })}
            />
            <TextInput
              label="Name of the port"
              placeholder="may be left out"
              value={end.name}
              maxLength={60}
              onChange={(event) => onEnd({ ...end, name: event.currentTarget.value })}
            />
          </div>
          <datalist id="parts-of-the-car">
            {car.parts.map((part) => (
              <option key={part.id} value={part.name ?? part.id} />
            ))}
          </datalist>
          <NewPort car={car} end={end} isAsked={isAsked} onEnd={onEnd} />
        </>
      ) : null}
    </section>
  );
}

/** Pointing gives place and part in one go: the form is set once with both. */
function NewPort({ car, end, isAsked, onEnd }: Omit<SectionWish, 'title'>): ReactNode {
  const latest = useRef(end);
  latest.current = end;
  const set = (change: Partial<EndDraftOf>): void => {
    latest.current = { ...latest.current, ...change };
    onEnd(latest.current);
  };
  return (
    <PortFields
      car={car}
      draft={end.port}
      isAsked={isAsked}
      onDraft={(port) => set({ port })}
      onPart={(part) => set({ part: car.parts.find((candidate) => candidate.id === part)?.name ?? part })}
    />
  );
}
