import type { HeatAnswer, HeatFinding } from '#heat';
import { findingSnag } from './car-snags.ts';
import { heatOpens } from './opened/heat-opened.ts';
import type { Snag } from './snag.ts';
import { brokenBy } from './worst-first.ts';

const rank = { stop: 0, fix: 1, note: 2 } as const;

/**
 * What heat leaves open: one point for each thing that is too hot, told in the case where it is worst, with the other cases in which it
 * also is.
 */
export function heatSnags({ cases, findings }: HeatAnswer): Snag[] {
  const names = new Map(cases.map((row) => [row.case.id, row.case.name ?? row.case.id]));
  const byPoint = new Map<string, HeatFinding[]>();
  for (const finding of [...findings, ...cases.flatMap((row) => row.findings)]) {
    const point = [
      finding.code,
      finding.line,
      finding.part,
      finding.panel,
      finding.cable,
      finding.bay,
      finding.opening,
    ].join('|');
    const about =
      finding.line ?? finding.part ?? finding.panel ?? finding.cable ?? finding.opening ?? wordsOf(finding, names);
    const key = `${point}|${about}`;
    byPoint.set(key, [...(byPoint.get(key) ?? []), finding]);
  }
  return [...byPoint.values()].map((found) => {
    const snags = found.map((finding) => ({ finding, snag: snagOf(finding) }));
    const worst = snags.toSorted(
      (a, b) => rank[a.snag.level] - rank[b.snag.level] || brokenBy(b.snag) - brokenBy(a.snag),
    )[0]!;
    const others = [
      ...new Set(
        found.flatMap(({ case: id }) => (id === undefined || id === worst.finding.case ? [] : [names.get(id) ?? id])),
      ),
    ];
    if (others.length === 0) return worst.snag;
    return { ...worst.snag, text: `${worst.snag.text.replace(/\.$/, '')} (also: ${others.join(', ')}).` };
  });
}

/** What a finding about the whole says, without the case that it begins with. */
const wordsOf = ({ text }: HeatFinding, names: ReadonlyMap<string, string>): string => {
  const [head = '', ...rest] = text.split(': ');
  return ([...names.values()].includes(head) ? rest.join(': ') : text).slice(0, 40);
};

function snagOf(finding: HeatFinding): Snag {
  const opens = heatOpens(finding);
  const snag = findingSnag({ ...finding, question: 'cook', ...(opens === undefined ? {} : { opens }) });
  const about =
    finding.line ?? finding.part ?? finding.panel ?? finding.cable ?? finding.opening ?? finding.bay ?? 'car';
  return {
    ...snag,
    id: `${about}-${finding.code}`.replaceAll(/[\s.:"]+/g, '-'),
    ...(finding.panel === undefined ? {} : { panel: finding.panel }),
    ...(finding.lever === undefined ? {} : { lever: finding.lever }),
    ...(finding.case === undefined ? {} : { case: finding.case }),
  };
}
