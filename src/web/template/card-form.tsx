import { type ReactNode, useMemo, useState } from 'react';
import type { Panel } from '#car';
import type { Outline } from '#geometry';
import type { TemplateShape } from '#panels';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { type PanelDraft, panelDraft } from '../cut/panel-draft.ts';
import { WhatItIs } from '../cut/panel-what.tsx';
import { useMarks } from '../tape/drafts.ts';
import { Form } from '../tape/form.tsx';
import { tapeUnit } from '../tape/tape-unit.ts';
import { cardChanges } from './card-draft.ts';
import { flatGround } from './ground.ts';
import { emptyMatches, matchDrafts, matchMarks } from './match-draft.ts';
import { MatchFields } from './match-fields.tsx';
import { OutlineEditor } from './outline-editor.tsx';
import { shapeWords } from './photo-words.ts';

type Template = NonNullable<Panel['template']>;

const ringOf = (points: Template['outlineMm']): Outline =>
  points.map(([x, y, bulge]) => (bulge === undefined ? { at: [x, y] } : { at: [x, y], bulge }));

const shapeOf = ({ outlineMm, holesMm = [] }: Template): TemplateShape => ({
  outline: ringOf(outlineMm),
  openings: holesMm.map(ringOf),
});

/** The card of a panel that is on the car: its outline by numbers, where it is, what it is of. */
export function CardForm({ panel, template }: { readonly panel: Panel; readonly template: Template }): ReactNode {
  const car = useCar()!;
  const unit = useSignal(tapeUnit);
  const isInch = unit === 'in';
  const [shape, setShape] = useState(() => shapeOf(template));
  const [draft, setDraft] = useState<PanelDraft>(() => panelDraft(panel));
  const [matches, setMatches] = useState(() =>
    template.matches.length === 0 ? emptyMatches(shape) : matchDrafts(shape, template.matches),
  );
  // The picture stays as large as the card was: a corner drawn along would make it jump.
  const ground = useMemo(() => flatGround(shapeOf(template)), [template]);
  useMarks(matchMarks(matches, unit));
  const back = (): void => open({ kind: 'cut', id: `panel/${panel.id}` });
  return (
    <Form
      title={`Template of ${panel.id}`}
      below="Its outline as it was traced, and where it is on the car."
      keepWords="Keep it"
      made={cardChanges(car, { ...panel, template }, { panel: draft, shape, matches }, unit)}
      onKept={back}
      onLeave={back}
    >
      {(isAsked) => (
        <>
          <OutlineEditor ground={ground} shape={shape} label={`Template of ${panel.id}`} onShape={setShape}>
            <p>{shapeWords(shape, isInch)}</p>
          </OutlineEditor>
          <WhatItIs car={car} draft={draft} was={panel} isAsked={isAsked} onDraft={setDraft} isCard />
          <MatchFields shape={shape} matches={matches} isAsked={isAsked} onMatches={setMatches} />
        </>
      )}
    </Form>
  );
}
