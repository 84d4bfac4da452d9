import type { LossLaw } from '../loss-law.ts';
import type { Network, NetworkBranch, NetworkNode, RefusalKind } from '../network.ts';
import { checkValve, displacementPump, pipe, power, quadratic, reliefValve, spinningPump } from './plain-laws.ts';
import { type Seeded, seeded } from './seeded.ts';

/** A network, and how it must be refused if it must. */
export interface PlantedNetwork {
  readonly network: Network;
  readonly fault?: { readonly kind: RefusalKind; readonly where: string };
}

type Draft = { nodes: NetworkNode[]; branches: NetworkBranch[] };

function randomPipe(by: Seeded): LossLaw {
  const bore = by.scale(0.003, 0.06);
  const length = by.scale(0.02, 8);
  return by.oneOf([
    () => pipe(bore, length, by.scale(5e-4, 5)),
    () => pipe(bore, length, by.scale(5e-3, 5e-2)),
    () => power((8 * 0.03 * 870 * length) / (Math.PI ** 2 * bore ** 5), by.oneOf([1.75, 1.852, 2])),
    () => quadratic(by.scale(1e5, 1e11), by.scale(1e6, 1e13)),
  ])();
}

function randomLaw(by: Seeded): LossLaw {
  const kind = by.between(0, 1);
  if (kind < 0.74) return randomPipe(by);
  if (kind < 0.82) return checkValve(by.scale(1e5, 1e9), by.scale(1e6, 1e12), by.scale(1e-18, 1e-12));
  if (kind < 0.9) return reliefValve(by.scale(5e4, 8e5), by.scale(1e-16, 1e-11), by.scale(1e6, 1e9));
  if (kind < 0.96) return spinningPump(by.scale(1e3, 1e6), by.scale(1e-5, 1e-2));
  return displacementPump(by.scale(1e-6, 1e-3), by.scale(1e-16, 1e-10));
}

/** One part of up to `most` branches: a random tree, and more branches across it, near or far. */
function addPart(draft: Draft, by: Seeded, most: number): void {
  const name = `p${draft.nodes.length}`;
  const count = by.whole(2, Math.max(2, Math.ceil(most / by.between(1, 1.8)) + 1));
  const isNear = by.isLucky(0.5);
  const first = draft.nodes.length;
  const partner = (n: number): number => (isNear ? Math.max(0, n - by.whole(1, 6)) : by.whole(0, n - 1));
  const branch = (i: number, j: number): void => {
    const [from, to] = by.isLucky(0.5) ? [i, j] : [j, i];
    const head = by.isLucky(0.1) ? { headPa: by.between(-1e5, 1e5) } : {};
    const id = `b${draft.branches.length}`;
    draft.branches.push({ id, from: `${name}n${from}`, to: `${name}n${to}`, law: randomLaw(by), ...head });
  };
  const held = new Set([by.whole(0, count - 1)]);
  while (by.isLucky(0.5)) held.add(by.whole(0, count - 1));
  const isAdrift = by.isLucky(0.15);
  let sum = 0;
  const inflows = Array.from({ length: count }, () => (by.isLucky(0.2) ? by.between(-1e-3, 1e-3) : 0));
  if (isAdrift) {
    for (const q of inflows.slice(1)) sum += q;
    inflows[0] = -sum;
  }
  for (let n = 0; n < count; n++) {
    if (n > 0) branch(partner(n), n);
    const isHeld = !isAdrift && held.has(n);
    const inflow = inflows[n]!;
    draft.nodes.push({
      id: `${name}n${n}`,
      ...(isHeld ? { fixedPa: by.oneOf([0, by.between(-5e4, 5e5)]) } : inflow === 0 ? {} : { inflowM3S: inflow }),
    });
  }
  const more = by.whole(0, Math.max(0, most - count + 1));
  for (let k = 0; k < more; k++) {
    const n = by.whole(1, count - 1);
    branch(partner(n), n);
  }
  if (draft.nodes.length === first) throw new Error('a part without nodes');
}

/** 1 to `most` branches in one to three parts. */
export function soundNetwork(seed: number, most = 200): Network {
  const by = seeded(seed);
  const draft: Draft = { nodes: [], branches: [] };
  const pipes = Math.ceil(by.scale(1, most));
  const parts = pipes > 3 ? by.oneOf([1, 1, 1, 2, 3]) : 1;
  for (let p = 0; p < parts; p++) addPart(draft, by, Math.ceil(pipes / parts));
  const isHigh = by.isLucky(0.3);
  const nodes = isHigh ? draft.nodes.map((node) => ({ ...node, heightM: by.between(-1, 2) })) : draft.nodes;
  return { nodes, branches: draft.branches, ...(isHigh ? { densityKgM3: by.between(700, 1100) } : {}) };
}

const FORCED_M3S = 1e-4;

/** Loss that rises, falls between `from` and `to` of the flow that is forced through it, and rises again. */
function hump(from: number, to: number): LossLaw {
  const [a, b] = [from * FORCED_M3S, to * FORCED_M3S];
  return (q) => {
    const s = Math.abs(q);
    const slope = s > a && s < b ? -1e8 : 2e8;
    const drop = 2e8 * s - 3e8 * Math.max(0, Math.min(s, b) - a);
    return { dropPa: Math.sign(q) * drop, slope };
  };
}

/** Faults that a law can have at a flow that is forced through it. */
const faultyLaws: readonly { readonly kind: RefusalKind; readonly law: LossLaw }[] = [
  { kind: 'falls', law: (q) => ({ dropPa: -1e8 * q, slope: -1e8 }) },
  { kind: 'falls', law: (q) => ({ dropPa: -1e5 - 1e8 * q, slope: 1e8 }) },
  { kind: 'falls', law: hump(0.4, 1.5) },
  { kind: 'falls', law: hump(0.3, 0.7) },
  { kind: 'falls', law: () => ({ dropPa: -2e5, slope: 0 }) },
  { kind: 'not-a-number', law: (q) => ({ dropPa: Math.sqrt(FORCED_M3S / 2 - q), slope: 1e8 }) },
  { kind: 'not-a-number', law: (q) => ({ dropPa: 1e8 * q, slope: 1e8 * Math.sqrt(FORCED_M3S / 2 - Math.abs(q)) }) },
  { kind: 'not-a-number', law: (q) => ({ dropPa: Math.abs(q) > FORCED_M3S / 2 ? Infinity : 1e8 * q, slope: 1e8 }) },
];

/** A sound network with one fault put into it, in turn: laws that fall or give no number, lone nodes, loose parts. */
export function faultyNetwork(seed: number, most = 200): PlantedNetwork {
  const network = soundNetwork(seed, most);
  const by = seeded(seed + 1_000_003);
  const height = network.densityKgM3 === undefined ? {} : { heightM: 0 };
  const turn = seed % (faultyLaws.length + 3);
  const fault = faultyLaws[turn];
  if (fault !== undefined) {
    // In a part of its own: whatever the rest does, this flow is forced.
    const nodes = [
      ...network.nodes,
      { id: 'in', inflowM3S: FORCED_M3S, ...height },
      { id: 'out', fixedPa: 0, ...height },
    ];
    const branch = { id: 'planted', from: 'in', to: 'out', law: fault.law };
    const branches = [...network.branches];
    branches.splice(by.whole(0, branches.length), 0, branch);
    return { network: { ...network, nodes, branches }, fault: { kind: fault.kind, where: 'planted' } };
  }
  if (turn === faultyLaws.length) {
    const nodes = [...network.nodes, { id: 'planted', ...height }];
    return { network: { ...network, nodes }, fault: { kind: 'alone', where: 'planted' } };
  }
  const [nodes, where]: readonly [NetworkNode[], string] =
    turn === faultyLaws.length + 1
      ? [
          [
            { id: 'planted', inflowM3S: by.scale(1e-9, 1e-2), ...height },
            { id: 'planted end', ...height },
          ],
          'planted',
        ]
      : [
          [
            { id: 'planted', inflowM3S: 1e-4, ...height },
            { id: 'planted end', inflowM3S: -0.999e-4, ...height },
          ],
          'planted end',
        ];
  const branch = { id: 'open', from: 'planted', to: 'planted end', law: pipe(0.01, 1, 0.01) };
  return {
    network: { ...network, nodes: [...network.nodes, ...nodes], branches: [...network.branches, branch] },
    fault: { kind: 'unbalanced', where },
  };
}
