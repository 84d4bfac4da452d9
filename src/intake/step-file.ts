import { fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { IntakeFault } from './intake-fault.ts';
import { counted, LIMITS } from './limits.ts';
import type { MeshBuilder } from './mesh-builder.kernel.ts';
import { coordinatesAllowed } from './stl-file.ts';

/** What one STEP file may take. */
export interface StepLimits {
  /** Memory of the child process [bytes]. */
  readonly memoryBytes: number;
  readonly seconds: number;
}

export const STEP_LIMITS: StepLimits = { memoryBytes: 2 * 1024 ** 3, seconds: 60 };

/** Largest STEP file [bytes]: the reader takes more than ten times the file's size, so a larger one could not be read in 2 GB. */
const STEP_BYTES = 128 * 1024 * 1024;
/** Curved faces are cut into flats that leave them by at most this [mm], a fraction of what a gap is stated to. */
const DEFLECTION_MM = 0.05;
/** ... and turn by at most this from flat to flat [rad], so that small tubes stay round. */
const TURN_RAD = 0.3;
const WASM_PAGE_BYTES = 65_536;
/** Patience beyond the child's own limits before it is killed from here [ms]. */
const GRACE_MS = 5000;

/**
 * Steps of a millimetre that points are rounded to: neighbouring faces give their common corners up to 1e-9 mm apart, which
 * would leave cracks in a closed solid.
 */
const GRID_PER_MM = 2 ** 20;
const onGrid = (mm: number): number => Math.round(mm * GRID_PER_MM) / GRID_PER_MM;

interface Solid {
  readonly name: string;
  readonly positions: Float64Array;
  readonly indices: Uint32Array;
}
type Answer = { readonly solids: readonly Solid[] } | { readonly failed: 'memory' | 'time' | 'format' | 'reader' };

/**
 * Reads the solids of a STEP file (its own length unit, brought to millimetres) in a child process with limits.
 *
 * @returns the solids' names in the file's order
 */
export async function readStep(bytes: Uint8Array, into: MeshBuilder, limits: StepLimits): Promise<readonly string[]> {
  checkFrame(bytes);
  const answer = await fromChild(bytes, limits);
  if ('failed' in answer) throw failure(answer.failed, limits);
  for (const solid of answer.solids) addSolid(solid, into);
  return answer.solids.map((solid) => solid.name);
}

/** The first and last words of a STEP file (ISO 10303-21): tells other files and cut ones apart at once. */
function checkFrame(bytes: Uint8Array): void {
  if (bytes.length > STEP_BYTES)
    throw new IntakeFault('STEP', `${counted(bytes.length)} bytes`, `at most ${counted(STEP_BYTES)} (128 MB)`);
  const latin = new TextDecoder('latin1');
  if (!latin.decode(bytes.subarray(0, 1024)).includes('ISO-10303-21;'))
    throw new IntakeFault('STEP line 1', 'no "ISO-10303-21;"', 'a STEP file');
  if (!latin.decode(bytes.subarray(-1024)).includes('END-ISO-10303-21;')) {
    throw new IntakeFault('STEP', 'the file ends', '"END-ISO-10303-21;" at the end (is it cut short?)');
  }
}

function fromChild(bytes: Uint8Array, limits: StepLimits): Promise<Answer> {
  return new Promise((resolve) => {
    const child = fork(fileURLToPath(new URL('./step-child.mjs', import.meta.url)), [], {
      stdio: ['ignore', 'ignore', 'ignore', 'ipc'],
      serialization: 'advanced',
      // the parent's own flags (a loader, an inspector port) are not for the child
      // compiled once, quickly: the better compiler takes longer over the reader than it saves on a part
      execArgv: ['--liftoff-only', `--wasm-max-mem-pages=${Math.floor(limits.memoryBytes / WASM_PAGE_BYTES)}`],
    });
    let answer: Answer | undefined;
    const timer = setTimeout(
      () => {
        answer ??= { failed: 'time' };
        child.kill('SIGKILL');
      },
      limits.seconds * 1000 + GRACE_MS,
    );
    const done = (): void => {
      clearTimeout(timer);
      resolve(answer ?? { failed: 'reader' });
    };
    child.on('message', (message) => {
      answer = message as Answer;
    });
    child.on('error', done);
    // 'close' comes after the last message, 'exit' may come before it
    child.on('close', done);
    child.send(
      {
        bytes,
        memoryBytes: limits.memoryBytes,
        millis: limits.seconds * 1000,
        deflectionMm: DEFLECTION_MM,
        turnRad: TURN_RAD,
      },
      () => {},
    );
  });
}

function failure(failed: 'memory' | 'time' | 'format' | 'reader', limits: StepLimits): IntakeFault {
  const advice = 'hand in fewer solids, or an STL of it';
  if (failed === 'memory')
    return new IntakeFault(
      'STEP',
      `reading it takes more than ${counted(Math.round(limits.memoryBytes / 2 ** 20))} MB`,
      `that much memory; ${advice}`,
    );
  if (failed === 'time')
    return new IntakeFault('STEP', `reading it takes more than ${limits.seconds} s`, `that much time; ${advice}`);
  if (failed === 'format') return new IntakeFault('STEP', "can't be understood", 'STEP AP203, AP214 or AP242');
  return new IntakeFault('STEP', 'the reader broke down on it', `a well-formed file; ${advice}`);
}

function addSolid(solid: Solid, into: MeshBuilder): void {
  const p = solid.positions;
  const vertices = new Uint32Array(p.length / 3);
  for (let v = 0; v < vertices.length; v++) {
    const [x = Number.NaN, y = Number.NaN, z = Number.NaN] = p.subarray(3 * v, 3 * v + 3);
    const vertex = into.vertex(onGrid(x), onGrid(y), onGrid(z));
    if (vertex < 0)
      throw new IntakeFault(
        `STEP solid ${JSON.stringify(solid.name.slice(0, 60))}`,
        `a point at ${x} ${y} ${z}`,
        coordinatesAllowed,
      );
    vertices[v] = vertex;
  }
  if (into.triangleCount + solid.indices.length / 3 > LIMITS.triangles) {
    throw new IntakeFault(
      'STEP',
      `more than ${counted(LIMITS.triangles)} triangles`,
      `at most ${counted(LIMITS.triangles)}`,
    );
  }
  for (let i = 0; i + 2 < solid.indices.length; i += 3) {
    const [a = 0, b = 0, c = 0] = solid.indices.subarray(i, i + 3);
    into.triangle(vertices[a] ?? 0, vertices[b] ?? 0, vertices[c] ?? 0);
  }
}
