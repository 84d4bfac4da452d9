import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import type { OpenedNumber, Snag } from '#snags';
import { systemNeed } from '../scripts/system-needs.mjs';
import { Screen, seriousFindings } from './screen/screen.ts';

describe.skipIf(!systemNeed('chromium').isMet)('papers of the demo car in a real browser', () => {
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

  const at = (paper: string) => page.goto(`${screen.serving.address}/#/${car}/${paper}`);
  const asked = async <T>(path: string): Promise<T> =>
    (await (await fetch(`${screen.serving.address}/api/cars/${car}${path}`)).json()) as T;

  it('opens the number of every snag to what it is made of and the rule, with whose it is and how it is known', async () => {
    const { snags } = await asked<{ snags: Snag[] }>('/standing');
    expect(snags.length).toBeGreaterThan(50);
    for (const snag of snags) {
      const opened = await asked<OpenedNumber>(`/opened?snag=${encodeURIComponent(snag.id)}`);
      const said = [opened.equation, opened.range, opened.rule.text, opened.rule.whose, opened.rule.known];
      expect([snag.id, said.every((words) => words.length > 3)]).toEqual([snag.id, true]);
      if (snag.value !== undefined) expect([snag.id, opened.inputs.length > 0]).toEqual([snag.id, true]);
    }
    const gap = snags.find((snag) => snag.kind === 'keep-off-at-worst')!;
    await at(`snag/${encodeURIComponent(gap.id)}`);
    await page.getByText('Open the number').click();
    await page.getByRole('table', { name: 'What went in' }).getByText('at worst', { exact: true }).waitFor();
    await page.getByText('How it is known').waitFor();
    await screen.shot(page, 'snag-opened');
    expect(await seriousFindings(page)).toEqual([]);
    // A rule without a formula opens to the rule; a source that is no limit is not called one.
    const bare = snags.find((snag) => snag.kind === 'no-way-yet')!;
    await at(`snag/${encodeURIComponent(bare.id)}`);
    await page.getByRole('heading', { name: bare.text }).waitFor();
    expect(await page.getByText('Limit from', { exact: true }).count()).toBe(0);
    await page.getByText('Where it comes from').click();
    await page.getByText('Whose it is').waitFor();
  });
});
