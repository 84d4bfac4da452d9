import type { Edit, Panel } from '#car';

/** A list or a group of a panel as it is to be; with nothing in it, it goes. No edit where nothing changes. */
export function setPanel(
  panel: Panel,
  field: 'edges' | 'windows' | 'holes' | 'creases' | 'load',
  value: readonly unknown[] | Readonly<Record<string, unknown>>,
): readonly Edit[] {
  if (JSON.stringify(value) === JSON.stringify(panel[field] ?? (Array.isArray(value) ? [] : {}))) return [];
  const isEmpty = Object.keys(value).length === 0;
  return [{ do: 'set-panel', panel: panel.id, field, ...(isEmpty ? {} : { value }) } as Edit];
}
