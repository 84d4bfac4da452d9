/** Rows as columns, each as wide as its widest cell; the last one is not filled up. `right` names columns of numbers. */
export function columns(rows: readonly (readonly string[])[], right: readonly number[] = []): string[] {
  const widths: number[] = [];
  for (const row of rows) for (const [i, cell] of row.entries()) widths[i] = Math.max(widths[i] ?? 0, cell.length);
  return rows.map((row) =>
    row
      .map((cell, i) => {
        if (right.includes(i)) return cell.padStart(widths[i] ?? 0);
        return i === row.length - 1 ? cell : cell.padEnd(widths[i] ?? 0);
      })
      .join('  ')
      .trimEnd(),
  );
}
