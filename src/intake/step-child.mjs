// Reads one STEP file in a process of its own: the reader's heap never shrinks, some files make it ask for gigabytes, and it
// can't be interrupted. The main thread here only watches the limits; the reader runs on a worker beside it.
import { createRequire } from 'node:module';
import { Worker, isMainThread, parentPort, workerData } from 'node:worker_threads';

const WATCH_MS = 25;

if (isMainThread) {
  // The parent died or lost interest.
  process.on('disconnect', () => process.exit(1));
  process.once('message', watch);
} else read();

/** @param {{ bytes: Uint8Array, memoryBytes: number, millis: number, deflectionMm: number, turnRad: number }} task */
function watch(task) {
  const worker = new Worker(new URL(import.meta.url), {
    workerData: task,
    resourceLimits: { maxOldGenerationSizeMb: Math.floor(task.memoryBytes / 2 ** 20) },
  });
  const tell = (answer) => process.send(answer, () => process.exit(0));
  const started = performance.now();
  const timer = setInterval(() => {
    if (process.memoryUsage.rss() > task.memoryBytes) tell({ failed: 'memory' });
    else if (performance.now() - started > task.millis) tell({ failed: 'time' });
    else return;
    clearInterval(timer);
  }, WATCH_MS);
  worker.on('message', tell);
  worker.on('error', (error) =>
    tell({
      failed: /memory|allocation/i.test(`${error.code} ${error.message}`) ? 'memory' : 'reader',
      words: String(error.message),
    }),
  );
}

async function read() {
  const { bytes, deflectionMm, turnRad } = workerData;
  const quiet = { print() {}, printErr() {} };
  const occt = await createRequire(import.meta.url)('occt-import-js')(quiet);
  const answer = occt.ReadStepFile(bytes, {
    linearUnit: 'millimeter',
    linearDeflectionType: 'absolute_value',
    linearDeflection: deflectionMm,
    angularDeflection: turnRad,
  });
  if (!answer.success) {
    parentPort.postMessage({ failed: 'format' });
    return;
  }
  const solids = answer.meshes.map((mesh) => ({
    name: mesh.name,
    positions: new Float64Array(mesh.attributes.position.array),
    indices: new Uint32Array(mesh.index.array),
  }));
  parentPort.postMessage({ solids });
}
