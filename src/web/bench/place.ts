import { signal } from './signal.ts';

/** What lies open beside the car. */
export type Paper =
  | { readonly kind: 'lines' }
  | { readonly kind: 'line'; readonly id: string }
  | { readonly kind: 'parts' }
  | { readonly kind: 'part'; readonly id: string }
  | { readonly kind: 'snags' }
  | { readonly kind: 'snag'; readonly id: string }
  | { readonly kind: 'history' }
  | { readonly kind: 'buy' }
  /** Measuring in: joining ports, adding and changing what is on the car; `id` says what. */
  | { readonly kind: 'tape'; readonly id: string };

/** Where the builder is: which car, which paper. It stands in the address, so that Back goes back and a place can be sent on. */
export interface Place {
  readonly car: string | null;
  readonly paper: Paper;
}

const plain = new Set(['lines', 'parts', 'snags', 'history', 'buy']);

/** The paper named by the end of an address; the list of lines where it names none. */
export function placeFrom(hash: string): Place {
  const [car = '', kind = '', ...rest] = hash
    .replace(/^#\/?/, '')
    .split('/')
    .map((step) => {
      try {
        return decodeURIComponent(step);
      } catch {
        return step;
      }
    });
  const id = rest.join('/');
  if (car === '') return { car: null, paper: { kind: 'lines' } };
  if (plain.has(kind)) return { car, paper: { kind } as Paper };
  if ((kind === 'line' || kind === 'part' || kind === 'snag' || kind === 'tape') && id !== '')
    return { car, paper: { kind, id } };
  return { car, paper: { kind: 'lines' } };
}

export function hashOf({ car, paper }: Place): string {
  if (car === null) return '#/';
  const steps = 'id' in paper ? [car, paper.kind, paper.id] : [car, paper.kind];
  return `#/${steps.map(encodeURIComponent).join('/')}`;
}

export const place = signal<Place>(placeFrom(globalThis.location?.hash ?? ''));

export function goTo(next: Place): void {
  const hash = hashOf(next);
  if (location.hash !== hash) location.hash = hash;
  place.set(next);
}

/** Opens a paper beside the car that is on the bench. */
export function open(paper: Paper): void {
  goTo({ car: place.get().car, paper });
}

export function followAddress(): void {
  addEventListener('hashchange', () => {
    const next = placeFrom(location.hash);
    if (hashOf(next) !== hashOf(place.get())) place.set(next);
  });
}
