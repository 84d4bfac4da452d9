import { describe, expect, it } from 'vitest';
import { boxFromCsv, boxToCsv } from './box-csv.ts';

describe('the box as CSV', () => {
  it('comes back as it went out, quotes, commas and line breaks in a remark included', () => {
    const rows = [
      { id: 'o-ring-916', qty: 4 },
      { id: 'rubber-16', qty: 2.5, note: 'end frayed, "long" one\nbehind the door' },
    ];
    expect(boxFromCsv(boxToCsv(rows))).toEqual({ fault: null, rows });
  });

  it('reads what a spreadsheet with semicolons and decimal commas writes', () => {
    expect(boxFromCsv('\uFEFFNote;Qty;Id\r\n;1,5;rubber-16\r\n;;\r\n')).toEqual({
      fault: null,
      rows: [{ id: 'rubber-16', qty: 1.5 }],
    });
  });

  it('says which row is wrong, what stands there and what is wanted', () => {
    expect(boxFromCsv('part,count\nx,1').fault).toBe('row 1: "part,count"; wanted: a heading with id and qty');
    expect(boxFromCsv('id,qty\na,1\nb,many').fault).toBe(
      'row 3: qty of b is "many"; wanted: a number from 0 to 1000000',
    );
    expect(boxFromCsv('id,qty\na,').fault).toBe('row 2: qty of a is ""; wanted: a number from 0 to 1000000');
    expect(boxFromCsv('id,qty\n,3').fault).toBe('row 2: no id');
  });
});
