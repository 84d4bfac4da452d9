import { NativeSelect } from '@mantine/core';
import { type ReactNode, useEffect } from 'react';
import type { StripOf } from '#answers';
import { useCar, kept } from '../bench/bench.ts';
import { useWork } from '../bench/job.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Progress } from '../fit/progress.tsx';
import { Cautions } from '../frame/cautions.tsx';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { BetweenRuns } from './between-runs.tsx';
import { CrewPaper } from './crew-paper.tsx';
import { DuePaper } from './due-paper.tsx';
import { offPaperAt } from './off-address.ts';
import { BreakForm, ClauseForm, DayForm, HandForm, MinutesForm, PackForm, ToolForm } from './off-forms.tsx';
import { FastenerForm, HeldPaper, PartOffForm } from './part-forms.tsx';
import { RulesPaper } from './rules-paper.tsx';
import { StripSeen } from './strip-seen.tsx';
import { StripWins } from './strip-wins.tsx';
import { thingsOf } from './things-of.ts';
import { takenOff } from './taken-off.ts';
import '../flow/flow.css';
import './off.css';

const AIMS: readonly (readonly [StripOf['aim'], string])[] = [
  ['replace', 'Change it'],
  ['remove', 'Take it off'],
  ['reach', 'Get a hand to it'],
];

/** What comes off and what goes with it: `id` names one of the papers beside it ("crew", "break..0"), else what is got at. */
export function OffPaper({ id }: { readonly id: string }): ReactNode {
  const at = offPaperAt(id);
  switch (at?.kind) {
    case undefined:
      return <ComesOff id={id} />;
    case 'crew':
      return <CrewPaper />;
    case 'minutes':
      return <MinutesForm />;
    case 'hand':
      return <HandForm />;
    case 'break':
      return <BreakForm key={id} which={at.which} />;
    case 'tool':
      return <ToolForm which={at.which} />;
    case 'due':
      return <DuePaper />;
    case 'day':
      return <DayForm which={at.which} />;
    case 'rules':
      return <RulesPaper />;
    case 'pack':
      return <PackForm which={at.which} />;
    case 'clause':
      return <ClauseForm which={at.which} />;
    case 'held':
      return <HeldPaper which={at.which} />;
    case 'fastener':
      return <FastenerForm which={at.which} />;
    case 'off':
      return <PartOffForm which={at.which} />;
  }
}

/** What has to come off for a part, panel or line; `id` is what stands in the address after "off": "all", "replace/turbo". */
function ComesOff({ id: asked }: { readonly id: string }): ReactNode {
  const car = useCar()!;
  const carId = useSignal(kept)!.id;
  const revision = useSignal(kept)!.revision;
  const [aimAsked = '', ...rest] = asked.split('/');
  const aim = AIMS.find(([one]) => one === aimAsked)?.[0] ?? 'replace';
  const things = thingsOf(car);
  const what = rest.join('/');
  const isThere = things.some(({ value }) => value === what);
  const { job, isBusy, begin, stop, clear } = useWork<StripOf>();
  const go = (to: StripOf['aim'], id: string): void => open({ kind: 'off', id: id === '' ? 'all' : `${to}/${id}` });
  useEffect(() => {
    takenOff.set(new Map());
    clear();
    if (isThere) begin(carId, { kind: 'strip', what, aim, wins: false });
    return () => takenOff.set(new Map());
    // Asked anew for each wish and each change of the car, and for nothing else.
  }, [carId, revision, what, aim, isThere]); // eslint-disable-line react-hooks/exhaustive-deps
  const answer = job?.state === 'done' ? (job.answer ?? null) : null;
  return (
    <article className="paper off-paper">
      <PaperHead below="What has to come off for a part, a panel or a line, in which order, how long it takes and what runs out.">
        What comes off?
      </PaperHead>
      <div className="no-print">
        <NativeSelect
          label="What do you want to get at?"
          value={isThere ? what : ''}
          data={[{ value: '', label: 'Choose, or point at it on the car' }, ...things]}
          onChange={(event) => go(aim, event.currentTarget.value)}
        />
        <div className="keys" role="group" aria-label="What for">
          {AIMS.map(([one, words]) => (
            <Key key={one} aria-pressed={aim === one} disabled={!isThere} onClick={() => go(one, what)}>
              {words}
            </Key>
          ))}
          {car.parts.some(({ id }) => id === what) ? (
            <Key onClick={() => open({ kind: 'off', id: `held..${what}` })}>What holds it</Key>
          ) : null}
        </div>
      </div>
      {what !== '' && !isThere ? (
        <p className="warn">{`▲ There is no part, panel or line ${what} on this car.`}</p>
      ) : null}
      {isBusy ? <Progress job={job!} what={`Working out what comes off for ${what}`} onStop={stop} /> : null}
      {job?.state === 'fault' ? <p className="warn">{`▲ ${job.text ?? 'It could not be worked out.'}`}</p> : null}
      {what === '' ? <BetweenRuns /> : null}
      {answer === null ? null : (
        <StripSeen
          answer={answer}
          key={`${what} ${aim}`}
          wins={<StripWins carId={carId} what={what} aim={aim} key={`${revision}`} />}
        />
      )}
      <Cautions words={answer?.cautions ?? []} />
    </article>
  );
}
