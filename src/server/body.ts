import type { Context } from 'hono';
import { validator } from 'hono/validator';
import type { z } from 'zod';
import { RequestFault } from './request-fault.ts';

/** The JSON body of a request, as this schema has it; else 400 with the place and what is allowed there. */
export const jsonBody = <Schema extends z.ZodType>(schema: Schema) =>
  validator('json', (value: unknown): z.output<Schema> => {
    const found = schema.safeParse(value);
    if (found.success) return found.data;
    const [issue] = found.error.issues;
    const place = (issue?.path ?? []).map(String).join('.') || 'the request';
    throw new RequestFault(400, `${place}: ${issue?.message ?? 'cannot be read'}`);
  });

/** A whole number of the address, within bounds. */
export function queryNumber(c: Context, name: string, usual: number, most: number): number {
  const text = c.req.query(name);
  if (text === undefined || text === '') return usual;
  const value = Number(text);
  if (!Number.isInteger(value) || value < 0 || value > most)
    throw new RequestFault(400, `${name}: stands "${text.slice(0, 40)}"; allowed: a whole number from 0 to ${most}`);
  return value;
}

/** A text of the address that has to be there. */
export function queryText(c: Context, name: string, most = 300): string {
  const text = c.req.query(name) ?? '';
  if (text === '' || text.length > most)
    throw new RequestFault(
      400,
      `${name}: stands ${text === '' ? 'nothing' : 'a long text'}; allowed: 1 to ${most} signs`,
    );
  return text;
}

/** Something of the address path that the route has for certain. */
export const pathText = (c: Context, name: string): string => c.req.param(name) ?? '';
