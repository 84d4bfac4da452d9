import type { Command } from './command.ts';
import { book } from './book.ts';
import { due } from './due.ts';
import { cards } from './cards.ts';
import { catalogue } from './catalogue.ts';
import { flow } from './flow.ts';
import { compare } from './compare.ts';
import { formula } from './formula.ts';
import { heat } from './heat.ts';
import { lever } from './lever.ts';
import { order } from './order.ts';
import { panel } from './panel.ts';
import { plan } from './plan.ts';
import { reach } from './reach.ts';
import { rules } from './rules.ts';
import { serve } from './serve.ts';
import { schema } from './schema.ts';
import { strip } from './strip.ts';
import { snags } from './snags.ts';
import { start } from './start.ts';
import { template } from './template.ts';
import { ways } from './ways.ts';

/** Every command there is, as the help lists them. */
export const commands: readonly Command[] = [
  start,
  serve,
  ways,
  plan,
  snags,
  order,
  catalogue,
  due,
  compare,
  flow,
  reach,
  heat,
  rules,
  strip,
  lever,
  panel,
  cards,
  book,
  template,
  formula,
  schema,
];
