import type { ReactNode } from 'react';
import type { Lever } from '#car';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { ReadField } from '../tape/read-field.tsx';
import { tapeUnit } from '../tape/tape-unit.ts';
import { TypedLength } from '../tape/typed-length.tsx';
import { armRadiusMm, atRadius, turnedRound } from './arm-radius.ts';
import { type LeverDraft, placeWords, readPlace, readSwing } from './lever-draft.ts';

interface Wish {
  readonly lever: Lever;
  readonly draft: LeverDraft;
  readonly isAsked: boolean;
  readonly onDraft: (draft: LeverDraft) => void;
}

/** Each place in three lengths, handle and arms by their length too; both ends of the swing. */
export function Places({ lever, draft, isAsked, onDraft }: Wish): ReactNode {
  const unit = useSignal(tapeUnit);
  const swing = (label: string, field: 'low' | 'high'): ReactNode => (
    <ReadField
      label={label}
      text={draft[field]}
      isAsked={isAsked}
      onText={(text) => onDraft({ ...draft, [field]: text })}
      read={(text) => readSwing(text, field === 'low' ? -1 : 1)}
    />
  );
  const held = { lever, draft, isAsked };
  return (
    <>
      <ReadField
        label="Pivot: rearward; right; up"
        text={draft.pivot}
        isAsked={isAsked}
        onText={(pivot) => onDraft({ ...draft, pivot })}
        read={(text) => readPlace('Pivot', text, unit)}
      />
      <Along {...held} onDraft={onDraft} />
      {lever.handle === undefined ? null : (
        <Carried {...held} label="Handle" text={draft.handle} onText={(handle) => onDraft({ ...draft, handle })} />
      )}
      {lever.arms.map(({ id }) => (
        <Carried
          key={id}
          {...held}
          label={`Arm ${id}`}
          text={draft.arms[id] ?? ''}
          onText={(text) => onDraft({ ...draft, arms: { ...draft.arms, [id]: text } })}
        />
      ))}
      <div className="pair">
        {swing('Swings from [deg]', 'low')}
        {swing('to [deg]', 'high')}
      </div>
    </>
  );
}

/** Where the pivot is moved: handle and arms as far the same way, so that the lever stays as it is. */
function Along({ lever, draft, onDraft }: Omit<Wish, 'isAsked'>): ReactNode {
  const unit = useSignal(tapeUnit);
  const pivot = readPlace('Pivot', draft.pivot, unit);
  if (!pivot.ok) return null;
  const by = pivot.value.map((mm, i) => mm - lever.pivotMm[i]!);
  if (Math.hypot(...by) < 0.05) return null;
  const moved = (at: readonly number[]): string => placeWords(at.map((mm, i) => mm + by[i]!));
  return (
    <div className="keys">
      <Key
        onClick={() =>
          onDraft({
            ...draft,
            ...(lever.handle === undefined ? {} : { handle: moved(lever.handle.atMm) }),
            arms: Object.fromEntries(lever.arms.map(({ id, atMm }) => [id, moved(atMm)])),
          })
        }
      >
        Handle and arms go along with the pivot
      </Key>
    </div>
  );
}

interface CarriedWish extends Pick<Wish, 'lever' | 'draft' | 'isAsked'> {
  readonly label: string;
  readonly text: string;
  readonly onText: (text: string) => void;
}

/** A handle or an arm: by its place, by how far it is from the axis, or turned round to its other side. */
function Carried({ lever, draft, isAsked, label, text, onText }: CarriedWish): ReactNode {
  const unit = useSignal(tapeUnit);
  const [pivot, at] = [readPlace('Pivot', draft.pivot, unit), readPlace(label, text, unit)];
  const about = pivot.ok ? { pivotMm: pivot.value, axis: lever.axis } : null;
  return (
    <div className="lever-carried" role="group" aria-label={label}>
      <ReadField
        label={`${label}: rearward; right; up`}
        text={text}
        isAsked={isAsked}
        onText={onText}
        read={(typed) => readPlace(label, typed, unit)}
      />
      {about === null || !at.ok ? null : (
        <div className="pair">
          <TypedLength
            label={`${label}: from the axis`}
            mm={armRadiusMm(about, at.value)}
            onMm={(mm) => {
              const next = mm > 0 ? atRadius(about, at.value, mm) : undefined;
              if (next !== undefined) onText(placeWords(next));
            }}
          />
          <Key className="scan-file" onClick={() => onText(placeWords(turnedRound(about, at.value)))}>
            To the other side of the axis
          </Key>
        </div>
      )}
    </div>
  );
}
