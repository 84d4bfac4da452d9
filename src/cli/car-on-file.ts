import { readdir, readFile, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { type Car, faultLine, readCar } from '#car';
import { type CarInput, carInput } from '#crew';
import { loadCarMeshes } from '#intake';
import { nearestName } from '#sources';
import { CommandFault } from './command-fault.ts';
import { quoted } from './quoted.ts';

/** A car file as read, with its meshes in place. */
export interface CarOnFile {
  readonly file: string;
  readonly car: Car;
  readonly input: CarInput;
}

/** A car file is text that a builder can open; more than this is something else [bytes]. */
const MOST_BYTES = 100 * 1024 * 1024;

/** Reads a car file and every mesh it names; whatever is wrong with them is a fault, one line each. */
export async function carOnFile(file: string): Promise<CarOnFile> {
  const reading = readCar(await textOf(file));
  if (!reading.ok) throw new CommandFault(reading.faults.map((fault) => `${shownFile(file)}: ${faultLine(fault)}`));
  const { meshes, faults } = await loadCarMeshes(reading.car, dirname(file));
  if (faults.length > 0) throw new CommandFault(faults.map((fault) => `${shownFile(file)}: ${fault}`));
  return { file, car: reading.car, input: carInput(reading.car, meshes) };
}

/** The name of a file in a fault's line: without quotes, as it was typed. */
const shownFile = (file: string): string => quoted(file).slice(1, -1);

async function textOf(file: string): Promise<string> {
  const allowed = 'allowed: a car file (JSON)';
  try {
    const found = await stat(file);
    if (found.isDirectory()) throw new CommandFault([`${shownFile(file)}: is a folder; ${allowed}`]);
    if (!found.isFile()) throw new CommandFault([`${shownFile(file)}: is not a plain file; ${allowed}`]);
    if (found.size > MOST_BYTES) {
      throw new CommandFault([
        `${shownFile(file)}: has ${Math.round(found.size / 1e6)} MB; allowed: at most ${Math.round(MOST_BYTES / 1e6)} MB`,
      ]);
    }
    return new TextDecoder('utf-8', { fatal: true }).decode(await readFile(file));
  } catch (cause) {
    if (cause instanceof CommandFault) throw cause;
    if (cause instanceof TypeError && !('syscall' in cause))
      throw new CommandFault([`${shownFile(file)}: is not UTF-8 text; ${allowed}`]);
    throw new CommandFault([`${shownFile(file)}: ${whyNot(cause)}; ${await nearestFile(file)}${allowed}`]);
  }
}

/** "nearest: demo/fellside.json; ", of the car files beside the one that is not there. */
async function nearestFile(file: string): Promise<string> {
  const beside = await readdir(dirname(file)).catch((): string[] => []);
  const cars = beside.filter((name) => name.endsWith('.json'));
  const name = basename(file);
  const near = cars.find((car) => car === `${name}.json`) ?? nearestName(name, cars);
  return near === undefined ? '' : `nearest: ${shownFile(join(dirname(file), near))}; `;
}

const reasons: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  ENOTDIR: 'there is no such file',
  EACCES: 'may not be read',
  EPERM: 'may not be read',
  ENAMETOOLONG: 'the name is too long',
  ELOOP: 'links lead in a circle',
};

function whyNot(cause: unknown): string {
  const code = (cause as NodeJS.ErrnoException).code ?? 'unknown';
  return reasons[code] ?? `cannot be read (${code})`;
}
