import { execFile } from 'node:child_process';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { carJsonSchema } from '#car';
import { describe, expect, it } from 'vitest';
import { root } from './source-files.ts';

const units =
  'Mm|Mm2|Mm3|Cm2|M|M2|Km|In|Deg|C|K|Bar|Kpa|KPa|Pa|Psi|LMin|LPerH|MlMin|L|Ml|Cc|CcRev|CcPerRev|Ms|MPerS|S|Min|Kg|G|N|Nm|Kw|KW|W|WM2K|KgM3|Cst|MPas|Rpm|Hz|Pct|Percent|Share|Times|Turns|Flats|PerIn|PerM|Years|Months|Ratio|Kmh|WPerMK|Runs|Cycles|Water';
const endsInUnit = new RegExp(`[a-z0-9XYZ](${units})$`);

/** Numbers that have no unit: counts, marks, money, directions of length one, and the version mark of the file. */
const withoutUnit = new Set(
  'fairlead dash qty count rank cost sum price faces axis down out version level number threads stage stages index unpriced dischargeCoefficient kFactor outside rows emissivity cp pa minutes pulls crew year least most runs'.split(
    ' ',
  ),
);

const isNamedRight = (name: string) =>
  withoutUnit.has(name) || name.startsWith('x-') || endsInUnit.test(name) || /^(mm|deg)$/.test(name);

/** A group whose own name says the unit ({ keepOffMm: { hot } }) says it for what is in it. */
const nameWithin = (group: string, key: string) => (endsInUnit.test(group) ? group : key);

interface Schema {
  readonly type?: string | readonly string[];
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly [key: string]: unknown;
}

/** The places in a JSON Schema where a number stands under a name without a unit. */
function namelessInSchema(schema: unknown, name: string, path: string, told: Set<string>): void {
  if (Array.isArray(schema)) for (const item of schema) namelessInSchema(item, name, path, told);
  if (typeof schema !== 'object' || schema === null || Array.isArray(schema)) return;
  const { properties, ...rest } = schema as Schema;
  if ((rest.type === 'number' || rest.type === 'integer') && !isNamedRight(name)) told.add(path);
  for (const [key, value] of Object.entries(properties ?? {}))
    namelessInSchema(value, nameWithin(name, key), `${path}.${key}`, told);
  for (const [key, value] of Object.entries(rest)) {
    const isGroup = key === '$defs' || key === 'definitions';
    if (isGroup)
      for (const [id, value2] of Object.entries(value as object)) namelessInSchema(value2, id, `${path}#${id}`, told);
    else if (key !== 'required' && key !== 'enum' && key !== 'default') namelessInSchema(value, name, path, told);
  }
}

/** The same for a JSON document. */
function namelessInValue(value: unknown, name: string, path: string, told: Set<string>): void {
  if (typeof value === 'number' && !isNamedRight(name)) told.add(path);
  else if (Array.isArray(value)) for (const item of value) namelessInValue(item, name, path, told);
  else if (typeof value === 'object' && value !== null) {
    // A row that carries its unit beside it ({ value, limit, unit }) names it that way.
    const saysUnit = 'unit' in value;
    for (const [key, inner] of Object.entries(value)) {
      if (!(saysUnit && typeof inner === 'number'))
        namelessInValue(inner, nameWithin(name, key), `${path}.${key}`, told);
    }
  }
}

const run = promisify(execFile);

async function fairleadJson(args: readonly string[]): Promise<unknown> {
  const { stdout } = await run(process.execPath, [join(root, 'bin/fairlead.mjs'), ...args], {
    cwd: root,
    maxBuffer: 256 * 1024 * 1024,
  }).catch((fault: { code?: unknown; stdout?: string; stderr?: string }) => {
    // 1 is a plan with a stop in it: still a whole answer.
    if (fault.code === 1) return { stdout: fault.stdout ?? '' };
    throw new Error(`fairlead ${args.join(' ')} ended with ${String(fault.code)}: ${fault.stderr}`);
  });
  return JSON.parse(stdout);
}

const inSchema = (schema: unknown) => {
  const told = new Set<string>();
  namelessInSchema(schema, '', 'car', told);
  return [...told];
};

const inValue = (value: unknown) => {
  const told = new Set<string>();
  namelessInValue(value, '', '', told);
  return [...told];
};

describe('a number at the edge says its unit in its name', () => {
  it('in the car file', () => {
    const schema = carJsonSchema();
    expect(JSON.stringify(schema)).toContain('minBendRadiusMm');
    expect(inSchema(schema)).toEqual([]);
  });

  it.each([['plan'], ['snags'], ['order']])('in what "%s --json" prints', async (command) => {
    expect(inValue(await fairleadJson([command, 'demo/three-ports.json', '--json']))).toEqual([]);
  });

  it('or the check tells it', () => {
    expect(inSchema({ type: 'object', properties: { od: { type: 'number' }, odMm: { type: 'number' } } })).toEqual([
      'car.od',
    ]);
    expect(
      inSchema({
        properties: { points: { type: 'array', items: { type: 'array', items: { anyOf: [{ type: 'number' }] } } } },
      }),
    ).toEqual(['car.points']);
    expect(inSchema({ properties: { keepOffMm: { properties: { hot: { type: 'number' } } } } })).toEqual([]);
    expect(inValue({ lines: [{ length: 3, cutLengthMm: 4, dash: 6, kind: 'hose' }] })).toEqual(['.lines.length']);
  });
});
