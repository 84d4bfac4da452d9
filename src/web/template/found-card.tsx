import { type ReactNode, useMemo } from 'react';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { knownMm } from '../tape/port-draft.ts';
import { ReadField } from '../tape/read-field.tsx';
import { toldAs } from '../tape/told-as.ts';
import { tapeUnit } from '../tape/tape-unit.ts';
import { photoGround, shapeFound } from './ground.ts';
import { OutlineEditor } from './outline-editor.tsx';
import { type Card, type ChosenPhoto, isCorrected } from './card.ts';
import { errorWords, shapeWords } from './photo-words.ts';

interface Wish {
  readonly photo: ChosenPhoto;
  readonly card: Card;
  readonly onCard: (card: Card) => void;
}

/** The outline that was found laid over the photo, with how far it may be off, to be looked at and corrected. */
export function FoundCard({ photo, card, onCard }: Wish): ReactNode {
  const unit = useSignal(tapeUnit);
  const isInch = unit === 'in';
  const { found, shape } = card;
  const ground = useMemo(() => photoGround(found, photo.url), [found, photo.url]);
  const [error, parts] = errorWords(found, isInch);
  return (
    <OutlineEditor
      ground={ground}
      shape={shape}
      reference={found.referencePx}
      label="The outline over the photo"
      onShape={(next) => onCard({ ...card, shape: next })}
    >
      <section className="tape-section" aria-label="What was found">
        <h2>{shapeWords(shape, isInch)}</h2>
        <p>
          <strong>{error}</strong>
        </p>
        <p className="small soft">{parts}</p>
        <ul className="cut-told" aria-label="Check before cutting">
          {found.report.check.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
        {isCorrected(card) ? (
          <div className="pair">
            <ReadField
              label="What is corrected is known to ±"
              text={card.byHand}
              isAsked={false}
              read={(text) => knownMm(text, unit)}
              told={(mm, text) => toldAs(text, mm)}
              onText={(byHand) => onCard({ ...card, byHand })}
            />
            <Key className="scan-file" onClick={() => onCard({ ...card, shape: shapeFound(found) })}>
              As it was found
            </Key>
          </div>
        ) : null}
      </section>
    </OutlineEditor>
  );
}
