import { NativeSelect } from '@mantine/core';
import { type ReactNode, useState } from 'react';
import { kept } from '../bench/bench.ts';
import { useWork } from '../bench/job.ts';
import { useSignal } from '../bench/signal.ts';
import { Progress } from '../fit/progress.tsx';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { NOW, pointChoices, usePoints } from '../history/points.ts';
import { calls } from '../server/calls.ts';
import { counted } from '../snags/counted.ts';
import { tapeUnit } from '../tape/tape-unit.ts';

const PAPERS = [
  { value: 'A4', label: 'A4' },
  { value: 'A3', label: 'A3' },
  { value: 'Letter', label: 'US Letter' },
] as const;
type Paper = (typeof PAPERS)[number]['value'];

/** What can be printed by itself, by the groups of the book. */
const PARTS = [
  { value: '', label: 'The whole book' },
  { value: 'cards', label: 'A card for each line' },
  { value: 'fit', label: 'The wall map' },
  { value: 'flow', label: 'Heights' },
  { value: 'cut', label: 'Panels and tubes' },
  { value: 'buy', label: 'Order and cuts' },
  { value: 'off', label: 'Strip-down, spanner room, what is due' },
  { value: 'checks', label: 'Check sheets: leak test, first fill to between runs' },
  { value: 'rules', label: 'Scrutineering' },
  { value: 'tags', label: 'Tags for both ends of each line' },
];

const lineItem = ({ id, name }: { readonly id: string; readonly name?: string | undefined }) => ({
  value: id,
  label: `${id} ${name ?? ''}`.trim(),
});

interface Ready {
  readonly file: string;
  readonly sheets: number;
  readonly pages: number;
}

/** The papers of the car as one file: which of them, on which paper, made while one waits and fetched when it is ready. */
export function BookPaper(): ReactNode {
  const now = useSignal(kept);
  const isInch = useSignal(tapeUnit) === 'in';
  const [paper, setPaper] = useState<Paper>(isInch ? 'Letter' : 'A4');
  const [part, setPart] = useState('');
  const [since, setSince] = useState('');
  const work = useWork<Ready>();
  if (now === null) return null;
  const { job } = work;
  const ready = job?.state === 'done' ? job.answer : undefined;
  const begin = (): void =>
    work.begin(now.id, {
      kind: 'book',
      paper,
      inches: isInch,
      only: part === '' ? [] : [part],
      ...(since === '' ? {} : { since: Number(since) }),
    });
  return (
    <article className="paper">
      <PaperHead below="Cards, wall map, heights, panels, order, check sheets and the rest, for the ways taken.">
        The book
      </PaperHead>
      <NativeSelect
        label="What"
        value={part}
        data={[
          { group: 'The book', items: PARTS },
          { group: 'One line', items: now.car.lines.map(lineItem) },
        ]}
        onChange={(event) => setPart(event.currentTarget.value)}
      />
      <NativeSelect
        label="Paper"
        value={paper}
        data={[...PAPERS]}
        onChange={(event) => setPaper(event.currentTarget.value as Paper)}
      />
      <Since carId={now.id} revision={now.revision} since={since} onSince={setSince} />
      <div className="keys">
        <Key weight="do" disabled={work.isBusy} onClick={begin}>
          Make the PDF
        </Key>
      </div>
      {job !== null && work.isBusy ? <Progress job={job} what="Making the book" onStop={work.stop} /> : null}
      {job?.state === 'fault' ? <p className="warn warn-stop">{job.text}</p> : null}
      {ready === undefined ? null : (
        <p role="status">
          {`${counted(ready.sheets, 'sheet')} on ${counted(ready.pages, 'page')}. `}
          <a className="key key-do" href={calls.bookPath(now.id, ready.file)} download="book.pdf">
            Fetch the PDF
          </a>
        </p>
      )}
      <p className="small soft">
        Print at 100 %, two-sided if you like. The event’s rules and a qualified person come before every sheet of it.
      </p>
    </article>
  );
}

interface SinceWish {
  readonly carId: string;
  readonly revision: number;
  readonly since: string;
  readonly onSince: (since: string) => void;
}

/** All sheets, or only those that are otherwise than at a point of the car's history. */
function Since({ carId, revision, since, onSince }: SinceWish): ReactNode {
  const points = usePoints(carId, revision);
  if (revision < 2) return null;
  const earlier = pointChoices(points, []).filter(({ value }) => value !== NOW);
  return (
    <NativeSelect
      label="Sheets"
      description="What is printed already and still holds can be left out. A point of the car’s history gets a name in the history."
      value={since}
      data={[
        { value: '', label: 'All of them' },
        ...earlier.map(({ value, label }) => ({ value, label: `Only what is otherwise since ${label}` })),
      ]}
      onChange={(event) => onSince(event.currentTarget.value)}
    />
  );
}
