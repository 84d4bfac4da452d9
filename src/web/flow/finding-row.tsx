import type { ReactNode } from 'react';
import type { FlowFinding } from '#flow';
import { describeSource } from '#sources';
import { flowOpens } from '#snags';
import { open } from '../bench/place.ts';
import { picked } from '../car/view.ts';
import { FormulasShown } from '../fit/formula-shown.tsx';
import { Key } from '../frame/key.tsx';
import { LevelMark } from '../snags/level-mark.tsx';
import { useFlowLanguage } from './flow-language.ts';
import { Opened } from './opened.tsx';

/** One finding: the sentence, found and limit, whose limit it is, cures with what each gains. */
export function FindingRow({
  finding,
  isLarge = false,
}: {
  readonly finding: FlowFinding;
  readonly isLarge?: boolean;
}): ReactNode {
  const { level, text, cures, advice = [], line } = finding;
  const said = useFlowLanguage();
  return (
    <div className="flow-finding">
      <LevelMark level={level} />
      <p className={isLarge ? 'flow-sentence' : ''}>
        {line === undefined ? null : <strong>{`${line} · `}</strong>}
        {said.text(text)}
      </p>
      <Numbers finding={finding} />
      {cures.length === 0 ? null : (
        <ul className="cures" aria-label="What would cure it">
          {cures.map((cure) => (
            <li key={cure}>{said.text(cure)}</li>
          ))}
        </ul>
      )}
      {advice.length === 0 ? null : (
        <ul className="small soft" aria-label="Advice, not worked out">
          {advice.map((words) => (
            <li key={words}>{said.text(words)}</li>
          ))}
        </ul>
      )}
      <OpenedFinding finding={finding} />
      {line === undefined ? null : (
        <div className="keys no-print">
          <Key onClick={() => picked.set(line)}>{`Show ${line} on the car`}</Key>
          {isLarge ? <Key onClick={() => open({ kind: 'line', id: line })}>{`Card of ${line}`}</Key> : null}
        </div>
      )}
    </div>
  );
}

/** The number of a finding opened up, where there is more to it than its rule. */
function OpenedFinding({ finding }: { readonly finding: FlowFinding }): ReactNode {
  const said = useFlowLanguage();
  const opens = flowOpens(finding);
  if (opens === undefined) return null;
  const { equation, inputs, range, formulas } = opens;
  const from = 'this answer';
  return (
    <Opened
      title="Open the number"
      rows={inputs.map(({ name, value }) => ({ name, value: said.text(value), from }))}
      holds={range}
    >
      <p>{equation}</p>
      {formulas === undefined ? null : <FormulasShown ids={formulas} />}
    </Opened>
  );
}

function Numbers({ finding }: { readonly finding: FlowFinding }): ReactNode {
  const { value, limit, unit, source } = finding;
  const said = useFlowLanguage();
  const words = (number: number): string => said.number(number, unit, number === limit ? undefined : limit);
  return (
    <p className="small soft">
      {value === undefined ? '' : `Found ${words(value)}`}
      {limit === undefined ? '' : `, limit ${words(limit)}`}
      {value === undefined && limit === undefined ? '' : '. '}
      {`From: ${describeSource(source)}`}
    </p>
  );
}

/** All that is open in a case, the grave ones to be read at once, notes behind their count. */
export function OtherFindings({
  title,
  findings,
}: {
  readonly title: string;
  readonly findings: readonly FlowFinding[];
}): ReactNode {
  const grave = findings.filter(({ level }) => level !== 'note');
  const notes = findings.filter(({ level }) => level === 'note');
  return (
    <section aria-label={title} className="flow-findings">
      <h2>{title}</h2>
      {grave.length === 0 ? <p>Nothing more to stop or fix.</p> : null}
      {grave.map((finding) => (
        <FindingRow key={`${finding.code} ${finding.text}`} finding={finding} />
      ))}
      {notes.length === 0 ? null : (
        <details className="opened">
          <summary>{`Notes: ${notes.length}`}</summary>
          {notes.map((finding) => (
            <FindingRow key={`${finding.code} ${finding.text}`} finding={finding} />
          ))}
        </details>
      )}
    </section>
  );
}
