import { type ReactNode, useEffect } from 'react';
import type { CircuitFlow } from '#flow';
import { cautionsFor } from '#snags';
import { kept } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { picked } from '../car/view.ts';
import { Progress } from '../fit/progress.tsx';
import { Cautions } from '../frame/cautions.tsx';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { type CarFlow, useCarFlow } from './car-flow.ts';
import { CaseForm } from './case-form.tsx';
import { CircuitForm } from './circuit-form.tsx';
import { CircuitHeadForm, CircuitRowForm, FITTING, FittingForm, FLUID, FluidForm, HEAD, ROW } from './circuit-rows.tsx';
import { FindingRow, OtherFindings } from './finding-row.tsx';
import { FlowPictures } from './flow-pictures.tsx';
import { FlowTables } from './flow-tables.tsx';
import { LapPaper } from './lap-paper.tsx';
import { findingsIn, findingsOf, gravest } from './open-findings.ts';
import { SizeTry } from './size-try.tsx';
import { UnitChoice } from './unit-choice.tsx';
import '../fit/fit.css';
import './flow.css';

/** A circuit in a case, one of the forms, or a driven lap; `id` is both, as `oil..cold-start`. */
export function FlowPaper({ id }: { readonly id: string }): ReactNode {
  const [what = '', which = ''] = id.split('..');
  if (what === CASE) return <CaseForm id={which} />;
  if (what === CIRCUIT) return <CircuitForm id={which} />;
  if (what === ROW) return <CircuitRowForm which={which} />;
  if (what === HEAD) return <CircuitHeadForm key={which} which={which} />;
  if (what === FLUID) return <FluidForm key={which} which={which} />;
  if (what === FITTING) return <FittingForm key={which} which={which} />;
  if (what === LAP) return <LapPaper circuit={which} />;
  return <Answer circuit={what} caseId={which} />;
}

const [CASE, CIRCUIT, LAP] = ['change-case', 'change-circuit', 'driven-lap'];
const marks = { stop: '▲', fix: '◆' } as const;

function Answer({ circuit, caseId }: { readonly circuit: string; readonly caseId: string }): ReactNode {
  const now = useSignal(kept)!;
  const { answer, isOld, work } = useCarFlow(caseId === '' ? undefined : caseId);
  useEffect(() => () => picked.set(null), []);
  const hasCases = (now.car.cases ?? []).length > 0;
  return (
    <article className="paper flow-paper">
      <PaperHead
        below={
          hasCases
            ? 'Every circuit in every case, along the ways that are taken.'
            : 'The car states no cases: one is assumed, hot and at 5000 rpm. Put your own in.'
        }
      >
        Does it flow?
      </PaperHead>
      {work.isBusy ? <Progress job={work.job!} what="Working the circuits out" onStop={work.stop} /> : null}
      {work.job?.state === 'fault' ? (
        <p className="warn">{`▲ ${work.job.text ?? 'It could not be worked out.'}`}</p>
      ) : null}
      {work.job?.state === 'stopped' ? <p className="soft">Stopped: not all cases are worked out.</p> : null}
      {isOld ? <p className="soft">The numbers below are those from before the last change.</p> : null}
      {answer === null ? null : <Circuits answer={answer} circuit={circuit} caseId={caseId} />}
    </article>
  );
}

interface Wish {
  readonly answer: CarFlow;
  readonly circuit: string;
  readonly caseId: string;
}

function Circuits({ answer, circuit, caseId }: Wish): ReactNode {
  const { circuits } = answer.flow;
  const flow = circuits.find((one) => one.circuit === circuit) ?? worstCircuit(circuits);
  if (flow === undefined) return <p>No circuit of this car is one that flows.</p>;
  const worst = findingsOf(flow)[0];
  const state =
    flow.states.find(({ case: at }) => at.id === caseId) ??
    flow.states.find(({ case: at }) => at.id === worst?.case) ??
    flow.states[0];
  if (state === undefined) return null;
  const here = findingsIn(flow, state.case.id);
  return (
    <>
      <Chips circuits={circuits} flow={flow} caseId={state.case.id} />
      {worst === undefined ? (
        <p>Nothing is open on this circuit in the cases that are worked out.</p>
      ) : (
        <section aria-label="What matters most" className="flow-worst">
          <FindingRow finding={worst} isLarge />
        </section>
      )}
      <OtherFindings
        title={`Open in this case: ${state.case.name ?? state.case.id}`}
        findings={here.filter((one) => one !== worst)}
      />
      <FlowPictures answer={answer} flow={flow} state={state} worst={worst} />
      <FlowTables flow={flow} state={state} />
      <SizeTry flow={flow} worstLine={worst?.line} />
      <UnitChoice />
      <CircuitCautions lines={new Set(flow.states.flatMap(({ lines }) => lines.map(({ line }) => line)))} />
      <div className="keys no-print">
        <Key onClick={() => open({ kind: 'flow', id: `${CASE}..${state.case.id}` })}>Change this case</Key>
        <Key onClick={() => open({ kind: 'flow', id: `${CASE}..` })}>Put another case in</Key>
        <Key onClick={() => open({ kind: 'flow', id: `${CIRCUIT}..${flow.circuit}` })}>
          Change the circuit’s figures
        </Key>
        {flow.kind === 'dry-sump' ? (
          <Key onClick={() => open({ kind: 'flow', id: `${LAP}..${flow.circuit}` })}>Run a driven lap</Key>
        ) : null}
        <Key onClick={() => print()}>Print</Key>
      </div>
    </>
  );
}

/** The circuit with the gravest point, as the car file has them where it is a draw. */
const worstCircuit = (circuits: readonly CircuitFlow[]): CircuitFlow | undefined =>
  circuits.find((one) => gravest(findingsOf(one)) === 'stop') ??
  circuits.find((one) => gravest(findingsOf(one)) === 'fix') ??
  circuits[0];

interface ChipsWish {
  readonly circuits: readonly CircuitFlow[];
  readonly flow: CircuitFlow;
  readonly caseId: string;
}

/** Which circuit, and in which case; each says with a mark how grave the worst of it is. */
function Chips({ circuits, flow, caseId }: ChipsWish): ReactNode {
  return (
    <div className="flow-chips">
      <div className="keys" role="group" aria-label="Circuit">
        {circuits.map((one) => (
          <Chip
            key={one.circuit}
            words={one.name}
            level={gravest(findingsOf(one))}
            isOn={one.circuit === flow.circuit}
            onPick={() => open({ kind: 'flow', id: `${one.circuit}..${caseId}` })}
          />
        ))}
      </div>
      <div className="keys" role="group" aria-label="Case">
        {flow.states.map(({ case: at, findings }) => (
          <Chip
            key={at.id}
            words={at.name ?? at.id}
            level={gravest(findings)}
            isOn={at.id === caseId}
            onPick={() => open({ kind: 'flow', id: `${flow.circuit}..${at.id}` })}
          />
        ))}
      </div>
    </div>
  );
}

interface ChipWish {
  readonly words: string;
  readonly level: 'stop' | 'fix' | null;
  readonly isOn: boolean;
  readonly onPick: () => void;
}

function Chip({ words, level, isOn, onPick }: ChipWish): ReactNode {
  return (
    <Key aria-pressed={isOn} onClick={onPick} {...(level === null ? {} : { title: `has a ${level}` })}>
      {level === null ? null : <span aria-hidden="true">{marks[level]}</span>}
      {words}
    </Key>
  );
}

function CircuitCautions({ lines }: { readonly lines: ReadonlySet<string> }): ReactNode {
  const { car } = useSignal(kept)!;
  const own = car.lines.filter(({ id }) => lines.has(id));
  return <Cautions words={cautionsFor({ ...car, lines: own, movers: [], parts: [] })} />;
}
