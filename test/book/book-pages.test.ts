import {
  bookPages,
  bookSheets,
  changedSheets,
  type Drawing,
  goneSheets,
  labelBoxes,
  panelPages,
  type PagePaper,
  type TextShape,
} from '#book';
import { describe, expect, it } from 'vitest';
import { demoInput, fullInput, kitInput, uglyInput } from './demo-book.ts';
import { pageFaults, wordsOf } from './page-faults.ts';

const pagesOf = (input: ReturnType<typeof demoInput>, paper: PagePaper, inches = false) =>
  bookPages(bookSheets(input, { paper, inches }), { paper, inches, day: '2026-11-26' });

const wordsIn = (pages: readonly Drawing[]): string =>
  pages.flatMap((page) => labelBoxes(page).map(({ text }) => text)).join(' ');

describe('every page of the book', () => {
  it.each([
    ['the demo', 'A4', 'mm', demoInput],
    ['the demo', 'A3', 'mm', demoInput],
    ['the demo', 'Letter', 'in', demoInput],
    ['the demo with all sheets', 'A4', 'mm', fullInput],
    ['the demo with all sheets', 'A3', 'in', fullInput],
    ['three ports and a tape', 'A4', 'mm', kitInput],
    ['a car with very long names', 'A4', 'mm', uglyInput],
    ['a car with very long names', 'Letter', 'mm', uglyInput],
  ] as const)(
    'has words of 9 points and more, all printed, none on another: %s, %s, %s',
    (_words, paper, unit, input) => {
      const pages = pagesOf(input(), paper, unit === 'in');
      expect(pages.length).toBeGreaterThan(5);
      expect(pages.flatMap(pageFaults)).toEqual([]);
    },
  );
});

describe('the check of a page', () => {
  const word = (text: string, x: number, y: number, size = 3.5, turnDeg = 0): TextShape => ({
    kind: 'text',
    at: [x, y],
    text,
    size,
    weight: 'regular',
    anchor: 'start',
    role: 'ink',
    turnDeg,
  });
  const faultsOf = (...shapes: TextShape[]) =>
    pageFaults({ title: 'p', description: '', unit: 'mm', width: 210, height: 297, shapes });

  it('finds what is small, off the page or on another word, and no more', () => {
    expect(faultsOf(word('one', 20, 20), word('two', 20, 25))).toEqual([]);
    expect(faultsOf(word('tiny', 20, 20, 3))).toEqual(['p: 8.50 pt: tiny']);
    expect(faultsOf(word('out', 8, 20))).toEqual(['p: off the page: out']);
    expect(faultsOf(word('one', 20, 20), word('two', 22, 21))).toEqual(['p: lie on each other: one | two']);
    // Upright beside it, and upright across it.
    expect(faultsOf(word('beside', 20, 40), word('upright', 19, 40, 3.5, 90))).toEqual([]);
    expect(faultsOf(word('across', 20, 40), word('upright', 24, 44, 3.5, 90))).toHaveLength(1);
  });
});

const withStop = (text: string) => ({
  ...demoInput(),
  snags: [{ ...demoInput().snags[0]!, line: 'B1', level: 'stop' as const, text }],
});

describe('the book of the demo', () => {
  const sheets = bookSheets(demoInput(), { paper: 'A4' });
  const textOf = (code: string): string => {
    return wordsIn(sheets.filter((sheet) => sheet.code === code).flatMap((sheet) => sheet.pages));
  };

  it('says on every page how places and clocks are read', () => {
    const pages = sheets.filter(({ code }) => code !== 'map').flatMap((sheet) => sheet.pages);
    for (const page of pages) expect(wordsIn([page]), page.title).toContain('clocks: looking into the port');
    expect(textOf('map')).toContain('clocks: looking into the port');
  });

  it('lists its sheets with the pages on which they begin', () => {
    const all = sheets.flatMap((sheet) => sheet.pages.map(() => sheet.code));
    for (const code of ['read', 'leak', 'runs', 'index'])
      expect(textOf('book')).toMatch(new RegExp(`${code} .*? ${all.indexOf(code) + 1}\\b`, 'u'));
  });

  it('has a card for each line, and says of a refused one that it is not to be made', () => {
    for (const { line, isTaken, way } of demoInput().lines) {
      const text = textOf(line.id);
      if (isTaken) for (const piece of way!.pieces) expect(text).toContain(`${Math.round(piece.cutLengthMm)} mm`);
      else expect(text).toContain('No way is taken yet');
    }
  });

  // hand: 1.5 x 9 bar = 13.5, 1.5 x 5 = 7.5, 1.5 x 1.3 = 1.95.
  it.each([
    ['O2', '13.5 bar (1.5 × 9.00 bar)'],
    ['F3', '7.50 bar (1.5 × 5.00 bar)'],
    ['C1', '1.95 bar (1.5 × 1.30 bar)'],
  ])('proves %s at one and a half times what it works at', (line, words) => {
    const { rows } = sheets.find(({ code }) => code === 'leak')!;
    const row = rows!.find((cells) => cells[1]!.startsWith(`${line} `))!;
    expect(row[2]).toBe(words);
  });

  it('opens bleeds from low to high', () => {
    const { rows } = sheets.find(({ code }) => code === 'fill')!;
    const heights = rows!.flatMap((cells) => /^(-?\d+) mm high/u.exec(cells[2]!)?.[1] ?? []).map(Number);
    expect(heights.length).toBeGreaterThan(1);
    expect(heights).toEqual(heights.toSorted((a, b) => a - b));
  });

  it('prints panels at full size only where that is wished, on the very pages of the panel command', () => {
    const whole = bookSheets(demoInput(), { paper: 'A4', fullSize: true }).find(({ code }) => code === 'PN1')!;
    const scaled = sheets.find(({ code }) => code === 'PN1')!;
    const [flat] = demoInput().panels.find(({ panel }) => panel.id === 'PN1')!.flats;
    const tiles = panelPages(flat!, { paper: 'A4', car: demoInput().car.name! });
    expect(tiles.length).toBeGreaterThan(4);
    expect(whole.pages).toEqual([...scaled.pages, ...tiles]);
  });

  it('has each list of a panel under heads with their units, rows of one width', () => {
    const { rows } = sheets.find(({ code }) => code === 'PN1')!;
    expect(rows).toContainEqual(['list', 'no.', 'x mm', 'y mm', 'Ø mm', 'for']);
    for (const code of ['PN1', 'PN5'])
      expect(new Set(sheets.find((sheet) => sheet.code === code)!.rows!.map(({ length }) => length))).toEqual(
        new Set([6]),
      );
  });

  it('has every bend of every tube in its rows', () => {
    const { rows } = sheets.find(({ code }) => code === 'tubes')!;
    const bends = demoInput().lines.flatMap(({ way, isTaken }) =>
      isTaken ? way!.pieces.flatMap((piece) => piece.bends ?? []) : [],
    );
    expect(rows!.slice(1).map((cells) => Number(cells[4]))).toEqual(
      bends.map(({ bendDeg }) => Number(bendDeg.toFixed(1))),
    );
  });

  it('says on a card what stops its line, first of what is open, and names joints for which no figure is held', () => {
    const input = withStop('B1 passes K1 at 3 mm; wants 25');
    const [card] = bookSheets(input, { paper: 'A4' }).filter(({ code }) => code === 'B1');
    const text = wordsIn(card!.pages);
    expect(text).toMatch(/Open points Stop: B1 passes K1 at 3 mm; wants 25/u);
    // The nuts of brakes are tightened by their makers' figures: no table here has one, and the card says so.
    expect(text).toMatch(/inverted[ -]flare.*: no figure is held here/u);
  });

  it('of who works in inches has no length in millimetres but the names of parts, on cards, order and how to read them', () => {
    const inInches = bookSheets(demoInput(), { paper: 'A4', inches: true });
    const told = inInches
      .filter(({ code, group }) => group === 'cards' || ['read', 'order', 'map'].includes(code))
      .flatMap(({ code, pages }) => pages.flatMap((page) => labelBoxes(page).map(({ text }) => `${code}: ${text}`)));
    expect(
      told.filter((text) => /from A: \d{3}|piece \d, \d+ mm|passes .* at \d+ mm|at \d+ mm on|millimetres/u.test(text)),
    ).toEqual([]);
    // hand: 816 mm from A is 32.13 in, to the sixteenth 32 1/8.
    expect(told.some((text) => text.startsWith('O1: clamps, from A: 32 1/8 in on floor'))).toBe(true);
    // hand: 9 bar over 0.0689476, 105 °C x 1.8 + 32, 49 L over 3.785412; a bead's 38 mm over 25.4.
    expect(told).toContain('O3: carries oil, pressure · to 131 psi · to 221 °F · 12.9 US gal/min');
    expect(
      told.filter((text) => /goes \d+ mm|straight \d+ mm|carries.*(?:bar|°C)|beyond.* mm| Nm/u.test(text)),
    ).toEqual([]);
    // hand: 210 Nm over 1.355818; published: US Army TM 55-1520-240-23-1 has a -4 nut at 100 to 120 lbf in.
    expect(told.some((text) => text.includes('to 155 lbf ft'))).toBe(true);
    expect(told.some((text) => text.includes('100 to 120 lbf in'))).toBe(true);
    // hand: 25 mm over 25.4, turned once.
    const stopped = withStop('B1 passes K1 at 3 mm (-50 to 56); wants 25.');
    const [b1] = bookSheets(stopped, { paper: 'A4', inches: true }).filter(({ code }) => code === 'B1');
    expect(wordsIn(b1!.pages)).toContain('B1 passes K1 at 0.1 in (-2.0 to 2.2); wants 1.0');
    // hand: 8.0 and 6.0 L over 3.785411784 L a US gallon.
    const levels = inInches.find(({ code }) => code === 'runs')!.rows!.filter(([section]) => section === 'Levels');
    expect(levels.map((cells) => cells[2])).toContain('2.11 US gal; never below 1.59 US gal');
  });

  it('leaves no two steps alone with the names on a last page', () => {
    const checks = sheets.filter(({ group }) => group === 'checks');
    expect(checks.filter(({ pages }) => pages.length > 1).length).toBeGreaterThan(2);
    for (const { code, pages } of checks) {
      const words = labelBoxes(pages.at(-1)!).map(({ text }) => text);
      expect(words, code).toContain('done by');
      expect(words.filter((text) => /^\d+$/u.test(text)).length, code).toBeGreaterThanOrEqual(3);
    }
    // Their steps move together where that saves a page: set as wide as can be, each of these three takes three pages.
    for (const code of ['leak', 'start', 'runs'])
      expect(checks.find((sheet) => sheet.code === code)!.pages, code).toHaveLength(2);
  });

  it('cuts nothing short on a tag', () => {
    expect(textOf('tags')).toContain('A: tank.out');
    expect(textOf('tags')).not.toContain('…');
  });

  it('has two tags a line', () => {
    const { rows } = sheets.find(({ code }) => code === 'tags')!;
    expect(rows!.slice(1)).toHaveLength(2 * demoInput().car.lines.length);
  });

  it('never says that a thing is safe or legal', () => {
    const words = sheets.flatMap((sheet) => sheet.pages).flatMap((page) => labelBoxes(page).map(({ text }) => text));
    expect(words.filter((text) => /\b(?:safe|legal)/iu.test(text))).toEqual([]);
    expect(textOf('leak')).toContain('a qualified person');
  });
});

describe('what the other rooms hand over', () => {
  const sheets = bookSheets(fullInput(), { paper: 'A4' });
  const rowsOf = (code: string) => sheets.find((sheet) => sheet.code === code)!.rows!;

  it('is a sheet each: strip-down, spanner room, rules, due', () => {
    expect(rowsOf('off-turbo')).toHaveLength(25);
    expect(
      rowsOf('reach')
        .slice(1)
        .map((cells) => cells[1]),
    ).toEqual(['no', 'tight', 'yes']);
    expect(
      rowsOf('rules-hill')
        .slice(1)
        .map((cells) => cells[2]),
    ).toEqual(['meets', 'does not meet', 'look']);
    expect(
      rowsOf('due')
        .slice(1)
        .map((cells) => cells[1]),
    ).toEqual(['due', '', 'carry 2 m']);
  });

  it('tells at each nut what is in the way and what lets a tool on, and which marks are felt for', () => {
    const text = wordsIn(sheets.find(({ code }) => code === 'reach')!.pages);
    expect(text).toContain('take the plenum off first');
    expect(text).toMatch(/Witness marks not seen from outside, covers off .*O3 filter\.out swivel nut/u);
  });

  it('says which way round things go on again', () => {
    const text = wordsIn(sheets.find(({ code }) => code === 'off-turbo')!.pages);
    expect(text).toContain('On again: orders that were found one way only manifold before tank');
  });

  it('tells dry-breaks that win the same in one row', () => {
    const { wins } = demoInput().offPlans!.find(({ id }) => id === 'pump')!;
    expect(wins.filter((row) => row.includes('dry-break'))).toEqual([
      expect.stringMatching(/^3 min less each: a dry-break where .*O1 at pump\.feed; .*O9 at cooler\.in/u),
    ]);
  });

  it('stands in the index of its lines', () => {
    expect(wordsIn(sheets.find(({ code }) => code === 'index')!.pages)).toMatch(/off-turbo, reach/u);
  });
});

describe('what changed', () => {
  it('is the card of the line, and the lists that it stands in', () => {
    const before = demoInput();
    const renamed = before.lines.map((own) =>
      own.line.id === 'O2' ? { ...own, line: { ...own.line, name: 'Pump to the new filter' } } : own,
    );
    const after = { ...before, lines: renamed };
    const wish = { paper: 'A4' } as const;
    expect(changedSheets(bookSheets(after, wish), bookSheets(before, wish)).map(({ code }) => code)).toEqual([
      'map',
      'O2',
      'leak',
      'start',
      'runs',
      'tags',
    ]);
    expect(changedSheets(bookSheets(before, wish), bookSheets(before, wish))).toEqual([]);
  });

  it('says each step once, and a little hose as it is cut, in the lengths of the book', () => {
    const line = {
      line: 'O1',
      verdict: 'remake',
      why: 'cut length 1135 → 1260 mm; clamps',
      steps: ['cut length 1135 → 1260 mm', 'turn it'],
    };
    const hose = { name: 'hose', unit: 'm', usedIn: ['O1'], from: ['O1'] };
    const buy = [0.028, 1.25].map((toBuy) => ({ ...hose, toBuy }));
    const comparison = { lines: [line], buy, surplus: [{ ...hose, qty: 0.254 }], fitsElsewhere: [], withoutWay: [] };
    const input = { ...demoInput(), against: { name: 'before', comparison } } as never;
    const textOf = (inches: boolean): string =>
      wordsIn(bookSheets(input, { paper: 'A4', inches }).find(({ code }) => code === 'change')!.pages);
    const text = textOf(false);
    expect(text.match(/cut length 1135/gu)).toHaveLength(1);
    expect(text).toContain('clamps; turn it');
    expect(text).toMatch(/28 mm .*1\.3 m .*254 mm/u);
    // hand: 1135 mm over 25.4 is 44.69 in, 1260 mm 49.61, 254 mm 10; 1.25 m over 0.3048 is 4.101, and what is bought is enough.
    expect(textOf(true)).toMatch(/cut length 44 11\/16 → 49 5\/8 in; clamps; turn it .*4\.2 ft .*10 in/u);
  });

  it('names the sheets that are no more, to be taken out of the binder', () => {
    const before = demoInput();
    const comparison = { lines: [], buy: [], surplus: [], fitsElsewhere: [], withoutWay: [] };
    const after = { ...before, panels: before.panels.slice(1), against: { name: 'before', comparison } } as never;
    const had = bookSheets(before, { paper: 'A4' });
    const all = bookSheets(after, { paper: 'A4' }, had);
    expect(goneSheets(all, had).map(({ code }) => code)).toEqual(['PN1']);
    expect(wordsIn(all.find(({ code }) => code === 'change')!.pages)).toMatch(
      /Take out of the binder .* PN1 Panel: Main bulkhead closing panel, upper/u,
    );
    expect(wordsIn(bookSheets(after, { paper: 'A4' })!.find(({ code }) => code === 'change')!.pages)).not.toContain(
      'binder',
    );
  });
});

/** Below this stands only how places are read, the day and the page [mm]; restated here, not taken from the program. */
const FOOT_MM = 24;
/** A page with less than this below its head looks like a mistake [share of its height]. */
const LEAST_FILLED = 0.25;

/** How far down a page its words go, as a share of its height. */
const filledTo = (page: Drawing): number =>
  Math.max(
    ...wordsOf(page)
      .flatMap(({ corners }) => corners.map(([, y]) => y))
      .filter((y) => y < page.height - FOOT_MM),
  ) / page.height;

describe('the sheets of the book', () => {
  it.each([
    ['A4', false],
    ['Letter', true],
    ['A3', false],
  ] as const)(
    'end with no page of a few rows, but cards, whose first page is filled: %s',
    (paper: PagePaper, inches) => {
      const sheets = bookSheets(fullInput(), { paper, inches }).filter(
        ({ group, pages }) => group !== 'cards' && pages.length > 1,
      );
      expect(sheets.length).toBeGreaterThan(5);
      for (const { code, pages } of sheets) expect(filledTo(pages.at(-1)!), code).toBeGreaterThan(LEAST_FILLED);
    },
  );

  const sheets = bookSheets(demoInput(), { paper: 'A4' });
  const pagesOf = (code: string): readonly Drawing[] => sheets.find((sheet) => sheet.code === code)!.pages;

  // Each of these took a second page for a few rows before its rows moved together.
  it.each(['O3', 'O6', 'C1', 'C6', 'A1', 'PN1', 'PN5'])('have all of %s on one page', (code) => {
    expect(pagesOf(code)).toHaveLength(1);
  });

  it('go on in a long cell of a table without a gap', () => {
    const [plan] = demoInput().offPlans!;
    const how = 'undone '.repeat(80);
    const long = { ...demoInput(), offPlans: [{ ...plan!, steps: [{ ...plan!.steps[0]!, how }] }] };
    const page = bookSheets(long, { paper: 'A4' }).find(({ code }) => code === `off-${plan!.id}`)!.pages[0]!;
    const rows = wordsOf(page).flatMap(({ text, corners }) =>
      text.startsWith('undone') ? [{ y: corners[0]![1] }] : [],
    );
    // More rows than are kept together on a page.
    expect(rows.length).toBeGreaterThan(12);
    const steps = rows.slice(1).map(({ y }, i) => y - rows[i]!.y);
    expect(Math.max(...steps) - Math.min(...steps)).toBeLessThan(0.01);
  });

  it('have no line called planned for which no way is taken', () => {
    const none = demoInput().lines.filter(({ isTaken }) => !isTaken);
    expect(wordsIn(pagesOf('index')).match(/no way yet/gu)).toHaveLength(none.length);
    expect(none.length).toBeGreaterThan(0);
  });

  it('tell joints that are tightened alike in one sentence, each with its own figures', () => {
    // O3 ends in a -12 and in a -10 boss: two bands of torque, one way of going about it.
    const text = wordsIn(pagesOf('O3'));
    expect(text).toMatch(/-12 O-ring boss port \(1 1\/16-12\): sources say 92 to 210 Nm; -10 O-ring boss port/u);
    expect(text.match(/one manual allows/gu)).toHaveLength(1);
  });

  it('say how a hose is held while its nut is turned only where it has one', () => {
    expect(wordsIn(pagesOf('O1'))).toContain('Hold the hose');
    // Silicone on beaded spigots, held by clamps.
    expect(wordsIn(pagesOf('C1'))).not.toContain('Hold the hose');
  });

  it('have no sheet with nothing on it where no line has a way, and count one thing as one', () => {
    const kit = bookSheets(kitInput(), { paper: 'A4' });
    expect(kit.map(({ code }) => code)).not.toContain('cuts');
    expect(kit.map(({ code }) => code)).not.toContain('leak');
    expect(wordsIn(kit.flatMap(({ pages }) => pages))).not.toMatch(
      /\b1 (?:lines|parts|panels|stops|fixes|notes)\b|\b0 clamps/u,
    );
  });

  it('give a line without a way its two ports, and room to write in what is worked out on the car', () => {
    const { car } = demoInput();
    const { line } = demoInput().lines.find(({ way }) => way === null)!;
    const text = wordsIn(pagesOf(line.id));
    for (const ref of [line.from, line.to]) {
      const [part, port] = ref.split('.');
      const own = car.parts.find(({ id }) => id === part)!.ports!.find(({ id }) => id === port)!;
      expect(text).toContain(own.atMm.join(', '));
    }
    for (const words of ['end A', 'end B', 'cut length', 'leak-checked']) expect(text).toContain(words);
  });
});
