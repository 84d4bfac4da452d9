import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import { type ServerType, serve as listenOn } from '@hono/node-server';
import { CrewError, CrewStopped, type KeptAnswers, StandingCrew } from '#crew';
import { openShelf, type Shelf } from '#shelf';
import { newCode } from './access.ts';
import { app } from './app.ts';
import type { ReadyCar } from './ready-car.ts';
import { type Behind, Desk } from './desk.ts';
import { Jobs } from './jobs.ts';
import { NewsDesk } from './news.ts';
import { Tried } from './tried.ts';
import { webFiles } from './web-files.ts';

export interface ServeWish {
  /** Where cars are kept. */
  readonly dataFolder: string;
  /** The built screen. */
  readonly webFolder: string;
  /** 0: one that is free. */
  readonly port: number;
  /** Open to the shop's network, with an access code. */
  readonly isShared: boolean;
  /** Threads learn the car that was worked on last before they are asked; true if absent. */
  readonly isReadied?: boolean;
  /** What is worked out behind of a car that is looked at; all of it if absent. */
  readonly behind?: Behind;
  readonly demo: () => Promise<ReadyCar>;
  /** Where plans are kept from one run of the program to the next; none if absent. */
  readonly kept?: KeptAnswers;
  readonly log: (text: string) => void;
}

/** The server at work. */
export interface Serving {
  /** On this machine. */
  readonly address: string;
  /** On the shop's network; none where it is not shared. */
  readonly shopAddresses: readonly string[];
  readonly code: string | null;
  readonly desk: Desk;
  readonly shelf: Shelf;
  close(): Promise<void>;
}

/** The port cannot be had, in one sentence. */
export class ServeFault extends Error {
  constructor(sentence: string) {
    super(sentence);
    this.name = 'ServeFault';
  }
}

/** Opens the shelf and answers screens until it is closed. */
export async function serve(wish: ServeWish): Promise<Serving> {
  const shelf = await openShelf(wish.dataFolder);
  const crew = new StandingCrew();
  const desk = new Desk(shelf, crew, new Tried(join(wish.dataFolder, 'tried')), wish.kept, wish.behind);
  const news = new NewsDesk();
  const jobs = new Jobs(news);
  const sharing = { code: wish.isShared ? newCode() : null };
  const files = webFiles(wish.webFolder);
  const { fetch } = app({ desk, jobs, news, sharing, files, demo: wish.demo, log: wish.log });
  const hostname = wish.isShared ? '0.0.0.0' : '127.0.0.1';
  const end = async (): Promise<void> => {
    jobs.stopAll();
    await crew.end();
    await shelf.close();
  };
  try {
    const { server, port } = await listening(fetch, hostname, wish.port);
    if (wish.isReadied !== false) makeReady(desk, wish.log);
    return {
      address: `http://127.0.0.1:${port}`,
      shopAddresses: wish.isShared ? shopAddresses(port) : [],
      code: sharing.code,
      desk,
      shelf,
      close: async () => {
        await closed(server);
        await end();
      },
    };
  } catch (fault) {
    await end();
    throw fault;
  }
}

/** The car that was worked on last is likely to be opened first: the threads learn it before they are asked. */
function makeReady(desk: Desk, log: (text: string) => void): void {
  const first = async (): Promise<void> => {
    const [last] = await desk.shelf.cars();
    if (last === undefined || last.isAway) return;
    await desk.standing(last.id);
    await desk.makeReady(last.id, (await desk.shelf.openCar(last.id)).car);
  };
  // A car that cannot be made ready says so when it is opened.
  first().catch((fault: unknown) => {
    if (!(fault instanceof CrewStopped) && !(fault instanceof CrewError)) log(`making ready: ${String(fault)}`);
  });
}

function listening(
  fetch: Parameters<typeof listenOn>[0]['fetch'],
  hostname: string,
  port: number,
): Promise<{ server: ServerType; port: number }> {
  return new Promise((done, failed) => {
    const server = listenOn({ fetch, hostname, port }, (info) => done({ server, port: info.port }));
    server.once('error', (fault: NodeJS.ErrnoException) => failed(new ServeFault(portWords(fault, port))));
  });
}

function portWords({ code, message }: NodeJS.ErrnoException, port: number): string {
  if (code === 'EADDRINUSE')
    return `port ${port} is taken by another program; allowed: a free one, such as FAIRLEAD_PORT=${port + 1}`;
  if (code === 'EACCES') return `port ${port} may not be used; allowed: one from 1024 to 65535`;
  return `port ${port} cannot be listened on (${code ?? message})`;
}

/** Screens that listen for news hold their line open: they are let go. */
function closed(server: ServerType): Promise<void> {
  return new Promise((done) => {
    server.close(() => done());
    if ('closeAllConnections' in server) server.closeAllConnections();
  });
}

const shopAddresses = (port: number): string[] =>
  Object.values(networkInterfaces())
    .flatMap((list) => list ?? [])
    .filter(({ family, internal }) => family === 'IPv4' && !internal)
    .map(({ address }) => `http://${address}:${port}`);
