import type { ClampRow, HoseEndRow, HoseRow } from '#standards';
import { boreGraceMm, boreLossMost } from './bore-limit.ts';
import { clockSetting } from './clock-setting.ts';
import type { EndMakeUp, MakeUpPart } from './end-make-up.ts';
import type { PortEnd } from './port-end.ts';
import { type Cover, adapterStages, hoseEndStages } from './fitting-stages.ts';
import { type Joint, isClamped, jointSeals, jointsOf } from './joint-seals.ts';
import { adapterCostMm, elbowAdapterCostMm, fixingOrder, fromBoxMm, hoseEndCostMm } from './make-up-costs.ts';
import type { Link } from './mating-chains.ts';
import type { Box, PartsShelf } from './parts-shelf.ts';
import { stageLength } from './stage.ts';

interface Bench {
  /** What goes on the end: a hose, or a tube. */
  readonly hose: Pick<HoseRow, 'odMm' | 'boreMm'>;
  readonly shelf: PartsShelf;
  readonly wish: { readonly box?: Box };
}

/** A chain and a hose end put together: parts in order, shape, cost, bore, and how it is clocked. */
export function builtMakeUp(port: PortEnd, links: readonly Link[], hoseEnd: HoseEndRow, bench: Bench): EndMakeUp {
  const joints = jointsOf(port.end, links, hoseEnd);
  const { parts, missing } = partsInOrder(joints, links, hoseEnd, bench);
  const covers = joints.map((joint, n) => coverAt(joint, n, links, hoseEnd, bench.hose));
  const stages = [
    ...links.flatMap((link, n) => adapterStages(link, covers[n], covers[n + 1])),
    ...hoseEndStages(hoseEnd),
  ];
  const setting = clockSetting(links, hoseEnd);
  const rows = [...links.map((l) => l.row), hoseEnd];
  const boreMm = Math.min(
    ...rows.map((row) => row.boreMm),
    ...links.map((l) => l.row.restrictorMm ?? Infinity),
    port.restrictorMm ?? Infinity,
  );
  return {
    key: rows.map((row) => row.id).join(' + '),
    parts,
    stages,
    angleDeg: hoseEnd.angleDeg,
    fixing: fixingOf(hoseEnd),
    cost: costOf(links, hoseEnd, bench),
    insertMm: hoseEnd.insertMm,
    boreMm,
    lengthMm: stages.reduce((sum, s) => sum + stageLength(s), 0),
    clockHow: setting.how,
    clockWords: setting.words,
    before: links.filter((l) => l.row.before === true).map((l) => l.row.id),
    measure: rows.some((row) => row.measure),
    remarks: [...missing, ...boreRemarks(port, links, bench.hose)],
  };
}

/** A hose pushed over a spigot and a tube in its nut have no end of their own to buy. */
const isPart = ({ to }: HoseEndRow): boolean => to.type !== 'hose-bore' && to.type !== 'plain-tube';

function fixingOf({ to, fixing }: HoseEndRow): EndMakeUp['fixing'] {
  if (to.type === 'plain-tube') return 'tube';
  return to.type === 'hose-bore' ? 'clamped' : fixing;
}

/** What is pushed over a spigot at a joint: the make-up's own hose, or a formed elbow. */
function coverAt(
  joint: Joint,
  n: number,
  links: readonly Link[],
  hoseEnd: HoseEndRow,
  hose: Bench['hose'],
): Cover | undefined {
  if (!isClamped(joint)) return undefined;
  const overlapMm = hoseEnd.to.type === 'hose-bore' ? hoseEnd.insertMm : usualOverlapMm;
  return { overlapMm, odMm: outsideAt(joint, n, links, hose) };
}

/** A hose over a spigot where no row says how far: two clamp widths; common practice [mm]. */
const usualOverlapMm = 25;

/** Outside of the hose at a clamped joint: the formed elbow's on either side of it, else the hose's own [mm]. */
function outsideAt({ open }: Joint, n: number, links: readonly Link[], hose: Bench['hose']): number {
  const formed = open.type === 'hose-bore' ? links[n - 1] : links[n];
  return formed?.row.bodyOdMm ?? hose.odMm;
}

function partsInOrder(joints: readonly Joint[], links: readonly Link[], hoseEnd: HoseEndRow, bench: Bench) {
  const { shelf, hose } = bench;
  const parts: MakeUpPart[] = [];
  const missing: string[] = [];
  const seals = jointSeals(joints, links);
  joints.forEach((joint, n) => {
    for (const { id, qty } of seals[n] ?? []) {
      const row = shelf.seals.find((s) => s.id === id);
      if (row === undefined) missing.push(`no seal ${id} in the catalogue`);
      else parts.push({ id, name: row.name, kind: 'seal', qty });
    }
    if (isClamped(joint)) {
      const odMm = outsideAt(joint, n, links, hose);
      const clamp = hoseClamp(odMm, shelf);
      if (clamp === undefined) missing.push(`no hose clamp for ${odMm} mm in the catalogue`);
      else parts.push({ id: clamp.id, name: clamp.name, kind: 'clamp', qty: 1 });
    }
    const beyond = links[n]?.row;
    if (beyond !== undefined) parts.push({ id: beyond.id, name: beyond.name, kind: 'adapter', qty: 1 });
  });
  if (isPart(hoseEnd)) parts.push({ id: hoseEnd.id, name: hoseEnd.name, kind: 'hose-end', qty: 1 });
  return { parts, missing };
}

/** The hose clamp with the narrowest range that closes on this outside diameter. */
function hoseClamp(odMm: number, { clamps }: PartsShelf): ClampRow | undefined {
  const fits = clamps.filter((c) => c.kind === 'hose-clamp' && c.minOdMm <= odMm && odMm <= c.maxOdMm);
  return [...fits].sort((a, b) => a.maxOdMm - a.minOdMm - (b.maxOdMm - b.minOdMm) || (a.id < b.id ? -1 : 1))[0];
}

function costOf(links: readonly Link[], hoseEnd: HoseEndRow, { wish }: Bench): number {
  const adapters = links.reduce(
    (sum, { row }) => sum + adapterCostMm + (row.angleDeg === 0 ? 0 : elbowAdapterCostMm) - saved(row.id, wish.box),
    0,
  );
  const hoseEndCost = hoseEndCostMm[hoseEnd.angleDeg] - saved(hoseEnd.id, wish.box);
  return adapters + hoseEndCost + fixingOrder.indexOf(hoseEnd.fixing) * tieMm;
}

/** Less than any real difference: only orders fixings that cost the same. */
const tieMm = 0.001;

const saved = (id: string, box: Box | undefined): number => (box?.has(id) === true ? fromBoxMm : 0);

function boreRemarks(port: PortEnd, links: readonly Link[], hose: Bench['hose']): string[] {
  const plain = links.map((l) => l.row).filter((row) => row.restrictorMm === undefined);
  const narrowest = plain
    .filter((row) => row.boreMm < (1 - boreLossMost) * hose.boreMm - boreGraceMm)
    .sort((a, b) => a.boreMm - b.boreMm);
  const remarks = narrowest.slice(0, 1).map((row) => {
    const why =
      row.clock === 'banjo'
        ? 'the hollow bolt of a banjo always narrows'
        : 'the catalogue has nothing wider for this port';
    return `${row.name}: bore ${row.boreMm} mm, the line has ${hose.boreMm} mm; ${why}`;
  });
  const fitted = links.some((l) => l.row.restrictorMm !== undefined);
  if (port.restrictorMm === undefined || fitted) return remarks;
  return [
    ...remarks,
    `${port.restrictorMm} mm restrictor: it must stand in the port, no adapter of this make-up has it`,
  ];
}
