import type { ReactNode } from 'react';
import type { Car, Edit } from '#car';
import type { Way } from '#lines';
import { kept } from '../bench/bench.ts';
import { useSignal } from '../bench/signal.ts';
import { useWork, type Work } from '../bench/job.ts';
import { dayAndTime } from '../bench/who.ts';
import { Key } from '../frame/key.tsx';
import type { PlanAnswer, Standing } from '../server/answers.ts';
import { counted } from '../snags/counted.ts';
import { Progress } from './progress.tsx';
import { takenFrom } from './taken-from.ts';

/** All planned lines worked out together; nothing is taken before the builder says so. */
export function PlanAll({ car, judged }: { readonly car: Car; readonly judged: Standing | null }): ReactNode {
  const work = useWork<PlanAnswer>();
  const id = useSignal(kept)?.id;
  const planned = car.lines.filter((line) => line.state === 'planned');
  const without = judged?.lines.filter((row) => row.way === null && row.state === 'planned').length ?? 0;
  if (planned.length === 0 || id === undefined) return null;
  const { answer, state } = work.job ?? {};
  return (
    <div className="work">
      {work.isBusy ? (
        <Progress job={work.job!} what={`Working out ${counted(planned.length, 'line')} together`} onStop={work.stop} />
      ) : answer === undefined ? (
        <div className="keys">
          <Key weight={without > 0 ? 'do' : 'plain'} onClick={() => work.begin(id, { kind: 'plan' })}>
            {without === planned.length ? 'Work out all lines' : 'Work out all lines again'}
          </Key>
          {without > 0 ? (
            <span className="soft small work-note">{`${counted(without, 'line')} without a way`}</span>
          ) : null}
          {state === 'stopped' ? <span className="soft small work-note">Stopped; nothing was changed</span> : null}
        </div>
      ) : (
        <PlanSeen answer={answer} work={work} />
      )}
    </div>
  );
}

interface SeenWish {
  readonly answer: PlanAnswer;
  readonly work: Work<PlanAnswer>;
}

function PlanSeen({ answer, work }: SeenWish): ReactNode {
  const taken = answer.planned.lines.filter((row) => row.taken !== null);
  const refused = answer.planned.lines.filter((row) => row.taken === null).map((row) => row.line);
  const stops = answer.snags.filter((snag) => snag.level === 'stop').length;
  const edits = taken.map((row): Edit => ({ do: 'take-way', line: row.line, way: takenFrom(row.taken as Way) }));
  return (
    <section className="seen" aria-label="What was worked out">
      <p>
        <strong>{`${counted(taken.length, 'line')} found a way`}</strong>
        {refused.length === 0 ? '.' : `; ${refused.join(', ')} did not.`}
        {` ${counted(stops, 'stop')} with it. Not kept yet.`}
      </p>
      {answer.keptAt === undefined ? null : (
        <p className="small soft">{`Worked out ${dayAndTime(Date.parse(answer.keptAt))}; nothing it rests on has changed since.`}</p>
      )}
      <div className="keys">
        <Key
          weight="do"
          disabled={edits.length === 0}
          onClick={() =>
            void work.keep(edits, `${counted(taken.length, 'way')} taken`).then((isKept) => isKept && work.clear())
          }
        >
          {`Take these ${taken.length}`}
        </Key>
        <Key onClick={work.clear}>Leave it as it was</Key>
      </div>
    </section>
  );
}
