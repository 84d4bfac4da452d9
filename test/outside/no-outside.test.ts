import { execFile } from 'node:child_process';
import { createSocket } from 'node:dgram';
import { lookup } from 'node:dns';
import { resolve4 } from 'node:dns/promises';
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { Worker } from 'node:worker_threads';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

/** RFC 5737, 3 and RFC 2606, 2: an address and a name that are nobody's. */
const NOBODY = '192.0.2.7';
const NO_NAME = 'host.invalid';

/**
 * That the server asks no outside host stands in every test that runs it: whatever they ask for is noted (`note-outside.cjs`), and the run
 * fails at its end (`test/around-all.ts`) if anything was. Here: that what is asked is noted, wherever it is asked from.
 */
describe('what a test asks of another machine', () => {
  const folder = mkdtempSync(join(tmpdir(), 'fairlead-asked-'));
  const usual = process.env['FAIRLEAD_ASKED'];
  let file = '';
  beforeAll(() => {
    file = process.env['FAIRLEAD_ASKED'] = join(folder, 'asked');
  });
  afterAll(() => {
    process.env['FAIRLEAD_ASKED'] = usual;
    rmSync(folder, { recursive: true, force: true });
  });

  const noted = (): string[] => {
    const lines = existsSync(file) ? readFileSync(file, 'utf8').trim().split('\n') : [];
    rmSync(file, { force: true });
    return lines;
  };
  const ASKS = `require('node:net').connect(9, '${NOBODY}').on('error', () => {}).destroy();`;

  it('is noted of a socket, a request, a datagram, a name that is looked up', async () => {
    connect({ host: NOBODY, port: 9 })
      .on('error', () => {})
      .destroy();
    await fetch(`http://${NO_NAME}/`).catch(() => {});
    const socket = createSocket('udp4');
    await new Promise((done) => socket.send('x', 9, NOBODY, done));
    socket.close();
    await new Promise<void>((done) => lookup(NO_NAME, () => done()));
    await resolve4(NO_NAME).catch(() => {});
    expect(noted()).toEqual(
      expect.arrayContaining([
        `connect ${NOBODY}`,
        `connect ${NO_NAME}`,
        `send ${NOBODY}`,
        `lookup ${NO_NAME}`,
        `resolve4 ${NO_NAME}`,
      ]),
    );
  });

  it('is noted of a thread and of a child process', async () => {
    const worker = new Worker(ASKS, { eval: true });
    await new Promise((done) => worker.once('exit', done));
    expect(noted()).toEqual([`connect ${NOBODY}`]);
    await promisify(execFile)(process.execPath, ['-e', ASKS]);
    expect(noted()).toEqual([`connect ${NOBODY}`]);
  });

  it('is not noted of this machine', async () => {
    await fetch('http://127.0.0.1:9/').catch(() => {});
    connect(9)
      .on('error', () => {})
      .destroy();
    await new Promise<void>((done) => lookup('localhost', () => done()));
    expect(noted()).toEqual([]);
  });
});
