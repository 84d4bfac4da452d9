import { execFileSync } from 'node:child_process';
import { type PagePaper, palettes, panelPages, panelSheet } from '#book';
import type { FlatPattern } from '#panels';
import { decode } from 'fast-png';
import { describe, expect, it } from 'vitest';
import { systemNeed } from '../../scripts/system-needs.mjs';
import { acrossAt, downAt, type Ink, inkOfPgm } from '../../test/panels/ink.ts';
import { lid } from '../../test/panels/shapes.ts';
import { pdfBytes } from './pdf-file.ts';
import { svgText } from './svg-text.ts';

/** 254 dots an inch are 10 a millimetre. */
const DOTS_PER_MM = 10;
const NEAR_MM = 0.1;

/** A rectangle with one round hole in its middle. */
const plate = (wide: number, high: number, diameterMm: number): FlatPattern => ({
  panel: 'P',
  name: 'Plate',
  sheet: '304',
  thicknessMm: 1,
  outline: [{ at: [0, 0] }, { at: [wide, 0] }, { at: [wide, high] }, { at: [0, high] }],
  cutOuts: [],
  holes: [{ at: [wide / 2, high / 2], diameterMm, for: 'x' }],
  slots: [],
  folds: [],
  meshes: [],
  seals: [],
  marks: [],
  words: [],
  corners: [],
});

async function pdfOf(pattern: FlatPattern, paper: PagePaper): Promise<Uint8Array> {
  return pdfBytes(panelPages(pattern, { paper }), { title: pattern.panel, palette: palettes.paper });
}

const pageOf = (pdf: Uint8Array, page: number): Ink =>
  inkOfPgm(
    execFileSync('pdftoppm', ['-gray', '-r', '254', '-f', String(page), '-l', String(page), '-singlefile', '-'], {
      input: pdf,
      maxBuffer: 1e9,
    }),
    DOTS_PER_MM,
  );

const near = (measured: number, wanted: number): void => {
  expect(Math.abs(measured - wanted), `${measured} mm, wanted ${wanted}`).toBeLessThan(NEAR_MM);
};

// second: poppler draws the page, and the dots are measured.
describe.skipIf(!systemNeed('poppler-utils').isMet)('a panel printed', () => {
  it.each(['A4', 'Letter'] as const)('is as long, as high and as round on %s as it is', async (paper) => {
    const ink = pageOf(await pdfOf(plate(100, 80, 40), paper), 2);
    // The panel lies in the middle of its tile: 10 mm margins, 24 mm strip at the foot.
    const [midX, midY] = [ink.width / 20, (ink.height / 10 - 24) / 2];
    const across = acrossAt(ink, midY);
    near(across.at(-1)!.atMm - across[0]!.atMm, 100);
    near(across.at(-2)!.atMm - across[1]!.atMm, 40);
    const down = downAt(ink, midX, 10, ink.height / 10 - 34);
    near(down.at(-1)!.atMm - down[0]!.atMm, 80);
    near(down.at(-2)!.atMm - down[1]!.atMm, 40);
    // Half-way round, too: the circle at 45 degrees.
    const slant = acrossAt(ink, midY + 20 * Math.SQRT1_2, midX - 30, midX + 30);
    near(slant.at(-1)!.atMm - slant[0]!.atMm, 40 * Math.SQRT1_2);
  });

  it('is as long over its joins as it is', async () => {
    const pdf = await pdfOf(plate(400, 80, 6), 'A4');
    // hand: A4 lying is 297 wide: margins 10, overlap 12, so joins are 265 apart; on two tiles 400 mm begin and end 65 inside the
    // outer joins.
    const [a, b] = [pageOf(pdf, 2), pageOf(pdf, 3)];
    expect([a.width, b.width].map((dots) => Math.floor(dots / DOTS_PER_MM))).toEqual([297, 297]);
    const y = (210 - 24) / 2 - 20;
    const edgeOnA = acrossAt(a, y, 78, 100)[0]!.atMm;
    const edgeOnB = acrossAt(b, y, 205, 230).at(-1)!.atMm;
    const crossOnA = acrossAt(a, 13, 270, 295);
    const crossOnB = acrossAt(b, 13, 10, 30);
    const [joinA, joinB] = [crossOnA[0]!.atMm, crossOnB[0]!.atMm];
    near(joinA - edgeOnA + (edgeOnB - joinB), 400);
  });

  it('bends its arcs as they are', async () => {
    // A corner rounded by 60 mm: 45 degrees round, its edge is 40 + 60 cos 45 from the left edge and 20 + 60 sin 45 up.
    const rounded: FlatPattern = {
      ...plate(100, 80, 6),
      outline: [
        { at: [0, 0] },
        { at: [100, 0] },
        { at: [100, 20], bulge: Math.tan(Math.PI / 8) },
        { at: [40, 80] },
        { at: [0, 80] },
      ],
    };
    const ink = pageOf(await pdfOf(rounded, 'A4'), 2);
    const midY = (297 - 24) / 2;
    const across = acrossAt(ink, midY + 40 - (20 + 60 * Math.SQRT1_2));
    near(across.at(-1)!.atMm - across[0]!.atMm, 40 + 60 * Math.SQRT1_2);
  });

  it('carries a square of 50 mm', async () => {
    const ink = pageOf(await pdfOf(plate(100, 80, 40), 'A4'), 1);
    const left = acrossAt(ink, 178, 8, 64);
    near(left.at(-1)!.atMm - left[0]!.atMm, 50);
  });
});

describe.skipIf(!systemNeed('librsvg2-bin').isMet)('a panel as SVG at full size', () => {
  it('is as long, as high and as round as it is', () => {
    const svg = svgText(panelSheet(plate(100, 80, 40)), palettes.paper);
    const png = decode(
      execFileSync('rsvg-convert', ['--dpi-x', '254', '--dpi-y', '254'], { input: svg, maxBuffer: 1e9 }),
    );
    const ink: Ink = {
      width: png.width,
      height: png.height,
      dotsPerMm: DOTS_PER_MM,
      dark: (x, y) => 255 - png.data[(y * png.width + x) * png.channels]!,
    };
    expect(png.width / DOTS_PER_MM).toBeCloseTo(Number(/width="([\d.]+)mm"/.exec(svg)![1]), 0);
    // Its upper and lower edge are the two level lines of 100 mm.
    const edges = Array.from({ length: ink.height }, (_, i) => (i + 0.5) / DOTS_PER_MM).filter((y) =>
      acrossAt(ink, y, 10, 140).some((s) => Math.abs(s.wideMm - 101) < 1.2),
    );
    const top = downAt(ink, 40, edges[0]! - 1, edges[0]! + 1)[0]!.atMm;
    const foot = downAt(ink, 40, edges.at(-1)! - 1, edges.at(-1)! + 1)[0]!.atMm;
    near(foot - top, 80);
    const across = acrossAt(ink, (top + foot) / 2, 10, 140);
    near(across.at(-1)!.atMm - across[0]!.atMm, 100);
    near(across.at(-2)!.atMm - across[1]!.atMm, 40);
  });
});

describe('a panel as PDF', () => {
  it('is the same bytes each time', async () => {
    const [one, two] = [await pdfOf(lid, 'A3'), await pdfOf(lid, 'A3')];
    expect(Buffer.compare(one, two)).toBe(0);
    expect(Buffer.from(one).toString('latin1')).not.toContain(String(new Date().getFullYear()));
  });

  it('takes any text', async () => {
    const name = '漢字 %%c "x" \' \\ \u0000 \uD800 \u2028 (((';
    const pdf = await pdfOf({ ...lid, name, panel: name, sheet: name }, 'A4');
    expect(Buffer.from(pdf.subarray(0, 5)).toString()).toBe('%PDF-');
  });
});
