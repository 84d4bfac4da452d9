/** The command or a file it names is wrong: one line a fault, each with the place, what stands there and what is allowed. */
export class CommandFault extends Error {
  readonly lines: readonly string[];

  constructor(lines: readonly string[]) {
    super(lines[0] ?? 'cli: nothing said what is wrong');
    this.name = 'CommandFault';
    this.lines = lines;
  }
}
