import { NativeSelect, TextInput } from '@mantine/core';
import type { ReactNode } from 'react';
import type { Car, Panel } from '#car';
import { sheets } from '#standards';
import type { Parsed } from '#units';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { Check } from '../tape/check.tsx';
import { plainWays } from '../tape/facing.ts';
import { knownMm } from '../tape/port-draft.ts';
import { ReadField } from '../tape/read-field.tsx';
import { tapeMm } from '../tape/tape-text.ts';
import { toldAs } from '../tape/told-as.ts';
import { tapeUnit } from '../tape/tape-unit.ts';
import { begunAsMirror } from './mirror-draft.ts';
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
        told={(mm, text) => toldAs(text, mm)}
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
  return (
    <div className="pair">
      {was === undefined ? <Outside draft={draft} onDraft={onDraft} isCard={isCard} /> : null}
      {isCard ? null : (
        <ReadField
          label="Corners known to ±"
          text={draft.known}
          read={(text) => knownMm(text, unit)}
          told={(mm, text) => toldAs(text, mm)}
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
      {isCard ? null : <OnScan car={car} draft={draft} onDraft={onDraft} />}
      {isCard ? null : <MirrorOf car={car} draft={draft} was={was} isAsked={isAsked} onDraft={onDraft} />}
    </div>
  );
}

/** A scan tells twist and bow between the corners. */
function OnScan({ car, draft, onDraft }: Pick<FieldsWish, 'car' | 'draft' | 'onDraft'>): ReactNode {
  const scans = car.parts
    .filter(({ shapes }) => shapes.some(({ mesh }) => mesh !== undefined))
    .map(({ id, name }) => ({ value: id, label: name ?? id }));
  if (scans.length === 0 && draft.onScan === '') return null;
  return (
    <NativeSelect
      label="Its corners stand on the scan of"
      value={draft.onScan}
      data={[{ value: '', label: 'no scan' }, ...scans]}
      onChange={(event) => onDraft({ ...draft, onScan: event.currentTarget.value })}
    />
  );
}

/** Which panel it is meant as the mirror of, at which plane; a new one can begin with the master's corners. */
function MirrorOf({ car, draft, was, isAsked, onDraft }: FieldsWish): ReactNode {
  const unit = useSignal(tapeUnit);
  const others = (car.panels ?? []).filter(({ id, template }) => id !== was?.id && template === undefined);
  if (others.length === 0) return null;
  const master = others.find(({ id }) => id === draft.mirrorOf);
  return (
    <>
      <NativeSelect
        label="Meant as the mirror of"
        value={draft.mirrorOf}
        data={[
          { value: '', label: 'no other panel' },
          ...others.map(({ id, name }) => ({ value: id, label: name === undefined ? id : `${id} ${name}` })),
        ]}
        onChange={(event) => onDraft({ ...draft, mirrorOf: event.currentTarget.value })}
      />
      {master === undefined ? null : (
        <ReadField
          label="Plane of the mirror: right of the middle by"
          text={draft.mirrorPlane}
          placeholder="the car’s middle"
          isAsked={isAsked}
          read={(text): Parsed<number> => (text.trim() === '' ? { ok: true, value: 0 } : tapeMm(text, unit))}
          told={(mm, text) => toldAs(text, mm)}
          onText={(mirrorPlane) => onDraft({ ...draft, mirrorPlane })}
        />
      )}
      {master === undefined || was !== undefined ? null : (
        <Key className="scan-file" onClick={() => onDraft(begunAsMirror(draft, master, unit))}>
          {`Begin with the corners of ${master.id}, mirrored`}
        </Key>
      )}
    </>
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
