import { type Car, type Line, type TakenWay, findPort } from '#car';
import type { Way, WayPart } from '#lines';
import type { Catalogue, End } from '#standards';
import { lengthAlong, odAt } from './along-way.ts';
import { partsOfMakeUp } from './parts-of-make-up.ts';
import { type PartKind, locknutId } from './part-index.ts';

/** One part at one place of a line. */
export interface PartUse {
  readonly id: string;
  readonly kind: PartKind;
  readonly qty: number;
  readonly line: string;
  /** "O1 at tank.out" */
  readonly where: string;
}

/** A length to cut for a line. */
export interface PieceUse {
  readonly line: string;
  /** Catalogue id of hose or tube. */
  readonly id: string;
  readonly kind: 'hose' | 'tube';
  readonly name: string;
  /** Which length of the line it is, from 1. */
  readonly piece: number;
  readonly lengthMm: number;
  readonly allowanceMm: readonly [number, number];
}

/** Every single part of a line, from port to port, hose and tube apart. */
export function partUses(car: Car, line: Line, way: Way | TakenWay, shelf: Catalogue): readonly PartUse[] {
  return [...endUses(car, line, way, shelf), ...fittingUses(line, way, shelf), ...clipUses(line, way, shelf)];
}

interface LooseEnd {
  readonly port: string;
  readonly parts?: unknown;
  readonly makeUp?: readonly unknown[] | undefined;
}

/** The ends of all pieces: at the ports, then at the joints inside the line. */
export function endsOf(way: Way | TakenWay): readonly LooseEnd[] {
  const { joints } = way as { readonly joints?: unknown };
  return [...way.ends, ...(Array.isArray(joints) ? (joints as readonly LooseEnd[]) : [])];
}

function endUses(car: Car, line: Line, way: Way | TakenWay, shelf: Catalogue): PartUse[] {
  const hoses = way.pieces.flatMap((piece) => (piece.hose === undefined ? [] : [piece.hose]));
  return endsOf(way).flatMap((end, i) => {
    const where = `${line.id} at ${end.port}`;
    const hose = i === 0 ? hoses[0] : i === 1 ? hoses.at(-1) : undefined;
    return endParts(end, findPort(car, end.port)?.port.end, hose, shelf).map(
      (part): PartUse => ({ id: part.id, kind: part.kind as PartKind, qty: part.qty, line: line.id, where }),
    );
  });
}

/** The parts as the way lists them; where it only names its make-up, seals and clamps are worked out from the joints. */
function endParts(
  end: LooseEnd,
  port: End | undefined,
  hose: string | undefined,
  shelf: Catalogue,
): readonly WayPart[] {
  if (Array.isArray(end.parts) && (end.parts.length > 0 || (end.makeUp ?? []).length === 0))
    return end.parts as readonly WayPart[];
  return partsOfMakeUp(makeUpIds(end.makeUp ?? []), port, hose, shelf);
}

/** A make-up lists ids, or rows that have one. */
export const makeUpIds = (makeUp: readonly unknown[]): string[] =>
  makeUp.flatMap((entry) => {
    if (typeof entry === 'string') return [entry];
    const id = (entry as { readonly id?: unknown } | null)?.id;
    return typeof id === 'string' ? [id] : [];
  });

/** Bulkhead fittings and their locknuts, and a grommet for each panel that the line passes in one. */
function fittingUses(line: Line, way: Way | TakenWay, shelf: Catalogue): PartUse[] {
  const uses: PartUse[] = [];
  for (const [i, body] of (way.bodies as Way['bodies']).entries()) {
    if (body.row === undefined || (body.part !== 'bulkhead-fitting' && body.part !== 'tee')) continue;
    const where = `${line.id} joint ${i}`;
    const row = shelf.bulkheadFittings.find((r) => r.id === body.row);
    const through = line.through.find((t) => t.kind === body.part);
    const at = through === undefined ? where : `${line.id} through ${through.part}`;
    uses.push({
      id: body.row,
      kind: row === undefined ? 'adapter' : 'bulkhead-fitting',
      qty: 1,
      line: line.id,
      where: at,
    });
    if (row?.a.dash !== undefined && body.part === 'bulkhead-fitting')
      uses.push({ id: locknutId(row.a.dash), kind: 'locknut', qty: 1, line: line.id, where: at });
  }
  for (const { part } of line.through.filter((t) => t.kind === 'grommet')) {
    const clamp = way.clamps?.find((c) => c.on === part);
    const odMm = clamp?.alongMm === undefined ? widest(way) : odAt(way, clamp.alongMm);
    const grommet = shelf.grommets.find((g) => g.lineOdMinMm < odMm && odMm <= g.lineOdMaxMm);
    uses.push({
      id: grommet?.id ?? `grommet for ${odMm} mm`,
      kind: 'grommet',
      qty: 1,
      line: line.id,
      where: `${line.id} through ${part}`,
    });
  }
  return uses;
}

const widest = (way: Way | TakenWay): number => Math.max(0, ...way.pieces.map((piece) => piece.odMm ?? 0));

/** A P-clip for each clamp, on a bracket or not; what a grommet holds needs none. */
function clipUses(line: Line, way: Way | TakenWay, shelf: Catalogue): PartUse[] {
  const heldByGrommet = new Map<string, number>();
  for (const t of line.through)
    if (t.kind === 'grommet') heldByGrommet.set(t.part, (heldByGrommet.get(t.part) ?? 0) + 1);
  const uses: PartUse[] = [];
  for (const clamp of way.clamps ?? []) {
    const left = heldByGrommet.get(clamp.on ?? '') ?? 0;
    if (left > 0 && clamp.bracket !== true) {
      heldByGrommet.set(clamp.on ?? '', left - 1);
      continue;
    }
    const alongMm = clamp.alongMm ?? lengthAlong(way) / 2;
    const odMm = odAt(way, alongMm);
    const clip = shelf.clamps.find((c) => c.kind === 'p-clip' && c.minOdMm < odMm && odMm <= c.maxOdMm);
    const on = clamp.bracket === true ? 'on a bracket' : `on ${clamp.on ?? 'the chassis'}`;
    uses.push({
      id: clip?.id ?? `p-clip for ${odMm} mm`,
      kind: 'p-clip',
      qty: 1,
      line: line.id,
      where: `${line.id} at ${Math.round(alongMm)} mm ${on}`,
    });
  }
  return uses;
}

/** The lengths to cut for a line, in order from its start. */
export function pieceUses(line: Line, way: Way | TakenWay, shelf: Catalogue): readonly PieceUse[] {
  return way.pieces.flatMap((piece, i): PieceUse[] => {
    const lengthMm = piece.cutLengthMm;
    if (lengthMm === undefined) return [];
    const base = {
      line: line.id,
      piece: i + 1,
      lengthMm,
      allowanceMm: [piece.allowanceMm?.[0] ?? 0, piece.allowanceMm?.[1] ?? 0] as const,
    };
    if (piece.hose !== undefined)
      return [{ ...base, id: piece.hose, kind: 'hose', name: shelf.findHose(piece.hose)?.name ?? piece.hose }];
    const tube = piece.tube as { readonly odMm: number; readonly wallMm: number } | undefined;
    return tube === undefined ? [] : [{ ...base, ...tubeRow(line, tube, shelf), kind: 'tube' }];
  });
}

const SAME_MM = 0.06;

/** The catalogue's tube of this outside, wall and material; else one named by its size. */
function tubeRow(
  line: Line,
  tube: { readonly odMm: number; readonly wallMm: number },
  shelf: Catalogue,
): { id: string; name: string } {
  const same = (t: { readonly odMm: number; readonly wallMm: number }): boolean =>
    Math.abs(t.odMm - tube.odMm) < SAME_MM && Math.abs(t.wallMm - tube.wallMm) < SAME_MM;
  const material = line.pieces.find((p) => p.tube !== undefined && same(p.tube))?.tube?.material;
  const row = shelf.tubes.find((t) => same(t) && (material === undefined || t.material === material));
  if (row !== undefined) return { id: row.id, name: row.name };
  const words = [`${tube.odMm} x ${tube.wallMm} mm`, material, 'tube'].filter((w) => w !== undefined).join(' ');
  return {
    id: ['tube', `${tube.odMm}x${tube.wallMm}`, material].filter((w) => w !== undefined).join('-'),
    name: words,
  };
}
