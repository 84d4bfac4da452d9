import { describe, expect, it } from 'vitest';
import { carJsonSchema } from './car-json-schema.ts';

interface Node {
  readonly type?: string;
  readonly description?: string;
  readonly properties?: Readonly<Record<string, Node>>;
  readonly items?: Node;
  readonly prefixItems?: readonly Node[];
  readonly anyOf?: readonly Node[];
}

const UNIT =
  /(?:Mm|Kg|M2?|Percent|Deg|C|K|Bar|Kpa|L|LMin|LPerH|Kw|Rpm|Cst|KgM3|Cm2|Hz|N|NPerMm|MPerS|CcRev|Ml|Share|Ratio|G|S|Kmh|Min|Pa|Runs|Cycles|Months|Water|Litres)$/;
const PLAIN = new Set([
  'fairlead',
  'dash',
  'qty',
  'price',
  'faces',
  'axis',
  'down',
  'out',
  'mm',
  'driveRatio',
  'dischargeCoefficient',
  'kFactor',
  'outside',
  'count',
  'rows',
  'emissivity',
  'cp',
  'pa',
  'minutes',
  'crew',
  'year',
  'least',
  'most',
  'runs',
  'pulls',
]);

function visit(node: Node, name: string, path: string, see: (node: Node, name: string, path: string) => void): void {
  see(node, name, path);
  for (const [key, child] of Object.entries(node.properties ?? {})) visit(child, key, `${path}.${key}`, see);
  if (node.items !== undefined && typeof node.items === 'object') visit(node.items, name, `${path}[]`, see);
  for (const item of [...(node.prefixItems ?? []), ...(node.anyOf ?? [])]) visit(item, name, `${path}[]`, see);
}

describe('carJsonSchema', () => {
  const schema = carJsonSchema() as Node;

  it('describes every field, and every number ends in its unit', () => {
    const silent: string[] = [];
    const nameless: string[] = [];
    let count = 0;
    visit(schema, '', 'car', (node, name, path) => {
      for (const [key, child] of Object.entries(node.properties ?? {})) {
        count++;
        if ((child.description ?? '').length < 2) silent.push(`${path}.${key}`);
      }
      if ((node.type === 'number' || node.type === 'integer') && !UNIT.test(name) && !PLAIN.has(name))
        nameless.push(path);
    });
    expect(count).toBeGreaterThan(120);
    expect(silent).toEqual([]);
    expect(nameless).toEqual([]);
  });

  it('does not ask for what a file may leave out', () => {
    const text = JSON.stringify(schema);
    expect((schema as { required?: string[] }).required).toEqual(['fairlead']);
    expect(text).toContain('"^x-"');
    expect(text).toContain('minBendRadiusMm');
  });
});
