import type { ReactNode } from 'react';
import type { Line } from '#car';
import type { Way, WayEnd } from '#lines';
import { useCar } from '../bench/bench.ts';
import { formatMm } from '#units';
import { clockNumber, cutWords, endWords, portWords } from './words.ts';

/** From port to port: the parts of both ends, what to cut between them, and how the ends are turned. */
export function MakeUp({ line, way }: { readonly line: Line; readonly way: Way }): ReactNode {
  return (
    <section className="make-up" aria-label="Make-up">
      <End port={line.from} letter="A" end={way.ends[0]} />
      <ol className="pieces" aria-label="To cut">
        {way.pieces.map((piece, i) => (
          <li key={`${piece.hose ?? 'tube'}-${i}`}>
            <span className="soft small">{piece.tube === undefined ? 'hose' : 'tube'}</span>
            <strong className="cut">{cutWords(piece)}</strong>
            <span>{piece.hose ?? `${formatMm(piece.odMm, 1)} × ${piece.tube?.wallMm ?? '?'}`}</span>
            <span className="small">{`bends to ${formatMm(piece.tightestBendMm)}, may ${formatMm(piece.minBendRadiusMm)}`}</span>
            {piece.endToEndDeg === null ? null : <span className="small">{`end to end ${piece.endToEndDeg}° ±3`}</span>}
          </li>
        ))}
        {way.clamps.length === 0 ? null : (
          <li>
            <span className="soft small">clamps, from A</span>
            <span>
              {way.clamps
                .map((clamp) => `${formatMm(clamp.alongMm)} on ${clamp.on}${clamp.bracket ? ' (bracket)' : ''}`)
                .join('; ')}
            </span>
          </li>
        )}
      </ol>
      <End port={line.to} letter="B" end={way.ends[1]} />
    </section>
  );
}

function End({
  port,
  letter,
  end,
}: {
  readonly port: string;
  readonly letter: string;
  readonly end: WayEnd;
}): ReactNode {
  const car = useCar()!;
  return (
    <div className="end">
      <p>
        <strong>{letter}</strong> {portWords(car, port)}
      </p>
      <p className="end-words">{endWords(end)}</p>
      {end.clockDeg === null ? null : <p className="small soft">{`${clockNumber(end)}, looking into the port`}</p>}
      <ul className="small end-parts">
        {end.parts.map((part) => (
          <li key={part.id}>{part.qty === 1 ? part.name : `${part.qty} × ${part.name}`}</li>
        ))}
      </ul>
    </div>
  );
}
