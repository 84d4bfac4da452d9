import { NativeSelect, TextInput } from '@mantine/core';
import type { ReactNode } from 'react';
import { useSignal } from '../bench/signal.ts';
import { Check } from './check.tsx';
import { type ExtrasDraft, flowLMin, leanDeg, plainNumber, vacuumBar } from './line-extras.ts';
import { keepOffMm } from './part-draft.ts';
import { ReadField } from './read-field.tsx';
import { toldAs } from './told-as.ts';
import { tapeUnit } from './tape-unit.ts';

interface Wish {
  readonly draft: ExtrasDraft;
  readonly onDraft: (draft: ExtrasDraft) => void;
  readonly isAsked: boolean;
}

/** How it runs, and what else may be said of it; all of it may be left as the duty has it. */
export function ExtrasFields({ draft, onDraft, isAsked }: Wish): ReactNode {
  const set = (change: Partial<ExtrasDraft>): void => onDraft({ ...draft, ...change });
  return (
    <section className="tape-section" aria-labelledby="extras">
      <h2 id="extras">How it runs</h2>
      <NativeSelect
        label="It runs"
        value={draft.runs}
        data={[
          { value: '', label: 'as what it carries has it' },
          { value: 'falls', label: 'falling all the way from its start' },
          { value: 'rises', label: 'rising all the way from its start' },
        ]}
        onChange={(event) => set({ runs: event.currentTarget.value as ExtrasDraft['runs'] })}
      />
      {draft.runs === 'falls' ? <Leans draft={draft} onDraft={onDraft} isAsked={isAsked} /> : null}
      <Check
        label="A near-straight run that wants slack"
        checked={draft.nearStraight}
        onCheck={(nearStraight) => set({ nearStraight })}
      />
      <Figures draft={draft} onDraft={onDraft} isAsked={isAsked} />
      <TextInput
        label="Sleeve over it"
        description="It buys time in a fire; it does not raise what the hose stands"
        value={draft.sleeve}
        maxLength={80}
        onChange={(event) => set({ sleeve: event.currentTarget.value })}
      />
    </section>
  );
}

const leanWords = ['Nose up, least', 'Nose up, most', 'Right side down, least', 'Right side down, most'] as const;

function Leans({ draft, onDraft, isAsked }: Wish): ReactNode {
  return (
    <>
      <p className="small soft">It must still fall with the car leaned by these; negative is the other way.</p>
      <div className="pair">
        {leanWords.map((label, i) => (
          <ReadField
            key={label}
            label={label}
            text={draft.leans[i]!}
            placeholder="0"
            read={leanDeg}
            told={() => 'degrees'}
            isAsked={isAsked}
            onText={(text) =>
              onDraft({
                ...draft,
                leans: draft.leans.map((old, k) => (k === i ? text : old)) as unknown as ExtrasDraft['leans'],
              })
            }
          />
        ))}
      </div>
      <ReadField
        label="Starts within this of plumb"
        text={draft.plumb}
        placeholder="15"
        read={(text) => plainNumber(text, 0, 90, 'deg')}
        told={() => 'degrees'}
        isAsked={isAsked}
        onText={(plumb) => onDraft({ ...draft, plumb })}
      />
    </>
  );
}

function Figures({ draft, onDraft, isAsked }: Wish): ReactNode {
  const unit = useSignal(tapeUnit);
  const set = (change: Partial<ExtrasDraft>): void => onDraft({ ...draft, ...change });
  return (
    <div className="pair">
      <ReadField
        label="Flow, L/min"
        text={draft.flow}
        placeholder="not said"
        read={flowLMin}
        told={() => ''}
        isAsked={isAsked}
        onText={(flow) => set({ flow })}
      />
      <ReadField
        label="Deepest vacuum, bar"
        text={draft.vacuum}
        placeholder="as usual for it"
        read={vacuumBar}
        told={() => ''}
        isAsked={isAsked}
        onText={(vacuum) => set({ vacuum })}
      />
      <ReadField
        label="Keeps off everything by"
        text={draft.keepOff}
        placeholder="as the parts have it"
        read={(text) => keepOffMm(text, unit)}
        told={(mm, text) => (mm === undefined ? '' : toldAs(text, mm))}
        isAsked={isAsked}
        onText={(keepOff) => set({ keepOff })}
      />
    </div>
  );
}
