import { mkdtempSync, readdirSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { TriangleMesh } from '#geometry';
import { pictureLevels } from '#intake';
import { KeptPictures, packed } from './kept-pictures.ts';

const folder = mkdtempSync(join(tmpdir(), 'fairlead-pictures-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A tetrahedron: lighter than any level, so that each of them is the scan itself. */
const mesh: TriangleMesh = {
  positions: Float64Array.from([0, 0, 0, 100, 0, 0, 0, 100, 0, 0, 0, 100]),
  indices: Uint32Array.from([0, 2, 1, 0, 1, 3, 1, 2, 3, 2, 0, 3]),
};
const bytesOf = packed({ mesh, errorMm: 0 }, 4);
const wanted = [bytesOf, bytesOf, bytesOf];

describe('how finely a scan is drawn', () => {
  let made = 0;
  const make = async (): Promise<readonly Uint8Array[]> => {
    made++;
    return (await pictureLevels(mesh)).map((level) => packed(level, 4));
  };

  it('is worked out once: a server that is started again reads it off the disk', async () => {
    const kept = join(folder, 'scan-pictures');
    const started = () => new KeptPictures(kept);
    expect([await started().levels('ab12 mm', make), made]).toEqual([wanted, 1]);
    expect([await started().levels('ab12 mm', make), made]).toEqual([wanted, 1]);
    // The same file read in another unit is another picture.
    expect([await started().levels('ab12 in', make), made]).toEqual([wanted, 2]);
    // Half a file is no picture.
    for (const name of readdirSync(kept)) truncateSync(join(kept, name), 40);
    expect([await started().levels('ab12 mm', make), made]).toEqual([wanted, 3]);
  });

  it('is worked out each time where nothing can be kept', async () => {
    // A file stands where the folder should be.
    const file = join(folder, 'a-file');
    writeFileSync(file, '');
    for (const place of [file, null]) expect(await new KeptPictures(place).levels('cd34 mm', make)).toEqual(wanted);
    expect(made).toBe(5);
  });
});
