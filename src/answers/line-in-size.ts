import type { Car, Edit, Line, TakenWay } from '#car';
import type { Catalogue, HoseRow } from '#standards';

/** A line as it would flow in another size: the curve of its way stays, what it is made of is of that size. */
export interface LineInSize {
  readonly line: Line;
  readonly hose: HoseRow;
  /** What was taken for granted, a sentence each. */
  readonly said: readonly string[];
  /** What keeping the size does to the car: the way taken goes, since it is another hose. */
  readonly edits: readonly Edit[];
}

/** Sizes of the hose that a line is made of which there are beside its own, least first. */
export function otherSizes(shelf: Catalogue, line: Line): readonly number[] {
  const now = hoseOf(shelf, line);
  if (now === undefined || line.dash === undefined) return [];
  // A size that no ends are made for is no choice for a hose with ends.
  const hasEnds = shelf.hoseEndsFor(now).length > 0;
  const dashes = shelf.hoses
    .filter((row) => row.family === now.family && (!hasEnds || shelf.hoseEndsFor(row).length > 0))
    .flatMap((row) => row.dash ?? []);
  return [...new Set(dashes)].filter((dash) => dash !== line.dash).toSorted((a, b) => a - b);
}

/** The line in another dash size, or why not in one sentence. */
export function lineInSize(shelf: Catalogue, line: Line, dash: number): LineInSize | { readonly fault: string } {
  const now = hoseOf(shelf, line);
  if (now === undefined) return { fault: `${line.id} has no hose yet: give it one first` };
  const hose = sameMake(shelf, now, dash);
  if (hose === undefined) {
    const sizes = otherSizes(shelf, line).map((size) => `-${size}`);
    return { fault: `there is no -${dash} of ${now.name}; there is ${sizes.join(', ') || 'no other size'}` };
  }
  const said: string[] = [];
  const pieces = line.pieces.map((piece) => (piece.hose === undefined ? piece : { ...piece, hose: hose.id }));
  const taken = line.taken ?? null;
  if (taken === null)
    said.push(`${line.id} has no way yet: in either size 1.3 times straight across, two straight ends`);
  else
    said.push(
      `the way of ${line.id} is kept as it lies; in -${dash} it has to be worked out anew, and may lie otherwise`,
    );
  const next = taken === null ? null : inSize(shelf, taken, { now, hose, from: line.dash, dash }, said);
  if (next !== null && hose.minBendRadiusMm > tightest(taken))
    said.push(
      `its tightest bend now has ${Math.round(tightest(taken))} mm; ${hose.name} wants ${Math.round(hose.minBendRadiusMm)}`,
    );
  const hasOwn = line.pieces.some((piece) => piece.hose !== undefined);
  return {
    line: { ...line, dash, pieces, ...(line.hose === undefined ? {} : { hose: hose.id }), taken: next },
    hose,
    said,
    edits: [
      ...(taken === null ? [] : [{ do: 'take-way', line: line.id } as const]),
      { do: 'set-line', line: line.id, field: 'dash', value: dash },
      ...(hasOwn ? [{ do: 'set-line', line: line.id, field: 'pieces', value: pieces } as const] : []),
      ...(line.hose === undefined ? [] : [{ do: 'set-line', line: line.id, field: 'hose', value: hose.id } as const]),
    ],
  };
}

/** The car with one line otherwise. */
export const carWithLine = (car: Car, line: Line): Car => ({
  ...car,
  lines: car.lines.map((row) => (row.id === line.id ? line : row)),
});

function hoseOf(shelf: Catalogue, line: Line): HoseRow | undefined {
  const id =
    line.taken?.pieces.find((piece) => piece.hose !== undefined)?.hose ??
    line.pieces.find((piece) => piece.hose !== undefined)?.hose ??
    line.hose;
  return id === undefined ? shelf.hoses.find((row) => row.dash === line.dash) : shelf.findHose(id);
}

/** The same hose in another size: by its name, else the widest of its family, as a cure takes it. */
function sameMake(shelf: Catalogue, now: HoseRow, dash: number): HoseRow | undefined {
  const named =
    now.dash === undefined ? undefined : shelf.findHose(now.id.replace(new RegExp(`-${now.dash}$`, 'u'), `-${dash}`));
  if (named?.dash === dash) return named;
  return shelf.hoses
    .filter((row) => row.family === now.family && row.dash === dash)
    .toSorted((a, b) => b.boreMm - a.boreMm)[0];
}

interface Sizes {
  readonly now: HoseRow;
  readonly hose: HoseRow;
  readonly from: number | undefined;
  readonly dash: number;
}

function inSize(shelf: Catalogue, taken: TakenWay, sizes: Sizes, said: string[]): TakenWay {
  const { hose } = sizes;
  const known = new Map<string, string>();
  const named = (id: string): string => {
    const had = known.get(id);
    if (had !== undefined) return had;
    const found = fittingInSize(shelf, id, sizes);
    if (found === undefined && isFitting(shelf, sizes.now, id))
      said.push(`the catalogue has no ${id} for -${sizes.dash}: it is reckoned as it is`);
    known.set(id, found ?? id);
    return found ?? id;
  };
  const end = <T extends object>(row: T): T => {
    const { parts } = row as { readonly parts?: readonly { readonly id: string }[] };
    return parts === undefined ? row : { ...row, parts: parts.map((part) => ({ ...part, id: named(part.id) })) };
  };
  const copy = {
    ...taken,
    ends: taken.ends.map(end),
    ...('joints' in taken && Array.isArray(taken['joints']) ? { joints: taken['joints'].map(end) } : {}),
    pieces: taken.pieces.map((piece) =>
      piece.hose === undefined
        ? piece
        : { ...piece, hose: hose.id, odMm: hose.odMm, minBendRadiusMm: hose.minBendRadiusMm },
    ),
    bodies: (taken.bodies ?? []).map((body) => {
      const { row } = body as { readonly row?: string };
      if (row === undefined) return body;
      return { ...body, row: row === sizes.now.id ? hose.id : named(row) };
    }),
  };
  return copy as unknown as TakenWay;
}

const isFitting = (shelf: Catalogue, hose: HoseRow, id: string): boolean =>
  [...shelf.adapters, ...shelf.bulkheadFittings, ...shelf.hoseEndsFor(hose)].some((row) => row.id === id);

/** The fitting that takes the place of one: a hose end of the same angle, an adapter from the same port. */
function fittingInSize(shelf: Catalogue, id: string, { now, hose, from, dash }: Sizes): string | undefined {
  const end = shelf.hoseEndsFor(now).find((row) => row.id === id);
  if (end !== undefined) {
    const same = shelf
      .hoseEndsFor(hose)
      .filter((row) => row.angleDeg === end.angleDeg && row.to.type === end.to.type && row.to.dash === dash);
    return (same.find((row) => row.fixing === end.fixing) ?? same[0])?.id;
  }
  const adapters = [...shelf.adapters, ...shelf.bulkheadFittings];
  const was = adapters.find((row) => row.id === id);
  if (was === undefined || was.b.dash !== from) return undefined;
  return adapters.find(
    (row) =>
      JSON.stringify(row.a) === JSON.stringify(was.a) &&
      row.b.type === was.b.type &&
      row.b.dash === dash &&
      row.angleDeg === was.angleDeg &&
      row.restrictorMm === was.restrictorMm,
  )?.id;
}

const tightest = (taken: TakenWay | null): number =>
  Math.min(...(taken?.pieces ?? []).flatMap((piece) => (piece.hose === undefined ? [] : (piece.tightestBendMm ?? []))));
