import type { ReactNode } from 'react';
import type { HeatFinding } from '#heat';
import { describeSource } from '#sources';
import { formatNumber } from '#units';
import { Opened } from '../flow/opened.tsx';
import { LevelMark } from '../snags/level-mark.tsx';
import { useSnagLanguage } from '../snags/snag-words.tsx';

const RANK = { stop: 0, fix: 1, note: 2 } as const;

/** What is open, grave first; notes behind their count. */
export function HeatFindings({
  title,
  findings,
}: {
  readonly title: string;
  readonly findings: readonly HeatFinding[];
}): ReactNode {
  const sorted = findings.toSorted((a, b) => RANK[a.level] - RANK[b.level]);
  const grave = sorted.filter(({ level }) => level !== 'note');
  const notes = sorted.filter(({ level }) => level === 'note');
  if (findings.length === 0) return null;
  return (
    <section aria-label={title} className="flow-findings">
      <h2>{title}</h2>
      {grave.length === 0 ? <p>Nothing to stop or fix.</p> : null}
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

function FindingRow({ finding }: { readonly finding: HeatFinding }): ReactNode {
  const { level, text, line, cures, value, limit, unit = '', source, inputs = [] } = finding;
  const said = useSnagLanguage({ question: 'cook' });
  const number = (told: number): string =>
    said.text(`${formatNumber(told, Math.abs(told) < 10 && told !== 0 ? 1 : 0)} ${unit}`.replace('-', '−').trim());
  return (
    <div className="flow-finding">
      <LevelMark level={level} />
      <p>
        {line === undefined ? null : <strong>{`${line} · `}</strong>}
        {said.text(text)}
      </p>
      <p className="small soft">
        {value === undefined ? '' : `Found ${number(value)}`}
        {limit === undefined ? '' : `${value === undefined ? 'Limit' : ', limit'} ${number(limit)}`}
        {value === undefined && limit === undefined ? '' : '. '}
        {`From: ${describeSource(source)}`}
      </p>
      {cures.length === 0 ? null : (
        <ul className="cures" aria-label="What would cure it">
          {cures.map((cure) => (
            <li key={cure}>{said.text(cure)}</li>
          ))}
        </ul>
      )}
      {inputs.length === 0 ? null : (
        <Opened
          title="Open the number"
          rows={inputs.map((row) => ({ ...row, value: said.text(row.value), from: 'this answer' }))}
          holds="this case of this car"
        >
          {null}
        </Opened>
      )}
    </div>
  );
}
