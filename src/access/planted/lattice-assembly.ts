import { uniformFloat64 } from 'pure-rand/distribution/uniformFloat64';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';

type Cell = readonly [number, number, number];

/** An assembly of unit cubes with a known, small number of parts: for tests. */
export interface Lattice {
  readonly parts: readonly {
    readonly cells: readonly Cell[];
    readonly staysOn: boolean;
    readonly cost: number;
    readonly sitsOn: readonly number[];
    readonly after: readonly number[];
  }[];
  readonly bonds: readonly {
    readonly a: number;
    readonly b: number;
    readonly cost: number;
    readonly needs: readonly number[];
  }[];
  /** Each lies in one cell, between two parts. */
  readonly lines: readonly {
    readonly cell: Cell;
    readonly between: readonly [number, number];
    readonly cost: number;
    readonly endCosts: readonly [number, number];
  }[];
  readonly goal: number;
  readonly alone: boolean;
}

/** The six ways, as they are numbered. */
export const LATTICE_WAYS: readonly Cell[] = [
  [1, 0, 0],
  [-1, 0, 0],
  [0, 1, 0],
  [0, -1, 0],
  [0, 0, 1],
  [0, 0, -1],
];

/** A seeded assembly of so many parts, grown cube by cube in a small box. */
export function latticeAssembly(seed: number, count: number, lineCount: number): Lattice {
  const generator = xoroshiro128plus(seed);
  for (let n = 0; n < 8; n++) generator.next();
  const share = () => uniformFloat64(generator);
  const whole = (most: number) => Math.floor(share() * most);
  const free = new Map<string, Cell>();
  for (let x = 0; x < 4; x++)
    for (let y = 0; y < 4; y++) for (let z = 0; z < 3; z++) free.set([x, y, z].join(), [x, y, z]);
  const takeCell = (key: string): Cell => {
    const cell = free.get(key)!;
    free.delete(key);
    return cell;
  };
  const grown = (size: number): Cell[] => {
    const keys = [...free.keys()];
    if (keys.length === 0) return [];
    const cells = [takeCell(keys[whole(keys.length)]!)];
    while (cells.length < size) {
      const near = cells
        .flatMap(([x, y, z]) => LATTICE_WAYS.map(([dx, dy, dz]) => [x + dx, y + dy, z + dz].join()))
        .filter((key) => free.has(key));
      if (near.length === 0) break;
      cells.push(takeCell(near[whole(near.length)]!));
    }
    return cells;
  };
  const parts = Array.from({ length: count }, (_, i) => ({
    cells: grown(1 + whole(5)),
    staysOn: i === 0 || share() < 0.08,
    cost: 1 + whole(9),
    sitsOn: i > 1 && share() < 0.25 ? [1 + whole(i - 1)] : [],
    after: i > 1 && share() < 0.15 ? [1 + whole(i - 1)] : [],
  }));
  const bonds = Array.from({ length: Math.ceil(1.5 * count) }, () => ({
    a: whole(count),
    b: share() < 0.25 ? -1 : whole(count),
    cost: 1 + whole(12),
    needs: share() < 0.15 ? [1 + whole(count - 1)] : [],
  })).filter(({ a, b, needs }) => a !== b && !needs.includes(a) && !needs.includes(b));
  const lines = Array.from({ length: lineCount }, () => {
    const cells = grown(1);
    const between = [whole(count), whole(count)] as const;
    return { cell: cells[0], between, cost: 1 + whole(3), endCosts: [1 + whole(6), 1 + whole(6)] as const };
  }).flatMap(({ cell, ...line }) =>
    cell === undefined || line.between[0] === line.between[1] ? [] : [{ cell, ...line }],
  );
  return { parts, bonds, lines, goal: 1 + whole(count - 1), alone: share() < 0.5 };
}
