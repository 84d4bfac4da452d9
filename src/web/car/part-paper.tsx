import { type ReactNode, useEffect } from 'react';
import { type Car, type Part, partKeepOffMm, partTolerance } from '#car';
import type { Lengths } from '#units';
import { kept, partOf, useCar } from '../bench/bench.ts';
import { useLengths } from '../tape/lengths.ts';
import { open } from '../bench/place.ts';
import { useSignal } from '../bench/signal.ts';
import { portWords } from '../fit/words.ts';
import { Key } from '../frame/key.tsx';
import { PaperHead } from '../frame/paper-head.tsx';
import { NoSuch } from '../tape/no-such.tsx';
import { MovePart } from './move-part.tsx';
import { classWords } from './parts-paper.tsx';
import { drawnScans, following, held } from './view.ts';
import '../fit/fit.css';

/** One part: what it is, how near lines may come, its ports with their lines, and moving it. */
export function PartPaper({ id }: { readonly id: string }): ReactNode {
  const car = useCar();
  const lengths = useLengths();
  const part = car === null ? undefined : partOf(car, id);
  useEffect(
    () => () => {
      held.set(null);
      following.set([]);
    },
    [],
  );
  if (car === null) return null;
  if (part === undefined) return <NoSuch what={`part ${id}`} />;
  return (
    <article className="paper">
      <PaperHead below={`${part.id} · ${classWords(part)}`}>{part.name ?? part.id}</PaperHead>
      <dl className="snag-numbers">
        <dt>Lines keep off</dt>
        <dd>{keepOffWords(car, part, lengths)}</dd>
        <dt>Known to</dt>
        <dd>{`±${lengths.fine(partTolerance(part).knownToMm)}`}</dd>
        {part.movesWith === undefined ? null : (
          <>
            <dt>Moves with</dt>
            <dd>{part.movesWith}</dd>
          </>
        )}
      </dl>
      {part.note === undefined ? null : <p className="small">{part.note}</p>}
      <DrawnScans part={part} />
      <MovePart part={part} />
      <Ports part={part} />
      <div className="keys">
        <Key onClick={() => open({ kind: 'tape', id: `port/${part.id}` })}>Add a port</Key>
        <Key onClick={() => open({ kind: 'tape', id: `part/${part.id}` })}>Change it</Key>
        <Key onClick={() => open({ kind: 'cook', id: `all..source..${part.id}` })}>How hot it is, and its cover</Key>
        <Key onClick={() => open({ kind: 'off', id: `held..${part.id}` })}>What holds it, how it comes off</Key>
        <Key onClick={() => open({ kind: 'parts' })}>All parts</Key>
        <Key onClick={() => open({ kind: 'lines' })}>All lines</Key>
      </div>
    </article>
  );
}

/** A scan is drawn lighter than it is: how much, and that no number comes of it. */
function DrawnScans({ part }: { readonly part: Part }): ReactNode {
  const id = useSignal(kept)?.id ?? '';
  const drawn = useSignal(drawnScans);
  const { fine } = useLengths();
  return part.shapes.map(({ mesh }) => {
    const scan = mesh === undefined ? undefined : drawn.get(`${id} ${mesh.file}`);
    if (mesh === undefined || scan === undefined || scan.triangles === scan.ofTriangles) return null;
    const [shown, all] = [scan.triangles, scan.ofTriangles].map((n) => n.toLocaleString('en'));
    return (
      <p className="small soft" key={mesh.file}>
        {`From here drawn with ${shown} of its ${all} triangles, off by ${fine(scan.errorMm)} at most; come nearer for more. Gaps are measured on all of them.`}
      </p>
    );
  });
}

/** What lines must leave free; said twice where fuel and brakes want more. */
function keepOffWords(car: Car, part: Part, { fine }: Lengths): string {
  const [usual, fuel] = [partKeepOffMm(car, part, 'water'), partKeepOffMm(car, part, 'fuel')];
  return fuel === usual ? fine(usual) : `${fine(usual)}; fuel and brake lines ${fine(fuel)}`;
}

function Ports({ part }: { readonly part: Part }): ReactNode {
  const lengths = useLengths();
  const car = useCar()!;
  if (part.ports.length === 0) return <p className="soft">No ports.</p>;
  return (
    <section aria-label="Ports">
      <h2>Ports</h2>
      <ul className="line-list">
        {part.ports.map((port) => {
          const ref = `${part.id}.${port.id}`;
          const line = car.lines.find((candidate) => candidate.from === ref || candidate.to === ref);
          return (
            <li key={port.id} className="port-row">
              <span className="line-what">
                <strong>{port.name ?? port.id}</strong>
                <span className="small soft">{`${endText(port.end, lengths)} · at ${lengths.spot(port.atMm)}`}</span>
              </span>
              <Key weight="bare" onClick={() => open({ kind: 'tape', id: `port/${ref}` })}>
                Change
              </Key>
              {line === undefined ? (
                <span className="small soft">no line</span>
              ) : (
                <Key
                  title={portWords(car, line.from === ref ? line.to : line.from)}
                  onClick={() => open({ kind: 'line', id: line.id })}
                >
                  {line.id}
                </Key>
              )}
            </li>
          );
        })}
      </ul>
    </section>
  );
}

/** "-16 orb", "M14x1.5 metric-washer". */
function endText(end: Part['ports'][number]['end'], lengths: Lengths): string {
  const size =
    end.dash !== undefined
      ? `-${end.dash}`
      : (end.thread ??
        (end.pipe === undefined ? (end.odMm === undefined ? '' : lengths.fine(end.odMm)) : `${end.pipe} in`));
  return `${size} ${end.type}`.trim();
}
