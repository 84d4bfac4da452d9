const SHOWN_LENGTH = 60;

/** What was typed, in quotes, on one line, cut to a length that fits. */
export function quoted(text: string): string {
  const plain = text.replace(/[\p{C}\p{Zl}\p{Zp}]/gu, '?');
  return `"${plain.length > SHOWN_LENGTH ? `${plain.slice(0, SHOWN_LENGTH - 3)}...` : plain}"`;
}
