import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { boreDisagreement, catalogue, disagreements, parseCatalogueCsv, threadSize } from './index.ts';

describe('dash, thread and diameter', () => {
  // published misprints: a public table prints 1 9/16-18 for the -20, beside the diameter of 1 5/8 (41.275 mm);
  // a public manual prints 1 3/8-12 for the -14, where 1 3/8 is the hex.
  it('refuse the -20 beside 1 9/16-18', () => {
    const found = disagreements({ end: { type: 'flare37-male', dash: 20 }, thread: '1 9/16-18', threadOdMm: 41.275 });
    expect(found).toHaveLength(2);
    expect(found[0]).toMatch(/^thread 1 9\/16-18 does not belong to -20 37-degree male flare \(1 5\/8-12\)/u);
    expect(found[1]).toMatch(/41.275 mm does not belong to the thread printed beside it, 1 9\/16-18 \(39.69 mm\)/u);
  });
  it('refuse the -14 beside 1 3/8-12, and say that it is the hex', () => {
    const found = disagreements({ end: { type: 'orb', dash: 14 }, thread: '1 3/8-12' });
    expect(found).toEqual([
      'thread 1 3/8-12 does not belong to -14 O-ring boss port (1 3/16-12); 34.9 mm is its hex, not its thread',
    ]);
  });
  it('refuse a 45-degree thread at -6 and name whose it is', () => {
    expect(disagreements({ end: { type: 'flare37-male', dash: 6 }, thread: '5/8-18 UNF' })[0]).toMatch(
      /it is that of -6 45-degree flare/u,
    );
  });
  it('accept what agrees, measured a little under size', () => {
    expect(
      disagreements({ end: { type: 'flare37-male', dash: 16 }, thread: '1 5/16-12 UN', threadOdMm: 33.1 }),
    ).toEqual([]);
    expect(disagreements({ end: { type: 'metric-washer', thread: 'M14x1.5' }, threadOdMm: 13.9 })).toEqual([]);
    expect(disagreements({ end: { type: 'flare37-male', dash: 12 }, threadOdMm: 33.2 })[0]).toMatch(
      /that is the diameter of -16/u,
    );
  });
  it('of a hose: the bore belongs to its dash in some family', () => {
    for (const h of catalogue().hoses)
      if (h.dash !== undefined && !h.id.includes('coil'))
        expect([h.id, boreDisagreement(h.dash, h.boreMm)]).toEqual([h.id, undefined]);
    expect(boreDisagreement(20, 22.2)).toMatch(/does not belong to a -20 hose/u);
    expect(boreDisagreement(7, 10)).toMatch(/no hose size/u);
  });
});

describe('threadSize', () => {
  // hand: 1 5/16 in = 33.3375 mm, 12 to the inch = 2.11667 mm.
  it.each([
    ['1 5/16-12', 33.3375, 2.1167],
    ['1-5/16-12 UN', 33.3375, 2.1167],
    ['7/16-20 UNF', 11.1125, 1.27],
    ['1-14', 25.4, 1.8143],
    ['M14 x 1.5', 14, 1.5],
    ['m10x1.0', 10, 1],
  ])('%s', (text, majorMm, pitchMm) => {
    const read = threadSize(text);
    expect(read?.majorMm).toBeCloseTo(majorMm, 4);
    expect(read?.pitchMm).toBeCloseTo(pitchMm, 4);
  });
  it.each(['', '12', 'M14', 'M14x15', '1/0-12', 'x', '1 5/16', '1/8 NPT'])('is undefined for %j', (text) => {
    expect(threadSize(text)).toBeUndefined();
  });
});

const header =
  'table,id,name,dash,end,thread,threadOdMm,families,angleDeg,boreMm,odMm,minBendRadiusMm,radiusMeasured,nutMm,socketMm,socketOdMm,neckOdMm,insertMm,bendRadiusMm,afterBendMm,partNumber,supplier,price,currency,a,b,lengthMm,bodyOdMm,wallMm';
const csv = (...rows: Readonly<Record<string, string>>[]): string => {
  const names = header.split(',');
  const quoted = (cell: string): string => (/[",\n]/u.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell);
  return [header, ...rows.map((r) => names.map((n) => quoted(r[n] ?? '')).join(','))].join('\r\n');
};
const hose = {
  table: 'hose',
  id: 'own-16',
  name: 'light -16, "black", braided',
  dash: '-16',
  boreMm: '22.2',
  odMm: '31',
  minBendRadiusMm: '125',
  radiusMeasured: 'inside',
  partNumber: 'LB16',
  supplier: 'the hose shop',
  price: '42.5',
  currency: 'EUR',
};
const hoseEnd = {
  table: 'hose-end',
  id: 'own-end',
  dash: '16',
  end: 'flare37-female -16',
  thread: '1 5/16-12',
  threadOdMm: '',
  families: 'rubber-braid',
  angleDeg: '45',
  nutMm: '30',
  socketMm: '26',
  socketOdMm: '36',
  neckOdMm: '27',
  insertMm: '24',
  boreMm: '20',
  bendRadiusMm: '35',
  afterBendMm: '8',
};

describe('parseCatalogueCsv', () => {
  it('reads hoses, hose ends, adapters and tubes; an inside radius gains half the outside', () => {
    const adapter = {
      table: 'adapter',
      id: 'own-adapter',
      a: 'orb-stud -10',
      b: 'flare37-male -12',
      lengthMm: '38',
      bodyOdMm: '37',
      boreMm: '13',
    };
    const tube = { table: 'tube', id: 'own-tube', odMm: '38', wallMm: '1.6', bendRadiusMm: '76' };
    const read = parseCatalogueCsv(csv(hose, hoseEnd, adapter, tube));
    expect(read.faults).toEqual([]);
    expect(read.own.hoses).toEqual([
      {
        id: 'own-16',
        name: 'light -16, "black", braided',
        dash: 16,
        boreMm: 22.2,
        odMm: 31,
        minBendRadiusMm: 140.5,
        radiusMeasured: 'inside',
        partNumber: 'LB16',
        supplier: 'the hose shop',
        price: 42.5,
        currency: 'EUR',
      },
    ]);
    const all = catalogue(read.own);
    expect(all.faults).toEqual([]);
    const mine = all.findHose('own-16');
    if (mine === undefined) throw new Error('own-16');
    expect(all.hoseEndsFor(mine)[0]).toMatchObject({
      id: 'own-end',
      angleDeg: 45,
      to: { type: 'flare37-female', dash: 16 },
    });
    expect(all.adapters.find((a) => a.id === 'own-adapter')?.b).toEqual({ type: 'flare37-male', dash: 12 });
    expect(all.findTube('own-tube')?.wallMm).toBe(1.6);
  });
  it('reads seals, clamps and grommets; a standard id needs only what differs', () => {
    const read = parseCatalogueCsv(
      [
        'table,id,kind,size,idMm,sectionMm,minOdMm,maxOdMm,widthMm,standOffMm,screw,maxC,lineOdMinMm,lineOdMaxMm,holeMm,panelMaxMm,outsideOdMm,partNumber',
        'seal,own-ring,o-ring,-10,19.2,2.5,,,,,,,,,,,,R-10',
        'clamp,p-clip-20,,,,,,,,14.5,,,,,,,,PC-20',
        'clamp,own-clip,p-clip,,,,24,27,15,16,M6,150,,,,,,',
        'grommet,own-grommet,,,,,,,,,,200,27,30,38,2,44,G-30',
      ].join('\n'),
    );
    expect(read.faults).toEqual([]);
    const { seals, clamps, grommets } = catalogue(read.own);
    const usual = catalogue().clamps.find((row) => row.id === 'p-clip-20')!;
    expect(seals.find((row) => row.id === 'own-ring')).toMatchObject({ size: '-10', idMm: 19.2, partNumber: 'R-10' });
    expect(clamps.find((row) => row.id === 'p-clip-20')).toEqual({
      ...usual,
      standOffMm: 14.5,
      partNumber: 'PC-20',
      source: 'builder',
      measure: false,
    });
    expect(clamps.find((row) => row.id === 'own-clip')).toMatchObject({ minOdMm: 24, screw: 'M6', maxC: 150 });
    expect(grommets.find((row) => row.id === 'own-grommet')).toMatchObject({ holeMm: 38, outsideOdMm: 44 });
  });
  it('a seal, clamp or grommet that cannot be is one line a fault, from a list as from a car file', () => {
    const read = parseCatalogueCsv(
      'table,id,kind,minOdMm,maxOdMm,holeMm,outsideOdMm\nclamp,p-clip-20,,22,20,,\nclamp,p-clip-25,p-klip,,,,\ngrommet,grommet-20,,,,30,28\nseal,own-ring,o-ring,,,,\n',
    );
    expect(read.faults).toEqual([
      'line 2, minOdMm 22 is not smaller than maxOdMm 20',
      'line 3, kind: "p-klip"; allowed: p-clip hose-clamp line-separator',
      'line 4, holeMm 30 is not smaller than outsideOdMm 28',
      'line 5, size is missing; some words are wanted',
      'line 5, idMm is missing',
      'line 5, sectionMm is missing',
    ]);
    const wrong = catalogue({ clamps: [{ id: 'p-clip-20', kind: 'p-klip' as 'p-clip', widthMm: '13' as never }] });
    expect(wrong.faults).toEqual([
      'catalogue.clamps[0] "p-clip-20": kind is "p-klip"; allowed: p-clip hose-clamp line-separator',
      'catalogue.clamps[0] "p-clip-20": widthMm is 13; a number above 0 to 5000 is allowed',
    ]);
  });
  it('reads semicolons and decimal commas, as spreadsheets write them', () => {
    const read = parseCatalogueCsv(
      '\uFEFFtable;id;boreMm;odMm;minBendRadiusMm;radiusMeasured\nhose;h38;38;48,5;115;centreline\n',
    );
    expect(read.faults).toEqual([]);
    expect(read.own.hoses?.[0]).toMatchObject({ odMm: 48.5, minBendRadiusMm: 115 });
  });
  it('gives one line a fault with the line and the column, and keeps the sound rows', () => {
    const read = parseCatalogueCsv(
      csv(
        { ...hoseEnd, id: 'misprint-20', dash: '20', end: 'flare37-female -20', thread: '1 9/16-18' },
        { ...hoseEnd, id: 'misprint-14', dash: '14', end: 'flare37-female -14', thread: '1 3/8-12' },
        { ...hose, id: 'wrong-bore', dash: '20' },
        { ...hose, id: 'bad number', odMm: '1,200' },
        { ...hose, id: 'no-radius-kind', radiusMeasured: '' },
        { ...hose, table: 'hoze' },
        { ...hoseEnd, id: 'odd-angle', angleDeg: '75' },
        { ...hoseEnd, id: 'other-dash', dash: '12' },
        hose,
        hose,
        { table: 'hose', id: 'no-bore', dash: '8' },
      ),
    );
    expect(read.faults.map((f) => f.split(':')[0])).toEqual([
      'line 2, thread',
      'line 3, thread',
      'line 4, boreMm',
      'line 5, odMm',
      'line 5, id',
      'line 6, radiusMeasured',
      'line 7, table',
      'line 8, angleDeg',
      'line 9, dash',
      'line 11, id',
      'line 12, boreMm is missing',
      'line 12, odMm is missing',
      'line 12, minBendRadiusMm is missing',
    ]);
    expect(read.own.hoses?.map((h) => h.id)).toEqual(['own-16']);
    expect(read.own.hoseEnds).toEqual([]);
  });
  it.each([
    ['', /header/u],
    ['id,name\nx,y', /column table is missing/u],
    ['table,id,bore\nhose,x,3', /no column is named "bore"; nearest: boreMm|allowed/u],
    ['table,id,id\nhose,x,x', /stands twice/u],
    ['table,id\nhose,"x', /line 2: a quote is opened/u],
    ['table,id\nhose,"x"y', /line 2: "y" stands after a closing quote/u],
    ['table,id\nhose,x,extra', /3 cells under 2 columns/u],
  ])('refuses %j', (text, fault) => {
    const read = parseCatalogueCsv(text);
    expect(read.faults.join('\n')).toMatch(fault);
    expect(read.own.hoses ?? []).toEqual([]);
  });
  it('never throws, and never gives a row that the catalogue then faults', () => {
    const cell = fc.oneof(
      fc.string({ maxLength: 12 }),
      fc.constantFrom(
        'hose',
        'hose-end',
        'adapter',
        'tube',
        'seal',
        'clamp',
        'grommet',
        '-16',
        '12',
        '1 5/16-12',
        'orb -8',
        '"',
        ',',
        '\n',
        'inside',
      ),
    );
    fc.assert(
      fc.property(fc.array(fc.array(cell, { maxLength: 6 }), { maxLength: 5 }), fc.boolean(), (rows, sound) => {
        const body = rows.map((r) => r.join(',')).join('\n');
        const read = parseCatalogueCsv(sound ? `table,id,dash,end,boreMm,odMm\n${body}` : body);
        return read.faults.every((f) => !f.includes('\n')) && catalogue(read.own).faults.length === 0;
      }),
      { seed: 41, numRuns: 1000 },
    );
  });
});
