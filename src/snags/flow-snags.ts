import type { CircuitFlow, FlowAnswer, FlowFinding } from '#flow';
import { findingSnag } from './car-snags.ts';
import { flowOpens } from './opened/flow-opened.ts';
import type { Snag } from './snag.ts';
import { brokenBy } from './worst-first.ts';

const rank = { stop: 0, fix: 1, note: 2 } as const;

/**
 * What the circuits leave open: one point for each thing that is wrong, told in the case where it is worst, with the other
 * cases in which it also stands.
 */
export const flowSnags = ({ circuits }: FlowAnswer): Snag[] => circuits.flatMap(circuitSnags);

function circuitSnags(flow: CircuitFlow): Snag[] {
  const caseName = new Map(flow.states.map((state) => [state.case.id, state.case.name ?? state.case.id]));
  const byPoint = new Map<string, FlowFinding[]>();
  for (const finding of [...flow.findings, ...flow.states.flatMap(({ findings }) => findings)]) {
    const point = [finding.code, finding.line ?? '', finding.part ?? '', aboutOf(finding)].join('|');
    byPoint.set(point, [...(byPoint.get(point) ?? []), finding]);
  }
  return [...byPoint.values()].map((found) => {
    const snags = found.map((finding) => ({ finding, snag: snagOf(finding) }));
    const worst = snags.toSorted(
      (a, b) =>
        rank[a.snag.level] - rank[b.snag.level] ||
        brokenBy(b.snag) - brokenBy(a.snag) ||
        sizeOf(b.snag) - sizeOf(a.snag),
    )[0]!;
    const others = found.flatMap(({ case: id }) =>
      id === undefined || id === worst.finding.case ? [] : [caseName.get(id) ?? id],
    );
    if (others.length === 0) return worst.snag;
    return { ...worst.snag, text: `${worst.snag.text.replace(/\.$/, '')} (also: ${others.join(', ')}).` };
  });
}

/** Where nothing is broken, the case with the greatest number is told. */
const sizeOf = ({ value, limit }: Snag): number => (limit === undefined ? Math.abs(value ?? 0) : 0);

/** Findings about neither line nor part are told apart by the stage or thing that their text begins with. */
const aboutOf = ({ line, part, text }: FlowFinding): string => {
  if (line !== undefined || part !== undefined) return '';
  const words = /: (.*)$/.exec(text)?.[1] ?? text;
  return words.split(' ').slice(0, 3).join(' ');
};

function snagOf(finding: FlowFinding): Snag {
  const opens = flowOpens(finding);
  const snag = findingSnag({ ...finding, question: 'flow', ...(opens === undefined ? {} : { opens }) });
  const about = finding.line ?? finding.part ?? finding.circuit;
  return {
    ...snag,
    id: `${about}-${finding.code}`.replaceAll(/[\s.:"]+/g, '-'),
    circuit: finding.circuit,
    ...(finding.case === undefined ? {} : { case: finding.case }),
  };
}
