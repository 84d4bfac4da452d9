import type { Page } from 'playwright-core';
import { type TriangleMesh, triangleMesh } from '#geometry';
import { PICTURE_TRIANGLES, stlBinary } from '#intake';
import { Screen } from '../../test/screen/screen.ts';

/** How a scan is drawn, as its part's paper says it. */
interface Drawn {
  readonly triangles: number;
  readonly ofTriangles: number;
  readonly errorMm: number;
}

/** What bringing in a scan and looking at it took; all times are wall time. */
export interface ScanShown {
  readonly triangles: number;
  readonly readMs: number;
  readonly shownMs: number;
  readonly first: Drawn;
  readonly near: Drawn;
  readonly far: Drawn;
}

const [ROUND, ALONG] = [700, 714];
const [RADIUS_MM, LENGTH_MM] = [200, 700];

/** A closed casing with ribs and dents, and the roughness of a scan: a million triangles and a few. */
function casing(): TriangleMesh {
  const positions: number[] = [];
  for (let j = 0; j <= ALONG; j++)
    for (let i = 0; i < ROUND; i++) {
      const [u, v] = [(2 * Math.PI * i) / ROUND, j / ALONG];
      const ribs = 0.1 * Math.sin(5 * u) * Math.sin(9 * v) + 0.01 * Math.sin(40 * u) * Math.cos(60 * v);
      const rough = 0.2 * Math.sin(12.9898 * i + 78.233 * j);
      const r = RADIUS_MM * (1 + ribs) + rough;
      positions.push(r * Math.cos(u), r * Math.sin(u), LENGTH_MM * v);
    }
  positions.push(0, 0, 0, 0, 0, LENGTH_MM);
  const indices: number[] = [];
  const [low, high] = [ROUND * (ALONG + 1), ROUND * (ALONG + 1) + 1];
  for (let i = 0; i < ROUND; i++) {
    const next = (i + 1) % ROUND;
    indices.push(low, next, i);
    for (let a = i, b = next; a < ROUND * ALONG; a += ROUND, b += ROUND)
      indices.push(a, b, a + ROUND, b, b + ROUND, a + ROUND);
    indices.push(high, ALONG * ROUND + i, ALONG * ROUND + next);
  }
  return triangleMesh(new Float64Array(positions), new Uint32Array(indices));
}

const FILE = 'scans/casing.stl';
const AT = { turnDeg: [0, 90, 0], atMm: [1200, 0, 300] };

/** A scan of a million triangles brought in, shown, and looked at from close by and from afar, in three dimensions. */
export async function scanShown(): Promise<ScanShown> {
  const screen = await Screen.open();
  try {
    const { address } = screen.serving;
    const ask = async (path: string, body: string | Uint8Array<ArrayBuffer>, type: string): Promise<unknown> => {
      const back = await fetch(`${address}/api/cars${path}`, {
        method: 'POST',
        body,
        headers: { 'content-type': type },
      });
      if (!back.ok) throw new Error(`bench: ${path}: ${await back.text()}`);
      return back.json();
    };
    const json = (path: string, body: unknown) => ask(path, JSON.stringify(body), 'application/json');
    const { id } = (await json('', { from: 'empty', name: 'Scan', who: 'Bench' })) as { id: string };
    const bytes = stlBinary(casing());
    const from = performance.now();
    const { triangles } = (await ask(
      `/${id}/scans?file=${FILE}&unit=mm`,
      bytes.slice(),
      'application/octet-stream',
    )) as { triangles: number };
    const readMs = performance.now() - from;
    const part = { id: 'casing', class: 'fixed', ports: [], shapes: [{ mesh: { file: FILE, unit: 'mm', ...AT } }] };
    await json(`/${id}/edits`, { base: 1, edits: [{ do: 'add-part', part }], who: 'Bench' });
    const { page } = await screen.person('Bench', { drawing: 'in 3D' });
    const asked = performance.now();
    await page.goto(`${address}/#/${id}/part/casing`);
    const first = await drawn(page, () => true);
    const shownMs = performance.now() - asked;
    const near = await drawn(page, (now) => now.triangles > PICTURE_TRIANGLES[1], '+');
    const far = await drawn(page, (now) => now.triangles <= PICTURE_TRIANGLES[0], '-');
    return { triangles, readMs, shownMs, first, near, far };
  } finally {
    await screen.close();
  }
}

const MOST_PRESSES = 60;

/** How the scan is drawn once that is as wanted; meanwhile the viewer presses a key. */
async function drawn(page: Page, isWanted: (now: Drawn) => boolean, key?: '+' | '-'): Promise<Drawn> {
  const said = page.getByText(/From here drawn with/u);
  await said.waitFor();
  for (let i = 0; i < MOST_PRESSES; i++) {
    const [shown, all, off] = ((await said.textContent()) ?? '').replaceAll(',', '').match(/\d+(?:\.\d+)?/gu) ?? [];
    const now = { triangles: Number(shown), ofTriangles: Number(all), errorMm: Number(off) };
    if (isWanted(now)) return now;
    if (key !== undefined) await page.locator('canvas').press(key);
    await page.waitForTimeout(300);
  }
  throw new Error(`bench: after ${MOST_PRESSES} keys the scan is drawn as before: ${await said.textContent()}`);
}
