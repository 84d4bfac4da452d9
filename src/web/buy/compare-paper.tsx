import { NativeSelect } from '@mantine/core';
import { type ReactNode, useEffect, useMemo } from 'react';
import type { Comparison } from '#stock';
import { kept } from '../bench/bench.ts';
import { useWork } from '../bench/job.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Progress } from '../fit/progress.tsx';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { NOW, pointChoices, usePoints } from '../history/points.ts';
import { Compared } from './compared.tsx';

/** What it costs to come from one point of the car's history to another; `id` is both, as `3..now`. */
export function ComparePaper({ id }: { readonly id: string }): ReactNode {
  const now = useSignal(kept)!;
  const [from = '1', to = NOW] = id.split('..');
  const points = usePoints(now.id, now.revision);
  const work = useWork<Comparison>();
  const { begin } = work;
  const revision = (point: string): number => (point === NOW ? now.revision : Number(point));
  const [a, b] = [revision(from), revision(to)];
  const areBoth = [a, b].every((one) => Number.isInteger(one) && one >= 1 && one <= now.revision);
  useEffect(() => {
    if (areBoth) begin(now.id, { kind: 'compare', from: a, to: b });
  }, [begin, now.id, a, b, areBoth]);
  const choices = useMemo(() => pointChoices(points, [from, to]), [points, from, to]);
  const { answer, state } = work.job ?? {};
  return (
    <article className="paper">
      <PaperHead below="From one point of the car’s history to another, by the ways taken at each. Nothing is planned for it.">
        What a change cost
      </PaperHead>
      <div className="compare-points no-print">
        <NativeSelect
          label="From"
          value={from}
          data={choices}
          onChange={(event) => open({ kind: 'compare', id: `${event.currentTarget.value}..${to}` })}
        />
        <NativeSelect
          label="To"
          value={to}
          data={choices}
          onChange={(event) => open({ kind: 'compare', id: `${from}..${event.currentTarget.value}` })}
        />
      </div>
      <p className="small soft">
        Only points with a name can be picked, the beginning and now.{' '}
        <button type="button" className="word" onClick={() => open({ kind: 'history' })}>
          Name one in the history
        </button>
      </p>
      {!areBoth ? <p className="warn">▲ There is no such point in this car’s history.</p> : null}
      {work.isBusy ? <Progress job={work.job!} what="Comparing" onStop={work.stop} /> : null}
      {state === 'fault' ? <p className="warn">{`▲ ${work.job?.text ?? 'It could not be compared.'}`}</p> : null}
      {state === 'stopped' ? <p className="soft">Stopped.</p> : null}
      {answer === undefined || work.isBusy ? null : <Compared comparison={answer} />}
      <div className="keys no-print">
        <Key onClick={() => open({ kind: 'compare', id: `${to}..${from}` })}>The other way round</Key>
        <Key onClick={() => print()}>Print</Key>
      </div>
    </article>
  );
}
