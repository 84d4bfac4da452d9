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

  it('says which jobs are within a break; crew and breaks by form', async () => {
    await page.getByRole('button', { name: /What comes off\?/u }).click();
    const between = page.getByRole('region', { name: 'Between two runs' });
    await between.getByRole('button', { name: /Turbo centre housing 40 min, 0\.\d+ L/u }).waitFor({ timeout: 50_000 });
    await screen.shot(page, 'off-between-runs');
    await page.getByRole('button', { name: 'Crew, breaks, minutes, tools' }).click();
    await page.getByRole('button', { name: 'One more at work' }).click();
    await page.getByRole('group', { name: 'At work' }).getByText('3', { exact: true }).waitFor();
    await page.getByRole('button', { name: 'Put a break in' }).click();
    await page.getByLabel('Name, such as').fill('Lunch');
    await page.getByLabel('Time there is').fill('an hour');
    await page.getByLabel('Put a job in').selectOption('filter-canister');
    await page.getByRole('button', { name: 'Keep it' }).click();
    await page.getByRole('alert').getByText('"an hour" is no number in min').waitFor();
    await page.getByLabel('Time there is').fill('10');
    await page.getByRole('button', { name: 'Keep it' }).click();
    await page.getByRole('button', { name: 'Lunch: 10 min, 1 job' }).waitFor();
    await page.emulateMedia({ media: 'print' });
    await page.getByText('Lunch: 10 min, 1 job').waitFor();
    expect(await page.getByText('Put a break in').isVisible()).toBe(false);
    await page.emulateMedia({ media: 'screen' });
    await page.getByRole('button', { name: 'Back to what comes off' }).click();
    const lunch = page.getByRole('region', { name: 'Lunch' });
    await lunch.getByRole('button', { name: /◆ 1\d min, longer than it/u }).waitFor({ timeout: 30_000 });
  }, 60_000);

  it('holds the car against a clause put in, and says what is due after a day that it ran', async () => {
    await page.getByRole('button', { name: 'Rules' }).click();
    await page.getByRole('button', { name: 'Put a clause in' }).first().click();
    await page.getByLabel('Number of the clause').fill('9.1');
    await page.getByLabel('What it asks').fill('No fuel line is longer than half a metre');
    await page.getByLabel('It is about').selectOption('line');
    await page.getByLabel('What is measured').selectOption('length-mm');
    await page.getByLabel('At most').fill('500');
    await page.getByLabel('Only lines with these duties').fill('fuel, fuel-return');
    await page.getByRole('button', { name: 'Keep it' }).click();
    const clause = page.getByRole('group', { name: 'Clause 9.1' });
    await clause.getByText('does not meet').waitFor({ timeout: 30_000 });
    expect(await clause.innerText()).toMatch(/F\d+ \d+\.\d mm \(at most 500 mm\): /u);
    expect(await seriousFindings(page)).toEqual([]);
    await screen.shot(page, 'off-rules');
    await page.emulateMedia({ media: 'print' });
    await clause.getByText('9.1', { exact: true }).waitFor();
    expect((await clause.getByText('No fuel line is longer').boundingBox())!.width).toBeGreaterThan(400);
    await page.emulateMedia({ media: 'screen' });
    await page.getByRole('button', { name: 'Back to what comes off' }).click();
    await page.getByRole('button', { name: 'What is due' }).click();
    await page.getByRole('button', { name: 'Put a day in' }).click();
    await page.getByLabel('Day, such as').fill('2026-11-20');
    await page.getByLabel('Runs', { exact: true }).fill('3');
    await page.getByRole('button', { name: 'Keep it' }).click();
    await page.getByRole('button', { name: '2026-11-20: 3 runs' }).waitFor();
    // Thirteen runs of the fuel cell before, these three after.
    await page
      .getByRole('region', { name: /^As of/u })
      .getByText(/^Fuel cell, 30 L: .*16 runs/u)
      .waitFor();
    await screen.shot(page, 'off-due');
    const id = new URL(page.url()).hash.split('/')[1]!;
    await page.goto(`${screen.serving.address}/#/${id}/off/held..header`);
    await page.getByRole('button', { name: 'Put a fastener in' }).click();
    await page.getByLabel('Name', { exact: true }).fill('Strap screw');
    await page.getByLabel('It is', { exact: true }).selectOption('socket');
    await page.getByLabel('Middle of its head').fill('1400; 100; 700 mm');
    await page.getByLabel('The tool comes from').selectOption('up');
    await page.getByRole('button', { name: 'Keep it' }).click();
    await page.getByRole('button', { name: 'Strap screw: a socket screw' }).waitFor();
    await page.getByRole('button', { name: 'How it comes off, and its dates' }).click();
    await page.getByLabel('Ways to try first').fill('up, left');
    await page.getByLabel('Fitted on').fill('2026-04-01');
    await page.getByRole('button', { name: 'Keep it' }).click();
    await page.getByRole('heading', { name: /^What holds/u }).waitFor();
    await page.getByRole('button', { name: 'More', exact: true }).click();
    await page.getByRole('menuitem', { name: 'Its name and keep-offs' }).click();
    await page.getByLabel('To fixed parts').fill('1/4 in');
    await page.getByRole('button', { name: 'Keep it' }).click();
    await page.getByRole('heading', { name: '31 lines' }).waitFor();
    expect((await screen.serving.desk.shelf.openCar(id)).car.keepOffMm!.fixed).toBe(6.35);
    const header = (await screen.serving.desk.shelf.openCar(id)).car.parts.find((part) => part.id === 'header')!;
    expect(header.fasteners!.at(-1)).toEqual({
      id: 'strap-screw',
      name: 'Strap screw',
      head: 'socket',
      atMm: [1400, 100, 700],
      faces: [0, 0, 1],
    });
    expect(header).toMatchObject({
      pulls: [
        [0, 0, 1],
        [0, -1, 0],
      ],
      life: { fittedOn: '2026-04-01' },
    });
    await page.goto(`${screen.serving.address}/#/${id}/off/all`);
  }, 60_000);

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
    expect(sum).toMatch(/To change Turbo centre housing/u);
    expect(sum).not.toMatch(/NaN|undefined/u);
    await page
      .getByRole('complementary', { name: 'Cautions' })
      .getByText(/On stands, engine off/u)
      .waitFor();
    expect(await seriousFindings(page)).toEqual([]);
    await screen.shot(page, 'off-turbo');
    await page.getByRole('button', { name: /Try quarter-turns/u }).click();
    const wins = page.getByRole('region', { name: 'What would win time' });
    await wins
      .getByText(/^3 min less: a dry-break where /u)
      .first()
      .waitFor({ timeout: 50_000 });
    await page.emulateMedia({ media: 'print' });
    await page.getByText(/^1\. /u).waitFor();
    await page.getByText('2 M6 nuts, socket 10 mm: nut-1, nut-2').waitFor();
    expect(await page.getByRole('button', { name: 'Print the list' }).isVisible()).toBe(false);
    await screen.shot(page, 'off-turbo-print', true);
    await page.emulateMedia({ media: 'screen' });
  }, 60_000);

  it('shows it come out on the car, step by step, by keyboard too', async () => {
    const scrub = page.getByRole('slider');
    expect(await scrub.getAttribute('aria-valuetext')).toBe('All on');
    await page.getByRole('button', { name: 'Next step' }).click();
    expect(await scrub.getAttribute('aria-valuetext')).toMatch(/^After step 1 of \d+; next: undo O8 at turbo.oil /u);
    await scrub.focus();
    await page.keyboard.press('End');
    expect(await scrub.getAttribute('aria-valuetext')).toBe('All off');
    await screen.shot(page, 'off-turbo-off');
    await page.getByRole('button', { name: 'Step back' }).click();
    expect(await scrub.getAttribute('aria-valuetext')).toMatch(/^After step \d+ of/u);
    await page.getByRole('button', { name: 'See it on the car' }).last().click();
    expect(await scrub.getAttribute('aria-valuetext')).toMatch(/^Step 6 of 6: take Turbo centre housing out, right; /u);
  }, 60_000);

  it('fits a phone without anything to scroll sideways', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(390);
    await screen.shot(page, 'off-390');
  }, 60_000);
});
