import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { type DrawnLine, lineCard, palettes, wallMap } from '#book';
import { type Car, findLine } from '#car';
import { svgText } from '#paper';
import { catalogue } from '#standards';
import type { Command } from './command.ts';
import { CommandFault } from './command-fault.ts';
import { freshOption } from './kept-plans.ts';
import { lineNamed } from './line-named.ts';
import { writeWhole } from './out-file.ts';
import { outFolder } from './out-folder.ts';
import { planExit, type PlannedCar, plannedCar } from './planned-car.ts';
import { quoted } from './quoted.ts';
import { inchesOption } from './usual-options.ts';

const PAPERS = ['A2', 'A3'] as const;
type Paper = (typeof PAPERS)[number];

export const cards: Command = {
  name: 'cards',
  about: 'a card for each line and the wall map, as SVG files to print',
  operands: [{ name: 'CAR', about: 'the car file' }],
  options: [
    { name: 'out', value: 'FOLDER', about: 'where they go; made if it is not there' },
    { name: 'line', value: 'ID', about: 'the card of this line only' },
    { name: 'paper', value: 'SIZE', about: 'of the wall map: A2 (if not said) or A3' },
    inchesOption,
    freshOption,
  ],
  more: [
    'card-ID.svg for each line in state planned, A4; a refused line says so on its card. wall-map.svg with all lines that have a way.',
  ],
  async run(asked, terminal) {
    const [file = ''] = asked.operands;
    const folder = await outFolder(asked.value('out'), 'cards');
    const paper = paperNamed(asked.value('paper') ?? 'A2');
    const answer = await plannedCar(file, asked, terminal);
    const only = asked.value('line');
    if (only !== undefined) lineNamed(answer.car, only, file);
    const files = [
      ...cardFiles(answer, only, asked.has('inches')),
      ...(only === undefined ? [mapFile(answer, paper, asked.has('inches'))] : []),
    ];
    if (only !== undefined && files.length === 0)
      throw new CommandFault([
        `--line: ${quoted(only)} is ${findLine(answer.car, only)?.state ?? 'not planned'}; allowed: a line in state planned`,
      ]);
    await mkdir(folder, { recursive: true });
    for (const { name, text } of files) {
      writeWhole(join(folder, name), text);
      terminal.out(`${join(folder, name)}\n`);
    }
    return planExit(answer);
  },
};

interface Made {
  readonly name: string;
  readonly text: string;
}

function cardFiles({ car, planned }: PlannedCar, only: string | undefined, inches: boolean): Made[] {
  const shelf = catalogue(car.catalogue);
  return planned.lines.flatMap(({ line: id, taken, best }): Made[] => {
    const line = findLine(car, id);
    if (line === undefined || (only !== undefined && id !== only)) return [];
    const sheet = { number: car.lines.indexOf(line) + 1, of: car.lines.length };
    const card = lineCard(car, line, taken ?? best, shelf, { isTaken: taken !== null, sheet, inches });
    return [{ name: `card-${id}.svg`, text: svgText(card, palettes.paper) }];
  });
}

/** Planned lines as they were placed, made ones as they stand. */
function mapFile({ car, planned, input }: PlannedCar, paper: Paper, inches: boolean): Made {
  const lines = car.lines.flatMap((line): DrawnLine[] => {
    if (line.state !== 'planned')
      return line.taken === null || line.taken === undefined ? [] : [{ line, bodies: line.taken.bodies }];
    const way = planned.lines.find((row) => row.line === line.id)?.taken;
    return way === null || way === undefined
      ? []
      : [{ line, bodies: way.bodies, cutsMm: way.pieces.map((piece) => piece.cutLengthMm) }];
  });
  const refused = withoutWay(car, lines);
  return {
    name: 'wall-map.svg',
    text: svgText(wallMap(car, lines, { paper, meshes: input.meshes, refused, inches }), palettes.paper),
  };
}

const withoutWay = (car: Car, drawn: readonly DrawnLine[]): string[] =>
  car.lines.filter((line) => !drawn.some((row) => row.line === line)).map((line) => line.id);

function paperNamed(text: string): Paper {
  const found = PAPERS.find((paper) => paper === text.toUpperCase());
  if (found === undefined) throw new CommandFault([`--paper: ${quoted(text)}; allowed: ${PAPERS.join(', ')}`]);
  return found;
}
