import { readdirSync } from 'node:fs';

// `npm test` runs this file alone in place of all browser tests: what stands in one file runs one after the other, while the other
// thread goes on with files that need no browser.
for (const name of readdirSync(new URL('.', import.meta.url)).toSorted())
  if (name.endsWith('.browser.test.ts')) await import(/* @vite-ignore */ `./${name}`);
