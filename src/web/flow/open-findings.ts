import type { CircuitFlow, FlowFinding } from '#flow';

const RANK = { stop: 0, fix: 1, note: 2 } as const;

/** How far beyond its limit, as a share of it; nothing where there is no number. */
const beyond = ({ value, limit }: FlowFinding): number =>
  value === undefined || limit === undefined ? 0 : Math.abs(value - limit) / Math.max(Math.abs(limit), 1e-9);

/** What starves the engine comes before what can wait for the evening. */
const STARVES: ReadonlySet<string> = new Set([
  'unsolved',
  'circuit',
  'outlet-bare',
  'feed-draws-air',
  'runs-bare',
  'pan-floods',
]);
const waits = ({ code }: FlowFinding): number => (STARVES.has(code) ? 0 : 1);

/** Worst first: by how grave, then what starves the engine, then by how far beyond the limit, then as they were found. */
export const worstFirst = (findings: readonly FlowFinding[]): readonly FlowFinding[] =>
  findings.toSorted((a, b) => RANK[a.level] - RANK[b.level] || waits(a) - waits(b) || beyond(b) - beyond(a));

/** What is open on a circuit in one case, with what holds in all. */
export const findingsIn = (circuit: CircuitFlow, caseId: string): readonly FlowFinding[] =>
  worstFirst([
    ...circuit.states.filter(({ case: at }) => at.id === caseId).flatMap(({ findings }) => findings),
    ...circuit.findings,
  ]);

/** Everything that is open on a circuit. */
export const findingsOf = (circuit: CircuitFlow): readonly FlowFinding[] =>
  worstFirst([...circuit.states.flatMap(({ findings }) => findings), ...circuit.findings]);

/** The gravest level among findings; null where there is nothing but notes. */
export function gravest(findings: readonly FlowFinding[]): 'stop' | 'fix' | null {
  const [worst] = worstFirst(findings);
  return worst === undefined || worst.level === 'note' ? null : worst.level;
}

/** Lines with an open point, by how grave. */
export function markedLines(findings: readonly FlowFinding[]): ReadonlyMap<string, 'stop' | 'fix'> {
  const marked = new Map<string, 'stop' | 'fix'>();
  for (const { line, level } of worstFirst(findings).toReversed())
    if (line !== undefined && level !== 'note') marked.set(line, level);
  return marked;
}
