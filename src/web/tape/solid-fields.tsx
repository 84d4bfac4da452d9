import { NativeSelect } from '@mantine/core';
import type { ReactNode } from 'react';
import type { Car } from '#car';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { PlaceFields } from './place-fields.tsx';
import { knownMm } from './port-draft.ts';
import { ReadField, TapeField } from './read-field.tsx';
import { type Anchor, type Lie, readDimension, type SolidDraft, type SolidKind } from './solid-draft.ts';
import { toldAs } from './told-as.ts';
import { tapeUnit } from './tape-unit.ts';

interface Wish {
  readonly car: Car;
  readonly draft: SolidDraft;
  readonly onDraft: (draft: SolidDraft) => void;
  readonly isAsked: boolean;
}

const kinds = [
  { value: 'box', label: 'a box' },
  { value: 'cylinder', label: 'a cylinder' },
  { value: 'tube', label: 'a tube or pipe, by points' },
];
const anchors = [
  { value: 'underside', label: 'the middle of its underside' },
  { value: 'middle', label: 'its middle' },
  { value: 'front', label: 'the middle of its front' },
  { value: 'corner', label: 'its lowest corner, front left' },
];
const lies = [
  { value: 'upright', label: 'upright' },
  { value: 'along', label: 'along the car' },
  { value: 'across', label: 'across the car' },
  { value: 'askew', label: 'askew, between two points' },
];

/** A plain solid: its dimensions, then where one point of it is. */
export function SolidFields({ car, draft, onDraft, isAsked }: Wish): ReactNode {
  const isAskew = draft.kind === 'cylinder' && draft.lie === 'askew';
  return (
    <>
      <NativeSelect
        label="It is about"
        value={draft.kind}
        data={kinds}
        onChange={(event) => onDraft({ ...draft, kind: event.currentTarget.value as SolidKind })}
      />
      <Dimensions car={car} draft={draft} onDraft={onDraft} isAsked={isAsked} />
      {draft.kind === 'tube' || isAskew ? (
        <Points car={car} draft={draft} onDraft={onDraft} isAsked={isAsked} />
      ) : (
        <>
          <NativeSelect
            label="The tape goes to"
            value={draft.anchor}
            data={anchors}
            onChange={(event) => onDraft({ ...draft, anchor: event.currentTarget.value as Anchor })}
          />
          <PlaceFields
            car={car}
            draft={draft.place}
            isAsked={isAsked}
            onDraft={(place) => onDraft({ ...draft, place })}
          />
        </>
      )}
    </>
  );
}

function Dimensions({ draft, onDraft, isAsked }: Wish): ReactNode {
  const unit = useSignal(tapeUnit);
  const field = (label: string, text: string, onText: (text: string) => void): ReactNode => (
    <ReadField
      key={label}
      label={label}
      text={text}
      read={readDimension(unit)}
      told={(mm, written) => toldAs(written, mm)}
      isAsked={isAsked}
      onText={onText}
    />
  );
  if (draft.kind === 'box')
    return (
      <div className="facing-tip">
        {['Along the car', 'Across', 'Height'].map((label, i) =>
          field(label, draft.size[i]!, (text) =>
            onDraft({ ...draft, size: draft.size.map((old, k) => (k === i ? text : old)) as [string, string, string] }),
          ),
        )}
      </div>
    );
  const diameter = field('Outside diameter', draft.diameter, (text) => onDraft({ ...draft, diameter: text }));
  if (draft.kind === 'tube') return <div className="pair">{diameter}</div>;
  return (
    <>
      <div className="pair">
        {diameter}
        {draft.lie === 'askew' ? null : field('Length', draft.length, (text) => onDraft({ ...draft, length: text }))}
      </div>
      <NativeSelect
        label="It lies"
        value={draft.lie}
        data={lies}
        onChange={(event) => onDraft({ ...draft, lie: event.currentTarget.value as Lie })}
      />
    </>
  );
}

/** The middle line of a tube, point by point, from the datum. */
function Points({ draft, onDraft, isAsked }: Wish): ReactNode {
  const unit = useSignal(tapeUnit);
  const set = (i: number, k: number, text: string): void =>
    onDraft({
      ...draft,
      points: draft.points.map((point, row) =>
        row === i ? (point.map((old, column) => (column === k ? text : old)) as [string, string, string]) : point,
      ),
    });
  return (
    <>
      <p className="small soft">
        Points of its middle line from the datum, in order; forward, left and down are negative, such as -260 mm.
      </p>
      {draft.points.slice(0, draft.kind === 'tube' ? undefined : 2).map((point, i) => (
        // A point has no name of its own; its place in the row is what it is.
        // eslint-disable-next-line react/no-array-index-key
        <div className="facing-tip" role="group" aria-label={`Point ${i + 1}`} key={i}>
          {(['Rearward', 'Right', 'Up'] as const).map((label, k) => (
            <TapeField
              key={label}
              label={`${i + 1}: ${label.toLowerCase()}`}
              text={point[k]!}
              isAsked={isAsked}
              onText={(text) => set(i, k, text)}
            />
          ))}
        </div>
      ))}
      <div className="keys" hidden={draft.kind !== 'tube'}>
        <Key onClick={() => onDraft({ ...draft, points: [...draft.points, ['', '', '']] })}>One more point</Key>
        {draft.points.length > 2 ? (
          <Key onClick={() => onDraft({ ...draft, points: draft.points.slice(0, -1) })}>Last point away</Key>
        ) : null}
      </div>
      <ReadField
        label="Known to ±"
        text={draft.place.known}
        read={(text) => knownMm(text, unit)}
        told={(mm, text) => toldAs(text, mm)}
        isAsked={isAsked}
        onText={(known) => onDraft({ ...draft, place: { ...draft.place, known } })}
      />
    </>
  );
}
