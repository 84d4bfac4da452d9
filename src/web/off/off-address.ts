/** Papers under "What comes off?" beside what comes off for one thing, whose addresses have an aim and a stroke ("replace/turbo"). */
export const offPapers = [
  'crew',
  'minutes',
  'hand',
  'break',
  'tool',
  'due',
  'day',
  'rules',
  'pack',
  'clause',
  'held',
  'fastener',
  'off',
] as const;
export type OffPaperKind = (typeof offPapers)[number];

/** "break..2": the third break; "break..new" one more; "fastener..turbo~0": the first of a part. */
export const addressOf = (kind: OffPaperKind, which = ''): string => (which === '' ? kind : `${kind}..${which}`);

/** The paper that an address names, and which one of several; null where it names what comes off for one thing. */
export function offPaperAt(address: string): { readonly kind: OffPaperKind; readonly which: string } | null {
  const [word = '', ...rest] = address.split('..');
  const kind = offPapers.find((one) => one === word);
  return kind === undefined ? null : { kind, which: rest.join('..') };
}
