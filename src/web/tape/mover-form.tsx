import { NativeSelect, TextInput } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import type { Car } from '#car';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { useMarks } from './drafts.ts';
import { type PlainWay, plainWays, ways } from './facing.ts';
import { Form } from './form.tsx';
import { emptyMover, type MoverDraft, moverEdits, moverWords, reach } from './mover-draft.ts';
import { PlaceFields } from './place-fields.tsx';
import { placeOfDraft } from './port-draft.ts';
import { ReadField } from './read-field.tsx';
import { TakeAway } from './take-away.tsx';
import { readAs } from './tape-text.ts';
import { tapeUnit } from './tape-unit.ts';

/** What carries parts about: an engine that rocks, a wheel that moves up and down. */
export function MoverForm(): ReactNode {
  const car = useCar()!;
  const unit = useSignal(tapeUnit);
  const [draft, setDraft] = useState<MoverDraft>(emptyMover);
  const made = moverEdits(car, draft, unit);
  const at = draft.kind === 'swings' ? placeOfDraft(car, draft.pivot, unit) : undefined;
  useMarks(at === undefined ? [] : [{ label: 'axis', atMm: at.atMm, faces: ways[draft.along] }]);
  return (
    <Form
      title="Something that moves"
      below="Parts that move with it keep together; lines between it and the rest are tried at both ends of its travel."
      keepWords="Put it on the car"
      made={
        made.ok
          ? { ok: true, value: { edits: made.value.edits, done: `${draft.name.trim()} can carry parts now` } }
          : made
      }
      onKept={() => setDraft(emptyMover)}
      onLeave={() => open({ kind: 'parts' })}
    >
      {(isAsked) => (
        <>
          <Movers car={car} />
          <Fields car={car} draft={draft} onDraft={setDraft} isAsked={isAsked} />
        </>
      )}
    </Form>
  );
}

function Movers({ car }: { readonly car: Car }): ReactNode {
  return (
    <>
      {car.movers.length === 0 ? null : (
        <ul className="solid-list">
          {car.movers.map((mover) => (
            <li key={mover.id}>
              <span>
                <strong>{mover.name ?? mover.id}</strong> <span className="small soft">{moverWords(mover)}</span>
              </span>
              <TakeAway
                what={{ kind: 'mover', id: mover.id }}
                name={mover.name ?? mover.id}
                words="Take away"
                onGone={() => undefined}
              />
            </li>
          ))}
        </ul>
      )}
    </>
  );
}

interface FieldsWish {
  readonly car: Car;
  readonly draft: MoverDraft;
  readonly onDraft: (draft: MoverDraft) => void;
  readonly isAsked: boolean;
}

function Fields({ car, draft, onDraft, isAsked }: FieldsWish): ReactNode {
  const set = (change: Partial<MoverDraft>): void => onDraft({ ...draft, ...change });
  const swings = draft.kind === 'swings';
  return (
    <section className="tape-section" aria-label="A new one">
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
          data={[...plainWays]}
          onChange={(event) => set({ along: event.currentTarget.value as PlainWay })}
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

function Travel({ draft, onDraft, isAsked }: Omit<FieldsWish, 'car'>): ReactNode {
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
          told={(value, text) => (swings ? (/[a-z°]/iu.test(text) ? '' : 'degrees') : readAs(text, value))}
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
