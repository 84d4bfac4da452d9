// One of two threads that fill one slack field in shared memory: takes the next 64 bricks until none is left.
import { parentPort } from 'node:worker_threads';
import { register } from 'tsx/esm/api';

register();
const { slackField, solidOfPrepared, still } = await import('../../src/geometry/index.ts');

parentPort.on('message', ({ prepared, options, memory, next }) => {
  const items = prepared.map(({ mesh, keepOffMm }) => ({ solid: solidOfPrepared(mesh, still), keepOffMm }));
  const field = slackField({ ...options, items, memory });
  for (;;) {
    const from = Atomics.add(next, 0, 64);
    if (from >= field.bricks) break;
    field.fill(from, Math.min(field.bricks, from + 64));
  }
  parentPort.postMessage('done');
});
parentPort.postMessage('ready');
