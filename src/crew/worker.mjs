// A worker thread cannot start from a .ts file on Node 20: this registers tsx first, then takes tasks.
import { parentPort } from 'node:worker_threads';
import { register } from 'tsx/esm/api';

register();
const { serveTasks } = await import('./serve-tasks.ts');
serveTasks(parentPort);
