import type { ReactNode } from 'react';
import type { Part } from '#car';
import { useCar } from '../bench/bench.ts';
import { open } from '../bench/place.ts';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { counted } from '../snags/counted.ts';

/** All parts in words: what the picture shows, for the keyboard and for whoever hears it read out. */
export function PartsPaper(): ReactNode {
  const car = useCar();
  if (car === null) return null;
  return (
    <article className="paper">
      <PaperHead below="Hot and moving parts first; each opens its own paper.">
        {counted(car.parts.length, 'part')}
      </PaperHead>
      <ul className="line-list">
        {inTurn(car.parts).map((part) => (
          <li key={part.id}>
            <button type="button" className="line-row part-row" onClick={() => open({ kind: 'part', id: part.id })}>
              <span className="line-what">
                <strong>{part.name ?? part.id}</strong>
                <span className="soft small">{`${part.id} · ${counted(part.shapes.length, 'solid')}, ${counted(part.ports.length, 'port')}`}</span>
              </span>
              <span className="line-how small">{classWords(part)}</span>
            </button>
          </li>
        ))}
      </ul>
      <div className="keys">
        <Key weight={car.parts.length === 0 ? 'do' : 'plain'} onClick={() => open({ kind: 'tape', id: 'part' })}>
          Add a part
        </Key>
        <Key onClick={() => open({ kind: 'tape', id: 'scan' })}>Bring in a scan</Key>
        <Key onClick={() => open({ kind: 'tape', id: 'mover' })}>What moves</Key>
        <Key onClick={() => open({ kind: 'tape', id: 'origins' })}>Where you measure from</Key>
        <Key onClick={() => open({ kind: 'lines' })}>All lines</Key>
      </div>
    </article>
  );
}

const turn: Readonly<Record<Part['class'], number>> = { hot: 0, moving: 1, fixed: 2 };
const inTurn = (parts: readonly Part[]): readonly Part[] => [...parts].sort((a, b) => turn[a.class] - turn[b.class]);

/** "hot, 750 degC", "moving", "fixed". */
export function classWords(part: Part): string {
  const hot = part.surfaceC === undefined ? '' : `, ${part.surfaceC} °C`;
  return `${part.class}${hot}${part.shielded === true ? ', shielded' : ''}`;
}
