import type { ReactNode } from 'react';
import { minutesWords } from '#units';
import type { Edit } from '#car';
import { keep, useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { counted } from '../snags/counted.ts';
import { addressOf, type OffPaperKind } from './off-address.ts';
import { toolName } from './off-plans.ts';

const go = (kind: OffPaperKind, which?: string): void => open({ kind: 'off', id: addressOf(kind, which) });

/** One more or one less at work, kept at once. */
function CrewCount(): ReactNode {
  const { workshop } = useCar()!;
  const crew = workshop?.crew ?? 1;
  const set = (next: number): void => {
    const edit: Edit = { do: 'set-workshop', value: { ...workshop, crew: next } };
    void keep([edit], `${next} at work`);
  };
  return (
    <div className="off-count" role="group" aria-label="At work">
      <Key aria-label="One less at work" disabled={crew <= 1} onClick={() => set(crew - 1)}>
        −
      </Key>
      <output>{crew}</output>
      <Key aria-label="One more at work" disabled={crew >= MOST_CREW} onClick={() => set(crew + 1)}>
        +
      </Key>
      <span>at work</span>
    </div>
  );
}
const MOST_CREW = 20;

/** Who works on the car, with what, how long it takes them, and what time there is. */
export function CrewPaper(): ReactNode {
  const { workshop } = useCar()!;
  const { breaks = [], tools = [], minutes = [] } = workshop ?? {};
  return (
    <article className="paper off-paper">
      <PaperHead below="Who works on the car, what time there is, how long a kind of work takes them, and what their tools measure.">
        Crew, breaks, minutes, tools
      </PaperHead>
      <CrewCount />
      <section className="flow-section" aria-label="Breaks">
        <h2>Breaks</h2>
        <div className="keys listed">
          {breaks.map((row, i) => (
            <Key className="printed" key={row.name} onClick={() => go('break', String(i))}>
              {`${row.name}: ${minutesWords(row.minutes)}, ${counted(row.jobs?.length ?? 0, 'job')}`}
            </Key>
          ))}
          <Key onClick={() => go('break', 'new')}>Put a break in</Key>
        </div>
      </section>
      <section className="flow-section" aria-label="Minutes and room">
        <h2>What it takes them</h2>
        <div className="keys listed">
          <Key
            className="printed"
            onClick={() => go('minutes')}
          >{`Minutes: ${counted(minutes.length, 'kind')} of work clocked`}</Key>
          <Key
            className="printed"
            onClick={() => go('hand')}
          >{`Hand: ${workshop?.hand?.measured === true ? 'measured' : 'the usual one'}`}</Key>
        </div>
      </section>
      <section className="flow-section" aria-label="Tools">
        <h2>Tools that are not the usual ones</h2>
        <div className="keys listed">
          {tools.map((tool, i) => (
            <Key
              className="printed"
              key={`${tool.kind} ${tool.acrossFlatsMm ?? i}`}
              onClick={() => go('tool', String(i))}
            >
              {`${toolName(tool.kind)}${tool.acrossFlatsMm === undefined ? '' : ` ${tool.acrossFlatsMm} mm`}`}
            </Key>
          ))}
          <Key onClick={() => go('tool', 'new')}>Put a tool in</Key>
        </div>
      </section>
      <div className="keys">
        <Key onClick={() => open({ kind: 'off', id: 'all' })}>Back to what comes off</Key>
      </div>
    </article>
  );
}
