import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import type { Page } from 'playwright-core';
import { findPort } from '#car';
import type { OpenedNumber, Snag } from '#snags';
import { systemNeed } from '../scripts/system-needs.mjs';
import { Screen, seriousFindings, takenCar } from './screen/screen.ts';

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
      .waitFor({ timeout: 100_000 });
  }, 120_000);
  afterAll(() => screen.close());
  afterEach(() => {
    expect(screen.wrong.splice(0)).toEqual([]);
  });

  const at = (paper: string) => page.goto(`${screen.serving.address}/#/${car}/${paper}`);
  const asked = async <T>(path: string): Promise<T> =>
    (await (await fetch(`${screen.serving.address}/api/cars/${car}${path}`)).json()) as T;

  /** A change made on another screen. */
  const changed = async (edits: readonly object[]): Promise<void> => {
    const { revision } = await screen.serving.shelf.openCar(car);
    const back = await fetch(`${screen.serving.address}/api/cars/${car}/edits`, {
      method: 'POST',
      headers: { 'content-type': 'application/json', origin: screen.serving.address },
      body: JSON.stringify({ base: revision, edits, who: 'Teal' }),
    });
    expect([back.status, await back.text()]).toEqual([200, expect.any(String)]);
    await page
      .getByText(new RegExp(`change ${revision + 1}\\b`, 'u'))
      .first()
      .waitFor();
  };

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

  it('takes a snag as accepted by name and reason, and shows it again when it gets worse', async () => {
    const { snags } = await asked<{ snags: Snag[] }>('/standing');
    const snag = snags.find(({ line, part }) => line === 'O1' && part === 'belt')!;
    await at(`snag/${encodeURIComponent(snag.id)}`);
    await page.getByText('Accept it, with a reason').click();
    await page.getByLabel('Why it may stay as it is').fill('Clamped beside the belt, looked at after each run');
    await page.getByRole('button', { name: 'Accept it', exact: true }).click();
    const accepted = page.getByRole('region', { name: 'Accepted' });
    await accepted.getByText(/^Accepted by Marrow, .*: Clamped beside the belt/u).waitFor();
    const belt = (await screen.serving.shelf.openCar(car)).car.parts.find(({ id }) => id === 'belt')!;
    const keepOff = (mm: number | undefined): object[] => [
      { do: 'set-part', part: 'belt', field: 'keepOffMm', ...(mm === undefined ? {} : { value: mm }) },
    ];
    await changed(keepOff(60));
    await accepted.getByText('▲ It has got worse since it was accepted').waitFor({ timeout: 30_000 });
    await changed(keepOff(belt.keepOffMm));
    await accepted.getByText(/^Accepted by Marrow/u).waitFor({ timeout: 30_000 });
    await accepted.getByRole('button', { name: 'Open it again' }).click();
    await accepted.waitFor({ state: 'detached' });
  }, 60_000);

  it('names at once, as it is typed, the reading of a port that the others do not bear out', async () => {
    const { port } = findPort((await screen.serving.shelf.openCar(car)).car, 'tank.out')!;
    const [x, y, z] = port.atMm!;
    await at('tape/readings/tank.out');
    const reading = async (n: number, values: readonly number[]): Promise<void> => {
      const boxes = page.getByRole('region', { name: `Reading ${n}` }).getByRole('textbox');
      for (const [k, mm] of values.entries()) await boxes.nth(k + 1).fill(`${mm} mm`);
    };
    for (const n of [1, 2, 3]) {
      await reading(n, [x, y, z]);
      await page.getByRole('button', { name: 'One more reading' }).click();
    }
    const status = page.getByRole('main').getByRole('status');
    expect(await status.innerText()).not.toContain('▲');
    await reading(4, [x + 50, y, z]);
    await status.getByText(/reading 4 .*is 50 mm from where the other readings put the point/u).waitFor();
    await page.getByRole('button', { name: 'Leave it' }).click();
  }, 60_000);

  it('says what taking another way of a line would change, before it is kept', async () => {
    await at('line/O10');
    await page.getByRole('button', { name: 'Work out ways' }).click();
    const ways = page.getByRole('region', { name: 'Ways' });
    await ways.locator('.way', { hasText: /^2/u }).click({ timeout: 50_000 });
    const before = (await screen.serving.shelf.openCar(car)).revision;
    await ways.getByRole('button', { name: 'What would it change?' }).click();
    const seen = page.getByRole('region', { name: 'What it would change' });
    await seen.waitFor({ timeout: 30_000 });
    expect(await seen.innerText()).toMatch(
      /not kept yet[\s\S]*(?:Buy more|No longer needed)[\s\S]*\d+ before, \d+ then/u,
    );
    expect((await screen.serving.shelf.openCar(car)).revision).toBe(before);
    await screen.shot(page, 'way-what-if');
  }, 60_000);

  it('tells what a change cost between two named points: fates of the lines, parts to buy, parts left over', async () => {
    const { shelf } = screen.serving;
    const before = await shelf.openCar(car);
    await shelf.namePoint(car, before.revision, 'as planned');
    await at('history');
    await page.getByText('as planned').waitFor();
    await changed([{ do: 'remove-line', line: 'O8' }]);
    await page.getByRole('button', { name: 'What do I buy?' }).click();
    await page.getByRole('button', { name: 'What a change cost' }).click();
    await page.getByLabel('From', { exact: true }).selectOption(`${before.revision}`);
    const told = page.getByRole('region', { name: 'What it cost' });
    await told.getByText('Scrap: 1').waitFor();
    // A line taken off scraps that line alone, buys nothing, and leaves its hose and both its ends over.
    expect(await told.getByText(/1 scrap, 0 remake, 0 new, 30 keep/u).count()).toBe(1);
    expect(await told.getByText('To buy: 0 rows').count()).toBe(1);
    const left = await told.getByRole('table', { name: 'Left over, goes back or into the box' }).innerText();
    expect(left).toMatch(/O8/u);
    await screen.shot(page, 'compare-points');
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'The other way round' }).click();
    await told.getByText('New: 1').waitFor();
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(async () => (await shelf.openCar(car)).car.lines.length).toBe(31);
  });

  it('keeps the shop’s box and its own rows: counted, read from a list, written by hand, taken away and put back', async () => {
    const { shelf } = screen.serving;
    await at('buy');
    const row = page.locator('table.order tbody tr').first();
    await row.waitFor();
    const id = (await row.locator('.order-where').first().innerText()).trim();
    await page.getByRole('button', { name: 'The shop' }).first().click();
    await page.getByRole('heading', { name: 'The shop' }).waitFor();
    const name = (await asked<{ order: { rows: { id: string; name: string }[] } }>('/standing')).order.rows.find(
      (one) => one.id === id,
    )!.name;
    await page
      .getByRole('button', { name: `One more: ${name}` })
      .first()
      .click();
    await page.getByRole('button', { name: 'Keep this count' }).click();
    await expect.poll(async () => (await shelf.shop()).box.map((one) => one.id)).toEqual([id]);
    // An order is what is needed less what lies in the shop: the same row now says that one is in the box.
    const order = await asked<{ order: { rows: { id: string; inBox: number }[] } }>('/standing');
    expect(order.order.rows.filter((one) => one.id === id).reduce((sum, one) => sum + one.inBox, 0)).toBeGreaterThan(0);

    await page.getByRole('button', { name: 'Own catalogue' }).click();
    const list =
      'table,id,boreMm,odMm,minBendRadiusMm,radiusMeasured\r\nhose,shop-h1,12,20,90,centreline\r\nhose,shop-h2,30,20,90,centreline\r\n';
    await page
      .locator('input[type=file]')
      .setInputFiles({ name: 'list.csv', mimeType: 'text/csv', buffer: Buffer.from(list) });
    // A bore wider than its outside is a fault, with the line it stands on; the sound row may come in without it.
    await page.getByText(/line 3, boreMm: 30 is not smaller than odMm 20/u).waitFor();
    expect((await shelf.shop()).catalogue).toEqual({});
    await page.getByRole('button', { name: 'Put the 1 sound row in' }).click();
    await page.getByRole('button', { name: 'Take away shop-h1' }).waitFor();
    await page.getByText('Add a row').click();
    await page.getByLabel('Id *').fill('shop-h3');
    for (const [label, value] of [
      ['Bore, mm *', '19'],
      ['Outside diameter, mm *', '28'],
      ['Least bend radius, mm *', '120'],
    ] as const)
      await page.getByLabel(label).fill(value);
    await page.getByLabel('Radius measured to *').selectOption('centreline');
    await screen.shot(page, 'shop-catalogue');
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Put it in' }).click();
    const hoses = async () => (await shelf.shop()).catalogue.hoses?.map((one) => one.id) ?? [];
    await expect.poll(hoses).toEqual(['shop-h1', 'shop-h3']);
    await page.getByRole('button', { name: 'Take away shop-h1' }).click();
    await expect.poll(hoses).toEqual(['shop-h3']);
    await page.getByRole('button', { name: 'Put back what was taken away' }).click();
    await expect.poll(hoses).toEqual(['shop-h3', 'shop-h1']);
    await page.getByText('Put back', { exact: true }).waitFor();
  });

  it('changes a solid and a mover where they stand, and lets a port go along with what it was taped from', async () => {
    const { shelf } = screen.serving;
    const now = async () => (await shelf.openCar(car)).car;
    const part = async (id: string) => (await now()).parts.find((one) => one.id === id)!;
    const before = await part('tank');
    const index = before.shapes.findIndex((shape) => shape.cylinder !== undefined);
    await at('tape/part/tank');
    const solids = page.getByRole('region', { name: 'Its shape' });
    await solids
      .getByRole('button', { name: /^Change cylinder/u })
      .first()
      .click();
    await solids.getByLabel('Outside diameter').fill('222 mm');
    await screen.shot(page, 'solid-changed');
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Keep it' }).click();
    await expect.poll(async () => (await part('tank')).shapes[index]!.cylinder!.radiusMm).toBe(111);
    await page.getByRole('button', { name: 'Change it' }).waitFor();
    expect((await part('tank')).shapes.length).toBe(before.shapes.length);

    const [mover] = (await now()).movers.filter((one) => one.turnDeg !== undefined);
    await at('tape/mover');
    await page.getByRole('button', { name: `Change ${mover!.name ?? mover!.id}` }).click();
    await page.getByLabel('Swings on by (right-handed)').fill('3');
    await page.getByRole('button', { name: 'Keep it' }).click();
    await expect
      .poll(async () => (await now()).movers.find((one) => one.id === mover!.id)!.turnDeg)
      .toEqual([mover!.turnDeg![0], 3]);
    await page.getByRole('heading', { name: 'Something that moves' }).waitFor();

    const { id: portId } = (await part('tank')).ports[0]!;
    const other = (await now()).parts.find((one) => one.id !== 'tank' && one.ports.length > 0)!;
    const ref = `${other.id}.${other.ports[0]!.id}`;
    await at(`tape/port/${ref}`);
    await page.getByLabel('Measured from').selectOption(`port tank.${portId}`);
    for (const axis of ['along the car', 'across', 'height'])
      await page.getByRole('textbox', { name: `How far, ${axis}` }).fill('100 mm');
    expect(await page.getByLabel('Goes along when that is moved or measured again').isChecked()).toBe(true);
    await page.getByRole('button', { name: 'Keep it' }).click();
    const port = async () => (await part(other.id)).ports[0]!;
    await expect.poll(async () => (await port()).follows).toBe(`tank.${portId}`);
    await page.getByRole('button', { name: 'Change it' }).waitFor();
    const stood = (await port()).atMm;
    await changed([{ do: 'move-part', part: 'tank', byMm: [0, 0, 25] }]);
    // Hand: it goes up by what the tank goes up.
    expect((await port()).atMm).toEqual([stood[0], stood[1], stood[2] + 25]);
    const undo = page.getByRole('button', { name: 'Undo' });
    for (let left = 4; left > 0; left--) {
      const { revision } = await shelf.openCar(car);
      await undo.click();
      await expect.poll(async () => (await shelf.openCar(car)).revision).toBeGreaterThan(revision);
    }
    expect((await part('tank')).shapes).toEqual(before.shapes);
  });

  it('says of a line what it is made of, that it falls, and where it passes a panel', async () => {
    const line = async () => (await screen.serving.shelf.openCar(car)).car.lines.find((one) => one.id === 'C1')!;
    const before = await line();
    await at('tape/line/C1');
    await page.getByLabel('It runs', { exact: true }).selectOption('falls');
    await page.getByLabel('Nose up, most').fill('6');
    await page.getByLabel('The place is fixed').first().check();
    for (const [axis, far] of [
      ['along the car', '1350 mm'],
      ['across', '300 mm'],
      ['height', '250 mm'],
    ] as const)
      await page.getByRole('textbox', { name: `How far, ${axis}` }).fill(far);
    await page.getByRole('button', { name: 'One more piece' }).click();
    const last = page.getByRole('group', { name: `Piece ${before.pieces.length + 1}` });
    await last.getByLabel('Which hose').fill(before.pieces[0]!.hose!);
    await screen.shot(page, 'line-form');
    expect(await seriousFindings(page)).toEqual([]);
    await last.getByRole('button', { name: /Take away piece/u }).click();
    await page.getByRole('button', { name: 'Keep it' }).click();
    await page.getByRole('heading', { name: /^C1/u }).waitFor();
    const now = await line();
    expect(now.fall).toEqual({ pitchDeg: [0, 6] });
    expect(now.through[0]!.atMm).toEqual([1350, 300, 250]);
    expect(now.pieces).toEqual(before.pieces);
    await page.getByRole('button', { name: 'Undo' }).click();
    await expect.poll(line).toEqual(before);
  });

  it('prints a form as lines to write on', async () => {
    await at('tape/line/C1');
    await page.getByRole('heading', { name: 'Change C1' }).waitFor();
    // What is not seen has no role: on the screen there is a key to each piece, on paper none.
    const keys = page
      .getByRole('article')
      .or(page.locator('form'))
      .getByRole('button', { name: /Take away/u });
    expect(await keys.count()).toBeGreaterThan(0);
    await page.emulateMedia({ media: 'print' });
    expect(await keys.count()).toBe(0);
    expect(await page.getByLabel('It carries').isVisible()).toBe(true);
    await screen.shot(page, 'print-form');
    await page.emulateMedia({ media: 'screen' });
  });

  it('speaks inches on every paper where inches are worked in, with few reasoned exceptions', async () => {
    const { page: inch, context } = await screen.person('Marrow');
    await context.addInitScript(`localStorage.setItem('fairlead-tape-unit', 'in')`);
    const left: string[] = [];
    for (const [paper, tab] of papersInInches) {
      await inch.goto(`${screen.serving.address}/#/${car}/${paper}`);
      await inch.locator('main :is(h1, h2)').first().waitFor();
      if (tab !== undefined) await inch.getByRole('button', { name: tab, exact: true }).click();
      await expect
        .poll(() => inch.locator('main').innerText(), { timeout: 20_000 })
        .not.toMatch(/being (?:judged|counted)|Working out|Getting|Laying/u);
      await inch.evaluate(`document.querySelectorAll('details').forEach((d) => { d.open = true; })`);
      const texts = [...(await visibleTexts(inch)), ...(await fieldTexts(inch))];
      left.push(...texts.filter(isInMm).map((text) => `${paper}: ${text}`));
    }
    expect(left).toEqual([]);
    await context.close();
  });
});

const papersInInches: readonly (readonly [paper: string, tab?: string])[] = [
  ['lines'],
  ['line/C1'],
  ['part/turbo'],
  ['snags'],
  ['buy'],
  ['buy', 'Cut plan'],
  ['tape/part/tank'],
  ['tape/port/tank.return-outer'],
  ['flow/all'],
  ['cut/panel/PN2R'],
  ['cut/lever/K1'],
];

/** What may say millimetres all the same: taken out before one looks. */
const mayBeInMm: readonly RegExp[] = [
  // The name that a part is bought by, with its sizes in inches beside it.
  /[\d.]+(?: (?:to|x|×) [\d.]+)? mm \([\d.]+(?: (?:to|x|×) [\d.]+)? in\)/gu,
  // A formula is in the units that its constants are in.
  /\[mm2?\]/gu,
  // A setting as it is written in the car file.
  /"mm": \d+/gu,
  // What the choice of units is called, and the files that are read by machines.
  /^mm$|^mm, cm², kg$|The DXF is in millimetres/gu,
];
/** And names that the builder gave, as they were given. */
const givenNames = (takenCar().movers ?? []).flatMap(({ name = '' }) => (name === '' ? [] : [name]));
const isInMm = (text: string): boolean => {
  const unnamed = givenNames.reduce((rest, name) => rest.replaceAll(name, ''), text);
  return /\bmm\b/u.test(mayBeInMm.reduce((rest, one) => rest.replace(one, ''), unnamed));
};

/** What stands in fields: what was kept, to be changed. */
const fieldTexts = (page: Page): Promise<string[]> =>
  page.evaluate(
    `[...document.querySelectorAll('main input:not([type=hidden]), main textarea')].map(({ value }) => value)`,
  );

/** Every text that is seen; those of a picture together, since a row of it may break anywhere. */
const visibleTexts = (page: Page): Promise<string[]> =>
  page.evaluate(`(() => {
    const texts = [...document.querySelectorAll('svg')].map((svg) => [...svg.querySelectorAll('text')].map((t) => t.textContent).join(' '));
    const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walk.nextNode()) {
      const { parentElement: box, textContent } = walk.currentNode;
      if (box.closest('svg, style, script') === null) texts.push(textContent.trim());
    }
    return texts;
  })()`);
