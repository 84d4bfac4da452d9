import { TextInput } from '@mantine/core';
import type { ReactNode } from 'react';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { emptyMark, type MarkDraft, type OriginDraft, originWords } from './measuring.ts';
import { knownMm } from './port-draft.ts';
import { ReadField, TapeField } from './read-field.tsx';
import { toldAs } from './told-as.ts';
import { tapeUnit } from './tape-unit.ts';

interface Wish {
  readonly draft: OriginDraft;
  readonly onDraft: (draft: OriginDraft) => void;
  readonly isAsked: boolean;
}

/** The reference points of an origin: where each is on the car, and what was read at it. */
export function MarkFields({ draft, onDraft, isAsked }: Wish): ReactNode {
  const set = (i: number, change: Partial<MarkDraft>): void =>
    onDraft({ ...draft, points: draft.points.map((old, k) => (k === i ? { ...old, ...change } : old)) });
  const { least } = originWords[draft.kind];
  return (
    <>
      {draft.points.map((mark, i) => (
        // A point is what its place in the list says; its name is typed.
        // eslint-disable-next-line react/no-array-index-key
        <section className="tape-section" aria-label={`Point ${i + 1}`} key={i}>
          <Mark mark={mark} kind={draft.kind} n={i + 1} isAsked={isAsked} onMark={(change) => set(i, change)} />
        </section>
      ))}
      {draft.kind === 'straightedge' ? null : (
        <div className="keys">
          <Key onClick={() => onDraft({ ...draft, points: [...draft.points, emptyMark(draft.points.length + 1)] })}>
            One more point
          </Key>
          {draft.points.length > least ? (
            <Key onClick={() => onDraft({ ...draft, points: draft.points.slice(0, -1) })}>Last point away</Key>
          ) : null}
        </div>
      )}
    </>
  );
}

interface MarkWish {
  readonly mark: MarkDraft;
  readonly kind: OriginDraft['kind'];
  readonly n: number;
  readonly isAsked: boolean;
  readonly onMark: (change: Partial<MarkDraft>) => void;
}

const axes = ['Rearward', 'Right', 'Up'] as const;

function Mark({ mark, kind, n, isAsked, onMark }: MarkWish): ReactNode {
  const unit = useSignal(tapeUnit);
  const three = (
    labels: readonly string[],
    texts: MarkDraft['at'],
    on: (texts: MarkDraft['at']) => void,
  ): ReactNode => (
    <div className="facing-tip">
      {labels.map((label, k) => (
        <TapeField
          key={label}
          label={label}
          spoken={`Point ${n}: ${label}`}
          text={texts[k]!}
          isAsked={isAsked}
          onText={(text) => on(texts.map((old, i) => (i === k ? text : old)) as unknown as MarkDraft['at'])}
        />
      ))}
    </div>
  );
  return (
    <>
      <div className="pair">
        <TextInput
          label={`Point ${n}, called`}
          value={mark.name}
          maxLength={30}
          onChange={(event) => onMark({ name: event.currentTarget.value.trim() })}
        />
        <ReadField
          label="Known to ±"
          spoken={`Point ${n}: known to`}
          text={mark.known}
          read={(text) => knownMm(text, unit)}
          told={(mm, text) => toldAs(text, mm)}
          isAsked={isAsked}
          onText={(known) => onMark({ known })}
        />
      </div>
      <p className="small soft">On the car, from the datum; forward, left and down are negative</p>
      {three(axes, mark.at, (at) => onMark({ at }))}
      {kind === 'points' ? (
        <>
          <p className="small soft">Read at it, in its own axes</p>
          {three(['x read', 'y read', 'z read'], mark.read, (read) => onMark({ read }))}
        </>
      ) : null}
      {kind === 'level' ? (
        <TapeField
          label="Down from the level line to it"
          spoken={`Point ${n}: down from the level line`}
          text={mark.down}
          isAsked={isAsked}
          onText={(down) => onMark({ down })}
        />
      ) : null}
    </>
  );
}
