import { mkdir } from 'node:fs/promises';
import { basename, extname, join } from 'node:path';
import { bookBesidesNuts, type BookKnown, bookOf, carWithTaken, takenAsMade } from '#answers';
import {
  bookPages,
  type BookSheet,
  bookSheets,
  changedSheets,
  goneSheets,
  PAGE_PAPERS,
  type PagePaper,
  palettes,
} from '#book';
import { type CarInput, crewBookNuts, crewPlan } from '#crew';
import { linesWorld, type LinesWorld, type Way } from '#lines';
import { pdfBytes, svgText } from '#paper';
import { nearestName } from '#sources';
import { csvText } from '#stock';
import { carOnFile, type CarOnFile } from './car-on-file.ts';
import type { Asked, Command } from './command.ts';
import { CommandFault } from './command-fault.ts';
import { exitCode } from './exit-code.ts';
import { freshOption, keptPlans, tellKept } from './kept-plans.ts';
import { outFile, writeWhole } from './out-file.ts';
import { outFolder } from './out-folder.ts';
import { threads } from './planned-car.ts';
import { progress } from './progress.ts';
import { quoted } from './quoted.ts';
import type { Terminal } from './terminal.ts';
import { inchesOption } from './usual-options.ts';

export const book: Command = {
  name: 'book',
  about: 'the papers: cards, wall map, heights, order, check sheets and the rest, to print',
  operands: [{ name: 'CAR', about: 'the car file' }],
  options: [
    { name: 'out', value: 'FILE', about: 'a .pdf, or FOLDER/ for each sheet by itself as SVG and its lists as CSV' },
    { name: 'paper', value: 'SIZE', about: `${PAGE_PAPERS.join(', ')}; A4 if not said` },
    {
      name: 'only',
      value: 'SHEETS',
      about: 'these sheets, with commas: O1,leak or a group (cards, checks ...); changed: see --against',
    },
    {
      name: 'against',
      value: 'OTHER',
      about: 'the car as it was: adds the change sheet; with --only changed only what is otherwise',
    },
    { name: 'full-size', about: 'panels at full size too, in tiles' },
    { name: 'plan', about: 'work out the lines that have no way, though others have one' },
    { name: 'as-it-stands', about: 'plan nothing: lines without a way stay without' },
    { name: 'day', value: 'DAY', about: 'printed on the sheets; today if not said' },
    inchesOption,
    freshOption,
  ],
  more: [
    'Ways taken in CAR count as taken. Where no line has one, all are planned first; where only some have none, these have a card that says so, unless --plan is said. The same car, options and day give the same bytes.',
  ],
  async run(asked, terminal) {
    const [file = ''] = asked.operands;
    const wish = wishOf(asked);
    const place = await outPlace(asked.value('out'), file);
    const now = await carOnFile(file);
    const before = asked.value('against');
    const other = before === undefined ? undefined : await carOnFile(before);
    if (wish.only === 'changed' && other === undefined)
      throw new CommandFault(['--only: changed stands without --against; allowed: --only changed --against OTHER']);
    const world = await worldWithWays(now, asked, terminal);
    const earlier = other === undefined ? undefined : await worldWithWays(other, asked, terminal);
    const input = await bookOnThreads(world.world, now.input, threads(terminal), {
      tried: world.tried,
      day: wish.day,
      ...(earlier === undefined ? {} : { before: { name: earlierName(other!), world: earlier.world } }),
    });
    const told = progress('sheets', terminal, true);
    told.at(0, 2);
    const had =
      earlier === undefined ? [] : bookSheets(bookOf(earlier.world, { tried: earlier.tried, day: wish.day }), wish);
    const all = bookSheets(input, wish, had);
    const sheets = chosen(all, wish, had, file);
    told.at(1, 2);
    await place.write(sheets, { ...wish, isPart: sheets.length < all.length }, input.car.name ?? 'Car');
    told.at(2, 2);
    told.end();
    const pages = sheets.reduce((sum, sheet) => sum + sheet.pages.length, 0);
    terminal.err(
      `${sheets.length} ${sheets.length === 1 ? 'sheet' : 'sheets'}, ${pages} ${pages === 1 ? 'page' : 'pages'}\n`,
    );
    const gone = goneSheets(all, had).map(({ code }) => code);
    if (gone.length > 0) terminal.err(`no longer in the book, take out: ${gone.join(', ')}\n`);
    terminal.out(`${place.name}\n`);
    const isOpen = input.lines.some((own) => !own.isTaken) || input.snags.some((snag) => snag.level === 'stop');
    return isOpen ? exitCode.stop : exitCode.done;
  },
};

interface Wish {
  readonly paper: PagePaper;
  readonly inches: boolean;
  readonly fullSize: boolean;
  readonly only: string | undefined;
  readonly day: string;
}

function wishOf(asked: Asked): Wish {
  const text = asked.value('paper') ?? 'A4';
  const paper = PAGE_PAPERS.find((one) => one.toLowerCase() === text.toLowerCase());
  if (paper === undefined) throw new CommandFault([`--paper: ${quoted(text)}; allowed: ${PAGE_PAPERS.join(', ')}`]);
  const day = asked.value('day') ?? new Date().toISOString().slice(0, 10);
  if (!/^\d{4}-\d\d-\d\d$/u.test(day) || Number.isNaN(Date.parse(day)))
    throw new CommandFault([`--day: ${quoted(day)}; allowed: a day such as 2026-11-26`]);
  return { paper, inches: asked.has('inches'), fullSize: asked.has('full-size'), only: asked.value('only'), day };
}

/** Which sheets are wanted, by code or group; with `changed`, those that are otherwise than in the earlier car's book. */
function chosen(all: readonly BookSheet[], { only }: Wish, earlier: readonly BookSheet[], file: string): BookSheet[] {
  if (only === undefined) return [...all];
  if (only === 'changed') return changedSheets(all, earlier);
  const words = only.split(',').map((word) => word.trim());
  const known = [...new Set(all.flatMap((sheet) => [sheet.code, sheet.group]))];
  const faults = words
    .filter((word) => !known.includes(word))
    .map((word) => {
      const near = nearestName(word, known);
      return `--only: ${quoted(word)} is no sheet of ${quoted(file).slice(1, -1)}; allowed: ${known.join(', ')}, changed${near === undefined ? '' : ` (nearest: ${near})`}`;
    });
  if (faults.length > 0) throw new CommandFault(faults);
  return all.filter((sheet) => words.includes(sheet.code) || words.includes(sheet.group));
}

interface Place {
  readonly name: string;
  readonly write: (
    sheets: readonly BookSheet[],
    wish: Wish & { readonly isPart: boolean },
    car: string,
  ) => Promise<void>;
}

/** Looked at before the work begins. */
async function outPlace(wanted: string | undefined, car: string): Promise<Place> {
  if (wanted === undefined || wanted === '')
    throw new CommandFault(['book: --out is missing; allowed: --out FILE.pdf, or --out FOLDER/']);
  const ending = extname(wanted).toLowerCase();
  if (ending === '.pdf' || ending === '.svg' || ending === '.csv') {
    const out = await outFile(wanted, car);
    return { name: wanted, write: async (sheets, wish, name) => out.write(await oneFile(ending, sheets, wish, name)) };
  }
  if (ending !== '' && !/[\\/]$/u.test(wanted))
    throw new CommandFault([`--out: ${quoted(wanted)} ends in ${ending}; allowed: .pdf, .svg, .csv, or FOLDER/`]);
  const folder = await outFolder(wanted, 'book');
  return {
    name: folder,
    write: async (sheets, wish) => {
      await mkdir(folder, { recursive: true });
      for (const { name, text } of sheetFiles(sheets, wish)) writeWhole(join(folder, name), text);
    },
  };
}

async function oneFile(
  ending: '.pdf' | '.svg' | '.csv',
  sheets: readonly BookSheet[],
  wish: Wish & { readonly isPart: boolean },
  car: string,
): Promise<string | Uint8Array> {
  const pages = bookPages(sheets, wish);
  if (ending === '.pdf') return pdfBytes(pages, { title: `${car}: the book`, palette: palettes.paper });
  const listed = sheets.filter((sheet) => sheet.rows !== undefined);
  if (ending === '.csv' && listed.length === 1) return csvText(listed[0]!.rows!);
  if (ending === '.svg' && pages.length === 1) return svgText(pages[0]!, palettes.paper);
  const have = ending === '.csv' ? `${listed.length} sheets with a list` : `${pages.length} pages`;
  throw new CommandFault([
    `--out: one ${ending} file holds one ${ending === '.csv' ? 'list' : 'page'}, here are ${have}; allowed: --only with one sheet, or FOLDER/`,
  ]);
}

const fileName = (code: string): string => code.replaceAll(/[^\p{L}\p{N}_-]/gu, '_');

function sheetFiles(sheets: readonly BookSheet[], wish: Wish & { readonly isPart: boolean }) {
  const names = new Map<string, number>();
  return sheets.flatMap((sheet) => {
    const same = names.get(fileName(sheet.code)) ?? 0;
    names.set(fileName(sheet.code), same + 1);
    const name = `${fileName(sheet.code)}${same === 0 ? '' : `-${sheet.group}`}`;
    const pages = bookPages([sheet], { ...wish, isPart: true });
    return [
      ...pages.map((page, i) => ({
        name: pages.length === 1 ? `${name}.svg` : `${name}-${i + 1}.svg`,
        text: svgText(page, palettes.paper),
      })),
      ...(sheet.rows === undefined ? [] : [{ name: `${name}.csv`, text: csvText(sheet.rows) }]),
    ];
  });
}

interface WithWays {
  readonly world: LinesWorld;
  /** The least bad ways of lines that found none. */
  readonly tried: ReadonlyMap<string, Way>;
}

/** The book's matter; the room for tools is worked out on a second thread meanwhile, where there may be one. */
async function bookOnThreads(world: LinesWorld, input: CarInput, hands: number | undefined, known: BookKnown) {
  if (hands === 1) return bookOf(world, known);
  const nuts = crewBookNuts({ ...input, car: world.car });
  return { ...bookBesidesNuts(world, known), nuts: await nuts };
}

/** The earlier car by its name and file, since both may have the same name. */
const earlierName = ({ car, file }: CarOnFile): string => `${car.name ?? 'the car'} (${basename(file)})`;

/** A car with all its ways: those taken as they are, the rest planned round them. */
async function worldWithWays(onFile: CarOnFile, asked: Asked, terminal: Terminal): Promise<WithWays> {
  const { car, input } = onFile;
  const open = car.lines.filter((line) => line.state === 'planned' && (line.taken ?? null) === null);
  const isBegun = car.lines.some((line) => (line.taken ?? null) !== null);
  if (open.length > 0 && isBegun && !asked.has('plan') && !asked.has('as-it-stands'))
    terminal.err(`${open.map(({ id }) => id).join(', ')}: no way taken; --plan works out what is missing\n`);
  if (open.length === 0 || asked.has('as-it-stands') || (isBegun && !asked.has('plan')))
    return { world: linesWorld(car, input.meshes), tried: new Map() };
  const kept = keptPlans(asked, terminal);
  const bars = {
    alone: progress('each line alone', terminal, true),
    together: progress('all together', terminal, true),
  };
  const answer = await crewPlan(
    { ...input, car: takenAsMade(car) },
    (part, done, total) => {
      bars[part].at(done, total);
      if (done >= total) bars[part].end();
      return true;
    },
    { hands: threads(terminal), kept },
  );
  tellKept(onFile.file, answer.keptAt, kept, terminal);
  const rows = answer.planned.lines;
  const tried = new Map<string, Way>(rows.filter((row) => row.taken === null).map((row) => [row.line, row.best]));
  const taken = carWithTaken(car, { lines: rows }, (name) => name);
  return { world: linesWorld(taken, input.meshes), tried };
}
