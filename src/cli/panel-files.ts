import { CommandFault } from './command-fault.ts';
import { quoted } from './quoted.ts';
import type { PanelEnding } from '#paper';

const ENDINGS = ['dxf', 'svg', 'pdf'] as const;

/** What kind of file is wanted, by the ending of its name. */
export function endingOf(file: string): PanelEnding {
  const found = ENDINGS.find((ending) => file.toLowerCase().endsWith(`.${ending}`));
  if (found === undefined)
    throw new CommandFault([
      `--out: ${quoted(file)} does not say what to write; allowed: a name ending in ${ENDINGS.map((one) => `.${one}`).join(', ')}`,
    ]);
  return found;
}
