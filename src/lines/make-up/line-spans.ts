import type { Line, Piece, Through } from '#car';
import type { Finding } from '#sources';

/** What a piece of hose or tube ends on. */
export type LineJoint =
  | { readonly kind: 'port'; readonly ref: string }
  | ({ readonly kind: 'bulkhead-fitting' | 'tee' } & Place)
  /** A hose pushed over the beaded end of a tube, with a clamp. */
  | { readonly kind: 'hose-tube'; readonly tubeOdMm: number };

interface Place {
  readonly part: string;
  readonly atMm?: Point;
  readonly faces?: Point;
}
type Point = readonly [number, number, number];

/** A grommet that a piece runs through without being cut. */
export interface Passed extends Place {
  readonly kind: 'grommet';
}

/** One hose or tube of a line, from joint to joint. A piece without hose and tube is a hose that the tool chooses. */
export interface LineSpan {
  readonly piece: Pick<Piece, 'hose' | 'tube'>;
  readonly from: LineJoint;
  readonly to: LineJoint;
  readonly passes: readonly Passed[];
}

export interface LineSpans {
  readonly spans: readonly LineSpan[];
  readonly findings: readonly Finding[];
}

type BarePiece = LineSpan['piece'];

/**
 * The pieces of a line in order, each from joint to joint. A bulkhead fitting or a tee ends one piece and begins the next; a
 * grommet does not. Where a hose and a tube follow each other with no fitting named between, the hose goes over the tube's bead.
 * One piece with fittings on its way is cut into as many of its kind.
 */
export function lineSpans(line: Line): LineSpans {
  const splitters = line.through.filter((t) => t.kind !== 'grommet');
  const { pieces, findings } = piecesOf(line, splitters.length);
  const { between, findings: more } = jointsBetween(line, pieces, splitters);
  const joints: LineJoint[] = [{ kind: 'port', ref: line.from }, ...between, { kind: 'port', ref: line.to }];
  const passes = grommetsOf(line, pieces, between);
  const spans = pieces.map((piece, n): LineSpan => {
    const from = joints[n] ?? { kind: 'port', ref: line.from };
    const to = joints[n + 1] ?? { kind: 'port', ref: line.to };
    return { piece, from, to, passes: passes[n] ?? [] };
  });
  return { spans, findings: [...findings, ...more] };
}

/** The pieces as written, or one piece repeated between the fittings that cut it. */
function piecesOf(line: Line, splitters: number): { pieces: readonly BarePiece[]; findings: readonly Finding[] } {
  const written: readonly BarePiece[] =
    line.pieces.length > 0 ? line.pieces.map(bare) : [line.hose === undefined ? {} : { hose: line.hose }];
  const first = written[0] ?? {};
  const alike = written.every((piece) => kindOf(piece) === 'hose' && piece.hose === first.hose);
  if (splitters < written.length) return { pieces: written, findings: [] };
  if (written.length === 1 || alike)
    return { pieces: Array.from({ length: splitters + 1 }, () => first), findings: [] };
  const text = `${line.id}: ${splitters} fittings on the way and ${written.length} pieces: name a piece for each of the ${splitters + 1} stretches`;
  const last = written.at(-1) ?? first;
  const pieces = [...written, ...Array.from({ length: splitters + 1 - written.length }, () => last)];
  return { pieces, findings: [stop('line-pieces', text)] };
}

const bare = (piece: Piece): BarePiece => {
  if (piece.tube !== undefined) return { tube: piece.tube };
  return piece.hose === undefined ? {} : { hose: piece.hose };
};

const kindOf = (piece: BarePiece): 'hose' | 'tube' => (piece.tube === undefined ? 'hose' : 'tube');

/**
 * Which fitting stands in which gap between pieces: one between every two alike pieces, the others where hose meets tube, in the
 * order written. Where that leaves a choice, the one that lets most grommets sit on a tube; then the earliest gaps.
 */
function jointsBetween(line: Line, pieces: readonly BarePiece[], splitters: readonly Through[]) {
  const gaps = pieces
    .slice(1)
    .map((next, n) => ({ before: pieces[n] ?? next, next, alike: kindOf(pieces[n] ?? next) === kindOf(next) }));
  const choices = gapChoices(
    gaps.map((g) => g.alike),
    splitters.length,
  );
  const onTube = (choice: readonly number[]): number => tubesUnderGrommets(line, pieces, choice);
  const best = Math.max(...choices.map(onTube));
  const chosen = choices.filter((choice) => onTube(choice) === best);
  const taken = chosen[0] ?? gaps.map((_, n) => n).slice(0, splitters.length);
  const findings: Finding[] = chosen.length > 1 ? [unclear(line, splitters.length, pieces.length)] : [];
  const between = gaps.map(({ before, next, alike }, n): LineJoint => {
    const fitting = taken.includes(n) ? splitters[taken.indexOf(n)] : undefined;
    if (fitting !== undefined)
      return { kind: fitting.kind === 'tee' ? 'tee' : 'bulkhead-fitting', ...placeOf(fitting) };
    if (alike)
      findings.push(
        stop(
          'line-joint',
          `${line.id}: two ${kindOf(next)}s follow each other with nothing between; name the bulkhead fitting or tee that joins them`,
        ),
      );
    return { kind: 'hose-tube', tubeOdMm: (before.tube ?? next.tube)?.odMm ?? 0 };
  });
  return { between, findings };
}

/** Every choice of `count` gaps in order that takes all gaps between alike pieces; none where there are too few fittings. */
function gapChoices(alike: readonly boolean[], count: number, from = 0): readonly (readonly number[])[] {
  if (count === 0) return alike.slice(from).includes(true) ? [] : [[]];
  if (from >= alike.length) return [];
  const taking = gapChoices(alike, count - 1, from + 1).map((rest) => [from, ...rest]);
  return alike[from] === true ? taking : [...taking, ...gapChoices(alike, count, from + 1)];
}

/** How many grommets of the line would sit on a tube with the fittings in these gaps. */
function tubesUnderGrommets(line: Line, pieces: readonly BarePiece[], choice: readonly number[]): number {
  let section = 0;
  let count = 0;
  for (const through of line.through) {
    if (through.kind !== 'grommet') section++;
    else if (pieces.some((piece, n) => kindOf(piece) === 'tube' && choice.filter((gap) => gap < n).length === section))
      count++;
  }
  return count;
}

/** A grommet stands between two fittings in the order written; of the pieces there, a tube takes it, else the first. */
function grommetsOf(
  line: Line,
  pieces: readonly BarePiece[],
  between: readonly LineJoint[],
): readonly (readonly Passed[])[] {
  const passes: Passed[][] = pieces.map(() => []);
  let section = 0;
  for (const through of line.through) {
    if (through.kind !== 'grommet') {
      section++;
      continue;
    }
    const inSection = pieces.map((_, n) => n).filter((n) => fittingsBefore(between, n) === section);
    const taken = inSection.find((n) => kindOf(pieces[n] ?? {}) === 'tube') ?? inSection[0] ?? 0;
    passes[taken]?.push({ kind: 'grommet', ...placeOf(through) });
  }
  return passes;
}

const fittingsBefore = (between: readonly LineJoint[], n: number): number =>
  between.slice(0, n).filter((j) => j.kind !== 'hose-tube').length;

const placeOf = (through: Through): Place => ({
  part: through.part,
  ...(through.atMm === undefined ? {} : { atMm: through.atMm }),
  ...(through.faces === undefined ? {} : { faces: through.faces }),
});

const stop = (code: string, text: string): Finding => ({ code, level: 'stop', text, source: 'builder' });

const unclear = (line: Line, fittings: number, pieces: number): Finding => ({
  code: 'line-joint-order',
  level: 'note',
  text: `${line.id}: ${fittings} fittings on the way of ${pieces} pieces: taken to stand at the first changes from hose to tube; name a piece for each stretch if not`,
  source: 'builder',
});
