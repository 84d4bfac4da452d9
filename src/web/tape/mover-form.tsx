import { NativeSelect, TextInput } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import type { Car, Mover } from '#car';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { useMarks } from './drafts.ts';
import { plainWays, ways } from './facing.ts';
import { Form } from './form.tsx';
import { emptyMover, moverDraft, type MoverDraft, moverEdits, moverWords, reach } from './mover-draft.ts';
import { PlaceFields } from './place-fields.tsx';
import { placeOfDraft } from './port-draft.ts';
import { ReadField } from './read-field.tsx';
import { TakeAway } from './take-away.tsx';
import { toldAs } from './told-as.ts';
import { tapeUnit } from './tape-unit.ts';
import { useLengths } from './lengths.ts';
import { NoSuch } from './no-such.tsx';

/** What carries parts about: an engine that rocks, a wheel that moves up and down. */
export function MoverForm({ id }: { readonly id: string | null }): ReactNode {
  const car = useCar()!;
  const unit = useSignal(tapeUnit);
  const was = car.movers.find((mover) => mover.id === id);
  const [draft, setDraft] = useState<MoverDraft>(was === undefined ? emptyMover : moverDraft(was));
  const made = moverEdits(car, draft, unit, id);
  const at = draft.kind === 'swings' ? placeOfDraft(car, draft.pivot, unit) : undefined;
  useMarks(
    at === undefined ? [] : [{ label: 'axis', atMm: at.atMm, faces: draft.along === 'own' ? null : ways[draft.along] }],
  );
  if (id !== null && was === undefined) return <NoSuch what={`mover ${id}`} />;
  return (
    <Form
      title={was === undefined ? 'Something that moves' : `Change ${was.name ?? was.id}`}
      below="Parts that move with it keep together; lines between it and the rest are tried at both ends of its travel."
      keepWords={was === undefined ? 'Put it on the car' : 'Keep it'}
      made={
        made.ok
          ? {
              ok: true,
              value: {
                edits: made.value.edits,
                done: was === undefined ? `${draft.name.trim()} can carry parts now` : `${draft.name.trim()} changed`,
              },
            }
          : made
      }
      onKept={() => (was === undefined ? setDraft(emptyMover) : allMovers())}
      onLeave={() => (was === undefined ? open({ kind: 'parts' }) : allMovers())}
    >
      {(isAsked) => (
        <>
          {was === undefined ? <Movers car={car} /> : null}
          <Fields car={car} was={was} draft={draft} onDraft={setDraft} isAsked={isAsked} />
        </>
      )}
    </Form>
  );
}

const allMovers = (): void => open({ kind: 'tape', id: 'mover' });

function Movers({ car }: { readonly car: Car }): ReactNode {
  const lengths = useLengths();
  return (
    <>
      {car.movers.length === 0 ? null : (
        <ul className="solid-list">
          {car.movers.map((mover) => (
            <li key={mover.id}>
              <span>
                <strong>{mover.name ?? mover.id}</strong>{' '}
                <span className="small soft">{moverWords(mover, lengths)}</span>
              </span>
              <span className="keys">
                <Key
                  onClick={() => open({ kind: 'tape', id: `mover/${mover.id}` })}
                  aria-label={`Change ${mover.name ?? mover.id}`}
                >
                  Change
                </Key>
                <TakeAway
                  what={{ kind: 'mover', id: mover.id }}
                  name={mover.name ?? mover.id}
                  words="Take away"
                  onGone={() => undefined}
                />
              </span>
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

interface FieldsWish {
  readonly car: Car;
  /** The one that is changed. */
  readonly was: Mover | undefined;
  readonly draft: MoverDraft;
  readonly onDraft: (draft: MoverDraft) => void;
  readonly isAsked: boolean;
}

function Fields({ car, was, draft, onDraft, isAsked }: FieldsWish): ReactNode {
  const set = (change: Partial<MoverDraft>): void => onDraft({ ...draft, ...change });
  const swings = draft.kind === 'swings';
  const isAskew = was !== undefined && moverDraft(was).along === 'own';
  return (
    <section className="tape-section" aria-label={was === undefined ? 'A new one' : 'It'}>
      <TextInput
        label="Name"
        placeholder="Engine on its mounts"
        value={draft.name}
        maxLength={60}
        error={isAsked && draft.name.trim() === '' ? 'has no name yet' : undefined}
        onChange={(event) => set({ name: event.currentTarget.value })}
      />
      <div className="pair">
        <NativeSelect
          label="It"
          value={draft.kind}
          disabled={was !== undefined}
          data={[
            { value: 'swings', label: 'swings about an axis' },
            { value: 'slides', label: 'slides' },
          ]}
          onChange={(event) =>
            set(
              event.currentTarget.value === 'swings'
                ? { kind: 'swings', along: 'rearward', less: '1', more: '1' }
                : { kind: 'slides', along: 'up', less: '50 mm', more: '50 mm' },
            )
          }
        />
        <NativeSelect
          label={swings ? 'Its axis points' : 'It slides'}
          value={draft.along}
          data={[
            ...plainWays,
            ...(draft.along === 'own' || isAskew ? [{ value: 'own', label: 'as it does now' }] : []),
          ]}
          onChange={(event) => set({ along: event.currentTarget.value as MoverDraft['along'] })}
        />
      </div>
      <Travel draft={draft} onDraft={onDraft} isAsked={isAsked} />
      {swings ? (
        <>
          <h2>A point of its axis</h2>
          <PlaceFields car={car} draft={draft.pivot} isAsked={isAsked} onDraft={(pivot) => set({ pivot })} />
        </>
      ) : null}
    </section>
  );
}

function Travel({ draft, onDraft, isAsked }: Omit<FieldsWish, 'car' | 'was'>): ReactNode {
  const unit = useSignal(tapeUnit);
  const set = (change: Partial<MoverDraft>): void => onDraft({ ...draft, ...change });
  const swings = draft.kind === 'swings';
  return (
    <div className="pair">
      {(['less', 'more'] as const).map((end) => (
        <ReadField
          key={end}
          label={words[draft.kind][end]}
          text={draft[end]}
          read={(text) => reach(draft.kind, text, unit)}
          told={(value, text) => (swings ? (/[a-z°]/iu.test(text) ? '' : 'degrees') : toldAs(text, value))}
          isAsked={isAsked}
          onText={(text) => set({ [end]: text })}
        />
      ))}
    </div>
  );
}

const words = {
  swings: { less: 'Swings back by', more: 'Swings on by (right-handed)' },
  slides: { less: 'Back by', more: 'On by' },
} as const;
