import { carJsonSchema } from '#car';
import type { Command } from './command.ts';
import { exitCode } from './exit-code.ts';
import { jsonOption } from './usual-options.ts';

export const schema: Command = {
  name: 'schema',
  about: 'JSON Schema of the car file',
  operands: [],
  options: [jsonOption],
  async run(_, terminal) {
    terminal.out(`${JSON.stringify(carJsonSchema(), null, 2)}\n`);
    return exitCode.done;
  },
};
