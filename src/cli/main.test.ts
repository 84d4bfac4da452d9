import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { formulaRegister } from '#answers';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { commands } from './commands.ts';
import { runMain as run } from './run-main.fixture.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));
const demo = join(root, 'demo/three-ports.json');

describe('a wrong command', () => {
  let folder = '';
  const at = (name: string) => join(folder, name);
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'fairlead-cli-'));
    mkdirSync(at('folder'));
    writeFileSync(at('broken.json'), '{ "fairlead": 1,\n  "parts": [ }');
    writeFileSync(at('empty.json'), '');
    writeFileSync(at('bytes.json'), Buffer.from([0xff, 0xfe, 0x00, 0xd8, 0x00]));
    writeFileSync(at('list.json'), '[]');
    writeFileSync(at('newer.json'), '{ "fairlead": 99, "parts": [] }');
    writeFileSync(at('two-faults.json'), '{ "fairlead": 1, "nmae": "x", "parts": [ { "id": "a", "class": "warm" } ] }');
    writeFileSync(
      at('no-mesh.json'),
      '{ "fairlead": 1, "parts": [ { "id": "a", "class": "fixed", "shapes": [ { "mesh": { "file": "gone.stl", "unit": "mm" } } ] } ] }',
    );
    symlinkSync(demo, at('link.json'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const rows: readonly (readonly [words: () => string[], says: RegExp])[] = [
    [() => ['wyas'], /no command "wyas"; nearest: ways; allowed: /],
    [() => ['weld', demo], /no command "weld"/],
    [() => ['bok', demo], /no command "bok"/],
    [() => ['weld'], /no command "weld"/],
    [() => ['ways'], /ways: CAR is missing/],
    [() => ['ways', demo], /ways: LINE is missing/],
    [() => ['ways', demo, 'O1', 'O2'], /"O2" is one too many/],
    [() => ['ways', demo, 'o1'], /no line "o1"; nearest: O1; allowed: O1/],
    [() => ['ways', demo, 'O1', '--jsn'], /no option "--jsn"; nearest: --json; allowed: /],
    [() => ['ways', demo, 'O1', '--count'], /--count has no value/],
    [() => ['ways', demo, 'O1', '--count', '0'], /--count: stands "0"; allowed: a whole number from 1 to/],
    [() => ['ways', demo, 'O1', '--count=1e3'], /--count: stands "1e3"/],
    [() => ['ways', demo, 'O1', '--json=yes'], /--json takes no value/],
    [() => ['ways', demo, 'O1', '--json', '--json'], /--json stands twice/],
    [() => ['plan', at('gone.json')], /gone\.json: there is no such file/],
    [() => ['plan', at('folder')], /folder: is a folder/],
    [() => ['plan', '/dev/null'], /is not a plain file/],
    [() => ['plan', at('empty.json')], /empty\.json: /],
    [() => ['plan', at('bytes.json')], /bytes\.json: is not UTF-8 text/],
    [() => ['snags', at('broken.json')], /broken\.json: line 2, column \d+: stands /],
    [() => ['order', at('list.json')], /list\.json: car file: stands \[\]; allowed: an object/],
    [() => ['order', demo, '--csv', '--json'], /--csv and --json stand together/],
    [() => ['snags', at('newer.json')], /newer\.json: fairlead: stands 99/],
    [
      () => ['plan', at('no-mesh.json')],
      /no-mesh\.json: parts\[0\]\.shapes\[0\]\.mesh\.file: "gone\.stl" is not there/,
    ],
    [() => ['compare', demo, at('gone.json')], /gone\.json: there is no such file/],
    [() => ['plan', demo, '--out', at('folder')], /--out: ".*" is a folder/],
    [() => ['plan', demo, '--out', at('gone/x.json')], /lies in a folder that is not there/],
    [() => ['plan', demo, '--out', at('link.json')], /is the car file .* under another name/],
    [() => ['plan', demo, '--out', ''], /is no file name/],
    [() => ['formula', 'bore-aera', 'boreMm=3'], /no formula "bore-aera"; nearest: bore-area/],
    [() => ['formula', 'bore-area', '3'], /"3" is no input; allowed: name=value/],
    [() => ['formula', 'bore-area', 'boreMm=3', 'boreMm=4'], /"boreMm" stands twice/],
    [() => ['plan', demo, '--out', '--json'], /--out has no value, "--json" stands next; allowed: --out FILE/],
    [() => ['plan', demo.replace('.json', '')], /there is no such file; nearest: .*demo\/three-ports\.json; allowed: /],
    [() => ['plan', demo.replace('three', 'tree')], /there is no such file; nearest: .*three-ports\.json; allowed: /],
    [
      () => ['ways', 'O1', demo],
      /three-ports\.json" stands where LINE goes; allowed: the car first, fairlead ways .*json O1/,
    ],
    [() => [demo], /stands where the command goes; allowed: a command first, such as fairlead start /],
    [() => ['ways', demo, 'tank.out'], /no line "tank\.out"; O1 is meant, by part, port or name; allowed: O1/],
    [() => ['ways', demo, 'pump'], /no line "pump"; O1 is meant/],
    [() => ['ways', demo, 'oil feed'], /no line "oil feed"; O1 is meant/],
    [() => ['schema', 'x'], /"x" is one too many/],
    [() => ['ways', 'a\nb', 'O1'], /^a\?b: there is no such file/],
  ];

  it.each(rows.map(([words, says]) => [String(says), words, says] as const))(
    'says %s in one line and ends with 2',
    async (_, words, says) => {
      const { code, out, err } = await run(words());
      expect(err).toMatch(says);
      expect([code, out, err.trimEnd().split('\n').length]).toEqual([2, '', 1]);
    },
  );

  it('gives one line a fault, each with the file and the place', async () => {
    const { code, err } = await run(['plan', at('two-faults.json')]);
    const lines = err.trimEnd().split('\n');
    expect(code).toBe(2);
    expect(lines.length).toBeGreaterThan(1);
    for (const line of lines) expect(line).toMatch(/two-faults\.json: .*: stands .*; allowed: /);
    expect(err).toMatch(/nmae.*name/);
  });

  it('shows the help on stderr when nothing is asked', async () => {
    const { code, out, err } = await run([]);
    expect([code, out]).toEqual([2, '']);
    expect(err).toContain('fairlead COMMAND');
  });
});

describe('the help', () => {
  it('lists every command there is, and no other', async () => {
    const { code, out } = await run(['--help']);
    expect(code).toBe(0);
    expect([...out.matchAll(/^ {2}([a-z]+)/gm)].map((row) => row[1])).toEqual(commands.map((row) => row.name));
  });

  it.each(commands.map((row) => [row.name, row]))('of %s names its operands and options', async (name, row) => {
    const { code, out, err } = await run([name, '--help']);
    expect([code, err]).toEqual([0, '']);
    for (const part of [
      ...row.operands.map((operand) => operand.name),
      ...row.options.map((option) => `--${option.name}`),
    ])
      expect(out).toContain(part);
    expect((await run(['help', name])).out).toBe(out);
  });
});

describe('what needs no car', () => {
  it('lists the register of formulas', async () => {
    const { out } = await run(['formula', '--json']);
    const { formulas } = JSON.parse(out) as { formulas: readonly { id: string; source: { id: string } }[] };
    expect(formulas.map((row) => [row.id, row.source.id])).toEqual(formulaRegister.map((row) => [row.id, row.source]));
    const words = (await run(['formula'])).out;
    for (const row of formulaRegister) expect(words).toContain(`${row.id}  ${row.title}`);
  });

  it('works one formula: value, unit, range, source', async () => {
    const { code, out } = await run(['formula', 'bore-area', 'boreMm=3/4 in', '--json']);
    const answer = JSON.parse(out) as {
      value: number;
      unit: string;
      inRange: boolean;
      inputs: readonly { range: readonly number[] }[];
    };
    // hand: pi/4 * 19.05^2
    expect([code, answer.value, answer.unit, answer.inRange]).toEqual([0, expect.closeTo(285.023, 3), 'mm2', true]);
    expect(answer.inputs[0]!.range).toEqual([0, 500]);
    const far = await run(['formula', 'bore-area', 'boreMm=600']);
    expect([far.code, far.out]).toEqual([0, expect.stringMatching(/out of range: .*600 mm is outside 0 to 500/)]);
  });

  it('prints the schema as one JSON document', async () => {
    const { code, out, err } = await run(['schema']);
    expect([code, err, typeof JSON.parse(out)]).toEqual([0, '', 'object']);
  });

  it('has colour on a terminal only, and not where it is not wanted', async () => {
    const terminal = { outIsTerminal: true };
    const hasColour = (text: string) => text.includes('\u001B[');
    expect(hasColour((await run(['formula'], terminal)).out)).toBe(true);
    expect(hasColour((await run(['formula'])).out)).toBe(false);
    expect(hasColour((await run(['formula', '--no-colour'], terminal)).out)).toBe(false);
    expect(hasColour((await run(['formula'], { ...terminal, env: { NO_COLOR: '1' } })).out)).toBe(false);
    const plain = (await run(['formula', 'bore-area'])).out;
    expect(
      (await run(['formula', 'bore-area'], terminal)).out.replaceAll(
        new RegExp(`${String.fromCharCode(27)}\\[\\d+m`, 'g'),
        '',
      ),
    ).toBe(plain);
  });
});

describe('package.json', () => {
  it('starts a command that is there', () => {
    const { scripts } = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as {
      scripts: Record<string, string>;
    };
    expect(scripts['start']).toBe('node bin/fairlead.mjs start');
    expect(commands.map((row) => row.name)).toContain('start');
  });
});
