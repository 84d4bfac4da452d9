import type { Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { systemNeed } from '../scripts/system-needs.mjs';
import { Screen, seriousFindings } from './screen/screen.ts';

const isThere = systemNeed('chromium').isMet;

describe.skipIf(!isThere)('the page "Does it flow?" in a real browser, on the demo car with its ways taken', () => {
  let screen: Screen;
  let page: Page;
  let car: string;

  beforeAll(async () => {
    screen = await Screen.open('flow');
    ({ page } = await screen.person('Marrow'));
    car = await screen.withDemo(page);
  }, 60_000);
  afterAll(() => screen.close());
  afterEach(() => {
    expect(screen.wrong.splice(0)).toEqual([]);
  });

  const worst = (where: Page) => where.getByRole('region', { name: 'What matters most' });
  const isWorkedOut = async (where: Page): Promise<void> => {
    await worst(where).waitFor();
    await where.getByRole('group', { name: 'Working the circuits out' }).waitFor({ state: 'detached' });
  };

  it('has what flows among the snags along the bottom, without being asked; by question, at its place, with its number, accepted', async () => {
    const strip = page.getByRole('region', { name: 'Snags, worst first' });
    // The car is there to be worked on before its flow is.
    await strip
      .getByText(/inlet stands at/u)
      .first()
      .waitFor({ timeout: 100_000 });
    await page.getByRole('button', { name: /Does it flow\?.*3 circuits, \d+ stop, \d+ fix/su }).waitFor();
    await strip.getByRole('button', { name: /^Snags/u }).click();
    await page
      .getByRole('group', { name: 'Which snags' })
      .getByText(/^Does it flow\? \d+$/u)
      .click();
    await screen.shot(page, 'flow-snags');
    // What comes of the same cause is folded beneath the worst of it.
    const cause = page.locator('.snag-list > li', { hasText: /Scavenge, pan front pulls/u }).first();
    await cause.getByText(/^and \d+ more of the same cause$/u).click();
    await cause.getByText(/Scavenge, pan rear pulls/u).click();
    await page.getByRole('heading', { name: /Scavenge, pan rear pulls/u }).waitFor();
    await page.getByText('Open the number').click();
    await page.getByText(/sum of losses of oil and air/u).waitFor();
    await page.getByText('Accept it, with a reason').click();
    await page.getByLabel('Why it may stay as it is').fill('warmed up before it is driven');
    await page.getByRole('button', { name: 'Accept it' }).click();
    // Accepting changes nothing that flows: it is there at once, nothing is worked out anew.
    await page.getByText('Accepted by Marrow', { exact: false }).first().waitFor();
    await screen.shot(page, 'flow-snag');
    await page.getByRole('button', { name: 'Open it again' }).click();
    await page.getByRole('button', { name: 'How it flows there' }).click();
    await page.getByRole('heading', { name: 'In numbers, Cold start' }).waitFor();
  }, 120_000);

  it('says on its own that the feed cannot live with a cold start, by how much, whose limit it is and what would cure it', async () => {
    await page.getByRole('button', { name: /Does it flow\?/u }).click();
    await page.getByRole('heading', { name: 'Does it flow?' }).waitFor();
    // The case asked first is there before the others are worked out.
    await worst(page).waitFor();
    // What starves the engine comes first. The limit and its source: common practice, no source.
    const grave = await worst(page).innerText();
    expect(grave).toMatch(/O1.*Cold start: the pump's inlet stands at -0\.2\d bar/su);
    expect(grave).toMatch(/O1 in -20, not -16: \+\d/u);
    await page.getByRole('img', { name: /Dry-sump oil/u }).waitFor();
    await page.getByRole('img', { name: /^Pressure before engine gallery/u }).waitFor();
    await screen.shot(page, 'flow-oil');
    await page.emulateMedia({ media: 'print' });
    await screen.shot(page, 'flow-oil-print', true);
    await page.emulateMedia({ media: 'screen' });
    expect(await seriousFindings(page)).toEqual([]);
  }, 60_000);

  it('opens a line by its row: highlighted, its pieces with how uncertain each is, the equations behind its numbers', async () => {
    await page.getByRole('button', { name: 'O2', exact: true }).click();
    await page.getByRole('region', { name: 'What each piece of O2 loses' }).getByRole('img').waitFor();
    await page.getByText('Open the numbers of O2').click();
    await page
      .getByText(/Darcy|friction/iu)
      .first()
      .waitFor();
    const words = await page.locator('article.flow-paper').innerText();
    expect(words).toMatch(/known to a factor of two/u);
    expect(await seriousFindings(page)).toEqual([]);
  }, 60_000);

  it('tries another size of a hose before it is kept: every case before and after, what goes, what it rests on; in psi too', async () => {
    await page.goto(`${screen.serving.address}/#/${car}/flow/oil..cold-start`);
    await isWorkedOut(page);
    const size = page.getByRole('region', { name: 'Another size' });
    await size.getByLabel('Line').selectOption('O1');
    await size.getByLabel('Size').selectOption('20');
    await size.getByRole('button', { name: 'Work it out' }).click();
    const seen = page.getByRole('region', { name: 'O1 in -20' });
    await seen.waitFor();
    const cold = await seen.getByRole('row', { name: /Cold start/u }).innerText();
    expect(cold).toMatch(/−0\.2\d bar\s+−0\.0\d bar/u);
    expect(await seen.innerText()).toMatch(/Gone:\s+▲ STOP\s+Cold start: the pump's inlet stands at -0\.2\d bar/u);
    expect(await seen.innerText()).toMatch(/way of O1 is kept as it lies/u);
    await seen.scrollIntoViewIfNeeded();
    await screen.shot(page, 'flow-size');
    await page.getByRole('group', { name: 'Units' }).getByRole('button', { name: /psi/u }).click();
    expect(await seen.getByRole('row', { name: /Cold start/u }).innerText()).toMatch(/−3\.\d psi\s+−1\.\d psi/u);
    expect(await worst(page).innerText()).toMatch(/inlet stands at -3\.\d psi/u);
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('group', { name: 'Units' }).getByRole('button', { name: /bar/u }).click();
    const kept = await screen.serving.shelf.openCar(car);
    expect(kept.car.lines.find(({ id }) => id === 'O1')?.dash).toBe(16);
  }, 60_000);

  it('runs a driven lap: a log that cannot be read says why; the example is drawn over time with its worst moments', async () => {
    await page.goto(`${screen.serving.address}/#/${car}/flow/oil..cold-start`);
    await isWorkedOut(page);
    await page.getByRole('button', { name: 'Run a driven lap' }).click();
    const choose = page.getByLabel('Choose a log');
    const file = (text: string) => ({ name: 'lap.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
    await choose.setInputFiles(file('time [s],rpm\n0,3000\n1,3100\n'));
    await page.getByText(/lap\.csv: .*no column for .*a head each/u).waitFor();
    await page.getByRole('button', { name: 'Run the example' }).click();
    await page.getByRole('table', { name: 'Worst moments' }).waitFor({ timeout: 50_000 });
    // The numbers that `fairlead flow --log` has of the same log (docs/flow-lap.md).
    const grave = await worst(page).innerText();
    expect(grave).toMatch(/tank\.out draws air for 3\.\d s in 5\d stretches/u);
    expect(grave).toMatch(/baffles that keep the oil from swinging: no air drawn/u);
    await page.getByRole('img', { name: /^Oil in tank\. From \d/u }).waitFor();
    await page.getByRole('img', { name: /^Gallery pressure/u }).waitFor();
    expect(await page.getByRole('region', { name: 'What this does not know' }).innerText()).toMatch(/no baffles/u);
    await screen.shot(page, 'flow-lap');
    expect(await seriousFindings(page)).toEqual([]);
  }, 60_000);

  it('changes a case by numbers: warmer oil and the feed’s number changes; Undo brings it back', async () => {
    const inlet = async (): Promise<string> =>
      (await page.getByRole('table', { name: 'Pumps' }).innerText()).replaceAll(/\s+/gu, ' ');
    await page.goto(`${screen.serving.address}/#/${car}/flow/oil..cold-start`);
    await isWorkedOut(page);
    const cold = await inlet();
    await page.getByRole('button', { name: 'Change this case' }).click();
    await page.getByLabel('Oil [°C]').fill('140 F');
    await page.getByText('60 °C').waitFor();
    await screen.shot(page, 'flow-case');
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Keep it' }).click();
    await page.getByRole('heading', { name: 'Does it flow?' }).waitFor();
    await isWorkedOut(page);
    await page.getByRole('button', { name: /^Dry-sump oil|Dry-sump oil$/u }).click();
    await page.getByRole('group', { name: 'Case' }).getByText('Cold start').click();
    expect(await inlet()).not.toBe(cold);
    const kept = await screen.serving.shelf.openCar(car);
    expect(kept.car.cases?.find(({ id }) => id === 'cold-start')?.oilC).toBe(60);
    await page.getByRole('button', { name: 'Undo' }).click();
    await isWorkedOut(page);
    await expect.poll(inlet, { timeout: 30_000 }).toBe(cold);
  }, 60_000);

  it('changes a circuit by its figures; a wrong curve is told in one line', async () => {
    await page.getByRole('button', { name: 'Change the circuit’s figures' }).click();
    await page.getByLabel('Engine gallery and bearings: curve', { exact: true }).fill('20 90');
    await page
      .getByText(/Curve: 1 point stands there; two or more points are wanted/u)
      .first()
      .waitFor();
    await page.getByLabel('Engine gallery and bearings: curve', { exact: true }).fill('20 90; 49 400');
    await page.getByLabel('Pressure stage: Displacement').fill('15');
    await screen.shot(page, 'flow-figures');
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Keep it' }).click();
    await page.getByRole('heading', { name: 'Does it flow?' }).waitFor();
    const kept = await screen.serving.shelf.openCar(car);
    const pump = kept.car.circuits?.find(({ id }) => id === 'oil')?.pumps?.find(({ id }) => id === 'pressure');
    expect(pump?.displacementCcRev).toBe(15);
    await page.getByRole('button', { name: 'Undo' }).click();
    await isWorkedOut(page);
  }, 60_000);

  it('says on the page what the car file can say: a way through a part put in by its law, a measured end, each a step to take back', async () => {
    const carNow = async () => (await screen.serving.shelf.openCar(car)).car;
    await page.goto(`${screen.serving.address}/#/${car}/flow/change-circuit..oil`);
    await page.getByRole('button', { name: 'Put a way through a part in' }).click();
    await page.getByLabel('Where it begins').selectOption('tank');
    await page.getByLabel('It loses').selectOption('restrictor');
    await page.getByRole('button', { name: 'Keep it' }).click();
    await page.getByText('Where it ends: nothing is chosen').first().waitFor();
    await page.getByLabel('Where it ends').selectOption('tank.out');
    await page.getByLabel('Bore of the restrictor').fill('3');
    await screen.shot(page, 'flow-row');
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Keep it' }).click();
    await page.getByRole('region', { name: 'What it consists of' }).waitFor();
    await screen.shot(page, 'flow-rows');
    const oil = (await carNow()).circuits!.find(({ id }) => id === 'oil')!;
    expect(oil.passages!.at(-1)).toEqual({ from: 'tank', to: 'tank.out', restrictorMm: 3 });
    await page.getByRole('button', { name: 'Undo' }).click();
    await page.goto(`${screen.serving.address}/#/${car}/flow/fitting..boss-16-flare-16`);
    await page.getByLabel(/^Curve/u).fill('20 1; 50 4');
    await page.getByRole('button', { name: 'Keep it' }).click();
    await page.getByRole('heading', { name: 'Does it flow?' }).waitFor();
    expect((await carNow()).catalogue!.adapters!.at(-1)).toEqual({
      id: 'boss-16-flare-16',
      curveLMinKpa: [
        [20, 1],
        [50, 4],
      ],
    });
    await page.getByRole('button', { name: 'Undo' }).click();
  }, 60_000);

  it.each([
    [390, 844, 'phone', false],
    [1024, 768, 'tablet', true],
  ])('fits %d x %d, everything to press 44 px, as does its print', async (width, height, name, dark) => {
    const { page: small, context } = await screen.person('Marrow', { width, height, touch: true, dark });
    await small.goto(`${screen.serving.address}/#/${car}/flow/water..full-load`);
    await isWorkedOut(small);
    const over = (await small.evaluate('document.documentElement.scrollWidth - innerWidth')) as number;
    expect(over).toBeLessThanOrEqual(0);
    const little =
      (await small.evaluate(`[...document.querySelectorAll('button, select, input, [role=button], summary')]
      .map((e) => ({ e, r: e.getBoundingClientRect() }))
      .filter(({ r }) => r.width > 1 && r.height > 1 && Math.min(r.width, r.height) < 43.5)
      .map(({ e, r }) => e.outerHTML.slice(0, 80) + ' ' + Math.round(r.width) + 'x' + Math.round(r.height))`)) as string[];
    expect(little).toEqual([]);
    expect(await seriousFindings(small)).toEqual([]);
    await small.getByRole('img', { name: /^Water\./u }).scrollIntoViewIfNeeded();
    await screen.shot(small, `flow-${name}`);
    await small.emulateMedia({ media: 'print' });
    expect(await small.locator('.car-view').isVisible()).toBe(false);
    expect(await small.getByRole('heading', { name: 'Does it flow?' }).isVisible()).toBe(true);
    expect(await small.getByRole('table', { name: 'Lines' }).isVisible()).toBe(true);
    await screen.shot(small, `flow-${name}-print`, true);
    await context.close();
  });

  it('can be worked by keyboard alone: to another case, to a line, to the form', async () => {
    await page.goto(`${screen.serving.address}/#/${car}/flow/oil..full-load`);
    await isWorkedOut(page);
    const focused = () => page.evaluate('document.activeElement?.innerText ?? ""') as Promise<string>;
    const tabTo = async (words: RegExp): Promise<void> => {
      for (let i = 0; i < 120; i++) {
        await page.keyboard.press('Tab');
        if (words.test((await focused()).trim())) return;
      }
      throw new Error(`Tab never comes to ${words}`);
    };
    await tabTo(/Hot idle$/u);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'In numbers, Hot idle' }).waitFor();
    await tabTo(/^O3$/u);
    await page.keyboard.press('Enter');
    await page.getByRole('region', { name: 'What each piece of O3 loses' }).waitFor();
    await tabTo(/^Change this case$/u);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Case: Hot idle' }).waitFor();
  }, 60_000);

  it('is not asked of a car without circuits that flow', async () => {
    await page.goto(`${screen.serving.address}/#/`);
    await page.getByLabel('Name of the car').fill('Shed special');
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: /Does it fit\?/u }).waitFor();
    expect(await page.getByRole('button', { name: /Does it flow\?/u }).count()).toBe(0);
  });
});
