// Makes one file of all that worker threads run (out/threads), and only when it is not made of the source as it stands: a thread that reads
// some 900 files through tsx takes seconds to begin. Two at once do no harm: each makes its own and puts it in place by renaming.
import { mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { threadCode, threadFile } from '../src/crew/thread-code.mjs';

const root = fileURLToPath(new URL('..', import.meta.url));

/** Files that look for others beside themselves go on doing so. */
const knowsItsPlace = {
  name: 'knows its place',
  transform(code, id) {
    if (!code.includes('import.meta.url')) return null;
    return code.replaceAll('import.meta.url', JSON.stringify(pathToFileURL(id).href));
  },
};

/** Makes one file `name` in a folder of all that a file of the checkout reads; libraries stay where they are. */
export async function oneFileOf(entry, into, name) {
  const { build } = await import('vite');
  await build({
    root,
    configFile: false,
    logLevel: 'warn',
    plugins: [knowsItsPlace],
    build: {
      ssr: join(root, entry),
      outDir: into,
      target: 'node20',
      copyPublicDir: false,
      rollupOptions: { output: { entryFileNames: name, codeSplitting: false } },
    },
  });
}

/** Makes it where needed; true when it did. */
export async function buildThreads() {
  if (threadCode() !== null) return false;
  const file = threadFile();
  const fresh = join(root, 'out', `threads-${process.pid}`);
  mkdirSync(dirname(file), { recursive: true });
  try {
    await oneFileOf('src/crew/serve-tasks.ts', fresh, 'threads.mjs');
    renameSync(join(fresh, 'threads.mjs'), file);
    for (const name of readdirSync(dirname(file)))
      if (name !== basename(file)) rmSync(join(dirname(file), name), { recursive: true, force: true });
  } finally {
    rmSync(fresh, { recursive: true, force: true });
  }
  return true;
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  try {
    await buildThreads();
  } catch (fault) {
    // Threads then read the source itself.
    process.stderr.write(`the threads' file could not be made: ${fault.message}\n`);
  }
}
