import { parseSync } from 'oxc-parser';

/** An exported function with the comment that stands before it, and the names of its parameters. */
export interface ExportedFunction {
  readonly name: string;
  readonly params: readonly string[];
  readonly docstring: string;
}

/** What a formula's docstring says, taken apart. */
export interface FormulaDocstring {
  readonly sentence: string;
  readonly equation: string;
  readonly params: ReadonlyMap<string, string>;
  readonly returns: string | undefined;
  readonly valid: string | undefined;
  readonly sources: readonly string[];
  readonly examples: readonly string[];
}

interface Node {
  readonly type: string;
  readonly start: number;
  readonly [key: string]: unknown;
}

const isNode = (value: unknown): value is Node => typeof value === 'object' && value !== null && 'type' in value;

/** Calls `visit` on every node below. */
function walk(node: unknown, visit: (node: Node) => void): void {
  if (Array.isArray(node)) for (const item of node) walk(item, visit);
  if (!isNode(node)) return;
  visit(node);
  for (const value of Object.values(node)) if (typeof value === 'object') walk(value, visit);
}

const nameOf = (node: unknown): string => {
  if (!isNode(node)) return '';
  if (node.type === 'Identifier') return String(node['name']);
  if (node.type === 'AssignmentPattern') return nameOf(node['left']);
  if (node.type === 'RestElement') return nameOf(node['argument']);
  return '';
};

const parsed = (path: string, text: string) => {
  const result = parseSync(path, text);
  const fault = result.errors[0];
  if (fault) throw new Error(`${path}: ${fault.message}`);
  return result;
};

/** The function that an export statement declares, if it declares one. */
function declaredFunction(statement: Node): { name: string; params: readonly string[] } | undefined {
  const declaration = statement['declaration'];
  if (!isNode(declaration)) return undefined;
  const paramsOf = (node: Node) => (node['params'] as readonly unknown[]).map(nameOf);
  if (declaration.type === 'FunctionDeclaration')
    return { name: nameOf(declaration['id']), params: paramsOf(declaration) };
  if (declaration.type !== 'VariableDeclaration') return undefined;
  const [first] = declaration['declarations'] as readonly Node[];
  const value = first?.['init'];
  if (!first || !isNode(value) || !/^(Arrow)?Function/.test(value.type)) return undefined;
  return { name: nameOf(first['id']), params: paramsOf(value) };
}

/** Every exported function of a module that has a docstring right before it. */
export function exportedFunctions(path: string, text: string): readonly ExportedFunction[] {
  const { program, comments } = parsed(path, text);
  const found: ExportedFunction[] = [];
  for (const statement of program.body as unknown as readonly Node[]) {
    if (statement.type !== 'ExportNamedDeclaration') continue;
    const declared = declaredFunction(statement);
    const before = comments.filter((comment) => comment.type === 'Block' && comment.end <= statement.start).at(-1);
    if (!declared || !before?.value.startsWith('*')) continue;
    if (text.slice(before.end, statement.start).trim() !== '') continue;
    found.push({ ...declared, docstring: before.value });
  }
  return found;
}

/** For each `evaluate` of a formula row in the module: the names it calls. */
export function evaluatedNames(path: string, text: string): readonly (readonly string[])[] {
  const rows: string[][] = [];
  walk(parsed(path, text).program, (node) => {
    if (node.type !== 'Property' || nameOf(node['key']) !== 'evaluate' || !isNode(node['value'])) return;
    if (node['value'].type === 'Identifier') {
      rows.push([nameOf(node['value'])]);
      return;
    }
    if (!/^(Arrow)?Function/.test(node['value'].type)) return;
    const called: string[] = [];
    walk(node['value'], (inner) => {
      if (inner.type === 'CallExpression') called.push(nameOf(inner['callee']));
    });
    rows.push(called.filter((name) => name !== ''));
  });
  return rows;
}

/** True when the docstring claims to be that of a formula. */
export const isFormula = (docstring: string): boolean => /^\s*\*?\s*@(source|valid|example)\b/m.test(docstring);

/** The docstring of a formula, taken apart; what is missing stays empty. */
export function formulaDocstring(docstring: string): FormulaDocstring {
  const lines = docstring.split('\n').map((line) => line.replace(/^\s*\*? ?/, '').trimEnd());
  lines[0] = (lines[0] ?? '').trim();
  const firstTag = lines.findIndex((line) => line.startsWith('@'));
  const head = firstTag < 0 ? lines : lines.slice(0, firstTag);
  const tags: string[] = [];
  for (const line of firstTag < 0 ? [] : lines.slice(firstTag)) {
    if (line.startsWith('@')) tags.push(line);
    else if (line.trim() !== '') tags.push(`${tags.pop()} ${line.trim()}`);
  }
  const all = (tag: string) =>
    tags.filter((line) => line.startsWith(`@${tag} `)).map((line) => line.slice(tag.length + 2).trim());
  const params = all('param').map((line): [string, string] => {
    const [, name = '', rest = ''] = /^(\S+)\s*-?\s*(.*)$/.exec(line) ?? [];
    return [name, rest];
  });
  return {
    sentence: head
      .filter((line) => !line.startsWith('    '))
      .join(' ')
      .trim(),
    equation: head
      .filter((line) => line.startsWith('    '))
      .join('\n')
      .trim(),
    params: new Map(params),
    returns: all('returns')[0],
    valid: all('valid')[0],
    sources: all('source').map((line) => line.split(/[\s,;]/)[0] ?? ''),
    examples: all('example'),
  };
}
