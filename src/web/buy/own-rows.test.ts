import { describe, expect, it } from 'vitest';
import type { Catalogue } from '#car';
import { parseCatalogueCsv } from '#standards';
import { csvOf } from './csv.ts';
import { listColumns, ownFields, rowCount, rowsOf, rowWords, withoutRow, withRows, writtenSince } from './own-rows.ts';

const hose = (id: string, boreMm: number) => ({ id, boreMm, odMm: 30, minBendRadiusMm: 100 });

describe('the shop’s own rows', () => {
  it('are put in by id, a later one in place of the earlier, and taken away without a trace', () => {
    const had: Catalogue = { hoses: [hose('a', 10), hose('b', 12)], tubes: [{ id: 'a', odMm: 12 }] };
    const more = withRows(had, { hoses: [hose('b', 13), hose('c', 14)] });
    expect(more.hoses?.map((row) => [row.id, row.boreMm])).toEqual([
      ['a', 10],
      ['b', 13],
      ['c', 14],
    ]);
    expect(rowCount(more)).toBe(4);
    // A hose and a tube may have one id: they are of different tables.
    expect(withoutRow(had, 'tubes', 'a')).toEqual({ hoses: had.hoses });
    expect(rowsOf(withoutRow(had, 'hoses', 'a')).map(([table, rows]) => [table, rows.length])).toEqual([
      ['hoses', 1],
      ['tubes', 1],
    ]);
  });

  it('of two people: only the row that the other wrote otherwise since, or took away, is told', () => {
    const seen: Catalogue = { hoses: [hose('a', 10), hose('b', 12), hose('c', 14)] };
    const now: Catalogue = { hoses: [hose('a', 11), hose('b', 13)] };
    const mine: Catalogue = { hoses: [hose('a', 10.5), hose('b', 13), hose('c', 14.5), hose('d', 16)] };
    expect(writtenSince(seen, now, mine)).toEqual(['a', 'c']);
    expect(writtenSince(now, now, mine)).toEqual([]);
  });

  it('are told in the words that their form asks in', () => {
    const row = { id: 'a', name: 'Braided', boreMm: 12, radiusMeasured: 'inside', fluids: ['oil', 'fuel'] };
    expect(rowWords(row)).toBe('Braided, bore 12 mm, radius measured to inside, for oil fuel');
  });

  it('are asked for with columns that the reader of lists knows, enough of them for a row to stand', () => {
    const filled: Readonly<Record<string, string>> = {
      id: 'own-1',
      end: 'flare37-female -8',
      a: 'flare37-male -8',
      b: 'orb -8',
      families: 'rubber-braid',
      angleDeg: '45',
      radiusMeasured: 'centreline',
      boreMm: '10',
      odMm: '20',
      wallMm: '1.5',
      fixing: 'reusable',
    };
    // A hose end wants one of two: how far the hose goes in, or its maker's cut factor, which is from seat to cut end.
    const asked = Object.entries(ownFields).flatMap(([kind, fields]) =>
      (kind === 'hose-end' ? ['insertMm', 'cutFactorMm'] : ['']).map((either) => ({
        kind,
        wanted: fields.filter((field) => 'isWanted' in field || field.column === either),
      })),
    );
    for (const { kind, wanted } of asked) {
      const cells = wanted.map(({ column }) => filled[column] ?? '60');
      const read = parseCatalogueCsv(
        csvOf([
          ['table', ...wanted.map(({ column }) => column)],
          [kind, ...cells],
        ]),
      );
      expect([kind, wanted.at(-1)?.column, read.faults]).toEqual([kind, wanted.at(-1)?.column, []]);
      expect(rowCount(read.own as Catalogue)).toBe(1);
    }
    expect(parseCatalogueCsv(csvOf([listColumns])).faults).toEqual([]);
  });
});
