import { NativeSelect } from '@mantine/core';
import type { ReactNode } from 'react';
import { useSignal } from '../bench/signal.ts';
import { ReadField } from '../tape/read-field.tsx';
import { toldAs } from '../tape/told-as.ts';
import { tapeUnit } from '../tape/tape-unit.ts';
import { type PhotoDraft, type ReferenceKind, references, sizeMm, thinMm } from './photo-draft.ts';

interface Wish {
  readonly draft: PhotoDraft;
  readonly isAsked: boolean;
  readonly onDraft: (draft: PhotoDraft) => void;
  readonly name: string | null;
  readonly onFile: (file: File) => void;
}

const kinds = Object.entries(references).map(([value, { words }]) => ({ value, label: words }));

/** Which photo, what lies in it beside the card, how large that is. */
export function PhotoFields({ draft, isAsked, onDraft, name, onFile }: Wish): ReactNode {
  const unit = useSignal(tapeUnit);
  const { kind } = draft;
  const { note } = references[kind];
  const thin = (label: string, field: 'above' | 'known' | 'card'): ReactNode => (
    <ReadField
      label={label}
      text={draft[field]}
      isAsked={isAsked}
      read={(text) => thinMm(text, unit)}
      told={(mm, text) => toldAs(text, mm)}
      onText={(text) => onDraft({ ...draft, [field]: text })}
    />
  );
  return (
    <section className="tape-section" aria-label="The photo">
      <div className="pair">
        <NativeSelect
          label="Beside the card lies"
          value={kind}
          data={kinds}
          onChange={(event) =>
            onDraft({
              ...draft,
              kind: event.currentTarget.value as ReferenceKind,
              sizes: ['', '', '', ''],
              corners: [],
            })
          }
        />
        <label className="key start-file scan-file">
          {name === null ? 'Choose a photo' : 'Choose another photo'}
          <input
            type="file"
            accept="image/jpeg,image/png"
            onChange={(event) => {
              const file = event.currentTarget.files?.[0];
              if (file !== undefined) onFile(file);
              event.currentTarget.value = '';
            }}
          />
        </label>
      </div>
      <p className="small soft">{note}</p>
      <Sizes draft={draft} isAsked={isAsked} onDraft={onDraft} />
      <div className="template-sizes">
        {thin('Cardboard, thickness', 'card')}
        {thin('Face of the reference above the bench', 'above')}
        {thin('Sizes of the reference known to ±', 'known')}
      </div>
    </section>
  );
}

function Sizes({ draft, isAsked, onDraft }: Pick<Wish, 'draft' | 'isAsked' | 'onDraft'>): ReactNode {
  const unit = useSignal(tapeUnit);
  const { kind, sizes } = draft;
  const typed = (i: number, text: string): PhotoDraft['sizes'] => {
    const [a, b, c, d] = sizes.map((was, k) => (k === i ? text : was));
    return [a!, b!, c!, d!];
  };
  return (
    <div className="template-sizes">
      {references[kind].sizes.map((label, i) => (
        <ReadField
          key={label}
          label={label}
          text={sizes[i]!}
          isAsked={isAsked}
          read={(text) => sizeMm(kind, i, text, unit)}
          told={(mm, text) => (mm === undefined ? '' : toldAs(text, mm))}
          onText={(text) => onDraft({ ...draft, sizes: typed(i, text) })}
        />
      ))}
    </div>
  );
}
