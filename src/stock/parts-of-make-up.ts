import type { WayPart } from '#lines';
import { type AdapterRow, type Catalogue, type End, type HoseEndRow, mates } from '#standards';

interface Step {
  readonly entry: End;
  readonly exit: End | null;
  readonly part: WayPart | null;
  readonly seals: readonly { readonly id: string; readonly qty: number }[];
}

/** Every part of an end from the ids of its make-up: what seals and clamps its joints need besides. */
export function partsOfMakeUp(
  ids: readonly string[],
  port: End | undefined,
  hoseId: string | undefined,
  shelf: Catalogue,
): readonly WayPart[] {
  const hose = hoseId === undefined ? undefined : shelf.findHose(hoseId);
  const hoseEnds = hose === undefined ? [] : shelf.hoseEndsFor(hose);
  const parts: WayPart[] = [];
  let open = port;
  for (const id of ids) {
    const step = stepOf(id, open, shelf, hoseEnds);
    if (step === null) {
      parts.push({ id, name: id, kind: 'adapter', qty: 1 });
      open = undefined;
      continue;
    }
    parts.push(...sealsAt(open, step, shelf, hose?.odMm));
    if (step.part !== null) parts.push(step.part);
    open = step.exit ?? undefined;
  }
  const last = ids.at(-1);
  const endsInHoseEnd = last !== undefined && hoseEnds.some((end) => end.id === last);
  if (!endsInHoseEnd && open !== undefined && hose !== undefined) {
    const over: Step = { entry: { type: 'hose-bore', odMm: hose.boreMm }, exit: null, part: null, seals: [] };
    parts.push(...sealsAt(open, over, shelf, hose.odMm));
  }
  return parts;
}

function stepOf(id: string, open: End | undefined, shelf: Catalogue, hoseEnds: readonly HoseEndRow[]): Step | null {
  const end = hoseEnds.find((row) => row.id === id);
  if (end !== undefined) {
    const bought = end.to.type !== 'hose-bore' && end.to.type !== 'plain-tube';
    return {
      entry: end.to,
      exit: null,
      part: bought ? { id, name: end.name, kind: 'hose-end', qty: 1 } : null,
      seals: [],
    };
  }
  const row = shelf.adapters.find((r) => r.id === id) ?? shelf.bulkheadFittings.find((r) => r.id === id);
  if (row === undefined) return null;
  const turned = open !== undefined && !mates(open, row.a).ok && mates(open, row.b).ok;
  return { ...sides(row, turned), part: { id, name: row.name, kind: 'adapter', qty: 1 }, seals: row.seals };
}

const sides = (row: AdapterRow, turned: boolean): { entry: End; exit: End } =>
  turned ? { entry: row.b, exit: row.a } : { entry: row.a, exit: row.b };

function sealsAt(open: End | undefined, step: Step, shelf: Catalogue, hoseOdMm: number | undefined): WayPart[] {
  const mating = open === undefined ? null : mates(open, step.entry);
  const counts = new Map<string, number>();
  for (const { id, qty } of [...(mating?.ok === true ? mating.seal.seals : []), ...step.seals])
    counts.set(id, (counts.get(id) ?? 0) + qty);
  const seals = [...counts].map(
    ([id, qty]): WayPart => ({ id, name: shelf.findSeal(id)?.name ?? id, kind: 'seal', qty }),
  );
  if (mating?.ok !== true || mating.seal.kind !== 'clamp' || hoseOdMm === undefined) return seals;
  const clamps = shelf.clamps.filter((c) => c.kind === 'hose-clamp' && c.minOdMm <= hoseOdMm && hoseOdMm <= c.maxOdMm);
  const clamp = [...clamps].sort(
    (a, b) => a.maxOdMm - a.minOdMm - (b.maxOdMm - b.minOdMm) || (a.id < b.id ? -1 : 1),
  )[0];
  return clamp === undefined ? seals : [...seals, { id: clamp.id, name: clamp.name, kind: 'clamp', qty: 1 }];
}
