import { main } from './main.ts';
import type { Terminal } from './terminal.ts';

/** What a command said and how it ended, asked as from a shell whose output goes to a file. */
export async function runMain(words: readonly string[], more: Partial<Terminal> = {}) {
  const said = { out: '', err: '' };
  const code = await main(words, {
    out: (text) => void (said.out += text),
    err: (text) => void (said.err += text),
    outIsTerminal: false,
    errIsTerminal: false,
    columns: 100,
    env: {},
    ...more,
  });
  return { code, ...said };
}
