import { usage } from './asked.ts';
import type { Command } from './command.ts';

const rows = (pairs: readonly (readonly [string, string])[]): string[] => {
  const width = Math.max(...pairs.map(([left]) => left.length));
  return pairs.map(([left, right]) => `  ${left.padEnd(width)}  ${right}`);
};

/** What the program can do, one line a command. */
export function programHelp(commands: readonly Command[]): string {
  const pairs = commands.map((command) => {
    const operands = command.operands.map((operand) =>
      operand.isOptional === true ? `[${operand.name}]` : operand.name,
    );
    return [[command.name, ...operands].join(' '), command.about] as const;
  });
  return [
    'Fairlead works out every line of a one-off competition car from port to port.',
    '',
    'fairlead COMMAND ...',
    ...rows(pairs),
    '',
    'fairlead COMMAND --help says more. Exit codes: 0 done; 1 done, and there is a stop snag or a line without a',
    'feasible way; 2 wrong command or file; 3 internal fault; 130 interrupted.',
    '',
  ].join('\n');
}

/** One command in full. */
export function commandHelp(command: Command): string {
  const operands = command.operands.map((row) => [row.name, row.about] as const);
  const options = command.options.map(
    (row) => [`--${row.name}${row.value === undefined ? '' : ` ${row.value}`}`, row.about] as const,
  );
  return [
    `fairlead ${usage(command)}`,
    `  ${command.about}`,
    '',
    ...rows([...operands, ...options]),
    ...(command.more ?? []).flatMap((line) => ['', line]),
    '',
  ].join('\n');
}
