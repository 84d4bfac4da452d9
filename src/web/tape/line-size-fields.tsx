import { NativeSelect } from '@mantine/core';
import type { ReactNode } from 'react';
import { useSignal } from '../bench/signal.ts';
import { lineDashes, lineSize, type SizeDraft } from './line-size.ts';
import { ReadField } from './read-field.tsx';
import { toldAs } from './told-as.ts';
import { tapeUnit } from './tape-unit.ts';

interface Wish {
  readonly draft: SizeDraft;
  readonly onDraft: (draft: SizeDraft) => void;
  readonly isAsked: boolean;
  /** The ports say it; nobody picked it yet. */
  readonly isOfPorts: boolean;
}

/** The size of a line: a dash size or a bore. */
export function LineSizeFields({ draft, onDraft, isAsked, isOfPorts }: Wish): ReactNode {
  const unit = useSignal(tapeUnit);
  const read = lineSize(draft, unit);
  return (
    <div className="end-fields">
      <NativeSelect
        label={isOfPorts && draft.pick !== '' ? 'Size, as the ports have it' : 'Size'}
        value={draft.pick}
        error={isAsked && draft.pick === '' && !read.ok ? read.fault : undefined}
        data={[
          { value: '', label: 'pick one' },
          ...lineDashes.map((dash) => ({ value: `${dash}`, label: `-${dash}` })),
          { value: 'bore', label: 'by its bore' },
        ]}
        onChange={(event) => onDraft({ ...draft, pick: event.currentTarget.value })}
      />
      {draft.pick === 'bore' ? (
        <ReadField
          label="Bore"
          text={draft.bore}
          placeholder="35 mm, 1 3/8 in"
          read={(bore) => {
            const size = lineSize({ pick: 'bore', bore }, unit);
            return size.ok ? { ok: true, value: size.value.boreMm ?? 0 } : size;
          }}
          told={(mm, text) => toldAs(text, mm)}
          isAsked={isAsked}
          onText={(bore) => onDraft({ ...draft, bore })}
        />
      ) : null}
    </div>
  );
}
