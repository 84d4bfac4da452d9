import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { ReadyCar } from '#server';
import { systemNeed } from '../scripts/system-needs.mjs';
import { Screen, seriousFindings, takenCar } from './screen/screen.ts';

const isThere = systemNeed('chromium').isMet;

/** The demo's hot side, at full load and after: the whole takes the page longer and says the same. */
const LINES = new Set(['A1', 'C6', 'C7', 'O7', 'O8']);
function hotSide(): ReadyCar {
  const car = takenCar();
  const { workshop: _, heatReadings: __, ...rest } = car;
  return new ReadyCar(
    {
      ...rest,
      // Bought: other ways are not looked for, which takes longer than all else here; `heat-of.test` holds what they are worth.
      lines: car.lines.filter(({ id }) => LINES.has(id)).map((line) => ({ ...line, state: 'bought' as const })),
      circuits: [],
      // The soak as long as its peaks take.
      cases: car
        .cases!.filter(({ id }) => id === 'full-load' || id === 'switched-off')
        .map((at) => (at.soakMin === undefined ? at : { ...at, soakMin: 10 })),
      parts: car.parts.map(({ surfaceByCase: ___, ...part }) => ({
        ...part,
        shapes: part.shapes.filter(({ mesh }) => mesh === undefined),
      })),
    },
    new Map(),
  );
}

describe.skipIf(!isThere)('the page "Does it cook?" in a real browser, on the hot side of the demo car', () => {
  let screen: Screen;
  let page: Page;
  let car: string;

  beforeAll(async () => {
    screen = await Screen.open('all');
    ({ page } = await screen.person('Marrow'));
    const kept = await hotSide().putOn(screen.serving.desk, 'Marrow');
    car = kept.id;
    await screen.goToCar(page, car);
  }, 60_000);
  afterAll(() => screen.close());
  afterEach(() => {
    expect(screen.wrong.splice(0)).toEqual([]);
  });

  it('goes from "which line gets hottest" to a placed shield to the new number, before and after it is kept', async () => {
    await page.getByRole('button', { name: /Does it cook\?/u }).click();
    await page.getByRole('heading', { name: 'Does it cook?' }).waitFor();
    await page
      .getByRole('main')
      .getByRole('button', { name: /Full load/u })
      .click({ timeout: 40_000 });
    await page.getByText(/^5 lines: \d over a limit/u).waitFor();
    await screen.shot(page, 'cook-lines');
    // The shift cable ends beside the turbine: beside the lines, told with what cables stand.
    const beside = await page.getByRole('region', { name: 'Beside the lines' }).innerText();
    expect(beside).toMatch(/Shift cable\s*▲\s*Stop\s*\d{3} °C; it stands 110 °C/iu);
    await page.getByRole('main').getByRole('button', { name: /^C7/u }).click();
    const opened = page.getByRole('region', { name: 'C7 opened' });
    const before = Number(/(\d+) °C \(± \d+ K\) at its hottest/u.exec(await opened.innerText())![1]);
    expect(before).toBeGreaterThan(150);
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Work the cures out' }).click();
    const shield = page.getByRole('button', { name: 'Place this shield' }).first();
    await shield.waitFor({ timeout: 50_000 });
    const cures = await page.getByRole('region', { name: 'What would cure C7' }).innerText();
    expect(cures).not.toMatch(/NaN|undefined/u);
    await shield.click();
    const seen = page.getByRole('region', { name: /before it is kept/u });
    await seen.getByText(/the shield itself \d+ °C/u).waitFor({ timeout: 50_000 });
    const [, from, to] = /C7: (\d+) °C → (\d+) °C/u.exec(await seen.innerText())!;
    expect(Number(from)).toBe(before);
    expect(Number(to)).toBeLessThan(before);
    await screen.shot(page, 'cook-shield');
    await page.getByRole('button', { name: 'Keep the shield' }).click();
    await page.getByRole('main').getByText(`${to} °C`, { exact: false }).first().waitFor({ timeout: 50_000 });
    await screen.shot(page, 'cook-kept');
  }, 120_000);

  it('has what cooks and what no tool reaches among the snags without being asked, to filter, to open and to go to', async () => {
    await page.goto(`${screen.serving.address}/#/${car}/snags`);
    const filter = page.getByRole('group', { name: 'Which snags' });
    await filter.getByText(/^What comes off\? \d+$/u).waitFor({ timeout: 40_000 });
    await filter.getByText(/^Does it cook\? \d+$/u).click({ timeout: 40_000 });
    await page.locator('.snag-list').getByText(/C7/u).first().click();
    await page.getByText('Open the number').click();
    await page.getByRole('table', { name: 'What went in' }).waitFor();
    await screen.shot(page, 'cook-snag');
    expect(await seriousFindings(page)).toEqual([]);
  }, 60_000);

  it('takes how hot a part is, its cover, an opening of the bay and the pressure outside it by form', async () => {
    const form = async (what: string): Promise<void> => {
      await page.goto(`${screen.serving.address}/#/${car}/cook/full-load..${what}`);
      await page.getByRole('button', { name: 'Keep it' }).waitFor();
    };
    const keep = async (said: RegExp): Promise<void> => {
      await page.getByRole('button', { name: 'Keep it' }).click();
      await page.getByText(said).first().waitFor({ timeout: 20_000 });
    };
    await form('source..turbine');
    await page.getByLabel('In the case Full load').fill('1292 F');
    await page.getByLabel('Thickness of the cover').fill('12.7 mm');
    await page.getByRole('button', { name: 'Keep it' }).click();
    await page.getByRole('alert').getByText('It is covered by: nothing stands there').waitFor();
    await page.getByLabel('It is covered by').selectOption('blanket');
    await keep(/How hot it is changed/u);
    await form('opening..engine-bay~new');
    await page.getByLabel('Name').fill('Cowl slot');
    await page.getByLabel('Its middle').fill('1700; 0; 800 mm');
    await page.getByLabel('Faces, out of the bay').selectOption('up');
    await page.getByLabel('Area').fill('20 sq in');
    await keep(/Opening put in/u);
    await form('pressure..engine-bay~new');
    await page.getByLabel('Outside').selectOption('cowl-slot');
    await page.getByLabel('It comes from').selectOption('manometer');
    await page.getByLabel('Given as').selectOption('water');
    await page.getByLabel('mm of water').last().fill('-3');
    await keep(/Pressure outside put in/u);
    const now = (await screen.serving.desk.shelf.openCar(car)).car;
    expect(now.parts.find(({ id }) => id === 'turbine')).toMatchObject({
      surfaceByCase: [{ case: 'full-load', surfaceC: 700 }],
      cover: { kind: 'blanket', thicknessMm: 12.7 },
    });
    const slot = now.bays![0]!.openings!.at(-1);
    expect(slot).toEqual({
      id: 'cowl-slot',
      name: 'Cowl slot',
      atMm: [1700, 0, 800],
      faces: [0, 0, 1],
      areaCm2: 129.032,
    });
    const press = now.cases!.find(({ id }) => id === 'full-load')!.pressures!.at(-1);
    expect(press).toEqual({ at: 'cowl-slot', how: 'manometer', mmWater: -3 });
    await page.goto(`${screen.serving.address}/#/${car}/cook/full-load`);
  }, 60_000);

  it('fits a phone without anything to scroll sideways, and prints', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(390);
    await screen.shot(page, 'cook-390');
    await page.emulateMedia({ media: 'print' });
    await screen.shot(page, 'cook-print', true);
  }, 60_000);
});
