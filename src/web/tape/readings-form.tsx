import { NativeSelect } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import { type Car, findPort, type PointReport, type Reading } from '#car';
import type { Lengths, Parsed } from '#units';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { useMarks } from './drafts.ts';
import { Form } from './form.tsx';
import {
  emptyReading,
  portReport,
  type ReadingDraft,
  readingDraft,
  readingFrom,
  readingLabels,
  readingStarts,
} from './measuring.ts';
import { Misses } from './misses.tsx';
import { knownMm } from './port-draft.ts';
import { ReadField } from './read-field.tsx';
import { tapeMm } from './tape-text.ts';
import { toldAs } from './told-as.ts';
import { tapeUnit } from './tape-unit.ts';
import { useLengths, xyzWords } from './lengths.ts';
import { NoSuch } from './no-such.tsx';

/** A port by several readings: balanced by least squares, and the one that does not agree is named at once. */
export function ReadingsForm({ of }: { readonly of: string }): ReactNode {
  const car = useCar()!;
  const unit = useSignal(tapeUnit);
  const found = findPort(car, of);
  const [drafts, setDrafts] = useState<readonly ReadingDraft[]>(
    found?.port.measured?.map((reading) => readingDraft(car, reading)) ?? [emptyReading],
  );
  const read = drafts.map((draft) => readingFrom(car, draft, unit));
  const readings = read.flatMap((one) => (one.ok ? [one.value] : []));
  const seen = portReport(car, of, readings);
  const at = seen.report?.atMm;
  useMarks(
    at === undefined || found === undefined
      ? []
      : [{ label: found.port.name ?? found.port.id, atMm: at, faces: found.port.faces }],
  );
  if (found === undefined) return <NoSuch what={`port ${of}`} />;
  const back = (): void => open({ kind: 'part', id: found.part.id });
  const lengths = useLengths();
  return (
    <Form
      title={`Readings of ${found.port.name ?? found.port.id}`}
      below={`On ${found.part.name ?? found.part.id}. Three numbers in three directions place it; one more tells whether they agree.`}
      keepWords="Keep the readings"
      made={made(of, read, readings, seen)}
      onKept={back}
      onLeave={back}
      others={<Key onClick={() => open({ kind: 'tape', id: 'origins' })}>Where you measure from</Key>}
    >
      {(isAsked) => (
        <>
          <Readings car={car} drafts={drafts} onDrafts={setDrafts} isAsked={isAsked} />
          <Misses
            readings={seen.report?.readings ?? []}
            remarks={seen.report?.remarks ?? []}
            fault={readings.length === 0 ? undefined : seen.fault}
            found={seen.report === undefined ? undefined : foundWords(seen.report, lengths)}
          />
        </>
      )}
    </Form>
  );
}

function made(
  of: string,
  read: readonly Parsed<Reading>[],
  readings: readonly Reading[],
  seen: ReturnType<typeof portReport>,
): Parsed<{
  readonly edits: readonly [{ do: 'set-port'; port: string; field: 'measured'; value: Reading[] }];
  readonly done: string;
}> {
  const bad = read.findIndex((one) => !one.ok);
  const fault = read[bad];
  if (fault !== undefined && !fault.ok) return { ok: false, fault: `reading ${bad + 1}: ${fault.fault}`, ways: [] };
  if (seen.fault !== undefined) return { ok: false, fault: seen.fault, ways: [] };
  return {
    ok: true,
    value: {
      edits: [{ do: 'set-port', port: of, field: 'measured', value: [...readings] }],
      done: `${of} stands where its readings put it`,
    },
  };
}

const foundWords = ({ atMm, knownToMm }: PointReport, lengths: Lengths): string =>
  `It is at ${xyzWords(atMm, lengths)}, known to ±${lengths.fine(knownToMm)}`;

interface Wish {
  readonly car: Car;
  readonly drafts: readonly ReadingDraft[];
  readonly onDrafts: (drafts: readonly ReadingDraft[]) => void;
  readonly isAsked: boolean;
}

function Readings({ car, drafts, onDrafts, isAsked }: Wish): ReactNode {
  const set = (i: number, draft: ReadingDraft): void => onDrafts(drafts.map((old, k) => (k === i ? draft : old)));
  return (
    <>
      {drafts.map((draft, i) => (
        // A reading is what its number says.
        // eslint-disable-next-line react/no-array-index-key
        <section className="tape-section" aria-label={`Reading ${i + 1}`} key={i}>
          <OneReading car={car} draft={draft} n={i + 1} isAsked={isAsked} onDraft={(next) => set(i, next)} />
        </section>
      ))}
      <div className="keys">
        <Key onClick={() => onDrafts([...drafts, { ...emptyReading, from: drafts.at(-1)?.from ?? '' }])}>
          One more reading
        </Key>
        {drafts.length > 1 ? <Key onClick={() => onDrafts(drafts.slice(0, -1))}>Last reading away</Key> : null}
      </div>
    </>
  );
}

interface OneWish {
  readonly car: Car;
  readonly draft: ReadingDraft;
  readonly n: number;
  readonly isAsked: boolean;
  readonly onDraft: (draft: ReadingDraft) => void;
}

function OneReading({ car, draft, n, isAsked, onDraft }: OneWish): ReactNode {
  const unit = useSignal(tapeUnit);
  const labels = readingLabels(car, draft.from);
  const isBare = draft.values.every((text) => text.trim() === '');
  return (
    <>
      <div className="pair">
        <NativeSelect
          label={`Reading ${n}, from`}
          value={draft.from}
          data={[...readingStarts(car)]}
          onChange={(event) => onDraft({ ...draft, from: event.currentTarget.value, values: ['', '', ''] })}
        />
        <ReadField
          label="Known to ±"
          spoken={`Reading ${n}: known to`}
          text={draft.known}
          read={(text) => knownMm(text, unit)}
          told={(mm, text) => toldAs(text, mm)}
          isAsked={isAsked}
          onText={(known) => onDraft({ ...draft, known })}
        />
      </div>
      <div className="facing-tip">
        {labels.map((label, k) => (
          <ReadField
            key={label}
            label={label}
            spoken={`Reading ${n}: ${label}`}
            text={draft.values[k]!}
            placeholder={labels.length > 1 ? 'not read' : ''}
            read={(text): Parsed<number | null> =>
              text.trim() === ''
                ? isBare
                  ? { ok: false, fault: 'no number yet', ways: [] }
                  : { ok: true, value: null }
                : tapeMm(text, unit)
            }
            told={(mm, text) => (mm === null ? '' : toldAs(text, mm))}
            isAsked={isAsked}
            onText={(text) =>
              onDraft({
                ...draft,
                values: draft.values.map((old, i) => (i === k ? text : old)) as unknown as ReadingDraft['values'],
              })
            }
          />
        ))}
      </div>
    </>
  );
}
