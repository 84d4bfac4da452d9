import { type ReactNode, useEffect } from 'react';
import type { HeatAnswer, HeatCase } from '#heat';
import { heatCautions } from './heat-cautions.ts';
import { kept } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { Progress } from '../fit/progress.tsx';
import { Cautions } from '../frame/cautions.tsx';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { UnitChoice } from '../flow/unit-choice.tsx';
import { BayOpened } from './bay-opened.tsx';
import { BodiesList } from './bodies-list.tsx';
import { BodyOpened } from './body-opened.tsx';
import { painted, partSeen, useCarHeat } from './car-heat.ts';
import { HeatFindings } from './heat-findings.tsx';
import { type HeatAbout, heatAddress, heatPlace } from './heat-place.ts';
import { BayRowForm, PressureForm, SourceForm, SpaceForm } from './heat-forms.tsx';
import { HeatScaleBar } from './heat-scale-bar.tsx';
import { LineOpened } from './line-opened.tsx';
import { gravestIn, worstCase } from './ranked.ts';
import { OverBodies } from './over-bodies.tsx';
import { RankedLines } from './ranked-lines.tsx';
import { ReadingForm } from './reading-form.tsx';
import { ReadingsList } from './readings-list.tsx';
import { SoakOpened } from './soak-opened.tsx';
import '../fit/fit.css';
import '../flow/flow.css';
import './cook.css';

const marks = { stop: '▲', fix: '◆' } as const;

/** Temperatures in a case: the list of lines, or one thing opened; or a form for a reading. */
export function CookPaper({ id }: { readonly id: string }): ReactNode {
  const { caseId, about } = heatPlace(id);
  switch (about.kind) {
    case 'reading':
      return <ReadingForm key={id} id={about.id} caseId={caseId} />;
    case 'source':
      return <SourceForm key={id} id={about.id} caseId={caseId} />;
    case 'space':
      return <SpaceForm key={id} id={about.id} caseId={caseId} />;
    case 'opening':
      return <BayRowForm key={id} list="openings" id={about.id} caseId={caseId} />;
    case 'intake':
      return <BayRowForm key={id} list="intakes" id={about.id} caseId={caseId} />;
    case 'pressure':
      return <PressureForm key={id} id={about.id} caseId={caseId} />;
    default:
  }
  return <Answer caseId={caseId} about={about} />;
}

interface Wish {
  readonly caseId: string | undefined;
  readonly about: HeatAbout;
}

function Answer({ caseId, about }: Wish): ReactNode {
  const { car } = useSignal(kept)!;
  const { answer, isOld, work } = useCarHeat();
  const at = answer?.cases.find((one) => one.case.id === caseId) ?? (answer === null ? undefined : worstCase(answer));
  useEffect(() => {
    painted.set(at ?? null);
  }, [at]);
  useEffect(
    () => () => {
      painted.set(null);
      partSeen.set(null);
    },
    [],
  );
  const hasCases = (car.cases ?? []).length > 0;
  return (
    <article className="paper cook-paper">
      <PaperHead
        below={
          hasCases
            ? 'Every line, panel and part in every case, along the ways that are taken; switched off, its highest.'
            : 'The car states no cases: one is assumed, hot and at speed. Put your own in.'
        }
      >
        Does it cook?
      </PaperHead>
      {work.isBusy ? <Progress job={work.job!} what="Following the heat" onStop={work.stop} /> : null}
      {work.job?.state === 'fault' ? (
        <p className="warn">{`▲ ${work.job.text ?? 'It could not be worked out.'}`}</p>
      ) : null}
      {work.job?.state === 'stopped' ? <p className="soft">Stopped: nothing new is worked out.</p> : null}
      {isOld ? <p className="soft">The numbers below are those from before the last change.</p> : null}
      {answer === null || at === undefined ? null : <InCase answer={answer} at={at} about={about} />}
    </article>
  );
}

function InCase({
  answer,
  at,
  about,
}: {
  readonly answer: HeatAnswer;
  readonly at: HeatCase;
  readonly about: HeatAbout;
}): ReactNode {
  const { car } = useSignal(kept)!;
  const caseId = at.case.id;
  return (
    <>
      <CaseChips answer={answer} at={at} about={about} />
      <h2 className="only-print">{`Case: ${at.case.name ?? caseId}`}</h2>
      <HeatScaleBar at={at} />
      <Opened answer={answer} at={at} about={about} />
      {about.kind === 'lines' ? (
        <>
          <HeatFindings
            title={`Open in this case: ${at.case.name ?? caseId}`}
            findings={[...at.findings, ...answer.findings]}
          />
          <BodiesList at={at} />
          <ReadingsList answer={answer} caseId={caseId} />
        </>
      ) : null}
      <UnitChoice />
      <Cautions words={heatCautions(car)} />
      <div className="keys no-print">
        {about.kind === 'lines' ? null : (
          <Key onClick={() => open({ kind: 'cook', id: heatAddress({ caseId, about: { kind: 'lines' } }) })}>
            All lines of this case
          </Key>
        )}
        <Key onClick={() => open({ kind: 'cook', id: heatAddress({ caseId, about: { kind: 'reading', id: '' } }) })}>
          Put a temperature in that was read
        </Key>
        <Key onClick={() => open({ kind: 'flow', id: `change-case..${caseId}` })}>Change this case</Key>
        {about.kind === 'part' && car.parts.some((part) => part.id === about.id) ? (
          <Key
            onClick={() => open({ kind: 'cook', id: heatAddress({ caseId, about: { kind: 'source', id: about.id } }) })}
          >
            How hot it is, and its cover
          </Key>
        ) : null}
        {about.kind === 'lines' ? (
          <Key onClick={() => open({ kind: 'cook', id: heatAddress({ caseId, about: { kind: 'space', id: '' } }) })}>
            Put a bay in
          </Key>
        ) : null}
        <Key onClick={() => print()}>Print</Key>
      </div>
    </>
  );
}

function Opened({ answer, at, about }: { answer: HeatAnswer; at: HeatCase; about: HeatAbout }): ReactNode {
  switch (about.kind) {
    case 'line':
      return <LineOpened key={`${at.case.id} ${about.id}`} answer={answer} at={at} id={about.id} />;
    case 'bay':
      return <BayOpened at={at} id={about.id} />;
    case 'panel':
    case 'part':
      return <BodyOpened at={at} kind={about.kind} id={about.id} />;
    case 'soak':
      return <SoakOpened at={at} />;
    default:
      return (
        <>
          <OverBodies at={at} />
          <RankedLines at={at} />
        </>
      );
  }
}

function CaseChips({ answer, at, about }: { answer: HeatAnswer; at: HeatCase; about: HeatAbout }): ReactNode {
  return (
    <div className="flow-chips no-print-chips">
      <div className="keys" role="group" aria-label="Case">
        {answer.cases.map((one) => {
          const level = gravestIn(one);
          return (
            <Key
              key={one.case.id}
              aria-pressed={one === at}
              onClick={() =>
                open({ kind: 'cook', id: heatAddress({ caseId: one.case.id, about: keptAbout(about, one) }) })
              }
              {...(level === null ? {} : { title: `has a ${level}` })}
            >
              {level === null ? null : <span aria-hidden="true">{marks[level]}</span>}
              {one.case.name ?? one.case.id}
            </Key>
          );
        })}
      </div>
      <div className="keys" role="group" aria-label="What of it">
        <Key
          aria-pressed={about.kind === 'lines'}
          onClick={() => open({ kind: 'cook', id: heatAddress({ caseId: at.case.id, about: { kind: 'lines' } }) })}
        >
          Lines
        </Key>
        {at.bays.map(({ bay, name }) => (
          <Key
            key={bay}
            aria-pressed={about.kind === 'bay' && about.id === bay}
            onClick={() =>
              open({ kind: 'cook', id: heatAddress({ caseId: at.case.id, about: { kind: 'bay', id: bay } }) })
            }
          >
            {`Air of ${name}`}
          </Key>
        ))}
        {at.soak === undefined ? null : (
          <Key
            aria-pressed={about.kind === 'soak'}
            onClick={() => open({ kind: 'cook', id: heatAddress({ caseId: at.case.id, about: { kind: 'soak' } }) })}
          >
            Minute by minute
          </Key>
        )}
      </div>
    </div>
  );
}

/** What lies open stays open in another case, where there is such a thing. */
const keptAbout = (about: HeatAbout, next: HeatCase): HeatAbout =>
  about.kind === 'soak' && next.soak === undefined ? { kind: 'lines' } : about;
