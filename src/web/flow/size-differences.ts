import type { CircuitFlow, FlowFinding, LineFlow } from '#flow';
import { worstFirst } from './open-findings.ts';

/** A line in one case, as it is and as it would be; null where the case could not be worked out. */
export interface SizeRow {
  readonly caseId: string;
  readonly name: string;
  readonly now: LineFlow | null;
  readonly after: LineFlow | null;
}

/** An open point of the circuit that another size changes. */
export interface PointChange {
  readonly kind: 'gone' | 'new' | 'better' | 'worse';
  readonly now: FlowFinding | null;
  readonly after: FlowFinding | null;
}

/** Each case of a circuit with one line as it is and in another size. */
export const sizeRows = (now: CircuitFlow, other: CircuitFlow, line: string): readonly SizeRow[] =>
  now.states.map((state) => {
    const same = other.states.find(({ case: at }) => at.id === state.case.id);
    return {
      caseId: state.case.id,
      name: state.case.name ?? state.case.id,
      now: state.lines.find((row) => row.line === line) ?? null,
      after: same?.lines.find((row) => row.line === line) ?? null,
    };
  });

/** Less than this share of a number is the noise of working it out again. */
const SAME_SHARE = 0.005;

/** What goes, comes, or changes by more than noise among the open points; notes are left out. Gravest first, then what goes. */
export function pointChanges(now: CircuitFlow, other: CircuitFlow): readonly PointChange[] {
  const [before, after] = [pointsOf(now), pointsOf(other)];
  const changes = [...new Set([...before.keys(), ...after.keys()])].flatMap((key): PointChange[] => {
    const [was, is] = [before.get(key) ?? null, after.get(key) ?? null];
    if (was === null) return [{ kind: 'new', now: null, after: is }];
    if (is === null) return [{ kind: 'gone', now: was, after: null }];
    const [a, b] = [beyond(was), beyond(is)];
    if (was.level === is.level && Math.abs(b - a) <= SAME_SHARE * Math.max(Math.abs(a), Math.abs(b), 1e-9)) return [];
    return [{ kind: b < a || rank[is.level] > rank[was.level] ? 'better' : 'worse', now: was, after: is }];
  });
  const order = worstFirst(changes.map(({ now: was, after: is }) => was ?? is!));
  return order.map((finding) => changes.find(({ now: was, after: is }) => (was ?? is) === finding)!);
}

const rank = { stop: 0, fix: 1, note: 2 } as const;
const beyond = ({ value = 0, limit = 0 }: FlowFinding): number => Math.abs(value - limit);

function pointsOf({ findings, states }: CircuitFlow): Map<string, FlowFinding> {
  const all = [...findings, ...states.flatMap((state) => state.findings)].filter(({ level }) => level !== 'note');
  return new Map(all.map((row) => [[row.code, row.case, row.line, row.part].join('|'), row]));
}
