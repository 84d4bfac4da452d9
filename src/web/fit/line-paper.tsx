import { type ReactNode, useEffect, useState } from 'react';
import type { Line } from '#car';
import type { Way } from '#lines';
import { lineCautions } from '#snags';
import { glance, kept, lineOf, useCar, useStanding, wayOf } from '../bench/bench.ts';
import { useWork } from '../bench/job.ts';
import { useSignal } from '../bench/signal.ts';
import { open } from '../bench/place.ts';
import { ghost, section } from '../car/view.ts';
import { Cautions } from '../frame/cautions.tsx';
import { Key } from '../frame/key.tsx';
import { NoSuch } from '../tape/no-such.tsx';
import type { Standing } from '../server/answers.ts';
import { calls } from '../server/calls.ts';
import { useAtOnce } from './work-out-at-once.ts';
import { LineSnags } from './line-snags.tsx';
import { LineState } from './line-state.tsx';
import { MakeUp } from './make-up.tsx';
import { CutNumbers } from './cut-numbers.tsx';
import { Progress } from './progress.tsx';
import { SectionKeys } from './section-keys.tsx';
import { isDrawn, WaysList } from './ways-list.tsx';
import { TryOut } from './try-out.tsx';
import { dutyWords, portWords } from './words.ts';
import { useLengths } from '../tape/lengths.ts';
import './fit.css';

/** The card of one line: the same thing here and on the wall. */
export function LinePaper({ id }: { readonly id: string }): ReactNode {
  const car = useCar();
  const line = car === null ? undefined : lineOf(car, id);
  useEffect(
    () => () => {
      glance.set(null);
      section.set(null);
      ghost.set(false);
    },
    [],
  );
  if (car === null) return null;
  if (line === undefined) return <NoSuch what={`line ${id}`} />;
  return <Card line={line} />;
}

/** The best try of the plan for a line without a way, as long as nothing newer says why there is none. */
function triedWay(judged: Standing | null, line: string, worked: readonly Way[] | null): Way | null {
  if (worked?.some((way) => !isDrawn(way)) === true) return null;
  return judged?.lines.find((row) => row.line === line)?.tried ?? null;
}

/** How many ways are worked out side by side. */
const WAYS = 5;

function Card({ line }: { readonly line: Line }): ReactNode {
  const car = useCar()!;
  const judged = useStanding();
  const id = useSignal(kept)!.id;
  const lengths = useLengths();
  const work = useWork<readonly Way[]>();
  const taken = wayOf(judged, line.id);
  const worked = work.job?.answer ?? null;
  const [picked, setPicked] = useState<number | null>(null);
  const tried = taken === null ? triedWay(judged, line.id, worked) : null;
  const seen = picked === null ? (taken ?? tried) : (worked?.find((way) => way.rank === picked) ?? taken);
  const pick = (rank: number | null): void => {
    setPicked(rank);
    const way = rank === null ? undefined : worked?.find((candidate) => candidate.rank === rank);
    glance.set(way === undefined ? null : { line: line.id, way });
  };
  useEffect(() => {
    const first = worked?.find(isDrawn);
    setPicked(first?.rank ?? null);
    glance.set(first === undefined ? null : { line: line.id, way: first });
  }, [worked, line.id]);
  useAtOnce(line.id, () => work.begin(id, { kind: 'ways', line: line.id, count: WAYS }));
  return (
    <article className="paper card">
      <LineState line={line} />
      <header>
        <h1 className="paper-head card-title" tabIndex={-1}>
          <span className="card-id">{line.id}</span> <span className="card-name">{line.name ?? ''}</span>
        </h1>
        <p className="soft">{dutyWords(line, lengths)}</p>
        <p>{`${portWords(car, line.from)} → ${portWords(car, line.to)}`}</p>
      </header>
      <Seen line={line} way={seen} isJudged={judged !== null} isTried={seen !== null && seen === tried} />
      <WaysList line={line} taken={taken} worked={worked} picked={picked} onPick={pick} work={work} />
      {work.isBusy ? (
        <Progress job={work.job!} what={work.job!.part ?? `Working out ways for ${line.id}`} onStop={work.stop} />
      ) : (
        <div className="keys">
          <Key
            weight={taken === null && worked === null ? 'do' : 'plain'}
            onClick={() => work.begin(id, { kind: 'ways', line: line.id, count: WAYS })}
          >
            {worked === null ? 'Work out ways' : 'Work out again'}
          </Key>
          <Key onClick={() => open({ kind: 'tape', id: `line/${line.id}` })}>Change it</Key>
          <CardOut line={line.id} hasWay={taken !== null} />
        </div>
      )}
      {seen === null || !isDrawn(seen) ? null : <SectionKeys line={line.id} way={seen} />}
      <LineSnags line={line.id} />
      {seen === null || !isDrawn(seen) ? null : <CutNumbers way={seen} />}
      <TryOut line={line} />
      <Cautions words={lineCautions(car, line, seen?.gaps.map((gap) => gap.part) ?? [])} />
    </article>
  );
}

interface SeenWish {
  readonly line: Line;
  readonly way: Way | null;
  readonly isJudged: boolean;
  readonly isTried: boolean;
}

/** The way that is looked at, or why there is none. */
function Seen({ line, way, isJudged, isTried }: SeenWish): ReactNode {
  const { text } = useLengths();
  if (way === null) return <p>{isJudged ? 'No way is taken yet.' : 'The way taken is being judged.'}</p>;
  return (
    <>
      {isTried ? (
        <p className="warn">{`▲ No way was found. ${isDrawn(way) ? 'The best try, refused' : 'Refused'}: ${way.fails.map((fail) => text(fail.text)).join('; ')}.`}</p>
      ) : null}
      {isDrawn(way) ? <MakeUp line={line} way={way} /> : null}
    </>
  );
}

function CardOut({ line, hasWay }: { readonly line: string; readonly hasWay: boolean }): ReactNode {
  const id = useSignal(kept)!.id;
  const { unit } = useLengths();
  if (!hasWay) return null;
  return (
    <a className="key" href={calls.cardPath(id, line, unit === 'in')} target="_blank" rel="noreferrer">
      Card to print
    </a>
  );
}
