import { NativeSelect } from '@mantine/core';
import { type ReactNode, useMemo, useState } from 'react';
import { type FlowTried, otherSizes } from '#answers';
import { flowWords, type FlowUnits, lossWords, pressureWords, speedWords } from '#book';
import type { Car } from '#car';
import type { CircuitFlow, LineFlow } from '#flow';
import { catalogue } from '#standards';
import { kept } from '../bench/bench.ts';
import { useWork, type Work } from '../bench/job.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { picked } from '../car/view.ts';
import { Progress } from '../fit/progress.tsx';
import { Key } from '../frame/key.tsx';
import { LevelMark } from '../snags/level-mark.tsx';
import { useFlowLanguage } from './flow-language.ts';
import { type PointChange, pointChanges, sizeRows } from './size-differences.ts';

interface TryWish {
  readonly flow: CircuitFlow;
  readonly worstLine: string | undefined;
}

/** A line of the circuit in another size: its numbers in every case before it is kept. */
export function SizeTry({ flow, worstLine }: TryWish): ReactNode {
  const now = useSignal(kept)!;
  const chosen = useSignal(picked);
  const work = useWork<FlowTried>();
  const sizes = useMemo(() => sizesOf(now.car, flow), [now.car, flow]);
  const [dash, setDash] = useState('');
  const lines = [...sizes.keys()];
  const line = [chosen, worstLine, lines[0]].find((id) => id !== null && id !== undefined && sizes.has(id));
  if (line === undefined || line === null) return null;
  const of = sizes.get(line)!;
  const own = now.car.lines.find(({ id }) => id === line)!;
  const { job } = work;
  const tried = job?.state === 'done' && job.answer?.line === line ? job.answer : null;
  return (
    <section aria-label="Another size" className="flow-section no-print">
      <h2>What would another size do?</h2>
      <div className="flow-figures">
        <NativeSelect
          label="Line"
          value={line}
          data={lines.map((id) => ({ value: id, label: [id, nameOf(now.car, id)].filter(Boolean).join(', ') }))}
          onChange={(event) => {
            picked.set(event.currentTarget.value);
            setDash('');
            work.clear();
          }}
        />
        <NativeSelect
          label="Size"
          value={dash}
          data={[
            { value: '', label: `-${own.dash} as it is` },
            ...of.map((size) => ({ value: `${size}`, label: `-${size}` })),
          ]}
          onChange={(event) => {
            setDash(event.currentTarget.value);
            work.clear();
          }}
        />
      </div>
      <div className="keys">
        <Key
          disabled={dash === '' || work.isBusy}
          onClick={() => work.begin(now.id, { kind: 'flow-try', line, dash: Number(dash) })}
        >
          Work it out
        </Key>
      </div>
      {work.isBusy ? <Progress job={job!} what={`Working out ${line} in -${dash}`} onStop={work.stop} /> : null}
      {job?.state === 'fault' ? <p className="warn">{`▲ ${job.text ?? 'It could not be worked out.'}`}</p> : null}
      {tried === null ? null : <Seen flow={flow} tried={tried} was={own.dash} work={work} />}
    </section>
  );
}

const nameOf = (car: Car, id: string): string => car.lines.find((line) => line.id === id)?.name ?? '';

/** Lines of the circuit that nobody has bought yet, with the sizes that there are. */
function sizesOf(car: Car, flow: CircuitFlow): ReadonlyMap<string, readonly number[]> {
  const shelf = catalogue(car.catalogue);
  const ids = new Set(flow.states.flatMap(({ lines }) => lines.map(({ line }) => line)));
  return new Map(
    car.lines
      .filter(({ id, state }) => ids.has(id) && state === 'planned')
      .map((line) => [line.id, otherSizes(shelf, line)] as const)
      .filter(([, sizes]) => sizes.length > 0),
  );
}

interface SeenWish {
  readonly flow: CircuitFlow;
  readonly tried: FlowTried;
  readonly was: number | undefined;
  readonly work: Work<FlowTried>;
}

function Seen({ flow, tried, was, work }: SeenWish): ReactNode {
  const said = useFlowLanguage();
  const then = tried.circuits.find(({ circuit }) => circuit === flow.circuit);
  if (then === undefined) return null;
  const { line, dash, edits } = tried;
  const keepIt = (): void =>
    void work.keep(edits, `${line} is -${dash}: work its way out`).then((isKept) => {
      if (isKept) open({ kind: 'line', id: line });
    });
  return (
    <section className="seen" aria-label={`${line} in -${dash}`} aria-live="polite">
      <h3>{`${line} in -${dash}; not kept`}</h3>
      <p className="small soft">{tried.hose}</p>
      <Rows rows={sizeRows(flow, then, line)} units={said.units} was={was} dash={dash} />
      <Points changes={pointChanges(flow, then)} />
      <ul className="small soft">
        {tried.said.map((text) => (
          <li key={text}>{said.text(text)}</li>
        ))}
      </ul>
      <div className="keys">
        <Key weight="do" onClick={keepIt}>{`Keep -${dash}, and work its way out`}</Key>
        <Key onClick={work.clear}>Leave it as it was</Key>
      </div>
    </section>
  );
}

interface RowsWish {
  readonly rows: ReturnType<typeof sizeRows>;
  readonly units: FlowUnits;
  readonly was: number | undefined;
  readonly dash: number;
}

const columns: readonly (readonly [title: string, words: (line: LineFlow, units: FlowUnits) => string])[] = [
  ['Flow', (line, units) => flowWords(line.flowM3S, units)],
  ['Speed', (line, units) => speedWords(line.velocityMS, units)],
  ['Lost', (line, units) => lossWords(line.dropPa, units)],
  ['At its end', (line, units) => pressureWords(line.toPa, units)],
];

function Rows({ rows, units, was, dash }: RowsWish): ReactNode {
  return (
    <div className="flow-wide">
      <table className="sheet" aria-label="In each case, now and then">
        <thead>
          <tr>
            <th scope="col">{`Case; -${was ?? '?'} above, -${dash} below`}</th>
            {columns.map(([title]) => (
              <th key={title} scope="col" className="num">
                {title}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(({ caseId, name, now, after }) => (
            <tr key={caseId}>
              <td>{name}</td>
              {columns.map(([title, words]) => (
                <td key={title} className="num">
                  {now === null ? 'not worked out' : words(now, units)}
                  <strong className="flow-below">{after === null ? 'not worked out' : words(after, units)}</strong>
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

const kinds: Readonly<Record<PointChange['kind'], string>> = {
  gone: 'Gone',
  new: 'New',
  better: 'Better',
  worse: 'Worse',
};

function Points({ changes }: { readonly changes: readonly PointChange[] }): ReactNode {
  const said = useFlowLanguage();
  if (changes.length === 0) return <p>No open point of the circuit changes.</p>;
  return (
    <ul className="flow-changes" aria-label="What it does to the open points">
      {changes.map(({ kind, now, after }) => {
        const one = (now ?? after)!;
        return (
          <li key={`${one.code} ${one.case} ${one.text}`}>
            <strong>{`${kinds[kind]}: `}</strong>
            <LevelMark level={one.level} />
            {kind === 'better' || kind === 'worse' ? ' → ' : ''}
            {kind === 'better' || kind === 'worse' ? <LevelMark level={after!.level} /> : null}
            <span className="flow-below">{said.text(one.text)}</span>
            {after?.value === undefined || now?.value === undefined ? null : (
              <span className="flow-below">
                {`${said.number(now.value, now.unit)} now, `}
                <strong>{said.number(after.value, after.unit)}</strong>
                {after.limit === undefined ? '' : ` then; limit ${said.number(after.limit, after.unit)}`}
              </span>
            )}
          </li>
        );
      })}
    </ul>
  );
}
