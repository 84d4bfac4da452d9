import { mkdir, readdir, readFile, rename, rm, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { type PictureLevel, PICTURE_TRIANGLES } from '#intake';

/** Another number where what is kept changes its shape, or levels are made otherwise. */
const FORMAT = 1;
/** Scans whose pictures are kept on the disk; those that were made first go. */
const MOST_SCANS = 48;
const HEAD_BYTES = 16;

/**
 * A level of a picture as it is sent and kept: uint32 points, uint32 triangles, uint32 triangles of the scan itself, float32 how far off it
 * in mm; then float32 points in mm in the file's axes, uint32 corners; little-endian.
 */
export function packed({ mesh: { positions, indices }, errorMm }: PictureLevel, triangles: number): Uint8Array {
  const out = new ArrayBuffer(HEAD_BYTES + 4 * positions.length + 4 * indices.length);
  new Uint32Array(out, 0, 3).set([positions.length / 3, indices.length / 3, triangles]);
  new Float32Array(out, 12, 1).set([errorMm]);
  new Float32Array(out, HEAD_BYTES, positions.length).set(positions);
  new Uint32Array(out, HEAD_BYTES + 4 * positions.length, indices.length).set(indices);
  return new Uint8Array(out);
}

/** As long as its head says. */
function isWhole(bytes: Uint8Array): boolean {
  if (bytes.length < HEAD_BYTES) return false;
  const [points = 0, triangles = 0] = new Uint32Array(bytes.slice(0, HEAD_BYTES).buffer, 0, 2);
  return bytes.length === HEAD_BYTES + 12 * points + 12 * triangles;
}

/** Levels of scans beside the shelf, from one run of the program to the next. Losing them costs working them out again. */
export class KeptPictures {
  private readonly folder: string | null;

  /** @param folder - null: none are kept */
  constructor(folder: string | null) {
    this.folder = folder;
  }

  /**
   * All levels, the lightest first: off the disk, or made and put there.
   *
   * @param key - what is in the scan, and its unit
   */
  async levels(key: string, make: () => Promise<readonly Uint8Array[]>): Promise<readonly Uint8Array[]> {
    const had = await this.read(key);
    if (had !== undefined) return had;
    const made = await make();
    // A disk that is full or may not be written costs making them again, no picture.
    await this.write(key, made).catch(() => undefined);
    return made;
  }

  /** Undefined where not all levels are there, or one is half a file. */
  private async read(key: string): Promise<readonly Uint8Array[] | undefined> {
    if (this.folder === null) return undefined;
    try {
      const levels = await Promise.all(PICTURE_TRIANGLES.map(async (_, level) => readFile(this.file(key, level))));
      return levels.every(isWhole) ? levels.map((level) => new Uint8Array(level)) : undefined;
    } catch {
      return undefined;
    }
  }

  private async write(key: string, levels: readonly Uint8Array[]): Promise<void> {
    if (this.folder === null) return;
    await mkdir(this.folder, { recursive: true });
    for (const [level, bytes] of levels.entries()) {
      const beside = `${this.file(key, level)}.${process.pid}.new`;
      await writeFile(beside, bytes);
      await rename(beside, this.file(key, level));
    }
    await this.clearOldest(this.folder);
  }

  private file(key: string, level: number): string {
    return join(this.folder!, `${key.replaceAll(/[^\w]/gu, '-')}-${FORMAT}-${level}.bin`);
  }

  private async clearOldest(folder: string): Promise<void> {
    const names = await readdir(folder);
    const most = MOST_SCANS * PICTURE_TRIANGLES.length;
    if (names.length <= most) return;
    const dated = await Promise.all(
      names.map(async (name) => ({ name, at: (await stat(join(folder, name))).mtimeMs })),
    );
    const oldest = dated.toSorted((a, b) => a.at - b.at).slice(0, names.length - most);
    await Promise.all(oldest.map(({ name }) => rm(join(folder, name), { force: true })));
  }
}
