import fc from 'fast-check';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { type DriveLogOptions, readDriveLog } from './drive-log-file.ts';

const DEMO = fileURLToPath(new URL('../../demo/logs/fellside-lap.csv', import.meta.url));
const text = (words: string): Uint8Array => new TextEncoder().encode(words);
const read = async (words: string | Uint8Array, options: DriveLogOptions = {}) =>
  readDriveLog(typeof words === 'string' ? text(words) : words, options);

const PLAIN =
  'time [s],rpm,longitudinal [g],lateral [g],vertical [g],oil temp [°C]\n0,3000,0.1,-0.2,1,90\n0.01,3100,0.2,-0.3,1,90.5\n';

describe('a drive log', () => {
  it.each([
    ['as it is', PLAIN],
    ['with semicolons and decimal commas', PLAIN.replaceAll(',', ';').replaceAll('.', ',')],
    ['with tabs, CRLF and a byte order mark', `\uFEFF${PLAIN.replaceAll(',', '\t').replaceAll('\n', '\r\n')}`],
    [
      'with quotes and other columns',
      'Note,"Time (s)","Engine, speed",RPM,"Longitudinal acc. [m/s2]",Lat_G,Vert,"Oil Temperature (°F)"\nx,0,9,3000,0.980665,-0.2,1,194\n"a,b",0.01,9,3100,1.96133,-0.3,1,194.9\n',
    ],
    [
      'with a row of units and lines above',
      'Logger 3\n\ntime,engine speed,ax,ay,az,oil_temp\nms,1/s,m/s^2,g,g,K\n0,50,0.980665,-0.2,1,363.15\n10,51.6666666667,1.96133,-0.3,1,363.65\n',
    ],
  ])('is read %s', async (_, words) => {
    const reading = await read(words);
    if (!reading.ok) throw new Error(reading.fault);
    const { log } = reading;
    expect([...log.timeS]).toEqual([0, expect.closeTo(0.01, 12)]);
    expect([...log.rpm]).toEqual([3000, expect.closeTo(3100, 6)]);
    expect([...log.longitudinalG]).toEqual([expect.closeTo(0.1, 9), expect.closeTo(0.2, 9)]);
    expect([...log.lateralG]).toEqual([-0.2, -0.3]);
    expect([...log.oilC]).toEqual([expect.closeTo(90, 9), expect.closeTo(90.5, 9)]);
  });

  it('is read in the older set of western Europe', async () => {
    const bytes = Uint8Array.from(PLAIN, (c) => c.charCodeAt(0));
    expect(await read(bytes)).toMatchObject({ ok: true });
  });

  it('says what it took for granted', async () => {
    const bare = 'time,rpm,long g,lat g\n0,3000,0,0\n1,3000,0,0\n';
    const reading = await read(bare, { oilC: 95 });
    expect(reading).toMatchObject({ ok: true });
    expect(reading.ok && reading.log.notes).toEqual([
      'no vertical g in the log: taken as 1 all the way',
      'no oil temperature in the log: taken as 95 °C all the way',
      'the longest time between two rows is 1.0 s: what is shorter than that is not in the log',
    ]);
    const off = await read(PLAIN.replaceAll(',1,9', ',0,9'));
    expect(off.ok && [...off.log.verticalG]).toEqual([1, 1]);
  });

  it('of the demo is read whole', async () => {
    const reading = await readDriveLog(DEMO);
    if (!reading.ok) throw new Error(reading.fault);
    expect(reading.log.timeS.length).toBe(12_001);
    expect(reading.log.notes).toEqual([]);
    const most = reading.log.lateralG.reduce((g, v, i) => Math.max(g, Math.hypot(v, reading.log.longitudinalG[i]!)), 0);
    expect(most).toBeLessThan(1.6);
  });
});

/** Each broken file and the one line that a builder gets for it. */
const BROKEN: readonly (readonly [string, string | Uint8Array, string])[] = [
  ['nothing', '', 'file: empty; allowed: a table with heads and rows'],
  ['blank lines', '\n\n \n', 'file: empty; allowed: a table with heads and rows'],
  ['not text', Uint8Array.of(0x50, 0x4b, 0, 4), 'file: bytes of value 0; allowed: a text file with a table in it'],
  [
    'no heads',
    '1,2,3\n2,3,4\n',
    'row 1: heads "1", "2", "3"; allowed: heads that name time and engine speed (time, rpm), in one of the first 60 rows',
  ],
  [
    'no lateral g',
    'time,rpm,long g,oil\n0,1,2,3\n',
    'row 1: no column for lateral g among "time", "rpm", "long g", "oil"; allowed: a head each, such as "time [s]", "rpm", "longitudinal [g]", "lateral [g]", "oil temp [°C]"',
  ],
  [
    'no oil',
    'time,rpm,long g,lat g\n0,1,0,0\n1,1,0,0\n',
    'row 1: no column for oil temperature among "time", "rpm", "long g", "lat g"; allowed: a head each, such as "time [s]", "rpm", "longitudinal [g]", "lateral [g]", "oil temp [°C]"',
  ],
  ['heads only', PLAIN.split('\n')[0]!, 'file: 0 rows below the heads; allowed: two or more'],
  ['a word', PLAIN.replace('3100', 'fast'), 'row 3, column "rpm": "fast"; allowed: a number [rpm, 1/min, 1/s]'],
  ['an empty cell', PLAIN.replace('3100', ''), 'row 3, column "rpm": empty; allowed: a number [rpm, 1/min, 1/s]'],
  ['a short row', PLAIN.replace(',1,90.5', ''), 'row 3, column "vertical [g]": empty; allowed: a number [g]'],
  ['not a number', PLAIN.replace('90.5', 'NaN'), 'row 3, column "oil temp [°C]": "NaN"; allowed: a number [°c]'],
  ['too fast', PLAIN.replace('3100', '310000'), 'row 3, column "rpm": 310000; allowed: 0 to 30000'],
  ['too hot', PLAIN.replace('90.5', '9050'), 'row 3, column "oil temp [°C]": 9050; allowed: -60 to 400'],
  [
    'time that stands',
    PLAIN.replace('0.01,', '0,'),
    'row 3, column "time [s]": 0 s after 0 s; allowed: later than the row before',
  ],
  [
    'an unknown unit',
    PLAIN.replace('lateral [g]', 'lateral [ft]'),
    'row 1, column "lateral [ft]": unit "ft"; allowed: g, m/s2',
  ],
  [
    'two times',
    PLAIN.replace('vertical [g]', 't'),
    'row 1: both "time [s]" and "t" for time; allowed: one column for it',
  ],
  [
    'upside down',
    PLAIN.replaceAll(',1,9', ',-1,9'),
    'column "vertical [g]": -1.00 g in the middle of all rows; allowed: about 1 standing, or about 0 without the pull of the earth',
  ],
];

describe('a broken drive log', () => {
  it.each(BROKEN)('is refused in one line: %s', async (_, words, fault) => {
    expect(await read(words)).toEqual({ ok: false, fault });
  });

  it('is never read as numbers that are none, whatever is done to it (fuzz)', async () => {
    const bytes = readFileSync(DEMO).subarray(0, 3000);
    const whole = bytes.subarray(0, bytes.lastIndexOf(10) + 1);
    await fc.assert(
      fc.asyncProperty(
        fc.array(
          fc.record({
            at: fc.nat(whole.length - 1),
            byte: fc.oneof(fc.nat(255), fc.constantFrom(34, 44, 59, 9, 10, 13, 45, 46, 101)),
          }),
          { minLength: 1, maxLength: 6 },
        ),
        async (hits) => {
          const hit = Uint8Array.from(whole);
          for (const { at, byte } of hits) hit[at] = byte;
          const reading = await read(hit);
          if (!reading.ok) expect(reading.fault).toMatch(/^[^\n]{1,600}; allowed: [^\n]+$/);
          else {
            const { log } = reading;
            for (const row of [log.timeS, log.rpm, log.longitudinalG, log.lateralG, log.verticalG, log.oilC]) {
              expect(row.length).toBe(log.timeS.length);
              expect(row.every((value) => Number.isFinite(value))).toBe(true);
            }
            expect(log.timeS.every((t, i) => i === 0 || t > log.timeS[i - 1]!)).toBe(true);
          }
        },
      ),
      { seed: 11, numRuns: 400 },
    );
  });
});
