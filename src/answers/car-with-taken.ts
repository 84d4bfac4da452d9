import type { Car, Part, TakenWay } from '#car';
import type { Planned, Way } from '#lines';

/**
 * The car with the ways that the plan took; their lines stay in state planned, and one that was refused has none. `meshFile`
 * gives the name that a mesh file goes by where the car is written.
 */
export function carWithTaken(car: Car, planned: Pick<Planned, 'lines'>, meshFile: (file: string) => string): Car {
  const answers = new Map(planned.lines.map((row) => [row.line, row.taken]));
  return {
    ...car,
    parts: car.parts.map((part) => withMeshes(part, meshFile)),
    lines: car.lines.map((line) => {
      const taken = answers.get(line.id);
      if (line.state !== 'planned' || taken === undefined) return line;
      return { ...line, taken: taken === null ? null : decision(taken) };
    }),
  };
}

function withMeshes(part: Part, meshFile: (file: string) => string): Part {
  if (!part.shapes.some((shape) => shape.mesh !== undefined)) return part;
  const shapes = part.shapes.map((shape) =>
    shape.mesh === undefined ? shape : { ...shape, mesh: { ...shape.mesh, file: meshFile(shape.mesh.file) } },
  );
  return { ...part, shapes };
}

/** What the builder decides by taking a way; gaps and costs are results, and are worked out again each time. */
function decision(way: Way): TakenWay {
  const { ends, joints, pieces, clamps, bodies, nearMm, hangSpreadMm } = way;
  return structuredCopy({ ends, joints, pieces, clamps, bodies, nearMm, hangSpreadMm });
}

/** The readonly lists of a way as the plain ones of a car file. */
const structuredCopy = (value: object): TakenWay => JSON.parse(JSON.stringify(value)) as TakenWay;
