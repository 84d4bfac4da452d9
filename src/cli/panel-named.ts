import type { PanelAnswer } from '#answers';
import { nearestName } from '#sources';
import { CommandFault } from './command-fault.ts';
import { quoted } from './quoted.ts';

/** The panel that was asked for by id or name; a wrong one is a fault that names the nearest. */
export function panelNamed(panels: readonly PanelAnswer[], word: string, file: string): PanelAnswer {
  const isWord = (text: string): boolean => text.toLowerCase() === word.toLowerCase();
  const found =
    panels.find(({ panel }) => panel === word) ?? panels.find(({ panel, name }) => isWord(panel) || isWord(name));
  if (found !== undefined) return found;
  const ids = panels.map(({ panel }) => panel);
  const near = nearestName(word, ids);
  throw new CommandFault([
    `${file}: no panel ${quoted(word)}; ${near === undefined ? '' : `nearest: ${near}; `}allowed: ${ids.length === 0 ? 'none, the car has no panels' : ids.join(', ')}`,
  ]);
}
