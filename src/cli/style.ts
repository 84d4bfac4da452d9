import type { Asked } from './command.ts';
import type { Terminal } from './terminal.ts';

/** Text as it is made to stand out; without colour each gives the text as it is. Colour never says what the words do not. */
export interface Style {
  readonly stop: (text: string) => string;
  readonly fix: (text: string) => string;
  /** What a reader can do next. */
  readonly blue: (text: string) => string;
  readonly soft: (text: string) => string;
  readonly strong: (text: string) => string;
}

const ESC = '\u001B[';
const painted =
  (code: string) =>
  (text: string): string =>
    text === '' ? '' : `${ESC}${code}m${text}${ESC}0m`;

const coloured: Style = {
  stop: painted('31'),
  fix: painted('33'),
  blue: painted('34'),
  soft: painted('2'),
  strong: painted('1'),
};
const asItIs = (text: string): string => text;
const plain: Style = { stop: asItIs, fix: asItIs, blue: asItIs, soft: asItIs, strong: asItIs };

/** Colour on a terminal, unless the reader said no: `--no-colour`, NO_COLOR set to anything, or a terminal that has none. */
export function styleFor(asked: Asked, terminal: Terminal): Style {
  const unwanted = asked.has('no-colour') || (terminal.env['NO_COLOR'] ?? '') !== '' || terminal.env['TERM'] === 'dumb';
  return terminal.outIsTerminal && !unwanted ? coloured : plain;
}
