import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));
const configFile = join(root, 'tsconfig.core.json');
const canary = join(root, 'src/geometry/canary-of-the-test.ts');

/** Read once for all programs; only the canary differs. */
const sources = new Map<string, ts.SourceFile | undefined>();

/** What the compiler says of `text` if it stood in a core room, compiled together with all the core: one stray import there could let Node's types in. */
function complaints(text: string): string[] {
  const parsed = ts.getParsedCommandLineOfConfigFile(
    configFile,
    {},
    {
      ...ts.sys,
      onUnRecoverableConfigFileDiagnostic: (fault) => {
        throw new Error(String(fault.messageText));
      },
    },
  );
  if (!parsed) throw new Error('tsconfig.core.json could not be read');
  const host = ts.createCompilerHost(parsed.options);
  const [readFile, fileExists] = [host.readFile.bind(host), host.fileExists.bind(host)];
  host.readFile = (file) => (file === canary ? text : readFile(file));
  host.fileExists = (file) => file === canary || fileExists(file);
  const getSourceFile = host.getSourceFile.bind(host);
  host.getSourceFile = (file, ...rest) => {
    if (file === canary) return getSourceFile(file, ...rest);
    if (!sources.has(file)) sources.set(file, getSourceFile(file, ...rest));
    return sources.get(file);
  };
  const program = ts.createProgram({ rootNames: [...parsed.fileNames, canary], options: parsed.options, host });
  const source = program.getSourceFile(canary);
  if (!source) throw new Error('the canary was not compiled');
  expect(program.getRootFileNames().length).toBeGreaterThan(1);
  return program.getSemanticDiagnostics(source).map((row) => ts.flattenDiagnosticMessageText(row.messageText, '\n'));
}

describe('a core room', () => {
  it('cannot name what belongs to Node or to a browser', () => {
    const names = [
      'process',
      'Buffer',
      'URL',
      'document',
      'window',
      'fetch',
      'console',
      'setTimeout',
      'performance',
      'Worker',
    ];
    const told = complaints(`${names.map((name) => `export const use_${name}: unknown = ${name};`).join('\n')}\n`);
    expect(names.filter((name) => !told.some((line) => line.includes(`'${name}'`)))).toEqual([]);
    expect(complaints('export const answer: number = Math.max(1, 2);\n')).toEqual([]);
  });

  it('cannot import a Node module', () => {
    expect(
      complaints("import { readFileSync } from 'node:fs';\nexport const use = readFileSync;\n").length,
    ).toBeGreaterThan(0);
  });

  it('is one of the rooms that the core config compiles', () => {
    const core = /const core =\s+'([^']+)'/
      .exec(readFileSync(join(root, '.dependency-cruiser.cjs'), 'utf8'))?.[1]
      ?.split(' ');
    const included = (ts.readConfigFile(configFile, ts.sys.readFile).config as { include: string[] }).include;
    expect(included).toEqual(core?.map((room) => `src/${room}`));
  });
});
