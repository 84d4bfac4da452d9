import { type ReactNode, useState } from 'react';
import type { Edit } from '#car';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { type Row, RowForm } from '../flow/row-form.tsx';
import { fieldEdits, valued } from '../flow/field-edits.ts';
import { RowInList } from '../flow/row-in-list.tsx';
import { Check } from '../tape/check.tsx';
import { newId } from '../tape/new-id.ts';
import { wayOfWords, wayWords } from '../tape/way-words.ts';
import { heatAddress } from './heat-place.ts';
import { intakePlan, openingPlan, pressurePlan, sourcePlan, spacePlan } from './heat-plans.ts';

interface Wish {
  readonly caseId: string | undefined;
  readonly id: string;
}

const asRows = (rows: readonly object[] | undefined): readonly Row[] => (rows ?? []) as readonly Row[];

const SOURCE = ['surfaceC', 'keptAt', 'finish', 'emissivity', 'massKg', 'standsC', 'cover', 'surfaceByCase'] as const;

/** How hot a part is, bare and covered, in every case. */
export function SourceForm({ caseId, id }: Wish): ReactNode {
  const car = useCar()!;
  const part = car.parts.find((one) => one.id === id);
  if (part === undefined) return <p className="paper">{`There is no part ${id} any more.`}</p>;
  const kept: Row = Object.fromEntries(
    SOURCE.flatMap((field) => (part[field] === undefined ? [] : [[field, part[field]]])),
  );
  const { surfaceByCase = [], ...rest } = kept as { readonly surfaceByCase?: readonly Row[] };
  const byCase = Object.fromEntries(surfaceByCase.map((row) => [String(row['case']), row['surfaceC']]));
  const was: Row = { ...rest, ...(surfaceByCase.length === 0 ? {} : { byCase }) };
  return (
    <RowForm
      plan={sourcePlan(car)}
      name={part.name ?? id}
      was={was}
      edits={(row) => {
        const { byCase: cases = {}, ...now } = row as { readonly byCase?: Row };
        const listed = Object.entries(cases).map(([one, surfaceC]) => ({ case: one, surfaceC }));
        const next: Row = { ...now, ...(listed.length === 0 ? {} : { surfaceByCase: listed }) };
        return fieldEdits(kept, next, (field, value) => ({ do: 'set-part', part: id, field, ...valued(value) }));
      }}
      onLeave={() => open({ kind: 'cook', id: heatAddress({ caseId, about: { kind: 'part', id } }) })}
    />
  );
}

/** A bay, its box and the panels that close it; a new one where none is named. */
export function SpaceForm({ caseId, id }: Wish): ReactNode {
  const car = useCar()!;
  const was = car.bays?.find((one) => one.id === id);
  const [panels, setPanels] = useState<ReadonlySet<string>>(() => new Set(was?.panels));
  const inTurn = (car.panels ?? []).map((panel) => panel.id).filter((one) => panels.has(one));
  const whole = (row: Row): Row => ({ ...row, ...(inTurn.length === 0 ? {} : { panels: inTurn }) });
  const { panels: _panels, ...fields } = (was ?? {}) as Row;
  const edits = (row: Row): readonly Edit[] => {
    if (was !== undefined)
      return fieldEdits(was as Row, whole(row), (field, value) => ({
        do: 'set-bay',
        bay: id,
        field,
        ...valued(value),
      }));
    const taken = (car.bays ?? []).map((one) => one.id);
    return [{ do: 'add-bay', bay: { id: newId(String(row['name'] ?? ''), taken, 'bay'), ...whole(row) } } as Edit];
  };
  return (
    <RowForm
      plan={spacePlan}
      name={was === undefined ? null : (was.name ?? id)}
      was={fields}
      edits={edits}
      {...(was === undefined ? {} : { away: [{ do: 'remove-bay', bay: id }] })}
      onLeave={() => open({ kind: 'cook', id: heatAddress({ caseId, about: { kind: 'lines' } }) })}
    >
      <section className="flow-section" aria-label="Panels that close it">
        <h2>Panels that close it</h2>
        <p className="small soft">None ticked: all with a corner in the box.</p>
        <div className="flow-figures">
          {(car.panels ?? []).map((panel) => (
            <Check
              key={panel.id}
              label={[panel.id, panel.name].filter(Boolean).join(', ')}
              checked={panels.has(panel.id)}
              onCheck={(isOn) =>
                setPanels(new Set(isOn ? [...panels, panel.id] : [...panels].filter((one) => one !== panel.id)))
              }
            />
          ))}
        </div>
      </section>
    </RowForm>
  );
}

/** An opening, "engine-bay~2", or an intake of a bay. */
export function BayRowForm({ caseId, id, list }: Wish & { readonly list: 'openings' | 'intakes' }): ReactNode {
  const car = useCar()!;
  const [bayId = '', which = ''] = id.split('~');
  const bay = car.bays?.find((one) => one.id === bayId);
  if (bay === undefined) return <p className="paper">{`There is no bay ${bayId} any more.`}</p>;
  const kept = asRows(bay[list]);
  const isOpening = list === 'openings';
  const shown = isOpening ? kept.map((row) => ({ ...row, faces: wayWords(row['faces']) })) : kept;
  const taken = (car.bays ?? []).flatMap(({ openings = [] }) => openings.map((one) => one.id));
  const back = (row: Row): Row => {
    if (!isOpening) return row;
    return { id: newId(String(row['name'] ?? ''), taken, 'opening'), ...row, faces: wayOfWords(String(row['faces'])) };
  };
  return (
    <RowInList
      plan={isOpening ? openingPlan : intakePlan}
      rows={shown}
      which={which}
      nameOf={(row) => String(row['name'] ?? row['id'] ?? row['part'])}
      setTo={(rows) => [{ do: 'set-bay', bay: bayId, field: list, value: rows.map(back) } as unknown as Edit]}
      onLeave={() => open({ kind: 'cook', id: heatAddress({ caseId, about: { kind: 'bay', id: bayId } }) })}
    />
  );
}

/** What presses on the bay from outside in a case; `id` is "engine-bay~2": where to go back to, and which of the case's pressures. */
export function PressureForm({ caseId, id }: Wish): ReactNode {
  const car = useCar()!;
  const [bayId = '', which = ''] = id.split('~');
  const at = car.cases?.find((one) => one.id === caseId);
  if (at === undefined) return <p className="paper">Pressures are those of a case: choose or put in a case first.</p>;
  return (
    <RowInList
      plan={pressurePlan(car)}
      rows={asRows(at.pressures)}
      which={which}
      nameOf={(row) => `${String(row['at'])}, ${at.name ?? at.id}`}
      setTo={(rows) => [{ do: 'set-case', case: at.id, field: 'pressures', value: rows } as unknown as Edit]}
      onLeave={() => open({ kind: 'cook', id: heatAddress({ caseId, about: { kind: 'bay', id: bayId } }) })}
    />
  );
}
