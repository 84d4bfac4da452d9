import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('..', import.meta.url));

/** One text file of the checkout, by its path from the root with forward slashes. */
export interface SourceFile {
  readonly path: string;
  readonly text: string;
}

/** Every file under the folder whose name ends so, in order of path; nothing when the folder is not there yet. */
export function sourceFiles(folder: string, endings: readonly string[]): readonly SourceFile[] {
  let names: string[];
  try {
    names = readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' });
  } catch (fault) {
    if ((fault as NodeJS.ErrnoException).code === 'ENOENT') return [];
    throw fault;
  }
  return names
    .filter((name) => endings.some((ending) => name.endsWith(ending)))
    .map((name) => join(root, folder, name))
    .sort()
    .map((file) => ({ path: relative(root, file).replaceAll('\\', '/'), text: readFileSync(file, 'utf8') }));
}

/** The files with these paths; a missing one is a fault. */
export function filesNamed(paths: readonly string[]): readonly SourceFile[] {
  return paths.map((path) => ({ path, text: readFileSync(join(root, path), 'utf8') }));
}
