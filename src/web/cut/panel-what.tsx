import { NativeSelect, TextInput } from '@mantine/core';
import type { ReactNode } from 'react';
import type { Car, Panel } from '#car';
import { sheets } from '#standards';
import { useSignal } from '../bench/signal.ts';
import { Check } from '../tape/check.tsx';
import { plainWays } from '../tape/facing.ts';
import { knownMm } from '../tape/port-draft.ts';
import { ReadField } from '../tape/read-field.tsx';
import { readAs } from '../tape/tape-text.ts';
import { tapeUnit } from '../tape/tape-unit.ts';
import { idFault, type PanelDraft, thicknessMm } from './panel-draft.ts';

interface FieldsWish {
  readonly car: Car;
  readonly draft: PanelDraft;
  readonly was: Panel | undefined;
  readonly isAsked: boolean;
  readonly onDraft: (draft: PanelDraft) => void;
  /** Its shape is that of a card: it has no corners by tape. */
  readonly isCard?: boolean;
}

/** What a panel is called, what it is of, how it is meant. */
export function WhatItIs(wish: FieldsWish): ReactNode {
  const { draft, onDraft } = wish;
  const set = (change: Partial<PanelDraft>): void => onDraft({ ...draft, ...change });
  return (
    <section className="tape-section" aria-label="What it is">
      <Named {...wish} />
      <OfSheet {...wish} />
      <HowMeant {...wish} />
      <div className="checks">
        <Check label="Comes off between runs" checked={draft.removable} onCheck={(removable) => set({ removable })} />
        <Check
          label="Cut to the lines: gets holes where they meet it"
          checked={draft.givesWay}
          onCheck={(givesWay) => set({ givesWay })}
        />
      </div>
    </section>
  );
}

function Named({ car, draft, was, onDraft, isCard = false }: FieldsWish): ReactNode {
  const fault = idFault(draft.id, was === undefined ? (car.panels ?? []).map(({ id }) => id) : []);
  return (
    <div className="pair">
      <TextInput
        label="Name of the panel"
        value={draft.name}
        maxLength={200}
        autoComplete="off"
        onChange={(event) => onDraft({ ...draft, name: event.currentTarget.value })}
      />
      {was === undefined ? (
        <TextInput
          label="Id, as it is marked on it"
          value={draft.id}
          maxLength={64}
          autoComplete="off"
          error={fault}
          onChange={(event) => onDraft({ ...draft, id: event.currentTarget.value.trim() })}
        />
      ) : (
        <Outside draft={draft} onDraft={onDraft} isCard={isCard} />
      )}
    </div>
  );
}

function OfSheet({ draft, isAsked, onDraft }: FieldsWish): ReactNode {
  const unit = useSignal(tapeUnit);
  return (
    <div className="pair">
      <NativeSelect
        label="Sheet"
        value={draft.sheet}
        data={sheetChoices(draft.sheet)}
        onChange={(event) => onDraft({ ...draft, sheet: event.currentTarget.value })}
      />
      <ReadField
        label="Thickness"
        text={draft.thickness}
        placeholder="1.2 mm, 0.063 in"
        read={(text) => thicknessMm(text, unit)}
        told={(mm, text) => (/mm\s*$/u.test(text) ? '' : `= ${Math.round(mm * 1000) / 1000} mm`)}
        isAsked={isAsked}
        onText={(thickness) => onDraft({ ...draft, thickness })}
      />
    </div>
  );
}

const grains = [
  { value: '', label: 'either way' },
  { value: 'along', label: 'along its first edge' },
  { value: 'across', label: 'across its first edge' },
];

function HowMeant({ car, draft, was, isAsked, onDraft, isCard = false }: FieldsWish): ReactNode {
  const unit = useSignal(tapeUnit);
  const others = (car.panels ?? [])
    .filter(({ id, template }) => id !== was?.id && template === undefined)
    .map(({ id, name }) => ({ value: id, label: name === undefined ? id : `${id} ${name}` }));
  return (
    <div className="pair">
      {was === undefined ? <Outside draft={draft} onDraft={onDraft} isCard={isCard} /> : null}
      {isCard ? null : (
        <ReadField
          label="Corners known to ±"
          text={draft.known}
          read={(text) => knownMm(text, unit)}
          told={(mm, text) => readAs(text, mm)}
          isAsked={isAsked}
          onText={(known) => onDraft({ ...draft, known })}
        />
      )}
      <NativeSelect
        label="Grain of the sheet"
        value={draft.grain}
        data={grains}
        onChange={(event) => onDraft({ ...draft, grain: event.currentTarget.value as PanelDraft['grain'] })}
      />
      {others.length === 0 || isCard ? null : (
        <NativeSelect
          label="Meant as the mirror of"
          value={draft.mirrorOf}
          data={[{ value: '', label: 'no other panel' }, ...others]}
          onChange={(event) => onDraft({ ...draft, mirrorOf: event.currentTarget.value })}
        />
      )}
    </div>
  );
}

function sheetChoices(now: string): readonly { readonly value: string; readonly label: string }[] {
  const known = sheets.map(({ id, title }) => ({ value: id, label: id === title ? id : `${id}: ${title}` }));
  return known.some(({ value }) => value === now) ? known : [...known, { value: now, label: `${now}, in no table` }];
}

/** The flat is drawn as whoever looks at this face sees it. */
function Outside({
  draft,
  onDraft,
  isCard,
}: Pick<FieldsWish, 'draft' | 'onDraft'> & { readonly isCard: boolean }): ReactNode {
  return (
    <NativeSelect
      label="Its outside looks"
      value={draft.outside}
      data={[
        { value: '', label: isCard ? 'as the card was photographed' : 'so that its corners run counter-clockwise' },
        ...plainWays.map((way) => ({ value: way, label: way })),
        ...(draft.outside === 'own' ? [{ value: 'own', label: 'as it stands in the car' }] : []),
      ]}
      onChange={(event) => onDraft({ ...draft, outside: event.currentTarget.value as PanelDraft['outside'] })}
    />
  );
}
