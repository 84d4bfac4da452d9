// Prints the ratio tables: each bench/*.ts runs its subject and its rival side by side. `npm run bench -- NAME ...` picks some.
import { namedModules } from './named-modules.mjs';

function printTable({ headers, rows, goal }) {
  const cells = [headers, ...rows].map((row) => row.map(String));
  const widths = headers.map((_, column) => Math.max(...cells.map((row) => (row[column] ?? '').length)));
  const line = (row) =>
    row.map((cell, column) => (column === 0 ? cell.padEnd(widths[column]) : cell.padStart(widths[column]))).join('  ');
  process.stdout.write(`${line(cells[0])}\n${widths.map((width) => '-'.repeat(width)).join('  ')}\n`);
  for (const row of cells.slice(1)) process.stdout.write(`${line(row)}\n`);
  if (goal) process.stdout.write(`goal: ${goal}\n`);
}

for (const bench of await namedModules('bench', process.argv.slice(2))) {
  process.stdout.write(`\n${bench.title}  [${bench.name}]\n`);
  printTable(await bench.run());
}
