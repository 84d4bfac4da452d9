import type { ReactNode } from 'react';
import type { Parsed } from '#units';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { ReadField } from '../tape/read-field.tsx';
import { tapeMm } from '../tape/tape-text.ts';
import { toldAs } from '../tape/told-as.ts';
import { tapeUnit } from '../tape/tape-unit.ts';
import { type CornerDraft, nextCornerId, type PanelDraft, radiusMm, tapePairs, tapesAt } from './panel-draft.ts';
import { PointCorners } from './point-corners.tsx';

interface Wish {
  readonly draft: PanelDraft;
  readonly isAsked: boolean;
  readonly onDraft: (draft: PanelDraft) => void;
}

const axes = [
  ['Rearward', 'rearward'],
  ['Right', 'right'],
  ['Up', 'up'],
] as const;

/** Corners in order round the panel, each by three numbers from the car's datum. */
export function CornerFields({ draft, isAsked, onDraft }: Wish): ReactNode {
  const unit = useSignal(tapeUnit);
  const { corners } = draft;
  const put = (changed: CornerDraft): void =>
    onDraft({ ...draft, corners: corners.map((corner) => (corner.id === changed.id ? changed : corner)) });
  const more = (): void =>
    onDraft({ ...draft, corners: [...corners, { id: nextCornerId(corners.map(({ id }) => id)), at: ['', '', ''] }] });
  return (
    <section className="tape-section" aria-label="Corners">
      <h2>Corners</h2>
      <p className="small soft">
        From the car’s datum: rearward of the front axle line, right of the middle (left is minus), up. Leave all three
        empty where tapes alone tell it.
      </p>
      {corners.map((corner) => (
        <div className="cut-corner" key={corner.id} role="group" aria-label={`Corner ${corner.id}`}>
          <strong className="cut-letter">{corner.id}</strong>
          {axes.map(([label, word], i) => (
            <ReadField
              key={word}
              label={label}
              spoken={`${corner.id}, ${word}`}
              text={corner.at[i]!}
              isAsked={isAsked && !(isBlank(corner) && tapesAt(draft, corner.id) >= 2)}
              read={(text) => tapeMm(text, unit)}
              told={(mm, text) => toldAs(text, mm)}
              onText={(text) => put({ ...corner, at: set3(corner.at, i, text) })}
            />
          ))}
          {corners.length > 3 ? (
            <Key
              weight="bare"
              aria-label={`Take corner ${corner.id} out`}
              onClick={() => onDraft({ ...draft, corners: corners.filter(({ id }) => id !== corner.id) })}
            >
              ✕
            </Key>
          ) : null}
        </div>
      ))}
      <div className="keys">
        <Key onClick={more}>One more corner</Key>
      </div>
      <PointCorners corners={corners} onCorners={(now) => onDraft({ ...draft, corners: now })} />
    </section>
  );
}

const isBlank = ({ at }: CornerDraft): boolean => at.every((text) => text.trim() === '');

const set3 = (at: CornerDraft['at'], i: number, text: string): CornerDraft['at'] => {
  const [x, y, z] = at.map((was, k) => (k === i ? text : was));
  return [x!, y!, z!];
};

/** By how much each corner is rounded. */
export function RadiusFields({ draft, isAsked, onDraft }: Wish): ReactNode {
  const unit = useSignal(tapeUnit);
  return (
    <section className="tape-section" aria-label="Rounded corners">
      <h2>Corners rounded by</h2>
      <p className="small soft">Empty where a corner is left sharp.</p>
      <div className="cut-tapes">
        {draft.corners.map(({ id }) => (
          <ReadField
            key={id}
            label={id}
            spoken={`${id}, rounded by`}
            text={draft.radii[id] ?? ''}
            isAsked={isAsked}
            read={(text) => radiusMm(text, unit)}
            told={(mm, text) => (mm === 0 ? '' : toldAs(text, mm))}
            onText={(text) => onDraft({ ...draft, radii: { ...draft.radii, [id]: text } })}
          />
        ))}
      </div>
    </section>
  );
}

/** Distances taped from corner to corner; each is of use, none is needed. */
export function TapeFields({ draft, isAsked, onDraft }: Wish): ReactNode {
  const unit = useSignal(tapeUnit);
  const ids = draft.corners.map(({ id }) => id);
  return (
    <section className="tape-section" aria-label="Tapes">
      <h2>Tapes from corner to corner</h2>
      <p className="small soft">Straight, as the tape was held; empty where none was taken.</p>
      <div className="cut-tapes">
        {tapePairs(draft).map((pair) => {
          const [from = '', to = ''] = pair.split(' ');
          const step = Math.abs(ids.indexOf(from) - ids.indexOf(to));
          const kind = step === 1 || step === ids.length - 1 ? 'edge' : 'diagonal';
          return (
            <ReadField
              key={pair}
              label={`${from} to ${to}, ${kind}`}
              text={draft.tapes[pair] ?? ''}
              isAsked={isAsked}
              read={(text): Parsed<number | undefined> =>
                text.trim() === '' ? { ok: true, value: undefined } : tapeMm(text, unit)
              }
              told={(mm, text) => (mm === undefined ? '' : toldAs(text, mm))}
              onText={(text) => onDraft({ ...draft, tapes: { ...draft.tapes, [pair]: text } })}
            />
          );
        })}
      </div>
    </section>
  );
}
