import { type ReactNode, useMemo } from 'react';
import { useElementSize } from '@mantine/hooks';
import { allowanceWords, clockFace, makeUpStrip } from '#book';
import type { Line } from '#car';
import type { Way, WayEnd } from '#lines';
import { catalogue } from '#standards';
import { useCar } from '../bench/bench.ts';
import { Picture } from '../book/picture.tsx';
import { useLengths } from '../tape/lengths.ts';
import { type TightGap, gapsTightestFirst } from './tightest.ts';
import { endWords, gapWords, portWords } from './words.ts';

/** The text of the pictures [px]. */
const SIZE_PX = 14;

/** From port to port: what to cut, the parts drawn in their order, and how both ends are turned. */
export function MakeUp({ line, way }: { readonly line: Line; readonly way: Way }): ReactNode {
  const car = useCar()!;
  const { ref, width } = useElementSize();
  const isInch = useLengths().unit === 'in';
  const shelf = useMemo(() => catalogue(car.catalogue), [car.catalogue]);
  const strip = useMemo(
    () => (width < 100 ? null : makeUpStrip(way, shelf, { width, size: SIZE_PX, unit: 'px', inches: isInch })),
    [way, shelf, width, isInch],
  );
  return (
    <section className="make-up" aria-label="Make-up" ref={ref}>
      <KeyNumbers way={way} />
      {strip === null ? null : <Picture drawing={strip} />}
      <div className="clocks">
        <Clock port={line.from} letter="A" end={way.ends[0]} width={width} />
        <Clock port={line.to} letter="B" end={way.ends[1]} width={width} />
      </div>
      <Clamps way={way} />
    </section>
  );
}

/** The three numbers that are read from two steps away. */
function KeyNumbers({ way }: { readonly way: Way }): ReactNode {
  const tightest = gapsTightestFirst(way)[0];
  const { unit, one, fine } = useLengths();
  return (
    <ul className="key-numbers">
      {way.pieces.map((piece, i) => (
        <li key={`${piece.hose ?? 'tube'} ${i}`}>
          <span className="small soft">{`cut ${piece.hose ?? `tube ${fine(piece.odMm)}`}`}</span>
          <strong>{one(piece.cutLengthMm)}</strong>
          <span className="small">{`${allowanceWords(piece.allowanceMm, unit === 'in')}, trial-fit first`}</span>
          <span className="small">{`bends to ${fine(Math.round(piece.tightestBendMm))}, may ${fine(piece.minBendRadiusMm)}`}</span>
          {piece.endToEndDeg === null ? null : <span className="small">{`end to end ${piece.endToEndDeg}° ±3`}</span>}
        </li>
      ))}
      {tightest === undefined ? null : <Least gap={tightest} />}
    </ul>
  );
}

function Least({ gap }: { readonly gap: TightGap }): ReactNode {
  const [number = '', range = '', wants = ''] = gapWords(gap, useLengths()).split(/ \(|\), /u);
  return (
    <li>
      <span className="small soft">least room</span>
      <strong>{number}</strong>
      <span className="small">{`${range}, to ${gap.part}`}</span>
      <span className="small">{wants}</span>
    </li>
  );
}

interface ClockWish {
  readonly port: string;
  readonly letter: string;
  readonly end: WayEnd;
  readonly width: number;
}

function Clock({ port, letter, end, width }: ClockWish): ReactNode {
  const car = useCar()!;
  const wide = width > 440 ? (width - 20) / 2 : width;
  const drawing = useMemo(
    () =>
      wide < 100
        ? null
        : clockFace(end, { width: wide, size: SIZE_PX, unit: 'px', name: `${letter}, ${portWords(car, port)}` }),
    [end, wide, letter, car, port],
  );
  return (
    <div className="clock">
      {drawing === null ? null : <Picture drawing={drawing} />}
      {end.angleDeg === 0 && end.adapterClockDeg === undefined ? null : (
        <p className="small soft">{`${endWords(end)}; ${end.clockHow}`}</p>
      )}
    </div>
  );
}

function Clamps({ way }: { readonly way: Way }): ReactNode {
  const { one } = useLengths();
  if (way.clamps.length === 0) return null;
  const words = way.clamps.map(
    (clamp) => `${one(clamp.alongMm)} on ${clamp.on}${clamp.bracket ? ' (bracket to make)' : ''}`,
  );
  return <p>{`Clamps, from A: ${words.join('; ')}`}</p>;
}
