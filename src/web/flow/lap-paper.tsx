import { type DragEvent, type ReactNode, useEffect, useState } from 'react';
import type { DrivenLaps } from '#crew';
import { kept } from '../bench/bench.ts';
import { useWork } from '../bench/job.ts';
import { open } from '../bench/place.ts';
import { signal, useSignal } from '../bench/signal.ts';
import { Progress } from '../fit/progress.tsx';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { LapSeen } from './lap-seen.tsx';
import { UnitChoice } from './unit-choice.tsx';

/** The last lap that was driven, so that it is there when the paper is opened again. */
const last = signal<{ readonly at: string; readonly name: string; readonly laps: DrivenLaps } | null>(null);

const EXAMPLE = 'the example, an invented hill climb';

/** A driven log run through the dry sump of the car: chosen, dropped, or the example. */
export function LapPaper({ circuit }: { readonly circuit: string }): ReactNode {
  const now = useSignal(kept)!;
  const at = `${now.id} ${now.revision}`;
  const work = useWork<DrivenLaps>();
  const [name, setName] = useState('');
  const had = useSignal(last);
  const { job } = work;
  useEffect(() => {
    if (job?.state === 'done' && job.answer !== undefined) last.set({ at, name, laps: job.answer });
    // What was asked of the car as it was then.
  }, [job]);
  const begin = (log: ArrayBuffer | null, called: string): void => {
    setName(called);
    work.begin(now.id, { kind: 'laps', log });
  };
  const shown = had?.at.startsWith(`${now.id} `) === true && !work.isBusy ? had : null;
  const lap = shown?.laps.laps.find((one) => one.circuit === circuit) ?? shown?.laps.laps[0];
  return (
    <article className="paper flow-paper">
      <PaperHead below="A log of a drive, run through the dry sump in time: how far the tank falls, when its outlet draws air, what reaches the gallery.">
        A driven lap
      </PaperHead>
      <LogChoice isBusy={work.isBusy} onLog={begin} />
      {work.isBusy ? <Progress job={job!} what={`Running ${name}`} onStop={work.stop} /> : null}
      {job?.state === 'fault' ? <p className="warn">{`▲ ${name}: ${job.text ?? 'it could not be run'}`}</p> : null}
      {job?.state === 'stopped' ? <p className="soft">Stopped.</p> : null}
      {shown !== null && shown.at !== at ? (
        <p className="soft">The car has changed since: run the log again to see what that does.</p>
      ) : null}
      {shown === null || lap === undefined ? null : <LapSeen lap={lap} name={shown.name} notes={shown.laps.notes} />}
      <UnitChoice />
      <div className="keys no-print">
        <Key onClick={() => open({ kind: 'flow', id: `${circuit}..` })}>Back to the circuit</Key>
        {shown === null ? null : <Key onClick={() => print()}>Print</Key>}
      </div>
    </article>
  );
}

interface ChoiceWish {
  readonly isBusy: boolean;
  readonly onLog: (log: ArrayBuffer | null, name: string) => void;
}

/** A file picked or dropped; what it must hold stands beside it. */
function LogChoice({ isBusy, onLog }: ChoiceWish): ReactNode {
  const [isOver, setOver] = useState(false);
  const take = (file: File | undefined): void => {
    if (file !== undefined) void file.arrayBuffer().then((bytes) => onLog(bytes, file.name));
  };
  const over = (event: DragEvent, is: boolean): void => {
    event.preventDefault();
    setOver(is);
  };
  return (
    <section
      aria-label="The log"
      className={isOver ? 'lap-drop lap-drop-over no-print' : 'lap-drop no-print'}
      onDragOver={(event) => over(event, true)}
      onDragLeave={(event) => over(event, false)}
      onDrop={(event) => {
        over(event, false);
        take(event.dataTransfer.files[0]);
      }}
    >
      <div className="keys">
        <label className="key key-do box-file">
          Choose a log
          <input
            type="file"
            accept=".csv,.txt,text/csv"
            disabled={isBusy}
            onChange={(event) => {
              const file = event.currentTarget.files?.[0];
              event.currentTarget.value = '';
              take(file);
            }}
          />
        </label>
        <Key disabled={isBusy} onClick={() => onLog(null, EXAMPLE)}>
          Run the example
        </Key>
      </div>
      <p className="small soft">
        Or drop it here: a CSV with time, engine speed, longitudinal and lateral g and oil temperature, vertical g where
        it is logged; units behind the heads or below them. It is not kept.
      </p>
    </section>
  );
}
