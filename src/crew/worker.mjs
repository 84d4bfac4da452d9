// A worker thread takes tasks: out of the one file that was made for it, else out of the source, which Node 20 reads through tsx.
import { pathToFileURL } from 'node:url';
import { parentPort, workerData } from 'node:worker_threads';

async function taskServer() {
  if (workerData.code !== null) return import(pathToFileURL(workerData.code).href);
  const { register } = await import('tsx/esm/api');
  register();
  return import('./serve-tasks.ts');
}

const { serveTasks } = await taskServer();
serveTasks(parentPort);
