import { mkdir, readFile, rename, writeFile } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import type { Way } from '#lines';

/** The least bad ways of a car's lines that found none. */
export interface TriedOfCar {
  readonly ways: ReadonlyMap<string, Way>;
  /** Goes up with each change. */
  readonly version: number;
}

const NONE: TriedOfCar = { ways: new Map(), version: 0 };

/**
 * The last tries of lines that found no way: results, so not in the car; kept beside the shelf, so that a refused line still says tomorrow
 * why. Losing them costs another try.
 */
export class Tried {
  private readonly known = new Map<string, TriedOfCar>();
  private readonly folder: string | null;

  /** @param folder - null: kept while the program runs */
  constructor(folder: string | null) {
    this.folder = folder;
  }

  /** A folder of its own beside it; null where nothing is kept. */
  beside(name: string): string | null {
    return this.folder === null ? null : join(dirname(this.folder), name);
  }

  async of(id: string): Promise<TriedOfCar> {
    const had = this.known.get(id);
    if (had !== undefined) return had;
    const read = await this.read(id);
    this.known.set(id, read);
    return read;
  }

  /** Refused lines with their least bad ways, and lines that have found one since. */
  async note(id: string, refused: ReadonlyMap<string, Way>, found: readonly string[]): Promise<void> {
    const { ways, version } = await this.of(id);
    const next = new Map(ways);
    for (const line of found) next.delete(line);
    for (const [line, way] of refused) next.set(line, way);
    this.known.set(id, { ways: next, version: version + 1 });
    if (this.folder === null) return;
    await mkdir(this.folder, { recursive: true });
    const beside = `${this.file(id)}.${process.pid}.new`;
    await writeFile(beside, JSON.stringify({ format: FORMAT, ways: [...next] }));
    await rename(beside, this.file(id));
  }

  private file(id: string): string {
    return join(this.folder!, `${encodeURIComponent(id)}.json`);
  }

  private async read(id: string): Promise<TriedOfCar> {
    if (this.folder === null) return NONE;
    try {
      const { format, ways } = JSON.parse(await readFile(this.file(id), 'utf8')) as {
        format: unknown;
        ways: [string, Way][];
      };
      return format === FORMAT ? { ways: new Map(ways), version: 1 } : NONE;
    } catch {
      // Not there, or half a file: the lines are tried again.
      return NONE;
    }
  }
}

/** Another number where what is kept changes its shape. */
const FORMAT = 1;
