import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { answerFaults } from './answer-faults.ts';
import { changedAnswer } from './changed-answer.ts';

const taken = fileURLToPath(new URL('../../../test/screen/fellside-taken.json.gz', import.meta.url));
/** The demo with two of its cases, so that twelve cars take no longer than they are worth. */
const text = (() => {
  const car = JSON.parse(gunzipSync(readFileSync(taken)).toString()) as { cases: { id: string }[] };
  return JSON.stringify({ ...car, cases: car.cases.filter(({ id }) => ['cold-start', 'longest-corner'].includes(id)) });
})();

describe('circuits changed at random', () => {
  // `npm run prove -- flow-cars` asks some hundreds more.
  it.each(Array.from({ length: 12 }, (_, i) => i + 1))('answer or say why not: seed %i', (seed) => {
    const { changes, faults } = changedAnswer(text, seed, seed % 6 === 0);
    expect([changes, faults]).toEqual([changes, []]);
  });

  it('are told by name where an answer is none', () => {
    const finding = {
      circuit: 'c',
      code: 'x',
      level: 'note',
      source: 'geometry',
      cures: ['-0.00 bar', '18.5 cc/rev instead of 13.5: +1 bar', '2 L instead of 1 L'],
    } as const;
    const state = { circuit: 'c', case: { id: 'k', engineRpm: 0 }, fluid: null, findings: [], fromPa: Number.NaN };
    const answer = {
      circuits: [{ circuit: 'c', findings: [{ ...finding, text: 'it is NaN' }], states: [state] }],
    } as unknown as Parameters<typeof answerFaults>[0];
    expect(answerFaults(answer)).toEqual([
      'answer.circuits.0.states.0.fromPa: NaN',
      'c, x: "NaN" in "it is NaN"',
      'c, x: "-0.00" in "-0.00 bar"',
      'c, x: "instead of 13.5" without its unit in "18.5 cc/rev instead of 13.5: +1 bar"',
      'c, k: not worked out, and not said why',
    ]);
  });
});
