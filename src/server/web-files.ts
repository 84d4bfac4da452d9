import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { extname, join, relative, sep } from 'node:path';

/** A file of the built screen. */
interface WebFile {
  readonly bytes: ArrayBuffer;
  readonly type: string;
  /** Its name holds a hash of what is in it: it never changes. */
  readonly isFixed: boolean;
}

const TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.ico': 'image/x-icon',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.wasm': 'application/wasm',
  '.txt': 'text/plain; charset=utf-8',
};

/** Every file of the built screen by its address, read once: what is not in this list cannot be asked for. */
export function webFiles(folder: string): ReadonlyMap<string, WebFile> {
  if (!existsSync(join(folder, 'index.html'))) return new Map();
  const files = new Map<string, WebFile>();
  for (const name of readdirSync(folder, { recursive: true, encoding: 'utf8' })) {
    const path = join(folder, name);
    if (!statSync(path).isFile()) continue;
    const address = `/${relative(folder, path).split(sep).join('/')}`;
    const bytes = new Uint8Array(readFileSync(path));
    files.set(address, {
      bytes: bytes.buffer,
      type: TYPES[extname(name)] ?? 'application/octet-stream',
      isFixed: address.startsWith('/assets/'),
    });
  }
  return files;
}
