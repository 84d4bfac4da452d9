import { NativeSelect } from '@mantine/core';
import type { ReactNode } from 'react';
import { type Car, partTolerance, TAPE_KNOWN_TO_MM } from '#car';
import { type EndType, sizedBy } from '#standards';
import type { Parsed } from '#units';
import { useSignal } from '../bench/signal.ts';
import { PointAt } from '../scan/point-at.tsx';
import { asideOf, angleDeg, facing, facingDraft, type FacingDraft, type PlainWay, plainWays } from './facing.ts';
import { PlaceFields } from './place-fields.tsx';
import { placeDraft, type PortDraft } from './port-draft.ts';
import { endFrom, type EndDraft, portKinds, sizesOf, withKind } from './port-ends.ts';
import { ReadField } from './read-field.tsx';
import { toldAs } from './told-as.ts';
import { tapeUnit } from './tape-unit.ts';

interface Wish {
  readonly car: Car;
  readonly draft: PortDraft;
  readonly onDraft: (draft: PortDraft) => void;
  readonly isAsked: boolean;
  readonly without?: string;
  /** The part that it is on: it goes along with that anyhow. */
  readonly ownPart?: string;
  /** Called with the part that was pointed at. */
  readonly onPart?: (part: string) => void;
}

/** A port by tape: where it is, which way it faces, what it is. */
export function PortFields({ car, draft, onDraft, isAsked, without, ownPart = '', onPart }: Wish): ReactNode {
  const hasSurface = car.parts.some((part) => part.shapes.length > 0);
  return (
    <>
      {hasSurface ? (
        <PointAt
          words="Point at it on the car"
          onPoint={({ atMm, faces }, { part }) => {
            const on = car.parts.find((candidate) => candidate.id === part);
            const known = on === undefined ? TAPE_KNOWN_TO_MM : partTolerance(on).knownToMm;
            onDraft({ ...draft, place: placeDraft(atMm, known), facing: facingDraft(faces) });
            if (part !== null) onPart?.(part);
          }}
        />
      ) : null}
      <PlaceFields
        car={car}
        draft={draft.place}
        isAsked={isAsked}
        {...(without === undefined ? {} : { without })}
        ownPart={ownPart}
        onDraft={(place) => onDraft({ ...draft, place })}
      />
      <FacingFields draft={draft.facing} isAsked={isAsked} onDraft={(next) => onDraft({ ...draft, facing: next })} />
      <EndFields draft={draft.end} isAsked={isAsked} onDraft={(end) => onDraft({ ...draft, end })} />
    </>
  );
}

interface FacingWish {
  readonly draft: FacingDraft;
  readonly onDraft: (draft: FacingDraft) => void;
  readonly isAsked: boolean;
}

const wayOptions = [
  ...plainWays.map((way) => ({ value: way, label: way })),
  { value: 'sloping', label: 'sloping' },
  { value: 'numbers', label: 'by numbers' },
];

export function FacingFields({ draft, onDraft, isAsked }: FacingWish): ReactNode {
  const read = facing(draft);
  const towards = asideOf(draft.mostly);
  return (
    <div className="facing-fields">
      <NativeSelect
        label="It faces"
        value={draft.way}
        data={wayOptions}
        onChange={(event) => onDraft(turnedTo(draft, event.currentTarget.value as FacingDraft['way']))}
      />
      {draft.way === 'sloping' ? (
        <div className="facing-tip">
          <NativeSelect
            label="Mostly"
            value={draft.mostly}
            data={[...plainWays]}
            onChange={(event) => onDraft(mostlyTo(draft, event.currentTarget.value as PlainWay))}
          />
          <ReadField
            label="Tipped by"
            text={draft.tip}
            read={(text): Parsed<unknown> => (angleDeg(text).ok ? read : angleDeg(text))}
            told={() => (/[a-z°]/iu.test(draft.tip) ? '' : 'degrees')}
            isAsked={isAsked}
            onText={(tip) => onDraft({ ...draft, tip })}
          />
          <NativeSelect
            label="Towards"
            value={draft.towards}
            data={[...towards]}
            onChange={(event) => onDraft({ ...draft, towards: event.currentTarget.value as PlainWay })}
          />
        </div>
      ) : null}
      {draft.way === 'numbers' ? <ByNumbers draft={draft} onDraft={onDraft} isAsked={isAsked} /> : null}
    </div>
  );
}

function ByNumbers({ draft, onDraft, isAsked }: FacingWish): ReactNode {
  const read = facing(draft);
  return (
    <div className="facing-tip">
      {(['Rearward', 'Right', 'Up'] as const).map((label, i) => (
        <ReadField
          key={label}
          label={label}
          text={draft.numbers[i]!}
          read={(text) =>
            text.trim() === '' || !Number.isFinite(Number(text.replace(',', '.')))
              ? { ok: false, fault: 'a number from -1 to 1 is wanted', ways: [] }
              : read
          }
          isAsked={isAsked}
          onText={(text) =>
            onDraft({
              ...draft,
              numbers: draft.numbers.map((old, k) => (k === i ? text : old)) as [string, string, string],
            })
          }
        />
      ))}
    </div>
  );
}

const turnedTo = (draft: FacingDraft, way: FacingDraft['way']): FacingDraft =>
  way === 'sloping' || way === 'numbers' ? { ...draft, way } : { ...mostlyTo(draft, way), way };

function mostlyTo(draft: FacingDraft, mostly: PlainWay): FacingDraft {
  const aside = asideOf(mostly);
  return { ...draft, mostly, towards: aside.includes(draft.towards) ? draft.towards : aside.at(-2)! };
}

interface EndWish {
  readonly draft: EndDraft;
  readonly onDraft: (draft: EndDraft) => void;
  readonly isAsked: boolean;
}

export function EndFields({ draft, onDraft, isAsked }: EndWish): ReactNode {
  const unit = useSignal(tapeUnit);
  const sizes = sizesOf(draft.type);
  const read = endFrom(draft, unit);
  return (
    <div className="end-fields">
      <NativeSelect
        label="What it is"
        value={draft.type}
        data={portKinds.map(([value, label]) => ({ value, label }))}
        onChange={(event) => onDraft(withKind(draft, event.currentTarget.value as EndType))}
      />
      {sizedBy[draft.type] === 'odMm' ? (
        <ReadField
          label="Outside diameter"
          text={draft.size}
          placeholder="19 mm, 3/4 in"
          read={(size) => {
            const end = endFrom({ ...draft, size }, unit);
            return end.ok ? { ok: true, value: end.value.odMm ?? 0 } : end;
          }}
          told={(mm, text) => toldAs(text, mm)}
          isAsked={isAsked}
          onText={(size) => onDraft({ ...draft, size })}
        />
      ) : (
        <NativeSelect
          label="Size"
          value={draft.size}
          error={isAsked && !read.ok ? read.fault : undefined}
          data={[
            { value: '', label: 'pick one' },
            ...(draft.size === '' || sizes.some(({ size }) => size === draft.size)
              ? []
              : [{ value: draft.size, label: draft.size }]),
            ...sizes.map(({ size, words }) => ({ value: size, label: words })),
          ]}
          onChange={(event) => onDraft({ ...draft, size: event.currentTarget.value })}
        />
      )}
    </div>
  );
}
