import { type ReactNode, useEffect, useMemo, useState } from 'react';
import type { Part } from '#car';
import type { HeatAnswer, HeatCase, HeatCure, LineCures, LineHeat } from '#heat';
import { kept } from '../bench/bench.ts';
import { useWork } from '../bench/job.ts';
import { useSignal } from '../bench/signal.ts';
import { Progress } from '../fit/progress.tsx';
import { useFlowLanguage } from '../flow/flow-language.ts';
import { Key } from '../frame/key.tsx';
import { partSeen } from './car-heat.ts';
import { type HeatUnits, useHeatUnits } from './heat-units.ts';
import { leastOf } from './ranked.ts';
import { shieldEdits, shieldPart } from './shield-part.ts';

/** What would cure a line: worked out when it is asked for, most degrees first; a shield can be tried before it is kept. */
export function CureList({ line, at }: { readonly line: LineHeat; readonly at: HeatCase }): ReactNode {
  const now = useSignal(kept)!;
  const { job, isBusy, begin, stop } = useWork<LineCures>();
  const [tried, setTried] = useState<HeatCure | null>(null);
  const cures = job?.state === 'done' ? (job.answer?.cures ?? []) : null;
  return (
    <section aria-label={`What would cure ${line.line}`} className="cook-cures">
      <h2>What would cure it</h2>
      {cures !== null || isBusy ? null : (
        <div className="keys no-print">
          <Key weight="do" onClick={() => begin(now.id, { kind: 'heat-cures', line: line.line, case: at.case.id })}>
            Work the cures out
          </Key>
        </div>
      )}
      {isBusy ? <Progress job={job!} what="Trying the cures" onStop={stop} /> : null}
      {job?.state === 'fault' ? <p className="warn">{`▲ ${job.text ?? 'They could not be worked out.'}`}</p> : null}
      {cures === null ? null : cures.length === 0 ? (
        <p>No cure of the kinds that are tried gains anything here.</p>
      ) : (
        <ol className="cook-cure-list">
          {cures.map((cure) => (
            <li key={`${cure.kind} ${cure.words}`}>
              <CureRow cure={cure} isTried={cure === tried} onTry={() => setTried(cure === tried ? null : cure)} />
            </li>
          ))}
        </ol>
      )}
      {tried?.plate === undefined ? null : <ShieldTried key={tried.words} line={line} at={at} cure={tried} />}
    </section>
  );
}

interface RowWish {
  readonly cure: HeatCure;
  readonly isTried: boolean;
  readonly onTry: () => void;
}

function CureRow({ cure, isTried, onTry }: RowWish): ReactNode {
  const said = useHeatUnits();
  const { text } = useFlowLanguage();
  const costs = [
    ...(cure.roomMm === undefined ? [] : [`${said.length(cure.roomMm)} of room`]),
    ...(cure.grams === undefined ? [] : [said.weight(cure.grams)]),
    ...cure.parts,
  ];
  const gain =
    cure.gainK > 0.5
      ? `${said.difference(cure.gainK)} less`
      : cure.gainK < -0.5
        ? `${said.difference(-cure.gainK)} more`
        : 'nothing';
  return (
    <div className="cook-cure">
      <span className="cook-gain">{gain}</span>
      <span>
        {text(cure.words)}
        <span className="small soft flow-below">
          {`${said.degrees(cure.beforeC)} → ${said.degrees(cure.afterC)}${costs.length === 0 ? '' : ` · ${costs.join(' · ')}`}`}
        </span>
        {cure.note === undefined ? null : <span className="small flow-below">{text(cure.note)}</span>}
      </span>
      {cure.plate === undefined ? null : (
        <Key aria-pressed={isTried} onClick={onTry}>
          Place this shield
        </Key>
      )}
    </div>
  );
}

interface TriedWish {
  readonly line: LineHeat;
  readonly at: HeatCase;
  readonly cure: HeatCure;
}

/** The shield drawn on the car and the case worked out with it, before anything is kept. */
function ShieldTried({ line, at, cure }: TriedWish): ReactNode {
  const { id, car } = useSignal(kept)!;
  const said = useHeatUnits();
  const part = useMemo(() => shieldPart(car, line.line, cure.plate!, cure.grams), [car, line.line, cure]);
  const { job, isBusy, begin, stop, keep } = useWork<HeatAnswer>();
  const caseId = at.case.id;
  useEffect(() => {
    partSeen.set(part);
    begin(id, { kind: 'heat-try', edits: shieldEdits(part), case: caseId });
    return () => partSeen.set(null);
  }, [part, begin, id, caseId]);
  const then = job?.state === 'done' ? job.answer?.cases.find((one) => one.case.id === caseId) : undefined;
  const after = then?.lines.find((one) => one.line === line.line);
  const shield = then?.parts.find((one) => one.part === part.id);
  return (
    <div className="seen" role="region" aria-label={`${part.name} before it is kept`}>
      <p>
        <strong>{part.name}</strong>
        {`: ${sizeWords(part, said)}. Drawn on the car, not kept.`}
      </p>
      {isBusy ? <Progress job={job!} what="Following the heat with it" onStop={stop} /> : null}
      {job?.state === 'fault' ? <p className="warn">{`▲ ${job.text ?? 'It could not be worked out.'}`}</p> : null}
      {after === undefined ? null : (
        <p className="flow-sentence">
          {`${line.line}: ${said.degrees(line.worst.surfaceC)} → ${said.degrees(after.worst.surfaceC)} (± ${said.difference(after.worst.errorK)})`}
          {marginTold(after, said.difference)}
          {shield === undefined ? '' : `; the shield itself ${said.degrees(shield.surfaceC)}`}
        </p>
      )}
      <div className="keys no-print">
        <Key weight="do" onClick={() => void keep(shieldEdits(part), `${part.name} placed`)}>
          Keep the shield
        </Key>
      </div>
    </div>
  );
}

function marginTold(line: LineHeat, difference: (k: number) => string): string {
  const limit = leastOf(line.limits);
  if (limit === undefined) return '';
  return limit.marginK < 0 ? `, still ${difference(-limit.marginK)} over` : `, ${difference(limit.marginK)} left`;
}

function sizeWords({ shapes }: Part, { length, fine }: Pick<HeatUnits, 'length' | 'fine'>): string {
  const { minMm, maxMm } = shapes[0]!.box!;
  const sides = minMm.map((mm, k) => maxMm[k]! - mm).toSorted((a, b) => b - a);
  return `${length(sides[0]!)} by ${length(sides[1]!)}, ${fine(sides[2]!)} thick`;
}
