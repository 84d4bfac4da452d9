import { describe, expect, it } from 'vitest';
import { type Car, readCar } from '#car';
import { type LinesWorld, type Planned, type Way, linesWorld } from '#lines';
import { cautionsFor, lineCautions } from './cautions.ts';
import type { ExtraFinding } from './car-snags.ts';
import { partWords } from './part-words.ts';
import type { Snag } from './snag.ts';
import { snags } from './snags.ts';
import { brokenBy, worstFirst } from './worst-first.ts';

const port = (id: string, atMm: readonly number[], faces: readonly number[], dash = 4) => ({
  id,
  atMm,
  faces,
  end: { type: 'orb', dash },
});

/** A block and a turbo with a bare turbine beside them, a bulkhead, three lines. */
const file = {
  fairlead: 1,
  parts: [
    {
      id: 'block',
      name: 'Engine block',
      class: 'fixed',
      shapes: [{ box: { minMm: [0, 0, 0], maxMm: [400, 300, 300] } }],
      ports: [port('feed', [400, 150, 200], [1, 0, 0]), port('out', [400, 250, 100], [1, 0, 0])],
    },
    {
      id: 'turbo',
      name: 'Turbo centre housing',
      class: 'fixed',
      shapes: [{ box: { minMm: [800, 100, 150], maxMm: [900, 300, 250] } }],
      ports: [port('oil', [800, 150, 200], [-1, 0, 0]), port('drain', [800, 250, 200], [-1, 0, 0])],
    },
    {
      id: 'turbine',
      name: 'Turbine housing',
      class: 'hot',
      turbine: true,
      surfaceC: 800,
      shapes: [{ cylinder: { fromMm: [600, 300, 0], toMm: [600, 300, 400], radiusMm: 60 } }],
    },
    {
      id: 'bulkhead',
      name: 'Main bulkhead, fire barrier',
      class: 'fixed',
      crossable: ['grommet'],
      shapes: [{ box: { minMm: [-101, -500, 0], maxMm: [-100, 500, 500] } }],
    },
    {
      id: 'tank',
      class: 'fixed',
      shapes: [{ box: { minMm: [-300, -50, 0], maxMm: [-200, 50, 200] } }],
      ports: [port('in', [-200, 0, 100], [1, 0, 0])],
    },
    {
      id: 'pan',
      class: 'fixed',
      shapes: [{ box: { minMm: [0, 400, 0], maxMm: [100, 500, 100] } }],
      ports: [port('back', [0, 450, 50], [-1, 0, 0])],
    },
  ],
  lines: [
    { id: 'O8', from: 'block.feed', to: 'turbo.oil', duty: 'oil-pressure', dash: 4, state: 'planned' },
    { id: 'O7', from: 'turbo.drain', to: 'block.out', duty: 'oil-drain', dash: 4, state: 'planned' },
    {
      id: 'O9',
      from: 'pan.back',
      to: 'tank.in',
      duty: 'oil-scavenge',
      dash: 4,
      state: 'planned',
      through: [{ part: 'bulkhead', kind: 'grommet' }],
    },
  ],
};

const carOf = (more: object = {}): Car => {
  const read = readCar(JSON.stringify({ ...file, ...more }));
  if (!read.ok) throw new Error(JSON.stringify(read.faults));
  return read.car;
};
const worldOf = (more: object = {}): LinesWorld => linesWorld(carOf(more), new Map());

const end = (ref: string): Way['ends'][0] => ({
  port: ref,
  makeUp: [],
  parts: [],
  angleDeg: 0,
  clockDeg: null,
  words: '',
  clockHow: '',
  tightening: [],
});

const way = (line: string, more: Partial<Way> = {}): Way => {
  const { from, to } = file.lines.find((l) => l.id === line)!;
  return {
    rank: 1,
    feasible: (more.fails ?? []).length === 0,
    cost: 0,
    ends: [end(from), end(to)],
    joints: [],
    pieces: [
      {
        hose: 'ptfe-steel-4',
        cutLengthMm: 300,
        allowanceMm: [-5, 15],
        odMm: 10,
        minBendRadiusMm: 50,
        tightestBendMm: 80,
        endToEndDeg: null,
      },
    ],
    clamps: [],
    bodies: [],
    gaps: [],
    fails: [],
    notes: [],
    reasons: [],
    ...more,
  };
};

const plan = (ways: Readonly<Record<string, Way>>, more: Partial<Planned> = {}): Planned => ({
  lines: Object.entries(ways).map(([line, made]) => ({ line, taken: made.feasible ? made : null, best: made })),
  lineGaps: [],
  takenUp: 0,
  stopped: false,
  ...more,
});

const turbineGap: Way['gaps'][0] = {
  part: 'turbine',
  class: 'hot',
  gapMm: 36,
  worstMm: 28,
  bestMm: 44,
  keepOffMm: 150,
  near: false,
  atMm: [600, 200, 200],
  source: 'common practice, bare hot parts',
};

const byId = (list: readonly Snag[], id: string): Snag =>
  list.find((snag) => snag.id === id) ?? expect.fail(`no ${id} in ${list.map((s) => s.id).join(', ')}`);

describe('snags', () => {
  it('a refused line says the number, the spread, the limit, where that comes from, and what would cure it', () => {
    const fails: Way['fails'] = [
      {
        limit: 'keep-off',
        valueMm: 36,
        limitMm: 150,
        part: 'turbine',
        atMm: [600, 200, 200],
        text: 'passes turbine at 36 mm; it wants 150',
      },
    ];
    const snag = byId(snags(worldOf(), plan({ O8: way('O8', { fails, gaps: [turbineGap] }) })), 'O8-keep-off-turbine');
    expect(snag).toEqual({
      id: 'O8-keep-off-turbine',
      kind: 'keep-off',
      level: 'stop',
      question: 'fit',
      line: 'O8',
      part: 'turbine',
      text: 'O8 passes the turbine housing at 36 mm (28 to 44); wants 150.',
      value: 36,
      limit: 150,
      unit: 'mm',
      source: 'common practice, bare hot parts',
      atMm: [600, 200, 200],
      cures: [
        // hand: keep-offs 50 behind a shield; 50 - 36 = 14 short; the turbine's axis stands at Y 300, the place at Y 200: away is left
        'a shield or blanket on the turbine housing ("shielded": true, with your reason): keep-off 50 mm instead of 150; that leaves 14 mm short',
        "move the turbine housing 114 mm right, or the line's ports as far left",
      ],
    });
  });

  it('beside a port its own near setting is a cure', () => {
    const fails: Way['fails'] = [
      { limit: 'keep-off', valueMm: 42.4, limitMm: 150, part: 'turbine', atMm: [700, 150, 200], text: '' },
    ];
    const { cures } = byId(snags(worldOf(), plan({ O8: way('O8', { fails }) })), 'O8-keep-off-turbine');
    // hand: 100 mm from turbo.oil
    expect(cures[0]).toBe(
      'if less will do beside turbo.oil, say so on that port, with your reason: "near": { "parts": ["turbine"], "mm": 100, "keepOffMm": 42 }',
    );
  });

  it('a sleeve is never a cure', () => {
    const fails: Way['fails'] = [
      {
        limit: 'temperature',
        value: 150,
        limitValue: 121,
        unit: '°C',
        text: 'hose stands 121 °C, what runs in it reaches 150 °C',
      },
      { limit: 'keep-off', valueMm: 36, limitMm: 150, part: 'turbine', atMm: [600, 200, 200], text: '' },
    ];
    const list = snags(worldOf(), plan({ O7: way('O7', { fails }) }));
    expect(list.flatMap((snag) => snag.cures).join(' ')).not.toMatch(/sleeve/);
    expect(byId(list, 'O7-temperature').cures.at(-1)).toBe(
      '150 °C is the usual figure for oil-drain: if you know your own, give the line a temperatureC',
    );
  });

  it.each([
    [
      { limit: 'bend', valueMm: 38, limitMm: 50, text: 'bends to 38 mm; ptfe allows 50 mm' },
      'O8 bends to 38 mm; ptfe allows 50 mm.',
      'fit',
    ],
    [
      { limit: 'fall', valueMm: 12, limitMm: 0, text: 'rises by 12 mm; it must not' },
      'O8 rises by 12 mm; it must not.',
      'flow',
    ],
    [{ limit: 'mating', text: 'block.feed: no chain' }, 'O8: block.feed: no chain.', 'buy'],
    [
      { limit: 'vacuum', value: 0.7, limitValue: 0.3, unit: 'bar', text: 'hose stands 0.3 bar' },
      'O8: hose stands 0.3 bar.',
      'flow',
    ],
    [{ limit: 'reach', text: 'the hose does not reach' }, 'O8: the hose does not reach.', 'fit'],
    [
      { limit: 'keep-off', valueMm: -3, limitMm: 6, part: 'block', text: '' },
      'O8 runs 3 mm into the engine block; wants 6 mm clear of it.',
      'fit',
    ],
    [
      { limit: 'keep-off', valueMm: 5.96, limitMm: 6, part: 'block', text: '' },
      'O8 passes the engine block at 6.0 mm; wants 6.',
      'fit',
    ],
    [
      { limit: 'keep-off', valueMm: 1, limitMm: 3, part: 'line O7', text: '' },
      'O8 passes line O7 at 1 mm; wants 3.',
      'fit',
    ],
  ] as const)('sentence of %j', (fail, text, question) => {
    const [snag] = snags(worldOf(), plan({ O8: way('O8', { fails: [fail] }) }));
    expect(snag).toMatchObject({ level: 'stop', text, question, line: 'O8' });
    expect(snag!.source.length).toBeGreaterThan(3);
    expect(snag!.cures.length).toBeGreaterThan(0);
  });

  it('what a taken way leaves open keeps its level, and says the spread', () => {
    const notes: Way['notes'] = [
      {
        level: 'fix',
        code: 'keep-off-at-worst',
        text: '',
        value: 28,
        limit: 30,
        unit: 'mm',
        part: 'turbine',
        atMm: [600, 200, 200],
        source: 'set on the part',
      },
      {
        level: 'stop',
        code: 'touched-at-worst',
        text: '',
        value: -2,
        limit: 0,
        unit: 'mm',
        part: 'turbine',
        source: 'common-practice',
      },
      {
        level: 'fix',
        code: 'near-port',
        text: '',
        value: 36,
        limit: 150,
        unit: 'mm',
        part: 'turbine',
        source: 'near a port',
      },
      {
        level: 'fix',
        code: 'short-of-slack',
        text: 'only 2.0 % of the hose is spare',
        value: 2,
        limit: 4,
        unit: '%',
        source: 'faa-ac-43-13-1b',
        cures: ['a bend more on the way'],
      },
    ];
    const list = snags(worldOf(), plan({ O8: way('O8', { notes, gaps: [{ ...turbineGap, keepOffMm: 30 }] }) }));
    expect(byId(list, 'O8-keep-off-at-worst-turbine')).toMatchObject({
      level: 'fix',
      text: 'O8 passes the turbine housing at 36 mm (28 to 44); wants 30 also at worst.',
      value: 28,
      limit: 30,
    });
    expect(byId(list, 'O8-touched-at-worst-turbine')).toMatchObject({
      level: 'stop',
      text: 'O8 passes the turbine housing at 36 mm (-2 to 44): at worst they touch.',
    });
    expect(byId(list, 'O8-near-port-turbine')).toMatchObject({
      level: 'fix',
      text: 'O8 has the turbine housing at 36 mm beside its port; away from a port it wants 150.',
    });
    expect(byId(list, 'O8-short-of-slack')).toMatchObject({
      cures: ['a bend more on the way'],
      source: expect.stringContaining('FAA AC 43.13-1B'),
    });
  });

  it('brackets, fittings that go in first and dimensions to measure: one note each a line', () => {
    const early = { adapters: [{ id: 'boss-4-flare-4', before: true }] };
    const made = { ...end('turbo.oil'), makeUp: ['boss-4-flare-4', 'end-crimped-ptfe-smooth-4-0'] };
    const clamp = (alongMm: number, bracket: boolean): Way['clamps'][0] => ({
      alongMm,
      atMm: [alongMm, 0, 0],
      on: 'chassis',
      bracket,
    });
    const list = snags(
      worldOf({ catalogue: early }),
      plan({
        O8: way('O8', {
          ends: [end('block.feed'), made],
          clamps: [clamp(100, true), clamp(200, false), clamp(400, true)],
        }),
      }),
    );
    expect(byId(list, 'O8-brackets')).toMatchObject({
      level: 'note',
      question: 'cut',
      value: 2,
      text: "O8 wants 2 brackets to clamp it to, 100, 400 mm along from block.feed: nothing fixed is within a clip's reach.",
    });
    expect(byId(list, 'O8-first-turbo-oil')).toMatchObject({
      level: 'note',
      part: 'turbo',
      text: expect.stringContaining('must be in turbo.oil before the turbo centre housing is mounted.'),
    });
    expect(list.filter((snag) => snag.id.startsWith('O8-measure'))).toHaveLength(1);
    expect(byId(list, 'O8-measure').text).toContain('end-crimped-ptfe-smooth-4-0');
  });

  it('lines through a panel want their gaps closed', () => {
    expect(byId(snags(worldOf(), plan({})), 'bulkhead-seal')).toMatchObject({
      level: 'note',
      part: 'bulkhead',
      text: 'O9 passes through the main bulkhead: where it keeps fire or fumes out, close every gap round each of them.',
      value: 1,
    });
  });

  it('lines that come too near each other, made ones too; within the known 0.05 mm they do not', () => {
    const gap = (gapMm: number) => ({ a: 'O8', b: 'O7', gapMm, keepOffMm: 3, atMm: [1, 2, 3] as const });
    expect(byId(snags(worldOf(), plan({}, { lineGaps: [gap(1.24)] })), 'O8-keep-off-O7')).toMatchObject({
      level: 'stop',
      text: 'O8 and O7 pass each other at 1.2 mm; lines want 3.',
      value: 1.24,
      limit: 3,
      atMm: [1, 2, 3],
    });
    expect(byId(snags(worldOf(), plan({}, { lineGaps: [gap(-2)] })), 'O8-keep-off-O7').text).toBe(
      'O8 and O7 overlap by 2.0 mm; lines want 3.',
    );
    expect(snags(worldOf(), plan({}, { lineGaps: [gap(2.97)] })).some((snag) => snag.id === 'O8-keep-off-O7')).toBe(
      false,
    );
  });

  it('ports inside solids, parts without shape, lines made of which nothing is known, faulty catalogue rows', () => {
    const parts = [
      ...file.parts,
      { id: 'lump', class: 'fixed', shapes: [{ box: { minMm: [350, 100, 150], maxMm: [450, 200, 250] } }] },
      { id: 'ghost', class: 'fixed', shapes: [] },
    ];
    const lines = [{ ...file.lines[0]!, state: 'made' }];
    const list = snags(worldOf({ parts, lines, catalogue: { adapters: [{ id: 'mine' }] } }), plan({}));
    expect(list.filter((snag) => snag.level === 'stop').map((snag) => snag.text)).toEqual([
      'block.feed lies 50 mm inside lump: nothing can be screwed on there.',
    ]);
    expect(list[0]).toMatchObject({
      id: 'block-port-inside',
      part: 'block',
      value: 50,
      limit: 0,
      unit: 'mm',
      atMm: [400, 150, 200],
    });
    expect(byId(list, 'ghost-no-shape').level).toBe('note');
    expect(byId(list, 'O8-not-known').text).toContain('no way is taken');
    expect(byId(list, 'catalogue-1')).toMatchObject({
      level: 'fix',
      question: 'buy',
      text: expect.stringContaining('mine'),
    });
  });

  it('readings that do not agree are a fix', () => {
    const measured = {
      id: 'm',
      faces: [0, 0, 1],
      end: { type: 'orb', dash: 4 },
      measured: [{ xMm: 100 }, { xMm: 103 }, { xMm: 250 }, { yMm: 350 }, { zMm: 0 }],
    };
    const parts = [...file.parts, { id: 'odd', class: 'fixed', shapes: [], ports: [measured] }];
    const list = snags(worldOf({ parts }), plan({}));
    expect(list.find((snag) => snag.id.endsWith('-measured'))).toMatchObject({
      level: 'fix',
      text: expect.stringContaining('measure it again'),
    });
  });

  it('what other rooms found joins the list', () => {
    const found: ExtraFinding = {
      code: 'soak',
      level: 'stop',
      text: 'F1 cooks after switching off',
      value: 140,
      limit: 120,
      unit: '°C',
      source: 'common-practice',
      line: 'O8',
      question: 'cook',
      cures: ['move it'],
    };
    expect(snags(worldOf(), plan({}), { extra: [found] })[0]).toMatchObject({
      id: 'O8-soak',
      line: 'O8',
      question: 'cook',
      source: 'Common practice, no source (practice)',
      cures: ['move it'],
    });
  });

  it('a plan that was stopped says how far it came', () => {
    expect(byId(snags(worldOf(), plan({}, { stopped: true })), 'plan-stopped').text).toBe(
      'The plan was stopped: 0 of 3 lines are worked out.',
    );
  });

  it('what lies in the box under an id that no table has is told once, with the id most likely meant', () => {
    const box = [
      { id: 'cap-flare-12', qty: 1 },
      { id: 'bulkhead-nut-6', qty: 2 },
      { id: 'tube-19x0.9-stainless', qty: 1 },
      { id: 'turbo', qty: 1 },
    ];
    const ids = (more: object) => snags(worldOf(more), plan({})).filter(({ kind }) => kind === 'box-unknown');
    expect(ids({ box })).toEqual([]);
    const strange = [...box, { id: 'cap-12', qty: 1 }, { id: 'o-rnig-910', qty: 4 }, { id: 'old-radio', qty: 1 }];
    expect(ids({ box: strange }).map(({ level, text }) => [level, text])).toEqual([
      [
        'note',
        'In the box are cap-12 (nearest: cap-flare-12), o-rnig-910 (nearest: o-ring-910), old-radio, which no table of parts names: nothing takes it from there.',
      ],
    ]);
    const own = { id: 'old-radio', name: 'Old radio', dash: 6, boreMm: 8, odMm: 14, minBendRadiusMm: 60 };
    expect(ids({ box: [{ id: 'old-radio', qty: 1 }], catalogue: { hoses: [own] } })).toEqual([]);
  });

  it('the same point has the same id each time, and no two points share one', () => {
    const fails: Way['fails'] = [1, 2].map((n) => ({
      limit: 'keep-off',
      valueMm: n,
      limitMm: 6,
      part: 'block',
      text: '',
    }));
    const ids = (): string[] => snags(worldOf(), plan({ O8: way('O8', { fails }) })).map((snag) => snag.id);
    expect(ids()).toEqual(ids());
    expect(new Set(ids()).size).toBe(ids().length);
    expect(ids().slice(0, 2)).toEqual(['O8-keep-off-block', 'O8-keep-off-block-2']);
  });

  it('says neither word that is not for a tool to say', () => {
    const words = [
      ...snags(worldOf(), plan({ O8: way('O8') })).flatMap((snag) => [snag.text, snag.source, ...snag.cures]),
      ...cautionsFor(carOf()),
    ].join(' ');
    expect(words).not.toMatch(/\b(safe|legal)\b/i);
  });
});

describe('worst first', () => {
  const snag = (id: string, level: Snag['level'], value?: number, limit?: number, line?: string): Snag => ({
    id,
    kind: 'keep-off',
    level,
    question: 'fit',
    text: id,
    source: 'x',
    cures: [],
    ...(value === undefined ? {} : { value }),
    ...(limit === undefined ? {} : { limit }),
    ...(line === undefined ? {} : { line }),
  });

  it("stop, fix, note; within a level what misses its limit by the greater share; then the car's own order", () => {
    // hand: 36 of 50 misses 28 %, 10 of 100 misses 90 %, 120 of 100 bar 20 %, no number counts as wholly missed; -2 of 0 counts on 10 mm: 20 %
    const list = [
      snag('n2', 'note', 9, 0, 'O2'),
      snag('f-small', 'fix', 48, 50, 'O1'),
      snag('s-28', 'stop', 36, 50, 'O1'),
      snag('s-touch', 'stop', -2, 0, 'O2'),
      snag('s-none', 'stop', undefined, undefined, 'O2'),
      snag('s-90', 'stop', 10, 100, 'O2'),
      snag('s-20', 'stop', 120, 100, 'O1'),
      snag('n1', 'note', 1, 0, 'O1'),
      snag('f-big', 'fix', 10, 50, 'O2'),
      snag('n0', 'note'),
    ];
    expect(worstFirst(list, ['O1', 'O2']).map((s) => s.id)).toEqual([
      's-none',
      's-90',
      's-28',
      's-20',
      's-touch',
      'f-big',
      'f-small',
      'n1',
      'n2',
      'n0',
    ]);
    expect(worstFirst([...list].reverse(), ['O1', 'O2']).map((s) => s.id)).toEqual(
      worstFirst(list, ['O1', 'O2']).map((s) => s.id),
    );
  });

  it('share missed, by hand', () => {
    expect(brokenBy(snag('a', 'stop', 36, 50))).toBeCloseTo(0.28, 12);
    expect(brokenBy(snag('a', 'stop', -2, 0))).toBeCloseTo(0.2, 12);
    expect(brokenBy(snag('a', 'note'))).toBe(0);
  });
});

describe('words', () => {
  it('a part as it is spoken of', () => {
    const car = carOf();
    expect(partWords(car, 'turbine')).toBe('the turbine housing');
    expect(partWords(car, 'bulkhead')).toBe('the main bulkhead');
    expect(partWords(car, 'tank')).toBe('tank');
    expect(partWords(car, 'line O4')).toBe('line O4');
  });

  it('cautions follow what the car has, and always end with who comes first', () => {
    for (const duty of ['oil-suction', 'oil-vent'] as const)
      expect(lineCautions(carOf(), { ...carOf().lines[0]!, duty }, []).join(' ')).toContain('Oil runs hot');
    const cautions = cautionsFor(carOf());
    expect(cautions[0]).toContain('Oil runs hot');
    expect(cautions.some((text) => text.includes('Fuel'))).toBe(false);
    expect(cautions.at(-1)).toContain('qualified person');
    expect(
      cautionsFor(carOf({ lines: [{ ...file.lines[0]!, duty: 'fuel' }] })).some((text) => text.includes('Fuel')),
    ).toBe(true);
  });
});
