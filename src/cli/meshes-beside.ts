import { createHash } from 'node:crypto';
import { mkdirSync } from 'node:fs';
import { readFile, realpath, stat } from 'node:fs/promises';
import { basename, dirname, extname, join, relative, resolve, sep } from 'node:path';
import type { Car } from '#car';
import { writeWhole } from './out-file.ts';

/** What the meshes of a car are called, seen from another car file. */
export interface MeshesBeside {
  readonly nameOf: (file: string) => string;
  /** Copies made, by their new names. */
  readonly copied: readonly string[];
}

/**
 * Names of a car's meshes seen from the file it is written to. A car file's meshes lie in or under its folder, so one that would
 * not is copied there: into `NAME-meshes/`, under a name that holds a hash of what is in it.
 */
export async function meshesBeside(car: Car, carFile: string, outFile: string): Promise<MeshesBeside> {
  const [from, to] = await Promise.all([realpath(dirname(resolve(carFile))), realpath(dirname(resolve(outFile)))]);
  const names = new Map<string, string>();
  const copied: string[] = [];
  const files = new Set(
    car.parts.flatMap((part) => part.shapes.flatMap((shape) => (shape.mesh === undefined ? [] : [shape.mesh.file]))),
  );
  for (const file of files) {
    const here = await realpath(join(from, file));
    const name = relative(to, here);
    const isUnder = name !== '' && name !== '..' && !name.startsWith(`..${sep}`) && resolve(to, name) === here;
    if (isUnder) names.set(file, slashed(name));
    else {
      const copy = await copiedBeside(here, to, outFile);
      names.set(file, copy.name);
      if (copy.isNew) copied.push(copy.name);
    }
  }
  return { nameOf: (file) => names.get(file) ?? file, copied };
}

const HASH_SIGNS = 10;

async function copiedBeside(mesh: string, folder: string, outFile: string): Promise<{ name: string; isNew: boolean }> {
  const bytes = await readFile(mesh);
  const mark = createHash('sha256').update(bytes).digest('hex').slice(0, HASH_SIGNS);
  const ending = extname(mesh);
  const stem = basename(outFile, extname(outFile));
  const name = join(`${stem}-meshes`, `${basename(mesh, ending)}-${mark}${ending}`);
  const target = join(folder, name);
  const standing = await stat(target).catch(() => undefined);
  if (standing?.size === bytes.length) return { name: slashed(name), isNew: false };
  mkdirSync(dirname(target), { recursive: true });
  writeWhole(target, bytes);
  return { name: slashed(name), isNew: true };
}

/** A car file reads the same on every system. */
const slashed = (name: string): string => name.split(sep).join('/');
