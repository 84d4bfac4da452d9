import { existsSync } from 'node:fs';
import type { LaunchOptions } from 'playwright-core';

const PLACES = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/usr/bin/microsoft-edge',
  '/snap/bin/chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
];

/** A browser of the Chromium family on this machine; undefined where there is none. */
export const browserPath = (): string | undefined => {
  const own = process.env['CHROME_PATH'];
  return own !== undefined && existsSync(own) ? own : PLACES.find((path) => existsSync(path));
};

/** `flat`: without three dimensions, which drawn by the processor cost more than all else that a screen does; the page says so itself. */
export type Drawing = 'in 3D' | 'flat';

const drawnBy: Readonly<Record<Drawing, readonly string[]>> = {
  'in 3D': ['--use-angle=swiftshader', '--enable-unsafe-swiftshader'],
  flat: ['--disable-gpu', '--disable-3d-apis'],
};

/** A name that the browser takes for another machine of the shop. */
export const SHOP_NAME = 'shop';

/** How it is started: nothing fetched in the background. */
export const launchOptions = (executablePath: string, drawing: Drawing = 'in 3D'): LaunchOptions => ({
  executablePath,
  chromiumSandbox: process.getuid?.() !== 0,
  args: [
    ...drawnBy[drawing],
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-quic',
    '--disable-sync',
    '--no-first-run',
    `--host-resolver-rules=MAP ${SHOP_NAME} 127.0.0.1`,
  ],
});
