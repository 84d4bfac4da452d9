// Finds the modules of a folder that a long-running command may pick from, and loads them through tsx.
import { existsSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { register } from 'tsx/esm/api';

/** The default exports of folder/*.ts whose name is asked for (all when none is), in order of name. Ends with 2 on an unknown name. */
export async function namedModules(folder, asked) {
  const place = new URL(`../${folder}/`, import.meta.url);
  const names = existsSync(fileURLToPath(place))
    ? readdirSync(fileURLToPath(place))
        .filter((file) => file.endsWith('.ts') && !file.endsWith('.test.ts') && !file.endsWith('.case.ts'))
        .map((file) => file.slice(0, -'.ts'.length))
        .sort()
    : [];
  const unknown = asked.filter((name) => !names.includes(name));
  if (unknown.length > 0) {
    process.stderr.write(`${folder}: there is no "${unknown[0]}"; allowed: ${names.join(', ') || 'none yet'}\n`);
    process.exit(2);
  }
  register();
  const chosen = asked.length > 0 ? asked : names;
  const loaded = [];
  for (const name of chosen) loaded.push({ name, ...(await import(new URL(`${name}.ts`, place).href)).default });
  return loaded.filter((module) => typeof module.run === 'function');
}
