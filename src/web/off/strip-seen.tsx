import { type ReactNode, useEffect, useState } from 'react';
import { provedWords, type StripOf, type StripOfStep, uncountedWords, undoneWords } from '#answers';
import { litresWords, minutesWords } from '#units';
import { Key } from '../frame/key.tsx';
import { counted } from '../snags/counted.ts';
import { lookOf, marked, markedAt, stripLook } from './strip-look.ts';
import { takenAt, takenOff } from './taken-off.ts';

/** Less is a drop on a rag: by the fills stated nothing runs. */
const runsWords = (litres: number): string => (litres < 0.005 ? 'by the fills stated nothing' : litresWords(litres));

/** What comes off, as a list and on the car: how far it has got is chosen with the slider or by a step. */
export function StripSeen({ answer, wins }: { readonly answer: StripOf; readonly wins: ReactNode }): ReactNode {
  const { steps } = answer;
  const [done, setDone] = useState(0);
  useEffect(() => takenOff.set(takenAt(steps, done)), [steps, done]);
  useEffect(() => marked.set(markedAt(answer, done)), [answer, done]);
  useEffect(() => {
    stripLook.set(lookOf(answer));
    return () => {
      stripLook.set(null);
      marked.set(new Set());
    };
  }, [answer]);
  if (answer.found === 'stays-on') return <p>{`${answer.name} never comes off: the car is built on it.`}</p>;
  if (answer.found === 'none')
    return (
      <section aria-label="No way found">
        <p className="warn">{`▲ No way was found to get ${answer.name} out. That does not say that there is none.`}</p>
        <ul>
          {answer.blockedBy.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      </section>
    );
  return (
    <>
      <Sum answer={answer} />
      <Scrub steps={steps} done={done} onDone={setDone} />
      <section aria-label="In this order">
        <h2>In this order</h2>
        <ol className="off-steps">
          {steps.map((step) => (
            <Step
              key={step.number}
              step={step}
              isNow={Math.min(steps.length - 1, Math.floor(done)) === step.number - 1 && done > 0}
              onSee={() => setDone(step.number - 0.5)}
            />
          ))}
        </ol>
      </section>
      <Ready answer={answer} />
      {wins}
      <div className="keys no-print">
        <Key weight="do" onClick={() => print()}>
          Print the list
        </Key>
      </div>
    </>
  );
}

const AIMS = { replace: 'To change', remove: 'To take off', reach: 'To get a hand to' } as const;

function Sum({ answer }: { readonly answer: StripOf }): ReactNode {
  const { minutesOff, minutesOn, crew, crewMinutes, litres, breaks } = answer;
  return (
    <section aria-label="How long and how much">
      <h2>{`${AIMS[answer.aim]} ${answer.name}`}</h2>
      <p className="big">
        {`${counted(answer.steps.length, 'step')}, ${minutesWords(minutesOff)} off and ${minutesWords(minutesOn)} on again; ${runsWords(litres)} run out.`}
      </p>
      {crew > 1 ? <p>{`With ${crew} at it: ${minutesWords(crewMinutes)} in all.`}</p> : null}
      {breaks.map((row) => (
        <p key={row.name} className={row.fits ? '' : 'warn'}>
          {`${row.fits ? '' : '▲ '}${row.name}: ${minutesWords(row.minutes)} there are, ${minutesWords(row.jobMinutes)} it takes.`}
        </p>
      ))}
      <p className="small soft">
        {`${uncountedWords(answer)} ${provedWords(answer)} Minutes are from memory where the crew has not clocked its own.`}
      </p>
    </section>
  );
}

interface ScrubWish {
  readonly steps: readonly StripOfStep[];
  readonly done: number;
  readonly onDone: (done: number) => void;
}

function Scrub({ steps, done, onDone }: ScrubWish): ReactNode {
  const now = steps[Math.min(steps.length - 1, Math.floor(done))];
  const where =
    done === Math.floor(done)
      ? `After step ${done} of ${steps.length}; next`
      : `Step ${now?.number} of ${steps.length}`;
  const words = done <= 0 ? 'All on' : done >= steps.length ? 'All off' : `${where}: ${now!.words}`;
  return (
    <section aria-label="On the car" className="off-scrub no-print">
      <label>
        <span>How far it has come, on the car</span>
        <input
          type="range"
          min={0}
          max={steps.length}
          step={0.05}
          value={done}
          aria-valuetext={words}
          onChange={(event) => onDone(Number(event.currentTarget.value))}
        />
      </label>
      <p aria-live="polite">{words}</p>
      <div className="keys">
        <Key disabled={done <= 0} onClick={() => onDone(Math.max(0, Math.ceil(done) - 1))}>
          Step back
        </Key>
        <Key disabled={done >= steps.length} onClick={() => onDone(Math.min(steps.length, Math.floor(done) + 1))}>
          Next step
        </Key>
      </div>
    </section>
  );
}

interface StepWish {
  readonly step: StripOfStep;
  readonly isNow: boolean;
  readonly onSee: () => void;
}

function Step({ step, isNow, onSee }: StepWish): ReactNode {
  const { number, words, undo, onBench, opens, spillsL, minutes } = step;
  return (
    <li className="off-step" aria-current={isNow ? 'step' : undefined}>
      <p>
        <span className="off-tick" aria-hidden="true" />
        <strong>{`${number}. ${words.slice(0, 1).toUpperCase()}${words.slice(1)}`}</strong>
        {`, ${minutesWords(minutes)}`}
      </p>
      <Undone title="Undo" rows={undo} />
      <Undone title="On the bench" rows={onBench} />
      {spillsL < 0.005 ? null : <p className="small">{`${litresWords(spillsL)} run from it.`}</p>}
      {opens
        .filter(({ litres }) => litres >= 0.005)
        .map((open) => (
          <p key={`${open.line} ${open.port}`} className="small">
            {`${litresWords(open.litres)}${open.fluid === null ? '' : ` of ${open.fluid}`} run from ${open.line} at ${open.port}.`}
          </p>
        ))}
      <div className="keys no-print">
        <Key weight="bare" onClick={onSee}>
          See it on the car
        </Key>
      </div>
    </li>
  );
}

/** What is undone, a row for each kind; what no hand or tool was found for stands out. */
function Undone({ title, rows }: { readonly title: string; readonly rows: StripOfStep['undo'] }): ReactNode {
  const isPlain = (row: StripOfStep['undo'][number]): boolean => row.isReached && row.tool?.goes !== 'none';
  const plain = undoneWords(rows.filter(isPlain));
  const grave = undoneWords(rows.filter((row) => !isPlain(row)));
  return (
    <>
      {plain.length === 0 ? null : <p className="small">{`${title}: ${plain.join('; ')}`}</p>}
      {grave.map((words) => (
        <p key={words} className="small warn">{`▲ ${title}: ${words}`}</p>
      ))}
    </>
  );
}

/** What to have ready, and what goes on first again. */
function Ready({ answer }: { readonly answer: StripOf }): ReactNode {
  const { caps, closeWith, drainFirst, onAgain, fitBefore } = answer;
  return (
    <>
      <section aria-label="Have ready">
        <h2>Have ready</h2>
        <ul>
          {drainFirst.map((row) => (
            <li
              key={row.part}
            >{`Drain first: ${litresWords(row.litres)} from ${row.name}; else it runs out of ${row.by}`}</li>
          ))}
          {caps.map((cap) => (
            <li
              key={cap.id}
            >{`${cap.qty} x ${cap.name}${cap.inBox >= cap.qty ? ', in the box' : `; ${cap.inBox} in the box`}`}</li>
          ))}
          {closeWith.map((words) => (
            <li key={words}>{words}</li>
          ))}
          {drainFirst.length + caps.length + closeWith.length === 0 ? <li>nothing to catch or to cap</li> : null}
        </ul>
      </section>
      <section aria-label="On again">
        <h2>On again</h2>
        <ol className="off-on">
          {onAgain.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ol>
        {fitBefore.map(({ words }) => (
          <p key={words} className="small">{`${words}: the other way round no way was found`}</p>
        ))}
      </section>
    </>
  );
}
