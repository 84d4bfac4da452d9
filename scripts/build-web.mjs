// Builds the screen (src/web) into out/web, and only when what it is made of has changed. Two at once do no harm: each builds into a
// folder of its own and puts it in place by renaming.
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const outDir = join(root, 'out', 'web');
const stampName = '.stamp';

/** Every file that the bundle can be made of. The rooms are taken whole: which of their files the screen reaches is the bundler's affair. */
function sourceFiles() {
  const inSrc = readdirSync(join(root, 'src'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !/\.(test|fixture)\.tsx?$/.test(entry.name))
    .map((entry) => join(entry.parentPath ?? entry.path, entry.name))
    .filter((file) => !/[\\/](corpus|server|cli|shelf|crew|paper|intake)[\\/]/.test(file));
  return [...inSrc.sort(), join(root, 'package-lock.json'), fileURLToPath(import.meta.url)];
}

function contentHash() {
  const hash = createHash('sha256');
  for (const file of sourceFiles()) hash.update(`${file.slice(root.length)}\n`).update(readFileSync(file));
  return hash.digest('hex');
}

const builtHash = () => {
  const stamp = join(outDir, stampName);
  return existsSync(stamp) ? readFileSync(stamp, 'utf8') : '';
};

async function bundle(into) {
  const [{ build }, { default: react }] = await Promise.all([import('vite'), import('@vitejs/plugin-react')]);
  await build({
    root: join(root, 'src', 'web'),
    configFile: false,
    logLevel: 'warn',
    plugins: [react()],
    build: {
      outDir: into,
      emptyOutDir: true,
      target: 'es2022',
      // Fonts stay files: the content policy allows no data: fonts.
      assetsInlineLimit: 0,
      modulePreload: { polyfill: false },
      chunkSizeWarningLimit: 1600,
    },
  });
}

/** Builds where needed; true when it did. */
export async function buildWeb() {
  const hash = contentHash();
  if (builtHash() === hash) return false;
  process.stderr.write('building the screen\n');
  mkdirSync(join(root, 'out'), { recursive: true });
  const fresh = join(root, 'out', `web-${process.pid}`);
  try {
    await bundle(fresh);
    writeFileSync(join(fresh, stampName), hash);
    const old = join(root, 'out', `web-old-${process.pid}`);
    if (existsSync(outDir)) renameSync(outDir, old);
    renameSync(fresh, outDir);
    rmSync(old, { recursive: true, force: true });
  } finally {
    rmSync(fresh, { recursive: true, force: true });
  }
  return true;
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  try {
    await buildWeb();
  } catch (fault) {
    process.stderr.write(`the screen could not be built: ${fault.message}\n`);
    process.exit(3);
  }
}
