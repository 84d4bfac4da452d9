import { nearestName } from '#sources';
import { asked } from './asked.ts';
import { CommandFault } from './command-fault.ts';
import { commands } from './commands.ts';
import { exitCode } from './exit-code.ts';
import { commandHelp, programHelp } from './help.ts';
import { quoted } from './quoted.ts';
import { ownTerminal, type Terminal } from './terminal.ts';

/** Runs one command; gives the exit code. Wrong words and unreadable files end here; what else is thrown is an internal fault. */
export async function main(words: readonly string[], terminal: Terminal = ownTerminal()): Promise<number> {
  try {
    return await ran(words, terminal);
  } catch (fault) {
    if (!(fault instanceof CommandFault)) throw fault;
    for (const line of fault.lines) terminal.err(`${line}\n`);
    return exitCode.wrong;
  }
}

async function ran(words: readonly string[], terminal: Terminal): Promise<number> {
  const [name, ...rest] = words;
  if (name === undefined) {
    terminal.err(programHelp(commands));
    return exitCode.wrong;
  }
  if (name === 'help' || name === '--help' || name === '-h') return helped(rest[0], terminal);
  const command = commandNamed(name);
  const before = rest.includes('--') ? rest.slice(0, rest.indexOf('--')) : rest;
  if (before.some((word) => word === '--help' || word === '-h')) return helped(name, terminal);
  return command.run(asked(command, rest), terminal);
}

function helped(name: string | undefined, terminal: Terminal): number {
  terminal.out(name === undefined ? programHelp(commands) : commandHelp(commandNamed(name)));
  return exitCode.done;
}

function commandNamed(name: string) {
  const command = commands.find((row) => row.name === name);
  if (command !== undefined) return command;
  if (/\.json$/iu.test(name))
    throw new CommandFault([
      `${quoted(name)} stands where the command goes; allowed: a command first, such as fairlead start ${name}`,
    ]);
  const names = commands.map((row) => row.name);
  const near = nearestName(name, names);
  throw new CommandFault([
    `no command ${quoted(name)}; ${near === undefined ? '' : `nearest: ${near}; `}allowed: ${names.join(' ')}`,
  ]);
}
