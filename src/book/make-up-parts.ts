import type { Vec } from '#geometry';
import type { Way, WayBody, WayEnd, WayPiece } from '#lines';
import type { Catalogue } from '#standards';
import { type FlatStep, lengthOf, unrolled } from './unrolled.ts';

/** One stretch of a fitting of one thickness, laid flat, in the order of the line. */
export interface FlatBody {
  readonly steps: readonly FlatStep[];
  readonly odMm: number;
}

/** A thing of the make-up that is drawn by itself, in the order of the line from its first port to its second. */
export type StripItem =
  | { readonly kind: 'port'; readonly port: string; readonly words: string }
  | {
      readonly kind: 'fitting';
      readonly row: string;
      readonly part: string;
      /** In the order of the line. */
      readonly bodies: readonly FlatBody[];
      readonly words: string;
    }
  | {
      readonly kind: 'run';
      readonly piece: WayPiece;
      readonly lengthMm: number;
      readonly odMm: number;
      /** From the first port to where it begins, along the line [mm]. */
      readonly fromMm: number;
      /** A hose with screwed ends must not be twisted; one that is pushed on has nothing to twist it. */
      readonly hasLayLine: boolean;
      readonly words: string;
    }
  /** A hose over the end of a tube, clamped; it belongs to the hose beside it. */
  | { readonly kind: 'over'; readonly lengthMm: number; readonly odMm: number };

/** Everything of a way from port to port, in order. */
export function stripItems(way: Way, catalogue: Catalogue): StripItem[] {
  const items: StripItem[] = [portItem(way.ends[0])];
  const sealed = sealsOf(way);
  let fromMm = 0;
  let last: Vec | null = null;
  let pieceIndex = 0;
  let lastPart = '';
  for (const group of grouped(way.bodies)) {
    const first = group[0]!;
    const bodies = group.map((body): FlatBody => {
      const flat = unrolled(body.pathMm, last);
      last = flat.last;
      return { steps: flat.steps, odMm: body.odMm };
    });
    const lengthMm = bodies.reduce((sum, body) => sum + lengthOf(body.steps), 0);
    if (first.part === 'hose' || first.part === 'tube') {
      const piece = way.pieces[pieceIndex++];
      if (piece !== undefined)
        items.push({
          kind: 'run',
          piece,
          lengthMm,
          odMm: first.odMm,
          fromMm,
          hasLayLine: piece.hose !== undefined && lastPart === 'hose-end',
          words: runWords(piece, catalogue),
        });
    } else if (first.part === 'hose-over-tube') items.push({ kind: 'over', lengthMm, odMm: first.odMm });
    else {
      const row = first.row ?? first.part;
      const name = fittingName(row, way, catalogue);
      const atEnd = pieceIndex === 0 ? 0 : pieceIndex >= way.pieces.length ? 1 : null;
      const extras = atEnd === null ? [] : (sealed[atEnd].get(row) ?? []);
      const words = [name, ...extras].join('; ');
      items.push({ kind: 'fitting', row, part: first.part, bodies, words });
    }
    // What a run's own curve does at its end is no turn of the fitting.
    if (!isRigid(first)) last = null;
    fromMm += lengthMm;
    lastPart = first.part;
  }
  items.push(portItem(way.ends[1]));
  return items;
}

const portItem = (end: WayEnd): StripItem => ({ kind: 'port', port: end.port, words: portWords(end) });

/** "-16 O-ring boss port (1 5/16-12)": an end's words begin with its port. */
function portWords(end: WayEnd): string {
  const [port, ...rest] = end.words.split(' → ');
  return rest.length === 0 || port === undefined ? end.port : `${end.port}: ${port}`;
}

/** Stretches that belong to one thing: the same row, one after the other. */
function grouped(bodies: readonly WayBody[]): WayBody[][] {
  const groups: WayBody[][] = [];
  for (const body of bodies) {
    if (body.pathMm.length < 2) continue;
    const group = groups.at(-1);
    const before = group?.[0];
    const isSame =
      before !== undefined && body.row !== undefined && before.row === body.row && before.part === body.part;
    if (isSame && isRigid(body)) group!.push(body);
    else groups.push([body]);
  }
  return groups;
}

const isRigid = (body: WayBody): boolean => !['hose', 'tube', 'hose-over-tube'].includes(body.part);

function runWords(piece: WayPiece, catalogue: Catalogue): string {
  if (piece.hose !== undefined) return catalogue.findHose(piece.hose)?.name ?? piece.hose;
  const { tube } = piece;
  return tube === undefined ? 'tube' : `tube ${tube.odMm} × ${tube.wallMm} mm, bent on ${tube.bendRadiusMm} mm`;
}

function fittingName(row: string, way: Way, catalogue: Catalogue): string {
  const ends = [...way.ends, ...way.joints];
  const part = ends.flatMap((end) => end.parts).find((p) => p.id === row);
  if (part !== undefined) return part.name;
  return (
    catalogue.bulkheadFittings.find((r) => r.id === row)?.name ??
    catalogue.adapters.find((r) => r.id === row)?.name ??
    row
  );
}

/** What seals or clamps each part, by the id of the part: seals stand before theirs, clamps behind. */
function sealsOf(way: Way): readonly [ReadonlyMap<string, string[]>, ReadonlyMap<string, string[]>] {
  const of = (end: WayEnd): Map<string, string[]> => {
    const found = new Map<string, string[]>();
    let waiting: string[] = [];
    let last = '';
    for (const part of end.parts) {
      const words = part.qty === 1 ? part.name : `${part.qty} × ${part.name}`;
      if (part.kind === 'seal') waiting.push(words);
      else if (part.kind === 'clamp') found.set(last, [...(found.get(last) ?? []), words]);
      else {
        found.set(part.id, waiting);
        waiting = [];
        last = part.id;
      }
    }
    return found;
  };
  return [of(way.ends[0]), of(way.ends[1])];
}
