import type { Terminal } from './terminal.ts';

/** `--count 5`: an option with a value; `--json`: one without. */
export interface Option {
  readonly name: string;
  /** The value as the help names it; absent for a plain switch. */
  readonly value?: string;
  readonly about: string;
}

export interface Operand {
  readonly name: string;
  readonly about: string;
  readonly isOptional?: boolean;
  /** Takes all that is left. */
  readonly isMany?: boolean;
}

/** What was typed behind the command, checked against its table. */
export interface Asked {
  readonly operands: readonly string[];
  readonly has: (option: string) => boolean;
  readonly value: (option: string) => string | undefined;
}

/** One command of the program. */
export interface Command {
  readonly name: string;
  readonly about: string;
  readonly operands: readonly Operand[];
  readonly options: readonly Option[];
  /** More lines for its own help. */
  readonly more?: readonly string[];
  /** Gives the exit code. */
  readonly run: (asked: Asked, terminal: Terminal) => Promise<number>;
}
