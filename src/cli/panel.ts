import { type PanelAnswer, panelAnswers, panelsOf } from '#answers';
import { PAGE_PAPERS, type PagePaper } from '#book';
import type { Car } from '#car';
import { worldOf } from '#crew';
import { EDGE_MM, nestedPanels, type PanelLayout, type PanelNest, SPACING_MM } from '#panels';
import { nestFile, panelFile, type PanelFileWish } from '#paper';
import { lengthsIn, parseLengthMm } from '#units';
import { carOnFile } from './car-on-file.ts';
import type { Asked, Command } from './command.ts';
import { CommandFault } from './command-fault.ts';
import { exitCode } from './exit-code.ts';
import { outFile } from './out-file.ts';
import { endingOf } from './panel-files.ts';
import { panelNamed } from './panel-named.ts';
import { findingRows, nestRows, panelTable, windowRows } from './panel-rows.ts';
import { meshRows, type PanelUnderLoad, panelUnderLoad, sealRows, strengthRows } from './panel-strength.ts';
import { quoted } from './quoted.ts';
import { styleFor } from './style.ts';
import type { Terminal } from './terminal.ts';
import { colourOption, inchesOption, jsonOption } from './usual-options.ts';

export const panel: Command = {
  name: 'panel',
  about: 'flat patterns of the panels: a table, one as a file at full size, or all of them on sheets',
  operands: [
    { name: 'CAR', about: 'the car file' },
    { name: 'PANEL', about: 'id or name of a panel; absent: all of them', isOptional: true },
  ],
  options: [
    { name: 'out', value: 'FILE', about: 'the flat pattern as .dxf, .svg or .pdf, by the ending of the name' },
    { name: 'nest', about: 'all panels laid on the sheets of the car file, or on usual ones' },
    { name: 'paper', value: 'SIZE', about: `of a PDF: ${PAGE_PAPERS.join(', ')}; A4 if not said` },
    { name: 'spacing', value: 'LENGTH', about: `between panels on a sheet; ${SPACING_MM} mm if not said` },
    { name: 'edge', value: 'LENGTH', about: `from a sheet's edge to its panels; ${EDGE_MM} mm if not said` },
    { name: 'kerf', value: 'LENGTH', about: 'what saw or jet takes away outside each line; 0 if not said' },
    { name: 'in-openings', about: 'panels may lie in the openings of others' },
    jsonOption,
    inchesOption,
    colourOption,
  ],
  more: [
    'A PDF has the map of its tiles and the lists first, then every tile at full size: print at 100 %, measure the square.',
    'DXF and SVG keep what is cut, drilled, folded and marked apart; DXF is in mm and its arcs are arcs.',
  ],
  async run(asked, terminal) {
    const [file = '', word] = asked.operands;
    checkWords(asked, word);
    const paper = paperNamed(asked.value('paper') ?? 'A4');
    const out = asked.value('out');
    const target = out === undefined ? undefined : { ending: endingOf(out), ...(await outFile(out, file)) };
    const { car, input } = await carOnFile(file);
    const layouts = panelsOf(worldOf(input));
    const panels = panelAnswers(layouts);
    const wish: PanelFileWish = { car: car.name ?? 'Car', inches: asked.has('inches'), paper };
    if (asked.has('nest')) {
      const nest = nestOf(car, panels, asked);
      if (target !== undefined) await target.write(await nestFile(nest, target.ending, wish));
      terminal.out(nestAnswer(nest, asked, terminal));
      return nest.left.length > 0 ? exitCode.stop : exitCode.done;
    }
    const found = word === undefined ? undefined : panelNamed(panels, word, file).panel;
    // A split panel is all its pieces.
    const shown =
      found === undefined
        ? panels
        : panels.filter((one) => one.panel === found).map((one) => underLoad(layouts, panels, one));
    if (target !== undefined) {
      const flats = shown.flatMap((one) => one.flats);
      if (flats.length === 0)
        throw new CommandFault([`${file}: panel ${found} cannot be laid flat; allowed: a panel with a flat`]);
      await target.write(await panelFile(flats, target.ending, wish));
    }
    if (asked.has('json'))
      terminal.out(`${JSON.stringify(found === undefined ? { panels: shown.map(panelJson) } : oneJson(shown))}\n`);
    else terminal.out(text(shown, asked, terminal, found !== undefined));
    const isStopped = shown.some(({ findings }) => findings.some(({ level }) => level === 'stop'));
    return isStopped ? exitCode.stop : exitCode.done;
  },
};

/** A panel that is asked for by itself is worked out under its load too: a second and more, too long for all of them in a table. */
const underLoad = (layouts: readonly PanelLayout[], panels: readonly PanelAnswer[], one: PanelAnswer) =>
  panelUnderLoad(layouts[panels.indexOf(one)]!, one);

/** Options that do not go together are told before any work. */
function checkWords(asked: Asked, word: string | undefined): void {
  const fault = (why: string): CommandFault => new CommandFault([`panel: ${why}`]);
  if (asked.has('nest') && word !== undefined)
    throw fault(`--nest takes all panels, but ${quoted(word)} stands there; allowed: one of them`);
  if (asked.has('out') && word === undefined && !asked.has('nest'))
    throw fault('--out wants a PANEL, or --nest; allowed: panel CAR PANEL --out FILE, panel CAR --nest --out FILE');
  for (const option of ['spacing', 'edge', 'kerf', 'in-openings'])
    if (asked.has(option) && !asked.has('nest')) throw fault(`--${option} stands without --nest; allowed: with it`);
}

function paperNamed(word: string): PagePaper {
  const found = PAGE_PAPERS.find((paper) => paper.toLowerCase() === word.toLowerCase());
  if (found === undefined) throw new CommandFault([`--paper: ${quoted(word)}; allowed: ${PAGE_PAPERS.join(', ')}`]);
  return found;
}

const MOST_GAP_MM = 200;

function gapMm(asked: Asked, option: string, usual: number): number {
  const word = asked.value(option);
  if (word === undefined) return usual;
  const read = parseLengthMm(word);
  if (!read.ok) throw new CommandFault([`--${option}: ${read.fault}`]);
  if (read.value < 0 || read.value > MOST_GAP_MM)
    throw new CommandFault([`--${option}: ${quoted(word)}; allowed: 0 to ${MOST_GAP_MM} mm`]);
  return read.value;
}

function nestOf(car: Car, panels: readonly PanelAnswer[], asked: Asked): PanelNest {
  const flats = panels.flatMap((one) => one.flats);
  return nestedPanels(
    flats,
    (car.sheets ?? []).map(({ sheet, thicknessMm, sizeMm, qty }) => ({
      sheet,
      thicknessMm,
      sizeMm,
      ...(qty === undefined ? {} : { qty }),
    })),
    {
      spacingMm: gapMm(asked, 'spacing', SPACING_MM),
      edgeMm: gapMm(asked, 'edge', EDGE_MM),
      kerfMm: gapMm(asked, 'kerf', 0),
      inOpenings: asked.has('in-openings'),
    },
  );
}

function nestAnswer(nest: PanelNest, asked: Asked, terminal: Terminal): string {
  if (!asked.has('json'))
    return `${nestRows(nest, styleFor(asked, terminal), lengthsIn(asked.has('inches'))).join('\n')}\n`;
  const sheets = nest.sheets.map((one) => ({
    sheet: one.material,
    thicknessMm: one.thicknessMm,
    sizeMm: one.sizeMm,
    parts: one.parts.map(({ id, turnDeg, by }) => ({ panel: id, turnDeg, byMm: by })),
    partsMm2: one.partsMm2,
    ...(one.restMm === undefined ? {} : { restMm: one.restMm }),
    wasteShare: one.wasteShare,
  }));
  return `${JSON.stringify({ ...nest, sheets })}\n`;
}

/** One panel; of a split one its first piece, and all of them under `pieces`. */
const oneJson = (pieces: readonly PanelAnswer[]): object => ({
  ...panelJson(pieces[0]!),
  ...(pieces.length === 1 ? {} : { pieces: pieces.map(panelJson) }),
});

/** Numbers under names that say their unit; places of a flat stand in `flatsMm`. */
function panelJson({ openings, openCm2, freeCm2, holes, folds, flats, findings, ...rest }: PanelAnswer): object {
  return {
    ...rest,
    openings: { count: openings, openCm2, freeCm2 },
    holes: { count: holes },
    folds: { count: folds },
    flatsMm: flats,
    findings: findings.map(({ place, ...finding }) => ({
      ...finding,
      ...(place === undefined ? {} : { atMm: place }),
    })),
  };
}

function text(panels: readonly PanelUnderLoad[], asked: Asked, terminal: Terminal, isOne: boolean): string {
  if (panels.length === 0) return 'The car has no panels: enter them under "panels" in the car file (docs/paper.md).\n';
  const style = styleFor(asked, terminal);
  const lengths = lengthsIn(asked.has('inches'));
  const findings = panels.flatMap((one) => one.findings);
  const strength = panels.flatMap((one) => strengthRows(one, lengths));
  const windows = panels.flatMap((one) => windowRows(one, lengths));
  const meshes = panels.flatMap((one) => meshRows(one, lengths));
  const seals = isOne ? panels.flatMap((one) => sealRows(one, lengths)) : [];
  return `${[
    ...panelTable(panels, style, lengths),
    ...(windows.length === 0 ? [] : ['', 'Windows:', ...windows]),
    ...(meshes.length === 0 ? [] : ['', 'Mesh behind its windows:', ...meshes]),
    ...(seals.length === 0 ? [] : ['', 'Seals:', ...seals]),
    ...(strength.length === 0 ? [] : ['', ...strength]),
    ...(findings.length === 0 ? [] : ['', ...findingRows(findings, style, lengths, terminal.columns)]),
  ].join('\n')}\n`;
}
