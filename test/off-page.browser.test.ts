import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { systemNeed } from '../scripts/system-needs.mjs';
import { Screen, seriousFindings } from './screen/screen.ts';

const isThere = systemNeed('chromium').isMet;

describe.skipIf(!isThere)('the page "What comes off?" in a real browser, on the demo car with its ways taken', () => {
  let screen: Screen;
  let page: Page;

  beforeAll(async () => {
    screen = await Screen.open();
    ({ page } = await screen.person('Marrow'));
    await screen.withDemo(page);
  }, 60_000);
  afterAll(() => screen.close());
  afterEach(() => {
    expect(screen.wrong.splice(0)).toEqual([]);
  });

  it('goes from "change the turbo" to the printed list: steps in order, minutes, litres, caps, cautions', async () => {
    await page.getByRole('button', { name: /What comes off\?/u }).click();
    await page.getByRole('heading', { name: 'What comes off?' }).waitFor();
    await page.getByLabel('What do you want to get at?').selectOption('turbo');
    const list = page.getByRole('region', { name: 'In this order' });
    await list.waitFor({ timeout: 50_000 });
    const words = await list.innerText();
    expect(words).toMatch(/1\. /u);
    expect(words).toMatch(/O8/u);
    const sum = await page.getByRole('region', { name: 'How long and how much' }).innerText();
    expect(sum).toMatch(/\d+ steps?, \d+(?:\.5)? min off and \d+(?:\.5)? min on again; .* run out/su);
    expect(sum).not.toMatch(/NaN|undefined/u);
    await page
      .getByRole('complementary', { name: 'Cautions' })
      .getByText(/On stands, engine off/u)
      .waitFor();
    expect(await seriousFindings(page)).toEqual([]);
    await screen.shot(page, 'off-turbo');
    await page.emulateMedia({ media: 'print' });
    await page.getByText(/^1\. /u).waitFor();
    expect(await page.getByRole('button', { name: 'Print the list' }).isVisible()).toBe(false);
    await screen.shot(page, 'off-turbo-print', true);
    await page.emulateMedia({ media: 'screen' });
  }, 60_000);

  it('shows it come out on the car, step by step, by keyboard too', async () => {
    const scrub = page.getByRole('slider');
    expect(await scrub.getAttribute('aria-valuetext')).toBe('All on');
    await page.getByRole('button', { name: 'Next step' }).click();
    expect(await scrub.getAttribute('aria-valuetext')).toMatch(/^Step 2 of/u);
    await scrub.focus();
    await page.keyboard.press('End');
    expect(await scrub.getAttribute('aria-valuetext')).toBe('All off');
    await screen.shot(page, 'off-turbo-off');
    await page.getByRole('button', { name: 'Step back' }).click();
    expect(await scrub.getAttribute('aria-valuetext')).toMatch(/^Step \d+ of/u);
  }, 60_000);

  it('fits a phone without anything to scroll sideways', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(390);
    await screen.shot(page, 'off-390');
  }, 60_000);
});
