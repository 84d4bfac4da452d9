import { describe, expect, it } from 'vitest';
import { findSource } from '#sources';
import {
  acrossCornersMm,
  bossORingNumber,
  bossORings,
  catalogue,
  dashSizes,
  duties,
  dutyNeeds,
  fixingRow,
  hoseEndFactor,
  hoseEndAngles,
  keepOff,
  mates,
  parseEnd,
  type End,
  type HoseRow,
} from './index.ts';

const all = catalogue();
const end = (text: string): End => {
  const read = parseEnd(text);
  if (!read.ok) throw new Error(read.fault);
  return read.end;
};
const hose = (id: string): HoseRow => {
  const found = all.findHose(id);
  if (found === undefined) throw new Error(id);
  return found;
};

describe('every row', () => {
  const tables = {
    hoses: all.hoses,
    hoseEnds: all.hoses.flatMap((h) => all.hoseEndsFor(h)),
    adapters: all.adapters,
    bulkheadFittings: all.bulkheadFittings,
    seals: all.seals,
    tubes: all.tubes,
    clamps: all.clamps,
    grommets: all.grommets,
    plugs: all.plugs,
    bungs: all.bungs,
  };
  it.each(Object.entries(tables))('of %s has a source in the bibliography, and finite numbers', (table, rows) => {
    expect(rows.length).toBeGreaterThan(5);
    for (const row of rows) {
      expect([table, row.id, findSource(row.source)?.id]).toEqual([table, row.id, row.source]);
      for (const [key, value] of Object.entries(row))
        if (typeof value === 'number')
          expect([row.id, key, Number.isFinite(value) && (value >= 0 || key === 'minC')]).toEqual([row.id, key, true]);
    }
  });
  it.each(Object.entries(tables).filter(([t]) => t !== 'hoseEnds'))('of %s has its own id', (_, rows) => {
    expect(new Set(rows.map((r) => r.id)).size).toBe(rows.length);
  });
  it('of generic dimensions says: measure the part in your hand', () => {
    for (const rows of Object.values(tables))
      for (const row of rows)
        if (row.source === 'generic-dimensions') expect([row.id, row.measure]).toEqual([row.id, true]);
  });
  it('names seals that exist', () => {
    const known = new Set(all.seals.map((s) => s.id));
    for (const row of [...all.adapters, ...all.plugs])
      for (const seal of row.seals) expect([row.id, seal.id, known.has(seal.id)]).toEqual([row.id, seal.id, true]);
    for (const a of all.adapters) {
      for (const port of [...all.bungs.map((b) => b.port), ...all.adapters.map((x) => x.b)]) {
        const mating = mates(a.a, port);
        if (mating.ok)
          for (const seal of mating.seal.seals)
            expect([a.id, seal.id, known.has(seal.id)]).toEqual([a.id, seal.id, true]);
      }
    }
  });
});

describe('hoses', () => {
  // published (MIL-DTL-8794, from memory): -16: 0.875 in bore, 1.23 in outside, 800 psi, 7.38 in to the inside of the bend.
  it('state their radius to the centreline', () => {
    const row = hose('rubber-braid-16');
    expect(row.boreMm).toBeCloseTo(22.22, 1);
    expect(row.minBendRadiusMm).toBeCloseTo(25.4 * (7.38 + 1.23 / 2), 1);
    expect(row.pressureBar).toBe(55);
    expect(row.radiusMeasured).toBe('inside');
  });
  it('say where the vacuum is not known, and that fuel wants a conductive liner', () => {
    expect(hose('rubber-braid-16').vacuumBar).toBeNull();
    expect(hose('rubber-braid-coil-16').vacuumBar).toBeGreaterThan(dutyNeeds('oil-suction').vacuumBar);
    expect(hose('ptfe-steel-8').fluids).not.toContain('fuel');
    expect(hose('ptfe-steel-conductive-8')).toMatchObject({
      conductive: true,
      fluids: expect.arrayContaining(['fuel']),
    });
  });
  it('differ in bore for one dash: tube families and bore families', () => {
    expect(hose('rubber-textile-8').boreMm).toBeCloseTo(12.7, 2);
    expect(hose('rubber-braid-8').boreMm).toBeCloseTo(10.31, 2);
  });
});

describe('hose ends', () => {
  it('come at all eight angles, crimped and reusable, for -3 to -20', () => {
    for (const dash of [4, 6, 8, 10, 12, 16, 20]) {
      const ends = all.hoseEndsFor(hose(`rubber-braid-${dash}`));
      for (const fixing of ['crimped', 'reusable'])
        expect(ends.filter((e) => e.fixing === fixing).map((e) => e.angleDeg)).toEqual([...hoseEndAngles]);
      expect(ends.every((e) => mates(e.to, { type: 'flare37-male', dash }).ok)).toBe(true);
    }
    expect(all.hoseEndsFor(hose('ptfe-steel-3')).map((e) => e.fixing)).toContain('crushed-collar');
  });
  // published: US Navy 14018 table 5-2 [in]: rubber -8 0.94, -12 1.00, -16 0.94; PTFE -6 0.81, -12 1.13.
  it.each([
    ['rubber-braid-8', 0.94],
    ['rubber-braid-12', 1],
    ['rubber-braid-16', 0.94],
    ['ptfe-steel-6', 0.81],
    ['ptfe-steel-12', 1.13],
  ])('straight on %s take the naval cut-off factor', (id, factorIn) => {
    for (const e of all.hoseEndsFor(hose(id)).filter((x) => x.angleDeg === 0)) {
      expect(
        hoseEndFactor(e.nutMm, e.bendRadiusMm, e.angleDeg, e.afterBendMm, e.socketMm, e.insertMm) / 25.4,
      ).toBeCloseTo(factorIn, 3);
    }
  });
  it('are sized by the very hose: socket 1.15, bend 1.1 of its outside, tail 12 + 0.8 of it', () => {
    const own = catalogue({ hoses: [{ id: 'my-hose-16', dash: 16, boreMm: 22.2, odMm: 30, minBendRadiusMm: 140 }] });
    expect(own.faults).toEqual([]);
    const mine = own.findHose('my-hose-16');
    if (mine === undefined) throw new Error('my-hose-16');
    expect(mine).toMatchObject({
      family: 'rubber-braid',
      minBendRadiusMm: 140,
      radiusMeasured: 'centreline',
      vacuumBar: null,
      source: 'builder',
      measure: false,
    });
    const bent = own.hoseEndsFor(mine).filter((e) => e.angleDeg !== 0);
    expect(bent.length).toBe(14);
    for (const e of bent) {
      expect(e.socketOdMm).toBeCloseTo(34.5, 9);
      expect(e.bendRadiusMm).toBeCloseTo(33, 9);
      expect(e.nutMm).toBeCloseTo(34, 9);
      expect(e.afterBendMm + e.socketMm).toBeCloseTo(36, 9);
      expect(e.insertMm).toBeLessThan(e.socketMm);
    }
  });
  it('are a clamped joint for a hose that goes over a spigot, and none where the trade has none', () => {
    const silicone = all.hoseEndsFor(hose('silicone-38'));
    expect(silicone).toHaveLength(1);
    expect(silicone[0]).toMatchObject({ fixing: 'push-on', to: { type: 'hose-bore', odMm: 38 }, angleDeg: 0 });
    expect(all.hoseEndsFor(hose('rubber-braid-24'))).toEqual([]);
  });
  it('say what each fixing needs', () => {
    expect(fixingRow('crushed-collar').needs).toMatch(/new collar/u);
    expect(
      all
        .hoseEndsFor(hose('rubber-braid-8'))
        .filter((e) => e.fixing === 'crimped')
        .some((e) => e.reusable),
    ).toBe(false);
  });
});

/** Whether some adapter leads in one piece from a port to a 37-degree male of this dash. */
const onePiece = (port: string, dash: number, angleDeg = 0): boolean =>
  all.adapters.some(
    (a) => a.angleDeg === angleDeg && a.b.type === 'flare37-male' && a.b.dash === dash && mates(end(port), a.a).ok,
  );

describe('adapters', () => {
  it.each([
    ['orb -16', 16],
    ['orb -10', 12],
    ['orb -12', 10],
    ['orb -4', 3],
    ['npt-female 1/8', 4],
    ['metric-washer M12x1.5', 4],
    ['metric-washer M14x1.5', 6],
    ['inverted-flare M10x1', 3],
    ['flange2 -12', 12],
    ['face-seal -8', 8],
    ['bspp 1/4', 6],
    ['metric-orb M18x1.5', 8],
  ])('lead from %s to -%i in one piece', (port, dash) => {
    expect(onePiece(port, dash)).toBe(true);
  });
  it('leave out what is not made in one piece', () => {
    expect(onePiece('orb -10', 16)).toBe(false);
    expect(onePiece('orb -10', 16, 45)).toBe(false);
    expect(onePiece('npt-female 1/8', 12)).toBe(false);
    expect(all.adapters.every((a) => [0, 45, 90].includes(a.angleDeg))).toBe(true);
  });
  it('say how an elbow gets its clock, and a straight has none', () => {
    for (const a of all.adapters) {
      if (a.angleDeg === 0) expect([a.id, a.clock]).toEqual([a.id, 'none']);
      else {
        expect([a.id, a.clock]).not.toEqual([a.id, 'none']);
        expect([a.id, (a.aLegMm ?? 0) > 0 && (a.bLegMm ?? 0) > 0]).toEqual([a.id, true]);
      }
    }
    expect(
      all.adapters.filter((a) => a.a.type === 'npt-male' && a.angleDeg !== 0).every((a) => a.clock === 'taper'),
    ).toBe(true);
    expect(
      all.adapters.filter((a) => a.a.type === 'orb-stud' && a.angleDeg !== 0).every((a) => a.clock === 'locknut'),
    ).toBe(true);
  });
  it('count hexes across corners, and give a banjo its second washer', () => {
    for (const a of all.adapters)
      if (a.hexMm > 0 && a.clock !== 'banjo')
        expect([a.id, a.bodyOdMm >= acrossCornersMm(a.hexMm) - 0.02 || a.a.type === 'flange2-foot']).toEqual([
          a.id,
          true,
        ]);
    const banjos = all.adapters.filter((a) => a.clock === 'banjo');
    expect(banjos.length).toBeGreaterThan(5);
    for (const b of banjos) expect(b.seals).toEqual([{ id: `washer-${(b.a.thread ?? '').toLowerCase()}`, qty: 1 }]);
  });
  it('never pass more than their hoses: a bore is at most the tube of its dash', () => {
    for (const a of all.adapters)
      if (a.b.dash !== undefined) expect([a.id, a.boreMm < (a.b.dash * 25.4) / 16]).toEqual([a.id, true]);
  });
});

describe('O-rings', () => {
  // published: US Navy training manual 14105 chapter 7: 900 series, the last two figures are the tube size in sixteenths; -904 = 1/4 in.
  it('are numbered by the tube', () => {
    expect(bossORingNumber(4)).toBe('904');
    expect(bossORingNumber(16)).toBe('916');
    expect(bossORings.map((r) => r.dash)).toEqual(dashSizes.map((r) => r.dash));
  });
  // published (AS568 900 series, from memory): -908 0.644 x 0.087 in, -916 1.171 x 0.116 in.
  it('have the dimensions of the series', () => {
    expect(all.findSeal('o-ring-908')).toMatchObject({ idMm: 16.36, sectionMm: 2.21 });
    expect(all.findSeal('o-ring-916')).toMatchObject({ idMm: 29.74, sectionMm: 2.95 });
  });
  it('go over the thread root and under its crest', () => {
    for (const r of bossORings) {
      const row = dashSizes.find((d) => d.dash === r.dash);
      expect([r.dash, r.idIn * 25.4 < (row?.majorMm ?? 0), r.idIn * 25.4 > (row?.majorMm ?? 0) - 5]).toEqual([
        r.dash,
        true,
        true,
      ]);
    }
  });
});

describe('dash sizes', () => {
  // published: FAA general handbook: rigid tube size is its outside diameter in sixteenths of an inch.
  it('count sixteenths of the tube outside diameter', () => {
    for (const r of dashSizes) expect(r.odIn * 16).toBe(r.dash);
  });
});

describe('tube', () => {
  it('keeps its bend, straights and supports in order', () => {
    for (const t of all.tubes) {
      expect([t.id, t.bendRadiusMm >= 1.8 * t.odMm && t.bendRadiusMm <= 6 * t.odMm]).toEqual([t.id, true]);
      expect([t.id, t.wallMm * 2 < t.odMm && t.clampStraightMm >= t.minStraightMm && t.supportMm > 200]).toEqual([
        t.id,
        true,
      ]);
    }
  });
  // published (MIL-H-8891A table II, steel): 3/8 20 in, 1/2 23 in, 3/4 27.5 in, 1 in 30 in between supports.
  it.each([
    [6, 20],
    [8, 23],
    [12, 27.5],
    [16, 30],
  ])('steel -%i is held every %f in', (dash, inches) => {
    expect(all.findTube(`tube-stainless-${dash}`)?.supportMm).toBe(Math.floor(inches * 25.4));
  });
});

describe('keep-offs and duties', () => {
  // common practice, no source, but for fuel and brake: 3 in from significant heat (a builders' rule that was read).
  it.each([
    ['hot', 100],
    ['hot-shielded', 50],
    ['turbine', 150],
    ['fuel-brake-hot', 76],
    ['belt-shaft', 50],
    ['moving', 25],
    ['fixed', 6],
    ['line', 3],
  ] as const)('%s', (kind, mm) => {
    expect(keepOff(kind).mm).toBe(mm);
  });
  it('every duty finds a hose of the catalogue that bears it', () => {
    for (const duty of duties) {
      const need = dutyNeeds(duty);
      const fit = [...all.hoses, ...all.tubes].filter(
        (h) =>
          h.fluids.includes(need.fluid) &&
          h.pressureBar >= need.pressureBar &&
          h.maxC >= need.maxC &&
          (need.vacuumBar === 0 || !('vacuumBar' in h) || (h.vacuumBar ?? 0) >= need.vacuumBar),
      );
      expect([duty, fit.length > 0]).toEqual([duty, true]);
    }
  });
  it('fuel, brake and clutch lines keep 76 mm from heat; fuel is clamped every 300 mm; a drain falls', () => {
    for (const duty of ['fuel', 'fuel-return', 'fuel-vent', 'brake', 'clutch'] as const)
      expect(dutyNeeds(duty).keepOffHotMm).toBe(76);
    expect(dutyNeeds('fuel').clampMm).toBe(300);
    expect(dutyNeeds('oil-suction').clampMm).toBe(610);
    expect(dutyNeeds('oil-drain')).toMatchObject({ mustFall: true, boreNotShrinking: true });
  });
});

describe("the builder's own rows", () => {
  it('override by id and leave the rest', () => {
    const own = catalogue({
      hoses: [
        {
          id: 'rubber-braid-12',
          odMm: 27,
          partNumber: 'SH-12',
          supplier: 'the hose shop',
          price: 31.5,
          currency: 'GBP',
        },
      ],
    });
    expect(own.findHose('rubber-braid-12')).toMatchObject({
      odMm: 27,
      dash: 12,
      partNumber: 'SH-12',
      source: 'builder',
    });
    expect(own.hoses.length).toBe(all.hoses.length);
  });
  it('take a hose without a dash for a coupler hose over spigots', () => {
    const own = catalogue({ hoses: [{ id: 'h38', boreMm: 38, odMm: 48, minBendRadiusMm: 115 }] });
    const h38 = own.findHose('h38');
    if (h38 === undefined) throw new Error('h38');
    expect(h38.family).toBe('silicone');
    expect(own.hoseEndsFor(h38).map((e) => e.to)).toEqual([{ type: 'hose-bore', odMm: 38 }]);
  });
  it('name what they did not say of a hose and what was taken from the usual one', () => {
    const own = catalogue({ hoses: [{ id: 'mine', dash: 8, boreMm: 11, odMm: 20, minBendRadiusMm: 90, maxC: 135 }] });
    expect(own.findHose('mine')).toMatchObject({
      assumed: ['pressureBar', 'minC', 'fluids'],
      maxC: 135,
      vacuumBar: null,
      conductive: null,
    });
    expect(all.hoses.some((h) => h.assumed !== undefined)).toBe(false);
  });
  it('add an adapter and a hose end', () => {
    const own = catalogue({
      adapters: [
        {
          id: 'special',
          a: { type: 'orb-stud', dash: 10 },
          b: { type: 'flare37-male', dash: 16 },
          lengthMm: 50,
          bodyOdMm: 40,
          boreMm: 12,
        },
      ],
      hoseEnds: [{ id: 'end-crimped-rubber-braid-16-90', nutMm: 40, partNumber: 'E-90' }],
    });
    expect(own.faults).toEqual([]);
    expect(own.adapters.find((a) => a.id === 'special')).toMatchObject({
      clock: 'none',
      angleDeg: 0,
      seals: [],
      source: 'builder',
    });
    const ends = own.hoseEndsFor(hose('rubber-braid-16')).filter((e) => e.id === 'end-crimped-rubber-braid-16-90');
    expect(ends).toHaveLength(1);
    expect(ends[0]).toMatchObject({ nutMm: 40, partNumber: 'E-90', measure: false });
  });
  it('that are faulty are named in one line and left out', () => {
    const own = catalogue({
      hoses: [
        { id: 'thin', boreMm: 20, odMm: 18, minBendRadiusMm: 100 },
        { id: 'bare', dash: 8 },
        { id: 'kink', boreMm: 10, odMm: 20, minBendRadiusMm: 5 },
      ],
      tubes: [{ id: 'solid', odMm: 10, wallMm: 5, bendRadiusMm: 20 }],
      adapters: [{ id: 'half', a: { type: 'orb-stud', dash: 8 } }],
      seals: [{ id: 'ring', idMm: 4 }],
    });
    expect(own.faults).toHaveLength(13);
    expect(own.faults[0]).toBe('catalogue.hoses[0] "thin": boreMm 20 is not smaller than odMm 18');
    expect(own.faults.every((f) => !f.includes('\n'))).toBe(true);
    expect(own.findHose('thin')).toBeUndefined();
  });

  it('of hose ends: a cut factor gives how far the hose goes in, and how the end is held says whether it is used again', () => {
    const end = {
      to: { type: 'flare37-female', dash: 10 },
      families: ['rubber-braid'],
      hoseDash: 10,
      angleDeg: 90,
    } as const;
    const sizes = {
      nutMm: 33,
      bendRadiusMm: 30,
      afterBendMm: 8,
      socketMm: 26,
      socketOdMm: 28,
      neckOdMm: 20,
      boreMm: 12,
    };
    const { faults, hoses, hoseEndsFor } = catalogue({
      hoseEnds: [
        { id: 'a', ...end, ...sizes, fixing: 'reusable', cutFactorMm: 90.1 },
        { id: 'b', ...end, ...sizes, insertMm: 24 },
        { id: 'c', ...end, ...sizes, cutFactorMm: 60 },
        { id: 'd', ...end, ...sizes, cutFactorMm: 90.1, insertMm: 24 },
      ],
    });
    const found = hoseEndsFor(hoses.find(({ id }) => id === 'rubber-braid-10')!);
    // hand: 33 + 30 pi / 2 + 8 + 26 = 114.12 along the end, so 24.02 mm of hose are inside
    expect(found.find(({ id }) => id === 'a')?.insertMm).toBeCloseTo(24.02, 2);
    expect(['a', 'b'].map((id) => found.find((row) => row.id === id)?.reusable)).toEqual([true, false]);
    expect(faults).toEqual([
      expect.stringMatching(/"c": cutFactorMm 60 puts the hose 54.1 mm into a socket of 26 mm/u),
      expect.stringMatching(/"d": insertMm and cutFactorMm both stand there/u),
    ]);
  });
});
