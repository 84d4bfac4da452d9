import { existsSync } from 'node:fs';
import { basename, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { filesNamed, root, type SourceFile, sourceFiles } from './source-files.ts';

const code = ['src', 'bench', 'prove', 'test', 'scripts', 'bin', '.ci']
  .flatMap((folder) => sourceFiles(folder, ['.ts', '.tsx', '.mjs', '.cjs', 'run']))
  .filter((file) => file.path !== 'test/house-words.test.ts');
const shipped = code.filter((file) => /^(src|bin|scripts)\//.test(file.path) && !file.path.endsWith('.test.ts'));
const papers = [
  ...sourceFiles('docs', ['.md']),
  ...sourceFiles('demo', ['.md']),
  ...filesNamed(['README.md', 'ARCHITECTURE.md', 'CONTRIBUTING.md', 'CHANGELOG.md']),
];

/** `file:line: text` for each line that the test finds fault with. */
function lines(files: readonly SourceFile[], isBad: (line: string) => boolean): string[] {
  return files.flatMap((file) =>
    file.text.split('\n').flatMap((line, i) => (isBad(line) ? [`${file.path}:${i + 1}: ${line.trim()}`] : [])),
  );
}

/** `unsafe-inline` is a word of the content policy standard, not ours. */
const isVerdict = (line: string) => /\b(un)?safe\b(?!-inline)|\b(il)?legal\b/i.test(line);
/** A paper may say which words it does not use; then they stand in quotes. */
const isVerdictOutsideQuotes = (line: string) => isVerdict(line.replace(/"[^"]*"/g, ''));

/** Papers named in a line that the checkout does not hold: nobody who reads the code could open them. */
function strangePapers(line: string, path: string): string[] {
  const places = ['.', 'docs', 'docs/decisions', 'demo', 'src', path.split('/').slice(0, -1).join('/')];
  return [...line.matchAll(/[\w./-]*\w\.md\b/g)]
    .map(([name]) => name)
    .filter((name) => !places.some((place) => existsSync(join(root, place, name))));
}

describe('the words of the house', () => {
  it('are read from enough files', () => {
    expect(code.length).toBeGreaterThan(10);
    expect(papers.length).toBeGreaterThan(4);
  });

  it('hold no verdict that belongs to a scrutineer', () => {
    expect(lines(shipped, isVerdict)).toEqual([]);
    expect(lines(papers, isVerdictOutsideQuotes)).toEqual([]);
    expect(isVerdict("text: 'this line is safe'")).toBe(true);
    expect(isVerdict('Number.isSafeInteger(count)')).toBe(false);
  });

  it('name only papers that are in the checkout, and no place on one machine', () => {
    const files = [...code, ...papers];
    const strange = files.flatMap((file) =>
      file.text
        .split('\n')
        .flatMap((line, i) => strangePapers(line, file.path).map((name) => `${file.path}:${i + 1}: ${name}`)),
    );
    expect(strange).toEqual([]);
    expect(strangePapers('as nowhere-at-all.md says', 'src/car/edit.ts')).toEqual(['nowhere-at-all.md']);
    expect(lines(files, (line) => /(^|[\s'"`(])\/(work|home|root)\/|\.\.\/shared\b/.test(line))).toEqual([]);
  });

  it('leave out who asked for it and when', () => {
    expect(lines([...code, ...papers], (line) => /\bissues? #?\d+\b|\b(TODO|FIXME|XXX|HACK)\b/.test(line))).toEqual([]);
  });

  it('give each file the name of what is in it', () => {
    const vague = /^(utils?|helpers?|common|types|misc|shared)\b/;
    const names = code.map((file) => file.path).filter((path) => vague.test(basename(path)));
    expect(names).toEqual([]);
    expect(lines(shipped, (line) => /\bError\((['"`])(invalid|bad|wrong|error|failed)\1\)/i.test(line))).toEqual([]);
  });
});
