import type { Duty } from '#car';

/** "Oil tank" as an id, "oil-tank"; numbered where it is taken. */
export function newId(name: string, taken: readonly string[], otherwise: string): string {
  const plain = name
    .normalize('NFKC')
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, '-')
    .replaceAll(/^-+|-+$/gu, '')
    .slice(0, 40)
    .replaceAll(/-+$/gu, '');
  const base = plain === '' ? otherwise : plain;
  return numbered(base, '-', taken, base);
}

/** Lines go by a letter for what they carry, as they do on the wall map: O oil, C water, F fuel, B brake and clutch, A air. */
export function newLineId(duty: Duty, taken: readonly string[]): string {
  const letter = duty.startsWith('oil')
    ? 'O'
    : duty.startsWith('water')
      ? 'C'
      : duty.startsWith('fuel')
        ? 'F'
        : duty.endsWith('air')
          ? 'A'
          : 'B';
  return numbered(letter, '', taken);
}

function numbered(base: string, join: string, taken: readonly string[], first?: string): string {
  if (first !== undefined && !taken.includes(first)) return first;
  for (let n = first === undefined ? 1 : 2; ; n++)
    if (!taken.includes(`${base}${join}${n}`)) return `${base}${join}${n}`;
}
