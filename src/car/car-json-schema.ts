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
  nameByUnit(schema.properties?.['keepOffMm']);
  allowOwnKeys(schema);
  return schema as Record<string, unknown>;
}

interface Node {
  description?: string;
  propertyNames?: object;
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

/** Keep-offs are a table of class to millimetres: the unit stands in the table's name, so it is described as one. */
function nameByUnit(table: Node | undefined): void {
  if (table?.properties === undefined) return;
  const names = Object.keys(table.properties);
  const [first] = Object.values(table.properties);
  table.description = `${table.description ?? ''}: ${Object.entries(table.properties)
    .map(([name, field]) => `${name} = ${field.description ?? ''}`)
    .join('; ')}`;
  table.propertyNames = { anyOf: [{ enum: names }, { pattern: '^x-' }] };
  table.patternProperties = {
    '^x-': {},
    '^[^x]|^x[^-]': { ...first, description: 'Least gap, surface to surface [mm]' },
  };
  delete table.properties;
}

function allowOwnKeys(node: Node): void {
  if (node.properties !== undefined && node.additionalProperties === false) node.patternProperties = { '^x-': {} };
  for (const child of Object.values(node.properties ?? {})) allowOwnKeys(child);
  if (node.items !== undefined) allowOwnKeys(node.items);
}
