import { NativeSelect, TextInput } from '@mantine/core';
import type { ReactNode } from 'react';
import type { PartClass } from '#car';
import { useSignal } from '../bench/signal.ts';
import { knownMm } from '../tape/port-draft.ts';
import { ReadField } from '../tape/read-field.tsx';
import { toldAs } from '../tape/told-as.ts';
import { tapeUnit } from '../tape/tape-unit.ts';
import type { ScanPart } from './scan-draft.ts';

interface Wish {
  readonly draft: ScanPart;
  readonly onDraft: (draft: ScanPart) => void;
  readonly isAsked: boolean;
}

/** What the scan is on the car. */
export function ScanPartFields({ draft, onDraft, isAsked }: Wish): ReactNode {
  const unit = useSignal(tapeUnit);
  return (
    <section className="tape-section" aria-label="What it is">
      <TextInput
        label="Name of the part"
        placeholder="Engine"
        value={draft.name}
        maxLength={60}
        error={isAsked && draft.name.trim() === '' ? 'has no name yet' : undefined}
        onChange={(event) => onDraft({ ...draft, name: event.currentTarget.value })}
      />
      <div className="pair">
        <NativeSelect
          label="It is"
          value={draft.class}
          data={['fixed', 'hot', 'moving']}
          onChange={(event) => onDraft({ ...draft, class: event.currentTarget.value as PartClass })}
        />
        <ReadField
          label="Scan known to ±"
          text={draft.known}
          read={(text) => knownMm(text, unit)}
          told={(mm, text) => toldAs(text, mm)}
          isAsked={isAsked}
          onText={(known) => onDraft({ ...draft, known })}
        />
      </div>
    </section>
  );
}
