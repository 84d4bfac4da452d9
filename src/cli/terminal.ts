/** Where a command writes, and what the one who reads can see. */
export interface Terminal {
  /** The answer. */
  readonly out: (text: string) => void;
  /** Words on the way, and faults. */
  readonly err: (text: string) => void;
  readonly outIsTerminal: boolean;
  readonly errIsTerminal: boolean;
  readonly columns: number;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** Resolves where a command that goes on by itself is to end; in a window it never does. */
  readonly ends?: Promise<void>;
}

/** Width taken where the terminal does not tell one. */
const USUAL_COLUMNS = 100;

/** The terminal, pipe or file that the program was started with. */
export function ownTerminal(): Terminal {
  return {
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    outIsTerminal: process.stdout.isTTY === true,
    errIsTerminal: process.stderr.isTTY === true,
    columns: process.stdout.columns ?? USUAL_COLUMNS,
    env: process.env,
  };
}
