import { z } from 'zod';
import { carSchema } from './schema/car.ts';

/** The JSON Schema of the car file, with the unit of every number in its name and description. */
export function carJsonSchema(): Record<string, unknown> {
  const schema = z.toJSONSchema(carSchema, { target: 'draft-2020-12', io: 'input' }) as Node;
  relax(schema, ['parts', 'movers', 'lines']);
  const part = schema.properties?.['parts']?.items;
  relax(part, ['shapes', 'ports']);
  relax(part?.properties?.['ports']?.items, ['atMm']);
  relax(schema.properties?.['lines']?.items, ['pieces', 'through', 'state']);
  allowOwnKeys(schema);
  return schema as Record<string, unknown>;
}

interface Node {
  properties?: Record<string, Node>;
  patternProperties?: Record<string, object>;
  additionalProperties?: unknown;
  required?: string[];
  items?: Node;
}

/** Fields that a reading fills in are not required of the file. */
function relax(node: Node | undefined, names: readonly string[]): void {
  if (node?.required === undefined) return;
  node.required = node.required.filter((name) => !names.includes(name));
}

function allowOwnKeys(node: Node): void {
  if (node.properties !== undefined && node.additionalProperties === false) node.patternProperties = { '^x-': {} };
  for (const child of Object.values(node.properties ?? {})) allowOwnKeys(child);
  if (node.items !== undefined) allowOwnKeys(node.items);
}
