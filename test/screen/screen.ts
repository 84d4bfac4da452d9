import { mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { gunzipSync } from 'node:zlib';
import axe, { type AxeResults } from 'axe-core';
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { type Car, carFrom } from '#car';
import { type Behind, ReadyCar, serve, type Serving } from '#server';
import { browserPath, type Drawing, launchOptions, SHOP_NAME } from './find-browser.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const shots = join(root, 'out', 'screens');

/** A real server with a shelf of its own, and a real browser, driven as a builder would. */
export class Screen {
  readonly serving: Serving;
  readonly folder: string;
  private readonly browsers = new Map<Drawing, Promise<Browser>>();
  /** What no screen may do: faults on the console, and requests to anywhere else. */
  readonly wrong: string[] = [];

  private constructor(serving: Serving, folder: string) {
    this.serving = serving;
    this.folder = folder;
  }

  /** @param behind - what flows, cooks or cannot be reached comes among the snags too: some 20 s behind each change of the demo car */
  static async open(behind: Behind = 'nothing', isShared = false): Promise<Screen> {
    const folder = mkdtempSync(join(tmpdir(), 'fairlead-screen-'));
    const serving = await serve({
      dataFolder: join(folder, 'data'),
      webFolder: join(root, 'out', 'web'),
      port: 0,
      isShared,
      behind,
      demo: async () => takenDemo(),
      log: (text) => process.stderr.write(`${text}\n`),
    });
    return new Screen(serving, folder);
  }

  /** The same server by a name that is no loopback one to the browser. */
  get byName(): string {
    return `http://${SHOP_NAME}:${new URL(this.serving.address).port}`;
  }

  private browser(drawing: Drawing): Promise<Browser> {
    const had = this.browsers.get(drawing) ?? chromium.launch(launchOptions(browserPath()!, drawing));
    this.browsers.set(drawing, had);
    return had;
  }

  /** Another person at another screen; in three dimensions where that is what is looked at. */
  async person(
    name: string,
    look: { width?: number; height?: number; dark?: boolean; touch?: boolean; drawing?: Drawing } = {},
  ): Promise<{ page: Page; context: BrowserContext }> {
    const browser = await this.browser(look.drawing ?? 'flat');
    const context = await browser.newContext({
      viewport: { width: look.width ?? 1366, height: look.height ?? 900 },
      colorScheme: look.dark === true ? 'dark' : 'light',
      hasTouch: look.touch ?? false,
      reducedMotion: 'reduce',
    });
    await context.addInitScript(`localStorage.setItem('fairlead-who', ${JSON.stringify(name)})`);
    const page = await context.newPage();
    page.on('console', (message) => {
      if (message.type() === 'error') this.wrong.push(`console: ${message.text()}`);
    });
    page.on('pageerror', (fault) => this.wrong.push(`page: ${fault.message}`));
    page.on('request', (request) => {
      const { origin, protocol } = new URL(request.url());
      const { address, shopAddresses } = this.serving;
      if (![address, ...shopAddresses, this.byName].includes(origin) && !['data:', 'blob:'].includes(protocol))
        this.wrong.push(`asked outside: ${request.url()}`);
    });
    page.setDefaultTimeout(50_000);
    return { page, context };
  }

  /** The demo car on the shelf with its ways taken, opened. */
  async withDemo(page: Page): Promise<string> {
    const kept = await takenDemo().putOn(this.serving.desk, 'Marrow');
    await this.goToCar(page, kept.id);
    return kept.id;
  }

  async goToCar(page: Page, id: string): Promise<void> {
    await page.goto(`${this.serving.address}/#/${id}/lines`);
    await page.getByRole('button', { name: /Does it fit\?/u }).waitFor();
  }

  /** Kept as test output, to be looked at; `isWhole`: down to its end, as it prints. */
  async shot(page: Page, name: string, isWhole = false): Promise<void> {
    mkdirSync(shots, { recursive: true });
    await page.screenshot({ path: join(shots, `${name}.png`), fullPage: isWhole });
  }

  async close(): Promise<void> {
    await Promise.all([...this.browsers.values()].map(async (browser) => (await browser).close()));
    await this.serving.close();
    rmSync(this.folder, { recursive: true, force: true });
  }
}

/** What axe-core calls serious or critical on the page as it stands, in one line each. */
export async function seriousFindings(page: Page): Promise<string[]> {
  await page.evaluate(axe.source);
  // Run in the page, where there is a document; this file is compiled without one.
  const found = (await page.evaluate("axe.run(document, { resultTypes: ['violations'] })")) as AxeResults;
  return found.violations
    .filter(({ impact }) => impact === 'serious' || impact === 'critical')
    .map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.target.join(' ')).join(', ')}`);
}

/** The demo car with the ways that a plan took, as `scripts/make-taken-demo.ts` wrote them. */
export function takenCar(): Car {
  const text = gunzipSync(readFileSync(join(root, 'test', 'screen', 'fellside-taken.json.gz'))).toString('utf8');
  const reading = carFrom(JSON.parse(text));
  if (!reading.ok) throw new Error(`fellside-taken: ${reading.faults.map((fault) => fault.place).join(', ')}`);
  return reading.car;
}

/** The same with its scan, to be put on a shelf. */
export function takenDemo(): ReadyCar {
  const car = takenCar();
  const demo = join(root, 'demo');
  const files = car.parts.flatMap((part) => part.shapes.flatMap(({ mesh }) => mesh?.file ?? []));
  return new ReadyCar(
    car,
    new Map(files.map((file) => [file, readFileSync(join(demo, dirname(file), file.split('/').at(-1)!))])),
  );
}
