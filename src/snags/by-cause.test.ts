import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { byCause } from './by-cause.ts';
import type { Snag } from './snag.ts';

const snag = (id: string, more: Partial<Snag> = {}): Snag => ({
  id,
  kind: 'keep-off-at-worst',
  level: 'fix',
  question: 'fit',
  text: id,
  source: 'hand',
  cures: [],
  ...more,
});
const told = (snags: readonly Snag[]) => byCause(snags).map(({ lead, more }) => [lead.id, ...more.map(({ id }) => id)]);

describe('snags by their cause', () => {
  it('hand: one way too near in three places, one line under a pump in two cases, one panel through two others', () => {
    expect(
      told([
        snag('PN5-PN2L', { kind: 'panel-through-panel', level: 'stop', question: 'cut', panel: 'PN5' }),
        snag('PN5-PN2R', { kind: 'panel-through-panel', level: 'stop', question: 'cut', panel: 'PN5' }),
        snag('O1-vacuum', { kind: 'vacuum-stated', level: 'stop', question: 'flow', line: 'O1', circuit: 'oil' }),
        snag('O1-belt', { line: 'O1', part: 'belt' }),
        snag('O2-belt', { line: 'O2', part: 'belt' }),
        snag('O1-feed', { kind: 'feed-draws-air', question: 'flow', line: 'O1', circuit: 'oil' }),
        snag('O1-floor', { line: 'O1', part: 'floor' }),
        snag('O1-port', { kind: 'near-port', line: 'O1', part: 'turbine' }),
        snag('O1-rule', { kind: 'rule-not-met', line: 'O1' }),
      ]),
    ).toEqual([
      ['PN5-PN2L', 'PN5-PN2R'],
      ['O1-vacuum', 'O1-feed'],
      ['O1-belt', 'O1-floor', 'O1-port'],
      ['O2-belt'],
      ['O1-rule'],
    ]);
  });

  it('hand: what hangs together over a third is one cause; the same advice about several things is said once', () => {
    expect(
      told([
        snag('O4-deep', { kind: 'suction-depth', question: 'flow', line: 'O4', circuit: 'oil' }),
        snag('O5-air', { kind: 'draws-air', question: 'flow', line: 'O5', circuit: 'oil' }),
        snag('O5-deep', { kind: 'suction-depth', question: 'flow', line: 'O5', circuit: 'oil' }),
        snag('O1-measure', { kind: 'to-measure', level: 'note', question: 'buy', line: 'O1' }),
        snag('O2-measure', { kind: 'to-measure', level: 'note', question: 'buy', line: 'O2' }),
      ]),
    ).toEqual([
      ['O4-deep', 'O5-air', 'O5-deep'],
      ['O1-measure', 'O2-measure'],
    ]);
  });

  it('property, seed 3: each snag stands once, in its turn, and no cause has its worst behind', () => {
    const pick = fc.constantFrom('a', 'b', 'c', undefined);
    const any = fc.record({
      kind: fc.constantFrom('keep-off', 'near-port', 'suction-depth', 'no-tool-goes-on', 'to-measure'),
      level: fc.constantFrom('stop' as const, 'fix' as const, 'note' as const),
      question: fc.constantFrom('fit' as const, 'flow' as const, 'off' as const, 'cut' as const),
      line: pick,
      part: pick,
      panel: pick,
      circuit: pick,
    });
    fc.assert(
      fc.property(fc.array(any, { maxLength: 40 }), (rows) => {
        const snags = rows.map((row, i) => snag(String(i), JSON.parse(JSON.stringify(row)) as Partial<Snag>));
        const causes = told(snags);
        expect(causes.flat().toSorted((a, b) => Number(a) - Number(b))).toEqual(snags.map(({ id }) => id));
        for (const ids of [causes.map(([lead]) => lead!), ...causes])
          expect(ids).toEqual(ids.toSorted((a, b) => Number(a) - Number(b)));
      }),
      { seed: 3, numRuns: 200 },
    );
  });
});
