import { NativeSelect, TextInput } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import { type Car, type Origin, resolveOrigins } from '#car';
import { formatMm } from '#units';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { counted } from '../snags/counted.ts';
import { useMarks } from './drafts.ts';
import { angleDeg } from './facing.ts';
import { Form } from './form.tsx';
import { MarkFields } from './mark-fields.tsx';
import {
  emptyMark,
  emptyOrigin,
  newOriginId,
  type OriginDraft,
  originDraft,
  originEdits,
  originFrom,
  type OriginKind,
  originReport,
  originWords,
} from './measuring.ts';
import { Misses } from './misses.tsx';
import { ReadField } from './read-field.tsx';
import { TakeAway } from './take-away.tsx';
import { tapeUnit } from './tape-unit.ts';
import './tape.css';
import { useLengths } from './lengths.ts';

/** Where the builder measures from: straightedges, levels, reference points, marks; how well each agrees with itself. */
export function OriginsPaper(): ReactNode {
  const car = useCar()!;
  const { report } = resolveOrigins(car);
  const lengths = useLengths();
  return (
    <article className="paper">
      <PaperHead below="A straightedge across two known points, a level line, axes by reference points, marks for a plain tape. Ports are read from them.">
        Where you measure from
      </PaperHead>
      <ul className="line-list">
        {(car.origins ?? []).map((origin) => {
          const own = report.origins.find((row) => row.origin === origin.id);
          return (
            <li key={origin.id}>
              <button
                type="button"
                className="line-row part-row"
                onClick={() => open({ kind: 'tape', id: `origin/${origin.id}` })}
              >
                <span className="line-what">
                  <strong>{origin.name ?? origin.id}</strong>
                  <span className="soft small">{`${originWords[origin.kind].name}, ${counted(origin.points.length, 'point')}`}</span>
                  {own?.remarks.map((remark) => (
                    <span className="warn small" key={remark}>{`▲ ${lengths.text(remark)}`}</span>
                  ))}
                </span>
                <span className="line-how small">{own === undefined ? '' : `±${lengths.fine(own.rmsMm)} rms`}</span>
              </button>
            </li>
          );
        })}
      </ul>
      <div className="keys">
        <Key weight="do" onClick={() => open({ kind: 'tape', id: 'origin' })}>
          Add one
        </Key>
        <Key onClick={() => open({ kind: 'parts' })}>All parts</Key>
      </div>
    </article>
  );
}

/** One of them: its points, what was read at them, and at once how they agree. */
export function OriginForm({ id }: { readonly id: string | null }): ReactNode {
  const car = useCar()!;
  const unit = useSignal(tapeUnit);
  const was = car.origins?.find((origin) => origin.id === id);
  const [draft, setDraft] = useState<OriginDraft>(was === undefined ? emptyOrigin : originDraft(was));
  const read = originFrom(was?.id ?? newOriginId(car, draft.name), draft, unit);
  const seen = read.ok ? originReport(car, read.value) : {};
  useMarks(read.ok ? read.value.points.map((point) => ({ label: point.name, atMm: point.atMm, faces: null })) : []);
  const back = (): void => open({ kind: 'tape', id: 'origins' });
  const name = draft.name.trim();
  return (
    <Form
      title={was === undefined ? 'Something to measure from' : `Change ${was.name ?? was.id}`}
      below={originWords[draft.kind].says}
      keepWords={was === undefined ? 'Put it on the car' : 'Keep it'}
      made={
        !read.ok
          ? read
          : seen.fault === undefined
            ? { ok: true, value: { edits: originEdits(was, read.value), done: `${name} is there to measure from` } }
            : { ok: false, fault: seen.fault, ways: [] }
      }
      onKept={back}
      onLeave={back}
      others={
        was === undefined ? null : (
          <TakeAway what={{ kind: 'origin', id: was.id }} name={was.name ?? was.id} onGone={back} />
        )
      }
    >
      {(isAsked) => (
        <>
          <Kind draft={draft} onDraft={setDraft} isAsked={isAsked} />
          <MarkFields draft={draft} onDraft={setDraft} isAsked={isAsked} />
          <Misses
            readings={seen.report?.readings ?? []}
            remarks={seen.report?.remarks ?? []}
            fault={seen.fault}
            found={
              seen.report === undefined
                ? undefined
                : foundWords(car, read.ok ? read.value : undefined, seen.report.rmsMm)
            }
          />
        </>
      )}
    </Form>
  );
}

function foundWords(car: Car, origin: Origin | undefined, rmsMm: number): string {
  const uses = car.parts
    .flatMap((part) => part.ports)
    .filter((port) => port.measured?.some(({ from }) => from === origin?.id)).length;
  return `Its points agree to ${formatMm(rmsMm, 1)} (root mean square)${uses === 0 ? '' : `; ${counted(uses, 'port')} read from it`}`;
}

interface Wish {
  readonly draft: OriginDraft;
  readonly onDraft: (draft: OriginDraft) => void;
  readonly isAsked: boolean;
}

function Kind({ draft, onDraft, isAsked }: Wish): ReactNode {
  return (
    <section className="tape-section" aria-label="What it is">
      <TextInput
        label="Name"
        placeholder="Left sill"
        value={draft.name}
        maxLength={60}
        error={isAsked && draft.name.trim() === '' ? 'has no name yet' : undefined}
        onChange={(event) => onDraft({ ...draft, name: event.currentTarget.value })}
      />
      <NativeSelect
        label="It is"
        value={draft.kind}
        data={Object.entries(originWords).map(([value, { name }]) => ({ value, label: name }))}
        onChange={(event) => onDraft(withKind(draft, event.currentTarget.value as OriginKind))}
      />
      {draft.kind === 'level' && draft.points.length < 3 ? (
        <div className="pair">
          {(['pitch', 'roll'] as const).map((lean) => (
            <ReadField
              key={lean}
              label={lean === 'pitch' ? 'Shell stands nose up by' : 'Right side down by'}
              text={draft[lean]}
              placeholder="0"
              read={(text) => (text.trim() === '' ? { ok: true, value: 0 } : angleDeg(text))}
              told={(_, text) => (/[a-z°]/iu.test(text) ? '' : 'degrees')}
              isAsked={isAsked}
              onText={(text) => onDraft({ ...draft, [lean]: text })}
            />
          ))}
        </div>
      ) : null}
    </section>
  );
}

/** Another kind has as many points as it wants at least; a straightedge has two. */
function withKind(draft: OriginDraft, kind: OriginKind): OriginDraft {
  const { least } = originWords[kind];
  const points = kind === 'straightedge' ? draft.points.slice(0, 2) : [...draft.points];
  while (points.length < least) points.push(emptyMark(points.length + 1));
  return { ...draft, kind, points };
}
