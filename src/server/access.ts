import { createHash, randomInt, timingSafeEqual } from 'node:crypto';
import { getConnInfo } from '@hono/node-server/conninfo';
import type { Context, MiddlewareHandler } from 'hono';
import { getCookie, setCookie } from 'hono/cookie';
import { RequestFault } from './request-fault.ts';

/** Tries of a code from one address, and all addresses together, until the clock below has run out. */
const TRIES_EACH = 8;
const TRIES_ALL = 60;
const TRIES_FOR_MS = 10 * 60_000;
const COOKIE = 'fairlead-code';
const COOKIE_DAYS = 30;
const CODE_DIGITS = 8;

/** Who may ask: this machine, and with an access code the shop's network. */
export interface Sharing {
  /** Null: this machine only. */
  readonly code: string | null;
}

/** A code that a shop can write on the whiteboard: eight digits, from the system's own chance. */
export const newCode = (): string => Array.from({ length: CODE_DIGITS }, () => String(randomInt(10))).join('');

const hashOf = (text: string): Buffer => createHash('sha256').update(text).digest();

/** Takes the same time whatever differs. */
const isSame = (a: string, b: string): boolean => timingSafeEqual(hashOf(a), hashOf(b));

const LOOPBACK = /^(?:::1|(?:::ffff:)?127(?:\.\d{1,3}){3})$/u;
const LOOPBACK_HOST = /^(?:localhost|127(?:\.\d{1,3}){3}|\[::1\])(?::\d{1,5})?$/iu;
/** A name of this machine in the shop's network: an address, or one word with .local or without. */
const SHOP_HOST = /^(?:(?:\d{1,3}\.){3}\d{1,3}|\[[0-9a-f:.]+\]|[a-z0-9-]{1,63}(?:\.local)?)(?::\d{1,5})?$/iu;

const addressOf = (c: Context): string => {
  try {
    return getConnInfo(c).remote.address ?? '';
  } catch {
    // Asked without a socket (a test of the routes): treated as a stranger.
    return '';
  }
};

/**
 * Refuses what does not come from a screen of this server: names that lead here from elsewhere, pages of other origins, and over the
 * network whoever has no code.
 */
export function guard(sharing: Sharing, remote: (c: Context) => string = addressOf): MiddlewareHandler {
  return async (c, next) => {
    const host = c.req.header('host') ?? '';
    if (!(sharing.code === null ? LOOPBACK_HOST : SHOP_HOST).test(host) && !LOOPBACK_HOST.test(host))
      throw new RequestFault(403, `this server does not go by the name "${host.slice(0, 80)}"`);
    const origin = c.req.header('origin');
    if (origin !== undefined && origin !== `http://${host}`)
      throw new RequestFault(403, 'the request comes from a page of another address');
    const site = c.req.header('sec-fetch-site');
    if (site === 'cross-site' && c.req.method !== 'GET')
      throw new RequestFault(403, 'the request comes from another site');
    if (sharing.code !== null && !LOOPBACK.test(remote(c)) && !isSame(getCookie(c, COOKIE) ?? '', sharing.code)) {
      if (c.req.path === '/api/access' || c.req.path === '/') return next();
      throw new RequestFault(401, "the shop's access code is wanted; it stands where the server was started");
    }
    return next();
  };
}

/** Is the asker in, or is the code wanted first? */
export const isIn = (c: Context, sharing: Sharing, remote: (c: Context) => string = addressOf): boolean =>
  sharing.code === null || LOOPBACK.test(remote(c)) || isSame(getCookie(c, COOKIE) ?? '', sharing.code);

/** Takes codes, a limited number of tries. */
export class CodeDesk {
  private readonly sharing: Sharing;
  private readonly nowMs: () => number;
  private tries = new Map<string, number>();
  private since = Number.NEGATIVE_INFINITY;

  constructor(sharing: Sharing, nowMs: () => number = () => performance.now()) {
    this.sharing = sharing;
    this.nowMs = nowMs;
  }

  /** @throws RequestFault 401 for a wrong code, 429 where too many were tried */
  take(c: Context, code: string, address: string = addressOf(c)): void {
    const { code: wanted } = this.sharing;
    if (wanted === null) return;
    if (this.nowMs() - this.since > TRIES_FOR_MS) {
      this.tries = new Map();
      this.since = this.nowMs();
    }
    const own = this.tries.get(address) ?? 0;
    const all = [...this.tries.values()].reduce((sum, n) => sum + n, 0);
    if (own >= TRIES_EACH || all >= TRIES_ALL)
      throw new RequestFault(
        429,
        'too many codes were tried; wait ten minutes, or start the server anew for another code',
      );
    if (!isSame(code.replaceAll(/\D/gu, ''), wanted)) {
      this.tries.set(address, own + 1);
      throw new RequestFault(401, `that is not this shop's code; ${TRIES_EACH - own - 1} more tries`);
    }
    setCookie(c, COOKIE, wanted, {
      httpOnly: true,
      sameSite: 'Strict',
      path: '/',
      maxAge: COOKIE_DAYS * 24 * 3600,
    });
  }
}
