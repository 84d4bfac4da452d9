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

/** How it is started: software rendering, nothing fetched in the background. */
export const launchOptions = (executablePath: string): LaunchOptions => ({
  executablePath,
  chromiumSandbox: process.getuid?.() !== 0,
  args: [
    '--use-angle=swiftshader',
    '--enable-unsafe-swiftshader',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-quic',
    '--disable-sync',
    '--no-first-run',
  ],
});
