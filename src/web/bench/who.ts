import { signal } from './signal.ts';

const key = 'fairlead-who';

function remembered(): string {
  try {
    return localStorage.getItem(key) ?? '';
  } catch {
    return '';
  }
}

/** Whose name goes on a change. Asked for once on each screen. */
export const who = signal(remembered());

/** Set while the name is being asked for. */
export const asking = signal<((name: string | null) => void) | null>(null);

/** The name, asked for where it is not known; null when the builder would rather not. */
export async function whoIsIt(): Promise<string | null> {
  if (who.get() !== '') return who.get();
  return new Promise((answer) => {
    asking.set((name) => {
      asking.set(null);
      if (name !== null) rememberWho(name);
      answer(name);
    });
  });
}

export function rememberWho(name: string): void {
  who.set(name);
  try {
    localStorage.setItem(key, name);
  } catch {
    // A browser that keeps nothing asks again next time.
  }
}

/** The day as papers write it: 2026-11-25. */
export function today(): string {
  const now = new Date();
  const two = (count: number): string => String(count).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

/** "25 Nov 2026, 22:25" as the screen's own language writes it. */
export const dayAndTime = (ms: number): string =>
  new Date(ms).toLocaleString(undefined, { dateStyle: 'medium', timeStyle: 'short' });
