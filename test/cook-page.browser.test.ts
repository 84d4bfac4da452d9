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
      lines: car.lines.filter(({ id }) => LINES.has(id)),
      circuits: [],
      cases: car.cases!.filter(({ id }) => id === 'full-load' || id === 'switched-off'),
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
  }, 60_000);

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

  it('fits a phone without anything to scroll sideways, and prints', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(390);
    await screen.shot(page, 'cook-390');
    await page.emulateMedia({ media: 'print' });
    await screen.shot(page, 'cook-print', true);
  }, 60_000);
});
