import { nearestName } from '#sources';
import type { Asked, Command, Option } from './command.ts';
import { CommandFault } from './command-fault.ts';
import { quoted } from './quoted.ts';

/** The words behind a command, read against its table; anything that does not fit is a fault with the nearest name. */
export function asked(command: Command, words: readonly string[]): Asked {
  const operands: string[] = [];
  const values = new Map<string, string>();
  let onlyOperands = false;
  for (let i = 0; i < words.length; i++) {
    const word = words[i]!;
    if (onlyOperands || !word.startsWith('-') || word === '-') operands.push(word);
    else if (word === '--') onlyOperands = true;
    else {
      const [name, given] = split(word);
      const option = known(command, name, word);
      if (values.has(option.name))
        throw new CommandFault([`${command.name}: --${option.name} stands twice; allowed: once`]);
      if (option.value === undefined) {
        if (given !== undefined)
          throw new CommandFault([
            `${command.name}: --${option.name} takes no value, but ${quoted(given)} stands there`,
          ]);
        values.set(option.name, '');
        continue;
      }
      const value = given ?? words[++i];
      if (value === undefined)
        throw new CommandFault([
          `${command.name}: --${option.name} has no value; allowed: --${option.name} ${option.value}`,
        ]);
      if (given === undefined && value.startsWith('--'))
        throw new CommandFault([
          `${command.name}: --${option.name} has no value, ${quoted(value)} stands next; allowed: --${option.name} ${option.value}, or --${option.name}=${value} if it is meant`,
        ]);
      values.set(option.name, value);
    }
  }
  checkCount(command, operands);
  return { operands, has: (option) => values.has(option), value: (option) => values.get(option) };
}

function split(word: string): [name: string, given: string | undefined] {
  const at = word.indexOf('=');
  return at < 0 ? [word.replace(/^-+/u, ''), undefined] : [word.slice(0, at).replace(/^-+/u, ''), word.slice(at + 1)];
}

function known(command: Command, name: string, word: string): Option {
  const option = command.options.find((row) => row.name === name || (row.name === 'no-colour' && name === 'no-color'));
  if (option !== undefined) return option;
  const names = command.options.map((row) => row.name);
  const near = nearestName(name, names);
  const meant = near === undefined ? '' : `nearest: --${near}; `;
  throw new CommandFault([
    `${command.name}: no option ${quoted(word)}; ${meant}allowed: ${names.map((n) => `--${n}`).join(' ')}`,
  ]);
}

function checkCount(command: Command, operands: readonly string[]): void {
  const least = command.operands.filter((operand) => operand.isOptional !== true).length;
  const isMany = command.operands.some((operand) => operand.isMany === true);
  if (operands.length < least) {
    const missing = command.operands[operands.length]!;
    throw new CommandFault([
      `${command.name}: ${missing.name} is missing (${missing.about}); allowed: fairlead ${usage(command)}`,
    ]);
  }
  if (!isMany && operands.length > command.operands.length) {
    throw new CommandFault([
      `${command.name}: ${quoted(operands[command.operands.length]!)} is one too many; allowed: fairlead ${usage(command)}`,
    ]);
  }
}

/** `ways CAR LINE [--count N] [--json]`. */
export function usage(command: Command): string {
  const operands = command.operands.map((operand) => {
    const name = operand.isMany === true ? `${operand.name} ...` : operand.name;
    return operand.isOptional === true ? `[${name}]` : name;
  });
  const options = command.options.map((option) =>
    option.value === undefined ? `[--${option.name}]` : `[--${option.name} ${option.value}]`,
  );
  return [command.name, ...operands, ...options].join(' ');
}
