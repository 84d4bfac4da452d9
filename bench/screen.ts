import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { gunzipSync, gzipSync } from 'node:zlib';
import { chromium } from 'playwright-core';
import { dragged, firstWayOf, followingWayOf, standing, waysOf } from '#answers';
import { applyEdit, type Car, readCar } from '#car';
import { shifted, type TriangleMesh } from '#geometry';
import { loadCarMeshes } from '#intake';
import { firstWay, lineWays, linesWorld, type LinesWorld, type Way } from '#lines';
import { plantedBay } from '../src/lines/planted/planted-bay.ts';
import { worldOfBay } from '../src/lines/planted/solved-bay.ts';
import { browserPath, launchOptions } from '../test/screen/find-browser.ts';
import { Screen } from '../test/screen/screen.ts';
import { type ScanShown, scanShown } from './screen/scan-shown.ts';

const title = 'the screen: what a builder waits for, on the demo car with its ways taken';

const root = fileURLToPath(new URL('..', import.meta.url));
const cpuMs = (): number => process.cpuUsage().user / 1000;
const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
const worst = (values: readonly number[]): number => Math.max(...values);

function timed(work: () => unknown): number {
  const from = cpuMs();
  work();
  return cpuMs() - from;
}

async function demo(): Promise<{ car: Car; meshes: ReadonlyMap<string, TriangleMesh> }> {
  const text = gunzipSync(readFileSync(`${root}test/screen/fellside-taken.json.gz`)).toString('utf8');
  const reading = readCar(text);
  if (!reading.ok) throw new Error('the taken demo car is no car');
  return { car: reading.car, meshes: (await loadCarMeshes(reading.car, `${root}demo`)).meshes };
}

/** Parts that a builder would shove about, and lines on them. */
const MOVED = ['tank', 'header', 'catch-tank', 'cooler', 'surge-pot'] as const;
const BAYS = 15;
const LINES = ['O1', 'O8', 'F1', 'F2', 'B1', 'O12'] as const;

async function run(): Promise<{ headers: string[]; rows: string[][]; goal: string }> {
  const { car, meshes } = await demo();
  const coldFirst = timed(() => firstWayOf(linesWorld(withoutWay(car, 'O8'), meshes), 'O8'));
  const cold = timed(() => waysOf(linesWorld(withoutWay(car, 'O8'), meshes), 'O8', 1));
  const world = linesWorld(car, meshes);
  standing(world);
  const judged = [0, 1, 2].map(() => timed(() => standing(world)));
  const drags = car.parts.flatMap((part) =>
    [10, 40].map((mm) => timed(() => dragged(world, part.id, shifted([mm, 0, 5])))),
  );
  const first = Array.from({ length: BAYS }, (_, seed) => {
    const bay = worldOfBay(plantedBay('medium', seed));
    const line = bay.car.lines[0]!;
    firstWay(bay, line, null);
    return timed(() => firstWay(bay, line, null) ?? lineWays(bay, line, null, 1));
  });
  const firsts = firstWays(car, meshes, world);
  const ready = LINES.map((id) => {
    const free = { ...world, car: withoutWay(car, id) };
    waysOf(free, id, 1);
    return timed(() => waysOf(free, id, 1));
  });
  const remade: number[] = [];
  const replanned: number[] = [];
  const following: number[] = [];
  let followed = 0;
  for (const id of MOVED.filter((part) => car.parts.some((row) => row.id === part))) {
    const edited = applyEdit(car, { do: 'move-part', part: id, byMm: [0, 0, 20] }).car;
    let next = world;
    remade.push(timed(() => (next = linesWorld(edited, meshes, world))));
    for (const line of car.lines.filter((row) => [row.from, row.to].some((ref) => ref.startsWith(`${id}.`)))) {
      if (line.taken !== undefined && line.taken !== null)
        following.push(timed(() => (followed += followingWayOf(next, line.id) === null ? 0 : 1)));
      replanned.push(timed(() => waysOf({ ...next, car: withoutWay(edited, line.id) }, line.id, 1)));
    }
  }
  const page = await pageUsableMs();
  const scan = browserPath() === undefined ? null : await scanShown();
  const ms = (value: number): string => `${value.toFixed(0)} ms`;
  return {
    headers: ['what', 'median', 'worst', 'goal'],
    rows: [
      [
        'page usable, warm server (wall)',
        page === null ? 'no browser' : ms(median(page)),
        page === null ? '-' : ms(worst(page)),
        '2000 ms',
      ],
      ['gaps of all lines to a part in the hand', ms(median(drags)), ms(worst(drags)), '50 ms'],
      ['car made solid again after a move', ms(median(remade)), ms(worst(remade)), '300 ms'],
      [
        `a line on the moved part, near the way it had (${followed} of ${following.length} found)`,
        ms(median(following)),
        ms(worst(following)),
        '500 ms',
      ],
      ['the same line worked out again in full', ms(median(replanned)), ms(worst(replanned)), '-'],
      [`first way, ${BAYS} medium bays, bay ready`, ms(median(first)), ms(worst(first)), '500 ms'],
      [
        `first way of the demo's lines of hose, bay ready (${firsts.ready.length} of ${firsts.asked} found)`,
        ms(median(firsts.ready)),
        ms(worst(firsts.ready)),
        '500 ms',
      ],
      ['the same, bay cold but the car solid', ms(median(firsts.cold)), ms(worst(firsts.cold)), '3000 ms'],
      ['the same in vain, bay ready', ms(median(firsts.inVain)), ms(worst(firsts.inVain)), '-'],
      ['best way among the 26 others of the demo, bay ready', ms(median(ready)), ms(worst(ready)), '-'],
      ['the best way of O8 with the car and its scan made solid first', ms(cold), ms(cold), '-'],
      ['a first way of O8, the same', ms(coldFirst), ms(coldFirst), '3000 ms'],
      ['all taken ways judged', ms(median(judged)), ms(worst(judged)), '-'],
      ...scanRows(scan),
      ['JavaScript at start, gzipped', kB(scriptBytes().start), '-', '480 kB'],
      ['JavaScript on demand, gzipped', kB(scriptBytes().later), '-', '-'],
    ],
    goal: 'CPU of one thread unless said otherwise',
  };
}

function scanRows(scan: ScanShown | null): string[][] {
  if (scan === null) return [['a scan of 1 M triangles', 'no browser', '-', '-']];
  const million = (n: number): string => n.toLocaleString('en');
  const how = ({ triangles, errorMm }: ScanShown['first']): string =>
    `${million(triangles)} triangles, off by ${errorMm.toFixed(1)} mm`;
  return [
    [`a scan of ${million(scan.triangles)} triangles read and kept (wall)`, `${scan.readMs.toFixed(0)} ms`, '-', '-'],
    ['the same shown in 3D, page opened anew (wall)', `${scan.shownMs.toFixed(0)} ms`, '-', '-'],
    ['the same as it is first seen', how(scan.first), '-', '-'],
    ['the same from close by', how(scan.near), '-', '-'],
    ['the same from afar', how(scan.far), '-', 'fewer than near'],
  ];
}

interface FirstWays {
  readonly asked: number;
  readonly ready: number[];
  readonly cold: number[];
  readonly inVain: number[];
}

/** A first look at each line of hose among all others that stand, in a bay nobody has read and in one that has been. */
function firstWays(car: Car, meshes: ReadonlyMap<string, TriangleMesh>, world: LinesWorld): FirstWays {
  const lines = car.lines.filter(({ pieces }) => pieces.every((piece) => piece.tube === undefined));
  const found: FirstWays = { asked: lines.length, ready: [], cold: [], inVain: [] };
  for (const { id } of lines) {
    const free = withoutWay(car, id);
    const fresh = linesWorld(free, meshes);
    const coldMs = timed(() => firstWayOf(fresh, id));
    let way: Way | null = null;
    firstWayOf({ ...world, car: free }, id);
    const readyMs = timed(() => (way = firstWayOf({ ...world, car: free }, id)));
    if (way === null) found.inVain.push(readyMs);
    else {
      found.ready.push(readyMs);
      found.cold.push(coldMs);
    }
  }
  return found;
}

const withoutWay = (car: Car, id: string): Car => ({
  ...car,
  lines: car.lines.map((line) => {
    if (line.id !== id) return line;
    const { taken: _taken, ...rest } = line;
    return rest;
  }),
});

const kB = (bytes: number): string => `${(bytes / 1000).toFixed(0)} kB`;

/** What the page names itself is loaded at start; the rest when it is asked for. */
function scriptBytes(): { readonly start: number; readonly later: number } {
  const folder = `${root}out/web/assets/`;
  const page = readFileSync(`${root}out/web/index.html`, 'utf8');
  const sizes = readdirSync(folder)
    .filter((name) => name.endsWith('.js'))
    .map((name) => ({ name, bytes: gzipSync(readFileSync(folder + name), { level: 9 }).length }));
  const sum = (atStart: boolean): number =>
    sizes.reduce((total, { name, bytes }) => total + (page.includes(name) === atStart ? bytes : 0), 0);
  return { start: sum(true), later: sum(false) };
}

/** From the address typed to the list of lines with their gaps, in a browser that has never seen the page. */
async function pageUsableMs(): Promise<number[] | null> {
  const path = browserPath();
  if (path === undefined) return null;
  const screen = await Screen.open();
  const browser = await chromium.launch(launchOptions(path));
  try {
    const { page: first } = await screen.person('Bench');
    const id = await screen.withDemo(first);
    await first
      .getByText(/\d+ stop, \d+ fix/u)
      .first()
      .waitFor();
    await first.close();
    const times: number[] = [];
    for (let i = 0; i < 5; i++) {
      const context = await browser.newContext({ viewport: { width: 1366, height: 900 } });
      const page = await context.newPage();
      const from = performance.now();
      await page.goto(`${screen.serving.address}/#/${id}/lines`);
      await page
        .getByText(/\d+ stop, \d+ fix/u)
        .first()
        .waitFor();
      times.push(performance.now() - from);
      await context.close();
    }
    return times;
  } finally {
    await browser.close();
    await screen.close();
  }
}

export default { title, run };
