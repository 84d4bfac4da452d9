import { type ReactNode, useEffect, useState } from 'react';
import type { PhotoSeen } from '#crew';
import type { TemplateShape } from '#panels';
import type { Parsed } from '#units';
import { kept, sayFault, useCar, word } from '../bench/bench.ts';
import { useWork, type Work } from '../bench/job.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { emptyPanel, type PanelDraft } from '../cut/panel-draft.ts';
import { WhatItIs } from '../cut/panel-what.tsx';
import { Key } from '../frame/key.tsx';
import { useMarks } from '../tape/drafts.ts';
import { Form } from '../tape/form.tsx';
import { tapeUnit } from '../tape/tape-unit.ts';
import { type Card, type ChosenPhoto, chosenPhoto } from './card.ts';
import { cardEdits } from './card-draft.ts';
import { FoundCard } from './found-card.tsx';
import { shapeFound } from './ground.ts';
import { emptyMatches, type MatchDraft, matchMarks } from './match-draft.ts';
import { MatchFields } from './match-fields.tsx';
import { emptyPhoto, photoAsked, type PhotoDraft } from './photo-draft.ts';
import { PhotoFields } from './photo-fields.tsx';
import { Pointing } from './pointing.tsx';
import { refusalWords } from './photo-words.ts';

interface Finding {
  readonly photo: ChosenPhoto | null;
  readonly draft: PhotoDraft;
  readonly card: Card | null;
  readonly work: Work<PhotoSeen>;
  readonly answer: PhotoSeen | undefined;
  choose(file: File): void;
  anew(draft: PhotoDraft): void;
  find(): void;
  setCard(card: Card): void;
}

/** The photo, what is said of it, and what the server finds in it; whatever is said anew, it is found anew. */
function useFinding(onFound: (shape: TemplateShape) => void): Finding {
  const unit = useSignal(tapeUnit);
  const [photo, setPhoto] = useState<ChosenPhoto | null>(null);
  const [draft, setDraft] = useState<PhotoDraft>(emptyPhoto);
  const [card, setCard] = useState<Card | null>(null);
  const work = useWork<PhotoSeen>();
  useEffect(() => () => URL.revokeObjectURL(photo?.url ?? ''), [photo]);
  const answer = work.job?.state === 'done' ? work.job.answer : undefined;
  useEffect(() => {
    if (answer?.ok !== true) return;
    const shape = shapeFound(answer);
    setCard({ found: answer, shape, byHand: '1 mm' });
    onFound(shape);
    // oxlint-disable-next-line react-hooks/exhaustive-deps -- once for each answer
  }, [answer]);
  const forget = (): void => {
    setCard(null);
    work.clear();
  };
  const anew = (next: PhotoDraft): void => {
    setDraft(next);
    forget();
  };
  const choose = (file: File): void => {
    chosenPhoto(file).then((next) => {
      setPhoto(next);
      // What was said while it was read stays.
      setDraft((now) => ({ ...now, corners: [], on: null }));
      forget();
    }, sayFault);
  };
  const find = (): void => {
    const asked = photoAsked(draft, unit);
    if (photo === null) return sayFault('choose a photo of the card first');
    if (!asked.ok) return sayFault(asked.fault);
    // What was wrong before is put right.
    word.set(null);
    setCard(null);
    work.begin(kept.get()!.id, { kind: 'template', photo: photo.bytes, asked: asked.value });
  };
  return { photo, draft, card, work, answer, choose, anew, find, setCard };
}

/** From a photo of a card beside something of known size to a panel: found, looked at, corrected, taken. */
export function PhotoForm(): ReactNode {
  const car = useCar()!;
  const unit = useSignal(tapeUnit);
  const [panel, setPanel] = useState<PanelDraft>(() => emptyPanel(car));
  const [matches, setMatches] = useState<readonly MatchDraft[]>([]);
  const finding = useFinding((shape) => setMatches(emptyMatches(shape)));
  const { photo, draft, card } = finding;
  useMarks(card === null ? [] : matchMarks(matches, unit));
  return (
    <Form
      title="A template from a photo"
      below="A card cut to fit, laid flat beside something of known size and photographed from nearly above. The photo is not kept."
      keepWords="Take it as a panel"
      made={card === null ? notFound(photo, draft, unit) : cardEdits(car, { panel, card, matches }, unit)}
      onKept={() => open({ kind: 'cut', id: `panel/${panel.id}` })}
      onLeave={() => open({ kind: 'cut', id: 'all' })}
    >
      {(isAsked) => (
        <>
          <Found finding={finding} isAsked={isAsked} />
          {card === null ? null : (
            <>
              <WhatItIs car={car} draft={panel} was={undefined} isAsked={isAsked} onDraft={setPanel} isCard />
              <MatchFields shape={card.shape} matches={matches} isAsked={isAsked} onMatches={setMatches} />
            </>
          )}
        </>
      )}
    </Form>
  );
}

/** What is said of the photo, the photo with what is found in it, the key that looks for it. */
function Found({ finding, isAsked }: { readonly finding: Finding; readonly isAsked: boolean }): ReactNode {
  const { photo, draft, card, work, answer, choose, anew, find, setCard } = finding;
  return (
    <>
      <PhotoFields draft={draft} isAsked={isAsked} onDraft={anew} name={photo?.name ?? null} onFile={choose} />
      {photo === null ? null : card === null ? (
        <Pointing photo={photo} draft={draft} onDraft={anew} />
      ) : (
        <FoundCard photo={photo} card={card} onCard={setCard} />
      )}
      <div className="keys">
        <Key weight={card === null ? 'do' : 'plain'} disabled={photo === null || work.isBusy} onClick={find}>
          {work.isBusy ? 'The outline is looked for' : card === null ? 'Find the outline' : 'Find it anew'}
        </Key>
        {work.isBusy ? <Key onClick={work.stop}>Stop</Key> : null}
      </div>
      <Refused answer={answer} text={work.job?.state === 'fault' ? work.job.text : undefined} />
    </>
  );
}

/** What is missing as long as there is no outline. */
function notFound(photo: ChosenPhoto | null, draft: PhotoDraft, unit: ReturnType<typeof tapeUnit.get>): Parsed<never> {
  const asked = photoAsked(draft, unit);
  const missing = photo === null ? 'no photo is chosen yet' : asked.ok ? 'its outline is not found yet' : asked.fault;
  return { ok: false, fault: missing, ways: [] };
}

/** Why no outline is given: it cannot be trusted, or it cannot be found. */
function Refused({
  answer,
  text,
}: {
  readonly answer: PhotoSeen | undefined;
  readonly text: string | undefined;
}): ReactNode {
  const refusal = answer?.ok === false ? answer.refusal : text;
  if (refusal === undefined) return null;
  const [why, helps] = refusalWords(refusal);
  return (
    <div role="alert">
      <p className="warn">{`▲ No outline is given: ${why}`}</p>
      {helps === '' ? null : <p>{`What helps: ${helps}`}</p>}
    </div>
  );
}
