import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { basename, dirname, extname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Car } from '#car';
import { KeptAnswers } from '#crew';
import { ReadyCar, serve as openServer, ServeFault, type Serving } from '#server';
import { dataFolder, ShelfError } from '#shelf';
import { carOnFile } from './car-on-file.ts';
import type { Asked, Command, Option } from './command.ts';
import { CommandFault } from './command-fault.ts';
import { exitCode } from './exit-code.ts';
import { keptFolder } from './kept-plans.ts';
import { styleFor } from './style.ts';
import type { Terminal } from './terminal.ts';
import { colourOption } from './usual-options.ts';
import { wholeNumber } from './whole-number.ts';

export const shareOption: Option = {
  name: 'share',
  about: "opens the screen to the shop's network, with an access code",
};
/** In a window the server goes on until it is ended from outside. */
export const forever = new Promise<void>(() => {});
const USUAL_PORT = 4747;
const MOST_PORT = 65_535;
const demoFile = fileURLToPath(new URL('../../demo/fellside.json', import.meta.url));
const webFolder = fileURLToPath(new URL('../../out/web', import.meta.url));

export const serve: Command = {
  name: 'serve',
  about: 'the screen, on 127.0.0.1; CAR is put on the shelf first',
  operands: [{ name: 'CAR', about: 'the car file', isOptional: true }],
  options: [shareOption, colourOption],
  more: [
    'FAIRLEAD_PORT picks the port, FAIRLEAD_DATA the folder that cars are kept in.',
    'Cars, every change and the scans are kept in that folder; the car file itself stays as it is.',
  ],
  async run(asked, terminal) {
    const file = asked.operands[0];
    const brought = file === undefined ? null : await carWithScans(file);
    const serving = await opened(asked, terminal, () => carWithScans(demoFile));
    try {
      if (brought !== null) await putOnce(serving, brought, idOf(file!));
      tell(serving, asked, terminal, file);
      await (terminal.ends ?? forever);
    } finally {
      await serving.close();
    }
    return exitCode.done;
  },
};

/** A car file with its scans, as a shelf takes them. */
export async function carWithScans(file: string): Promise<ReadyCar> {
  const { car } = await carOnFile(file);
  return new ReadyCar(car, await scansOf(car, file));
}

/** The mesh files that a car names, as they lie beside it. */
export async function scansOf(car: Car, file: string): Promise<ReadonlyMap<string, Uint8Array>> {
  const scans = new Map<string, Uint8Array>();
  for (const part of car.parts)
    for (const { mesh } of part.shapes)
      if (mesh !== undefined && !scans.has(mesh.file))
        scans.set(mesh.file, await readFile(join(dirname(file), mesh.file)));
  return scans;
}

/** Opens shelf and server; what stands in the way is a fault of the command, in one line. */
export async function opened(asked: Asked, terminal: Terminal, demo: () => Promise<ReadyCar>): Promise<Serving> {
  const wished = terminal.env['FAIRLEAD_PORT'] ?? '';
  const port = wished === '' ? USUAL_PORT : wholeNumber(wished, 'FAIRLEAD_PORT', 0, MOST_PORT);
  const folder = keptFolder(terminal.env);
  const wish = {
    dataFolder: dataFolder(terminal.env),
    webFolder,
    isShared: asked.has('share'),
    demo: keptOnce(demo),
    ...(folder === undefined ? {} : { kept: new KeptAnswers(folder) }),
    log: (text: string) => terminal.err(`${text}\n`),
  };
  if (!existsSync(join(webFolder, 'index.html'))) terminal.err('the screen has not been built: npm start builds it\n');
  try {
    return await openServer({ ...wish, port });
  } catch (fault) {
    // The usual port is nobody's wish: where it is taken, any other does.
    if (fault instanceof ServeFault && wished === '') return openServer({ ...wish, port: 0 });
    if (fault instanceof ServeFault || fault instanceof ShelfError) throw new CommandFault([fault.message]);
    throw fault;
  }
}

function keptOnce<T>(make: () => Promise<T>): () => Promise<T> {
  let made: Promise<T> | null = null;
  return () => (made ??= make());
}

/** A car that was put on the shelf from this file before is there with all that was done to it since: it is not put there again. */
export async function putOnce(serving: Serving, ready: ReadyCar, id: string): Promise<void> {
  const cars = await serving.shelf.cars();
  if (!cars.some((car) => car.id === id)) await ready.putOn(serving.desk, FROM_FILE, id);
}

/** Who puts a car on the shelf that comes from the command line. */
const FROM_FILE = 'from the car file';

/** What a car file is called on the shelf. */
export const idOf = (file: string): string => basename(file, extname(file));

/** Says where the screen is, and where on it the car of the file. */
export function tell({ address, shopAddresses, code }: Serving, asked: Asked, terminal: Terminal, file?: string): void {
  const style = styleFor(asked, terminal);
  const lines = [`The screen: ${style.strong(address)}   (Ctrl-C ends it; nothing is lost)`];
  if (file !== undefined) lines.push(`This car:   ${address}/#/${encodeURIComponent(idOf(file))}`);
  if (code !== null) {
    lines.push(`In the shop:  ${shopAddresses.length === 0 ? 'no network found' : shopAddresses.join('  ')}`);
    lines.push(`Access code:  ${style.strong(code)}   Whoever has it can change every car on this shelf.`);
  }
  terminal.out(`${lines.join('\n')}\n`);
}
