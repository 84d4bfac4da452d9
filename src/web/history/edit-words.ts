import type { Edit } from '#car';

/** A change in a few words: "O8: way taken; Oil tank moved". */
export function editWords(edits: readonly Edit[]): string {
  const flat = edits.flatMap((edit): readonly Edit[] => (edit.do === 'several' ? edit.edits : [edit]));
  // A signature goes with the state that it signs.
  const words = [...new Set(flat.filter((edit) => !(edit.do === 'set-line' && edit.field === 'signed')).map(oneEdit))];
  if (words.length <= MOST) return words.join('; ');
  return `${words.slice(0, MOST).join('; ')}; and ${words.length - MOST} more`;
}

const MOST = 4;

const numbers = (by: readonly number[]): string => by.map((mm) => `${Math.round(mm * 10) / 10}`).join(', ');
const field = (name: string): string => name.replaceAll(/([A-Z])/g, ' $1').toLowerCase();

function oneEdit(edit: Exclude<Edit, { do: 'several' }> | Edit): string {
  switch (edit.do) {
    case 'set-name':
      return 'car named';
    case 'set-part':
      return `${edit.part}: ${field(edit.field)}`;
    case 'set-port':
      return `${edit.port}: ${field(edit.field)}`;
    case 'set-line':
      return `${edit.line}: ${field(edit.field)}`;
    case 'set-mover':
      return `${edit.mover}: ${field(edit.field)}`;
    case 'set-origin':
      return `${edit.origin}: ${field(edit.field)}`;
    case 'set-case':
      return `case ${edit.case}: ${field(edit.field)}`;
    case 'set-circuit':
      return `circuit ${edit.circuit}: ${field(edit.field)}`;
    case 'set-keep-off':
      return `keep-off of ${edit.class}`;
    case 'move-part':
      return `${edit.part} moved by ${numbers(edit.byMm)} mm`;
    case 'swap-ports':
      return `${edit.a} and ${edit.b} swapped`;
    case 'set-state':
      return `${edit.line} is ${edit.state}`;
    case 'take-way':
      return edit.way === undefined ? `${edit.line}: way given up` : `${edit.line}: way taken`;
    case 'set-box':
      return 'box counted';
    case 'set-accepted':
      return 'snags accepted';
    case 'set-rule-packs':
      return 'rules entered';
    case 'set-run-days':
      return 'run days entered';
    case 'set-catalogue':
      return `own ${edit.table}`;
    default:
      return thingWords(edit);
  }
}

/** Things put on and taken off. */
function thingWords(edit: Edit): string {
  switch (edit.do) {
    case 'add-part':
      return `part ${edit.part.id} put on`;
    case 'add-port':
      return `port ${edit.part}.${edit.port.id} put on`;
    case 'add-line':
      return `line ${edit.line.id} put on`;
    case 'add-mover':
      return `mover ${edit.mover.id} put on`;
    case 'add-origin':
      return `origin ${edit.origin.id} put on`;
    case 'remove-part':
      return `part ${edit.part} taken off`;
    case 'remove-port':
      return `port ${edit.port} taken off`;
    case 'remove-line':
      return `line ${edit.line} taken off`;
    case 'remove-mover':
      return `mover ${edit.mover} taken off`;
    case 'remove-origin':
      return `origin ${edit.origin} taken off`;
    case 'add-case':
      return `case ${edit.case.id} put in`;
    case 'remove-case':
      return `case ${edit.case} taken out`;
    default:
      return edit.do.replaceAll('-', ' ');
  }
}
