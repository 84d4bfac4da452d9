import type { ReactNode } from 'react';
import { type Car, type Part, type Shape, shapeKnownToMm, TAPE_KNOWN_TO_MM } from '#car';
import { Key } from '../frame/key.tsx';
import type { PartDraft } from './part-draft.ts';
import { emptySolid, shapePlace, shapeWords, solidDraft, type SolidDraft } from './solid-draft.ts';
import { SolidFields } from './solid-fields.tsx';
import { useLengths } from './lengths.ts';
import type { Lengths } from '#units';

interface Wish {
  readonly car: Car;
  readonly part: Part | undefined;
  readonly draft: PartDraft;
  readonly onDraft: (draft: PartDraft) => void;
  readonly isAsked: boolean;
}

/** The solids of a part: changed where they stand, added, taken away. */
export function Solids({ car, part, draft, onDraft, isAsked }: Wish): ReactNode {
  const { shapes, solid, changing } = draft;
  const lengths = useLengths();
  const fields =
    solid === null ? null : (
      <SolidFields
        car={car}
        draft={solid}
        isAsked={isAsked}
        onDraft={(next) => onDraft({ ...draft, solid: next, follows: following(draft, solid, next, part?.id) })}
      />
    );
  const change = (shape: Shape, index: number): void => {
    const was = solidDraft(shape, part === undefined ? TAPE_KNOWN_TO_MM : shapeKnownToMm(part, shape));
    if (was !== undefined) onDraft({ ...draft, solid: was, changing: { index, was } });
  };
  const leave = (): void => onDraft({ ...draft, solid: null, changing: null });
  return (
    <section className="tape-section" aria-labelledby="solids">
      <h2 id="solids">Its shape</h2>
      {shapes.length === 0 && solid === null ? <p className="soft">None: only its ports count.</p> : null}
      <ul className="solid-list">
        {shapes.map((shape, i) => (
          // A solid has no name; its place in the list is what edits go by.
          // eslint-disable-next-line react/no-array-index-key
          <li key={i}>
            <SolidWords shape={shape} />
            <span className="keys">
              {shape.mesh !== undefined || changing?.index === i ? null : (
                <Key aria-label={`Change ${named(shape, lengths)}`} onClick={() => change(shape, i)}>
                  Change
                </Key>
              )}
              <Key
                aria-label={`Take away ${named(shape, lengths)}`}
                onClick={() => onDraft({ ...draft, ...without(draft, i) })}
              >
                Take away
              </Key>
            </span>
            {changing?.index === i ? (
              <div className="solid-changed" role="group" aria-label={`Change ${shapeWords(shape, lengths)}`}>
                <Placed shape={shape} />
                {fields}
                <Key onClick={leave}>Leave this one as it was</Key>
              </div>
            ) : null}
          </li>
        ))}
      </ul>
      {changing === null ? fields : null}
      {changing !== null ? null : (
        <div className="keys">
          <Key onClick={() => onDraft({ ...draft, solid: solid === null ? emptySolid : null })}>
            {solid === null ? 'Add a solid' : shapes.length === 0 ? 'Leave it without a shape' : 'No further solid'}
          </Key>
        </div>
      )}
    </section>
  );
}

function SolidWords({ shape }: { readonly shape: Shape }): ReactNode {
  const lengths = useLengths();
  return (
    <span>
      {shapeWords(shape, lengths)} <span className="small soft">{shapePlace(shape, lengths)}</span>
    </span>
  );
}

const named = (shape: Shape, lengths: Lengths): string =>
  `${shapeWords(shape, lengths)} ${shapePlace(shape, lengths)}`.trim();

function without({ shapes, changing, solid }: PartDraft, index: number): Partial<PartDraft> {
  const left = { shapes: shapes.filter((_, k) => k !== index) };
  if (changing === null) return left;
  if (changing.index === index) return { ...left, changing: null, solid: null };
  return { ...left, solid, changing: { ...changing, index: changing.index - (index < changing.index ? 1 : 0) } };
}

/** A solid taped from another thing makes its part go along with that, unless the builder says otherwise. */
function following(draft: PartDraft, was: SolidDraft, next: SolidDraft, own: string | undefined): string {
  const { from } = next.place;
  if (from === was.place.from || from === 'datum') return draft.follows;
  return from.split(' ')[1]?.split('.')[0] === own ? draft.follows : from;
}

/** Numbers of a solid are its own where it is turned or shifted after them. */
function Placed({ shape }: { readonly shape: Shape }): ReactNode {
  const lengths = useLengths();
  if (shape.turnDeg === undefined && shape.atMm === undefined) return null;
  const after = [
    shape.turnDeg === undefined
      ? undefined
      : `turned by ${shape.turnDeg.map((deg) => Math.round(deg * 10) / 10).join(', ')}°`,
    shape.atMm === undefined ? undefined : `shifted by ${lengths.spot(shape.atMm)}`,
  ].filter((word) => word !== undefined);
  return (
    <p className="small soft">{`These are its own numbers; after them it is ${after.join(' and ')}, which stays.`}</p>
  );
}
