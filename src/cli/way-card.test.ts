import { describe, expect, it } from 'vitest';
import type { Way, WayEnd } from '#lines';
import { lengthsIn } from '#units';
import { wayCard } from './way-card.ts';

const end = (port: string): WayEnd => ({
  port,
  makeUp: [],
  parts: [],
  angleDeg: 0,
  clockDeg: null,
  words: 'nothing fits',
  clockHow: 'none',
  tightening: [],
});
const refused: Way = {
  rank: 1,
  feasible: false,
  cost: 0,
  ends: [end('a.p'), end('b.p')],
  joints: [],
  pieces: [],
  clamps: [],
  bodies: [],
  gaps: [],
  fails: [{ limit: 'pressure', text: 'rubber-12 stands 10 bar; W1 carries 12 bar' }],
  notes: [],
  reasons: [],
};

const asItIs = (text: string): string => text;
const style = { stop: asItIs, fix: asItIs, blue: asItIs, soft: asItIs, strong: asItIs };

describe('a way refused before anything was drawn, as for its hose', () => {
  it('says the reason and nothing else: no cost, no ends, no gaps', () => {
    const rows = wayCard(refused, { style, lengths: lengthsIn(false), columns: 100 });
    expect(rows.map((row) => row.trim())).toEqual([
      'No way',
      expect.stringMatching(/^fails +▲ Stop {2}rubber-12 stands 10 bar; W1 carries 12 bar$/u),
    ]);
  });
});
