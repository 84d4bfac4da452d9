import { readFileSync } from 'node:fs';
import { findLine, type Line } from '#car';
import type { Way } from '#lines';
import { cautionsFor } from '#snags';
import { catalogue } from '#standards';
import { formatInches } from '#units';
import { describe, expect, it } from 'vitest';
import { portName } from './card-ends.ts';
import { demoOf } from './demo.fixture.ts';
import { labelBoxes } from './label-boxes.ts';
import { outside, overlapping } from './label-clashes.fixture.ts';
import { conventionWords, lineCard } from './line-card.ts';
import { tighteningWords } from './tightening-words.ts';

const demo = demoOf((place) => readFileSync(new URL(`../../${place}`, import.meta.url), 'utf8'));
const parts = catalogue(demo.car.catalogue);
const rows = demo.ways.map((row) => ({ ...row, line: findLine(demo.car, row.line)! }));
const card = (line: Line, way: Way, isTaken = true, inches = false) =>
  lineCard(demo.car, line, way, parts, { isTaken, inches, sheet: { number: 3, of: 31 } });
const textsOf = (line: Line, way: Way, isTaken = true, inches = false) =>
  labelBoxes(card(line, way, isTaken, inches)).map((label) => label.text);
const of = (id: string) => rows.find((row) => row.line.id === id)!;

const numerals = (text: string): string[] => text.match(/\d+(?:\.\d+)?/g) ?? [];

/** Everything that a number on a card may come from: the way, its line, names, tables; each number as it may be rounded. */
function known(line: Line, way: Way): Set<string> {
  const words = [
    JSON.stringify([way, line]),
    portName(demo.car, line.from),
    portName(demo.car, line.to),
    ...way.pieces.map((piece) => (piece.hose === undefined ? '' : parts.findHose(piece.hose)!.name)),
    ...way.bodies.map((body) => parts.bulkheadFittings.find((fitting) => fitting.id === body.row)?.name ?? ''),
    ...tighteningWords(demo.car, line, way, parts),
    ...tighteningWords(demo.car, line, way, parts, true),
    ...cautionsFor({ ...demo.car, lines: [line] }),
    ...way.pieces.map((piece) => formatInches(piece.cutLengthMm)),
    conventionWords(true),
    // The sheet, the tolerance of the angle from end to end, and what "nothing within 150 mm" says.
    `3 31 ±3 150 ${way.gaps.map((gap) => 2 * (gap.beyond?.gapMm ?? 0) - (gap.beyond?.worstMm ?? 0)).join(' ')}`,
    // A bibliography's title stands where the way has its id.
    'FAA AC 43.13-1B 43 13 1',
  ].join(' ');
  const found = new Set<string>();
  for (const text of numerals(words))
    for (const decimals of [0, 1, 2, 3]) {
      found.add(Number(text).toFixed(decimals));
      found.add(String(Number(Number(text).toFixed(decimals))));
    }
  return found;
}

/** Ends of a ruler's scale are round. */
const isRound = (text: string): boolean => /^(1|1\.5|2|2\.5|3|4|5|6|8|15|25)?0*$/.test(text);
const isCount = (text: string): boolean => Number.isInteger(Number(text)) && Number(text) <= 12;

const strange = (line: Line, way: Way, texts: readonly string[]): string[] => {
  const from = known(line, way);
  return texts.flatMap(numerals).filter((text) => !from.has(text) && !isRound(text) && !isCount(text));
};

describe('the card of a line', () => {
  it('keeps its words apart and on the sheet, for every line of the demo, in mm and in inches', () => {
    for (const { line, way, isTaken } of rows)
      for (const inches of [false, true]) {
        const drawn = card(line, way, isTaken, inches);
        expect([line.id, outside(drawn), overlapping(drawn)]).toEqual([line.id, [], []]);
        expect([line.id, drawn.width, drawn.height]).toEqual([line.id, 297, 210]);
      }
  });

  it('holds no number that is not in the way, its line or a named table', () => {
    for (const { line, way, isTaken } of rows)
      expect([line.id, strange(line, way, textsOf(line, way, isTaken))]).toEqual([line.id, []]);
    // And the check tells one: another line's card.
    expect(strange(of('O1').line, of('O1').way, textsOf(of('O2').line, of('O2').way)).length).toBeGreaterThan(3);
  });

  it('has cut length, clocks, flats and cautions where one looks for them', () => {
    const { line, way } = of('O8');
    const texts = textsOf(line, way);
    expect(texts).toContain('350 mm');
    expect(texts).toContain('half past ten · 319°');
    expect(texts).toContain("one o'clock · 30°");
    expect(texts.join(' ')).toMatch(/end to end \d+° ±3/);
    // published: flats past first contact of a -4 37-degree swivel nut, in the tightening table with its source.
    expect(texts.join(' ')).toMatch(/1\.50 to 1\.75 flats, 11 to 14 Nm/);
    expect(texts.join(' ')).toMatch(/Oil runs hot enough to burn/);
    expect(textsOf(line, way, true, true)).toContain('13 3/4 in');
  });

  it('says first that a refused line is not to be made, and has no boxes to tick', () => {
    const { line, way } = of('A3');
    const texts = textsOf(line, way, false);
    expect(texts).toContain('Refused: the least bad way is shown. Do not cut or make it.');
    expect(texts).toContain('not to be cut: it would be');
    expect(texts).not.toContain('made');
    expect(textsOf(of('O1').line, of('O1').way)).toContain('made');
  });

  it('has the bends of a tube as the way has them', () => {
    const { line, way } = of('A2');
    const texts = textsOf(line, way);
    for (const bend of way.pieces[1]!.bends!) expect(texts).toContain(`${Math.round(bend.markMm)} mm`);
  });

  it('stays whole with words of any length and a way with nothing in it', () => {
    const { line, way } = of('O1');
    const long = '<script>alert(1)</script> '.repeat(15) + 'x'.repeat(400);
    const note = { level: 'fix', code: 'x', text: long } as const;
    const crowded = { ...way, notes: Array.from({ length: 20 }, () => note) };
    const drawn = card({ ...line, name: long.slice(0, 500) }, crowded);
    expect([outside(drawn), overlapping(drawn)]).toEqual([[], []]);
    expect(labelBoxes(drawn).some((label) => /^and \d+ more: see the list of snags$/.test(label.text))).toBe(true);
    const empty = { ...way, bodies: [], pieces: [], gaps: [], clamps: [], notes: [] };
    expect(overlapping(card(line, empty, false))).toEqual([]);
  });
});
