/** Text broken at spaces to fit the width; lines after the first are indented. A word longer than a line stays whole. */
export function wrapped(text: string, width: number, indent: string): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const next = line === '' ? word : `${line} ${word}`;
    if (line !== '' && next.length > width) {
      lines.push(line);
      line = indent + word;
    } else line = next;
  }
  lines.push(line);
  return lines;
}
