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

  it('says before anything is kept what swapping the tank’s two return ports changes, then keeps and undoes it', async () => {
    await page.goto(`${screen.serving.address}/#/${car}/line/O10`);
    await page.getByRole('heading', { name: /^O10/u }).waitFor();
    await page.locator('article.card summary', { hasText: /^What if$/u }).click();
    await page.getByLabel('Swap ports').selectOption('tank.return-outer tank.return-inner');
    await page.getByRole('button', { name: 'What would it change?' }).last().click();
    const seen = page.getByRole('region', { name: 'What it would change' });
    await seen.waitFor();
    const words = await seen.innerText();
    // Common practice, no source: a made or planned hose that changes its port is a new hose; both lines and their parts are named.
    expect(words).toMatch(/O10/u);
    expect(words).toMatch(/O11/u);
    await screen.shot(page, 'swap-what-if');
    expect(await seriousFindings(page)).toEqual([]);
    await seen.getByRole('button', { name: 'Keep it' }).click();
    await page.getByText(/No way is taken yet/u).waitFor();
    const kept = await screen.serving.shelf.openCar(car);
    const end = (id: string) => kept.car.lines.find((line) => line.id === id)!.to;
    expect([end('O10'), end('O11')]).toEqual(['tank.return-inner', 'tank.return-outer']);
    await screen.shot(page, 'swap-kept');
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect
      .poll(async () => (await screen.serving.shelf.openCar(car)).car.lines.find((l) => l.id === 'O10')!.to)
      .toBe('tank.return-outer');
  });

  it('can be worked with the keyboard alone: to a line, its state, and back by Undo', async () => {
    await page.goto(`${screen.serving.address}/#/${car}/lines`);
    await page
      .getByText(/\d+ stop, \d+ fix/u)
      .first()
      .waitFor();
    const focused = () => page.evaluate('document.activeElement?.innerText ?? ""') as Promise<string>;
    const tabTo = async (words: RegExp) => {
      for (let i = 0; i < 120; i++) {
        await page.keyboard.press('Tab');
        if (words.test(await focused())) return;
      }
      throw new Error(`Tab never comes to ${words}`);
    };
    await tabTo(/^O2\b/u);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: /^O2/u }).waitFor();
    await tabTo(/^Set state/u);
    await page.keyboard.press('Enter');
    await tabTo(/^bought/u);
    await page.keyboard.press('Enter');
    await page.getByText(/bought: Marrow, \d{4}-\d\d-\d\d/u).waitFor();
    await page.keyboard.press('Control+z');
    await expect
      .poll(async () => (await screen.serving.shelf.openCar(car)).car.lines.find((l) => l.id === 'O2')!.state)
      .toBe('planned');
    const outline = (await page.evaluate(`(() => {
      const e = document.querySelector('button'); e.focus();
      document.body.dispatchEvent(new KeyboardEvent('keydown', { key: 'Tab' }));
      const s = getComputedStyle(e); return s.outlineStyle + ' ' + s.outlineWidth + ' ' + s.boxShadow; })()`)) as string;
    expect(outline).not.toBe('none 0px none');
  });
});
