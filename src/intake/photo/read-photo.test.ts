import { encode } from 'fast-png';
import fc from 'fast-check';
import jpeg from 'jpeg-js';
import { describe, expect, it } from 'vitest';
import { readExif } from './exif.ts';
import { readPhoto, upright } from './read-photo.ts';

const SEED = 4711;
const [W, H] = [240, 208];
const DATA = Uint8Array.from({ length: 4 * W * H }, (_, i) =>
  i % 4 === 3 ? 255 : (i * 7 + ((i >> 9) % 5) * 40) % 256,
);
const JPEG = new Uint8Array(jpeg.encode({ width: W, height: H, data: DATA }, 80).data);
const PNG = encode({ width: W, height: H, data: DATA, channels: 4, depth: 8 });

/** An Exif block by hand: orientation and, in its own part, the focal length for a full frame. */
function exif(orientation: number, focal: number): Uint8Array {
  const view = new DataView(new ArrayBuffer(44));
  view.setUint32(0, 0x4d4d002a);
  view.setUint32(4, 8);
  view.setUint16(8, 2);
  const entry = (at: number, tag: number, kind: number, value: number): void => {
    view.setUint16(at, tag);
    view.setUint16(at + 2, kind);
    view.setUint32(at + 4, 1);
    if (kind === 3) view.setUint16(at + 8, value);
    else view.setUint32(at + 8, value);
  };
  entry(10, 0x0112, 3, orientation);
  view.setUint16(18 + 4, 0x8769);
  entry(22, 0x8769, 4, 30);
  // the part of its own lies over the tail of the second entry's room
  const own = new DataView(new ArrayBuffer(60));
  new Uint8Array(own.buffer).set(new Uint8Array(view.buffer).subarray(0, 34));
  own.setUint32(30, 38);
  own.setUint16(38, 1);
  own.setUint16(40, 0xa405);
  own.setUint16(42, 3);
  own.setUint32(44, 1);
  own.setUint16(48, focal);
  return new Uint8Array(own.buffer);
}

function withExif(bytes: Uint8Array, block: Uint8Array): Uint8Array {
  const length = block.length + 8;
  return Uint8Array.from([
    0xff,
    0xd8,
    0xff,
    0xe1,
    length >> 8,
    length & 255,
    0x45,
    0x78,
    0x69,
    0x66,
    0,
    0,
    ...block,
    ...bytes.subarray(2),
  ]);
}

describe('reading a photo', () => {
  it('PNG comes back as it was written, JPEG in its size, near its light', async () => {
    const png = await readPhoto(PNG);
    expect(png.ok && Buffer.compare(png.image.rgba, DATA)).toBe(0);
    const jpg = await readPhoto(JPEG);
    if (!jpg.ok) throw new Error(jpg.fault);
    expect([jpg.image.widthPx, jpg.image.heightPx]).toEqual([W, H]);
    const mean = (rgba: Uint8Array): number => rgba.reduce((sum, value) => sum + value, 0) / rgba.length;
    expect(Math.abs(mean(jpg.image.rgba) - mean(DATA))).toBeLessThan(3);
  });

  it('is turned the right way up and takes the focal length', async () => {
    expect(readExif(exif(6, 26))).toEqual({ orientation: 6, focal35Mm: 26 });
    const found = await readPhoto(withExif(JPEG, exif(6, 26)));
    if (!found.ok) throw new Error(found.fault);
    expect([found.image.widthPx, found.image.heightPx, found.image.focal35Mm]).toEqual([H, W, 26]);
  });

  // hand: a stored picture of 2 x 3 pixels, a b / c d / e f, as each orientation of the standard shows it
  it.each([
    [1, 'ab cd ef'],
    [2, 'ba dc fe'],
    [3, 'fe dc ba'],
    [4, 'ef cd ab'],
    [5, 'ace bdf'],
    [6, 'eca fdb'],
    [7, 'fdb eca'],
    [8, 'bdf ace'],
  ])('orientation %i', (orientation, shown) => {
    const rgba = Uint8Array.from([...'abcdef'].flatMap((sign) => [sign.charCodeAt(0), 0, 0, 255]));
    const { widthPx, rgba: turned } = upright({ width: 2, height: 3, rgba, exif: { orientation } });
    const signs = Array.from({ length: 6 }, (_, i) => String.fromCharCode(turned[4 * i]!));
    const rows = Array.from({ length: 6 / widthPx }, (_, row) =>
      signs.slice(row * widthPx, (row + 1) * widthPx).join(''),
    );
    expect(rows.join(' ')).toBe(shown);
  });

  it.each([
    ['nothing', new Uint8Array(0), 'file: empty; allowed: a JPEG or PNG photo'],
    ['a letter', new TextEncoder().encode('Dear builder'), /neither JPEG nor PNG/],
    ['a cut JPEG', JPEG.subarray(0, JPEG.length - 400), /can't be decoded|no picture/],
    ['a cut PNG', PNG.subarray(0, PNG.length - 40), /cut short/],
    [
      'a small PNG',
      encode({ width: 8, height: 8, data: new Uint8Array(256), channels: 4, depth: 8 }),
      /8 x 8 pixels; allowed: 200/,
    ],
  ])('%s is one line', async (_, bytes, line) => {
    const found = await readPhoto(bytes);
    expect(found.ok ? '' : found.fault).toMatch(line);
    expect(found.ok ? '' : found.fault).not.toContain('\n');
  });

  it('a PNG whose data unpacks to more than its head says is refused before it is kept', async () => {
    const large = encode({ width: 700, height: 700, data: new Uint8Array(1_470_000), channels: 3, depth: 8 });
    const lying = large.slice();
    const view = new DataView(lying.buffer);
    view.setUint32(16, 250);
    view.setUint32(20, 250);
    const found = await readPhoto(lying);
    expect(found.ok ? '' : found.fault).toMatch(/more picture than its head says/);
  });

  it.each([
    ['JPEG', JPEG],
    ['PNG', PNG],
  ])(`damaged %s: a picture or one line, seed ${SEED}`, async (_, bytes) => {
    const hit = fc.record({
      at: fc.oneof(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: 0, max: 0.05, noNaN: true })),
      what: fc.oneof(fc.integer({ min: 0, max: 255 }), fc.constant('cut'), fc.constant('again')),
    });
    await fc.assert(
      fc.asyncProperty(fc.array(hit, { minLength: 1, maxLength: 4 }), async (hits) => {
        let bad = bytes.slice();
        for (const { at, what } of hits) {
          const place = Math.min(bad.length - 1, Math.floor(at * bad.length));
          if (what === 'cut') bad = bad.slice(0, Math.max(3, place));
          else if (what === 'again') bad = Uint8Array.from([...bad.subarray(0, place), ...bad.subarray(place >> 1)]);
          else bad[place] = what as number;
        }
        const found = await readPhoto(bad);
        if (found.ok) expect(found.image.rgba).toHaveLength(4 * found.image.widthPx * found.image.heightPx);
        else expect(found.fault).toMatch(/^[^\n]{5,300}; allowed: [^\n]+$/);
      }),
      { seed: SEED, numRuns: 40 },
    );
  });
});
