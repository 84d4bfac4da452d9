import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import { systemNeed } from '../scripts/system-needs.mjs';
import { Screen, seriousFindings } from './screen/screen.ts';

const isThere = systemNeed('chromium').isMet;

describe.skipIf(!isThere)('the screen in a real browser, on the demo car with its ways taken', () => {
  let screen: Screen;
  let page: Page;
  let car: string;

  beforeAll(async () => {
    screen = await Screen.open();
    ({ page } = await screen.person('Marrow'));
    car = await screen.withDemo(page);
    await page
      .getByText(/\d+ stop, \d+ fix/u)
      .first()
      .waitFor();
  }, 60_000);
  afterAll(() => screen.close());
  afterEach(() => {
    expect(screen.wrong.splice(0)).toEqual([]);
  });

  const question = (words: string) => page.getByRole('button', { name: new RegExp(words.replace('?', '\\?'), 'u') });

  it('shows the car, its lines with their tightest places, and the worst snags as sentences', async () => {
    await page.locator('canvas').waitFor();
    await expect.poll(() => page.getByText('O1', { exact: true }).count()).toBeGreaterThan(0);
    await screen.shot(page, 'demo-lines');
    expect(await seriousFindings(page)).toEqual([]);
  });

  it('opens a line’s card: make-up, clocks, cut length with allowance, least gap with its limit', async () => {
    await page.goto(`${screen.serving.address}/#/${car}/line/O8`);
    await page.getByRole('heading', { name: /^O8/u }).waitFor();
    const card = page.locator('article.card');
    await card.getByText(/mm/u).first().waitFor();
    const words = await card.innerText();
    expect(words).toMatch(/Turbo oil feed/u);
    expect(words).toMatch(/planned/u);
    await screen.shot(page, 'demo-card-o8');
    expect(await seriousFindings(page)).toEqual([]);
  });

  it('shows what to buy and what to cut', async () => {
    await question('What do I buy?').click();
    await page.getByRole('heading', { name: /buy/iu }).first().waitFor();
    await screen.shot(page, 'demo-buy');
    expect(await seriousFindings(page)).toEqual([]);
  });

  it.each([
    [390, 844, 'phone'],
    [1024, 768, 'tablet'],
  ])('fits %d x %d without anything to scroll sideways', async (width, height, name) => {
    const { page: small, context } = await screen.person('Marrow', { width, height, touch: true });
    await screen.goToCar(small, car);
    await small
      .getByText(/\d+ stop, \d+ fix/u)
      .first()
      .waitFor();
    const over = (await small.evaluate('document.documentElement.scrollWidth - innerWidth')) as number;
    expect(over).toBeLessThanOrEqual(0);
    // Every control that can be touched is 44 px in its lesser direction; what stands in running text is not a control.
    const little = (await small.evaluate(`[...document.querySelectorAll('button, select, input, [role=button]')]
      .map((e) => ({ e, r: e.getBoundingClientRect() }))
      .filter(({ r }) => r.width > 1 && r.height > 1 && Math.min(r.width, r.height) < 43.5)
      .map(({ e, r }) => e.outerHTML.slice(0, 80) + ' ' + Math.round(r.width) + 'x' + Math.round(r.height))`)) as string[];
    expect(little).toEqual([]);
    await screen.shot(small, `demo-${name}`);
    expect(await seriousFindings(small)).toEqual([]);
    await context.close();
  });

  it('is dark where the system is dark', async () => {
    const { page: dark, context } = await screen.person('Marrow', { dark: true });
    await screen.goToCar(dark, car);
    await dark
      .getByText(/\d+ stop, \d+ fix/u)
      .first()
      .waitFor();
    const ground = (await dark.evaluate('getComputedStyle(document.body).backgroundColor')) as string;
    const [r = 255, g = 255, b = 255] = (ground.match(/\d+/gu) ?? []).map(Number);
    expect(r + g + b).toBeLessThan(200);
    await screen.shot(dark, 'demo-dark');
    expect(await seriousFindings(dark)).toEqual([]);
    await context.close();
  });

  it('prints a card without the car, the keys and the snag strip', async () => {
    await page.goto(`${screen.serving.address}/#/${car}/line/O1`);
    await page.getByRole('heading', { name: /^O1/u }).waitFor();
    await page.emulateMedia({ media: 'print' });
    expect(await page.locator('canvas').isVisible()).toBe(false);
    expect(await page.getByRole('button', { name: 'Undo' }).isVisible()).toBe(false);
    expect(await page.getByRole('heading', { name: /^O1/u }).isVisible()).toBe(true);
    await screen.shot(page, 'print-card');
    await page.emulateMedia({ media: 'screen' });
  });

  it('tells a second screen at once, merges, and undoes to the beginning', async () => {
    const { page: other, context } = await screen.person('Teal');
    await screen.goToCar(other, car);
    const revision = (where: Page) =>
      where
        .getByText(/change \d+/u)
        .first()
        .innerText();
    const before = await revision(other);
    await page.goto(`${screen.serving.address}/#/${car}/line/O1`);
    await page.getByRole('button', { name: 'Set state' }).click();
    await page.getByRole('button', { name: /^bought/u }).click();
    await page.getByText(/bought: Marrow, \d{4}-\d\d-\d\d/u).waitFor();
    await expect.poll(() => revision(other), { timeout: 20_000 }).not.toBe(before);
    const undo = page.getByRole('button', { name: 'Undo' });
    for (let i = 0; i < 10 && (await undo.isEnabled()); i++) {
      const at = await revision(page);
      await undo.click();
      await expect.poll(() => revision(page), { timeout: 20_000 }).not.toBe(at);
    }
    expect(await undo.isEnabled()).toBe(false);
    await context.close();
  });
});
