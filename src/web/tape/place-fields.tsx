import { NativeSelect } from '@mantine/core';
import type { ReactNode } from 'react';
import type { Car } from '#car';
import { TAPE_KNOWN_TO_MM } from '#car';
import { useSignal } from '../bench/signal.ts';
import { Check } from './check.tsx';
import { knownMm, type PlaceDraft, placeOfDraft } from './port-draft.ts';
import { ReadField, TapeField } from './read-field.tsx';
import { type Side, tapeStart, tapeStarts } from './tape-place.ts';
import { toldAs } from './told-as.ts';
import { tapeUnit } from './tape-unit.ts';
import { useLengths, xyzWords } from './lengths.ts';

interface Wish {
  readonly car: Car;
  readonly draft: PlaceDraft;
  readonly onDraft: (draft: PlaceDraft) => void;
  readonly isAsked: boolean;
  /** Things that the tape is not held to, such as the port itself. */
  readonly without?: string;
  /** Where what is placed may go along with what it is measured from: the part that it is on. */
  readonly ownPart?: string;
}

type Kind = 'datum' | 'port' | 'part';
const axes = ['Along the car', 'Across', 'Height'] as const;
const words: Readonly<Record<Kind, readonly (readonly [plus: string, minus: string])[]>> = {
  datum: [
    ['rearward', 'forward'],
    ['right', 'left'],
    ['up', 'down'],
  ],
  port: [
    ['behind it', 'ahead of it'],
    ['right of it', 'left of it'],
    ['above it', 'below it'],
  ],
  part: [
    ['behind its rear', 'ahead of its front'],
    ['right of it', 'left of it'],
    ['above its top', 'below it'],
  ],
};

const kindOf = (from: string): Kind => (from === 'datum' ? 'datum' : from.startsWith('port ') ? 'port' : 'part');

/** A place by tape: from what, to which side of it, how far; three times. */
export function PlaceFields({ car, draft, onDraft, isAsked, without, ownPart }: Wish): ReactNode {
  const unit = useSignal(tapeUnit);
  const starts = tapeStarts(car).filter(({ name }) => name !== without);
  const kind = kindOf(draft.from);
  const isGone = tapeStart(car, draft.from) === undefined;
  const set = <T,>(list: readonly [T, T, T], i: number, value: T): [T, T, T] =>
    list.map((old, k) => (k === i ? value : old)) as [T, T, T];
  return (
    <div className="place-fields">
      <NativeSelect
        label="Measured from"
        description={kind === 'datum' ? 'Front axle line, centre line, and the height that you call zero' : undefined}
        value={draft.from}
        error={isGone ? 'is no longer on the car; pick another' : undefined}
        data={starts.map(({ name, words: text }) => ({ value: name, label: text }))}
        onChange={(event) => onDraft(heldTo(draft, event.currentTarget.value, ownPart))}
      />
      {axes.map((axis, i) => (
        <div className="place-row" key={axis}>
          <NativeSelect
            label={axis}
            value={draft.sides[i]}
            data={[
              { value: 'plus', label: words[kind][i]![0] },
              { value: 'minus', label: words[kind][i]![1] },
              ...(kind === 'part' ? [{ value: 'middle', label: 'level with its middle' }] : []),
            ]}
            onChange={(event) => onDraft({ ...draft, sides: set(draft.sides, i, event.currentTarget.value as Side) })}
          />
          {draft.sides[i] === 'middle' ? null : (
            <TapeField
              label="How far"
              spoken={`How far, ${axis.toLowerCase()}`}
              text={draft.far[i]!}
              placeholder={i === 0 ? '600 mm, 23 5/8 in' : ''}
              isAsked={isAsked}
              onText={(far) => onDraft({ ...draft, far: set(draft.far, i, far) })}
            />
          )}
        </div>
      ))}
      <div className="place-row">
        <ReadField
          label="Known to ±"
          text={draft.known}
          read={(text) => knownMm(text, unit)}
          told={(mm, text) => toldAs(text, mm)}
          isAsked={isAsked}
          onText={(known) => onDraft({ ...draft, known })}
        />
        <Told placed={placeOfDraft(car, draft, unit)} />
      </div>
      <Along draft={draft} onDraft={onDraft} ownPart={ownPart} />
    </div>
  );
}

interface AlongWish extends Pick<Wish, 'draft' | 'onDraft'> {
  readonly ownPart: string | undefined;
}

function Along({ draft, onDraft, ownPart }: AlongWish): ReactNode {
  if (ownPart === undefined || !mayFollow(draft.from, ownPart)) return null;
  return (
    <Check
      label="Goes along when that is moved or measured again"
      checked={draft.goesAlong}
      onCheck={(goesAlong) => onDraft({ ...draft, goesAlong })}
    />
  );
}

/** The place in car axes, as the tape gives it. */
function Told({ placed }: { readonly placed: ReturnType<typeof placeOfDraft> }): ReactNode {
  const lengths = useLengths();
  return (
    <p className="small soft place-told" aria-live="polite">
      {placed === undefined
        ? `A tape is good to about ${lengths.fine(TAPE_KNOWN_TO_MM)}`
        : `${xyzWords(placed.atMm, lengths)}, ±${lengths.fine(placed.knownToMm)}`}
    </p>
  );
}

/** The tape held to something else; what is measured from a thing goes along with it, unless the builder says otherwise. */
const heldTo = (draft: PlaceDraft, from: string, ownPart: string | undefined): PlaceDraft => ({
  ...draft,
  from,
  sides: beside(draft.sides, from),
  goesAlong: ownPart !== undefined && mayFollow(from, ownPart),
});

const mayFollow = (from: string, ownPart: string): boolean =>
  from !== 'datum' && from.split(' ')[1]?.split('.')[0] !== ownPart;

/** Only a part has a middle to be level with. */
const beside = (sides: PlaceDraft['sides'], from: string): PlaceDraft['sides'] =>
  kindOf(from) === 'part'
    ? sides
    : (sides.map((side) => (side === 'middle' ? 'plus' : side)) as unknown as PlaceDraft['sides']);
