import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { serve, ServeFault, type Serving } from './serve.ts';

const root = mkdtempSync(join(tmpdir(), 'fairlead-serve-'));
const open: Serving[] = [];
afterAll(async () => {
  await Promise.all(open.map((serving) => serving.close()));
  rmSync(root, { recursive: true, force: true });
});

async function served(isShared: boolean, port = 0): Promise<Serving> {
  const serving = await serve({
    dataFolder: join(root, String(open.length)),
    webFolder: '',
    port,
    isShared,
    demo: () => Promise.reject(new Error('no demo car here')),
    log: () => {},
  });
  open.push(serving);
  return serving;
}

/** The status of an answer, or that nobody answered. */
const asked = async (address: string): Promise<number | 'nobody'> =>
  fetch(`${address}/api/cars`).then(
    ({ status }) => status,
    () => 'nobody',
  );

describe('a server on real sockets', () => {
  it('listens on this machine only: not even its other loopback address leads to it', async () => {
    const { address, shopAddresses, code } = await served(false);
    expect([await asked(address), shopAddresses, code]).toEqual([200, [], null]);
    // Hand: 127.0.0.2 is this machine too (RFC 1122, 3.2.1.3), and is answered by what listens on all of its addresses.
    expect(await asked(address.replace('127.0.0.1', '127.0.0.2'))).toBe('nobody');
  });

  it('shared: asks whoever comes over the network for the code, and nobody on the machine itself', async () => {
    const { address, shopAddresses, code } = await served(true);
    expect(code).toMatch(/^\d{8}$/u);
    expect(await asked(address)).toBe(200);
    // Where the machine has no network there is no such address to ask at; src/server/access.test.ts asks as from one.
    for (const shop of shopAddresses) expect(await asked(shop)).toBe(401);
  });

  it('says which port is taken, and by what to go on', async () => {
    const { address } = await served(false);
    const port = Number(new URL(address).port);
    await expect(served(false, port)).rejects.toThrow(ServeFault);
    await expect(served(false, port)).rejects.toThrow(`port ${port} is taken by another program; allowed: a free one`);
  });

  it('ends while a screen listens for news', async () => {
    const serving = await served(false);
    const news = await fetch(`${serving.address}/api/events`);
    const reader = news.body!.getReader();
    expect(new TextDecoder().decode((await reader.read()).value)).toContain('event: here');
    open.splice(open.indexOf(serving), 1);
    await serving.close();
    await expect(reader.read()).rejects.toThrow();
  });
});
