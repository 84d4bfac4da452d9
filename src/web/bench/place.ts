import { signal } from './signal.ts';

/** Papers that there is one of. */
export const plainPapers = ['lines', 'parts', 'snags', 'history', 'buy', 'shop', 'book'] as const;
/**
 * Papers about one thing, which their address names: a line, a part, a snag; what is measured in (`tape`); two points of the car's
 * history (`compare`, `3..now`); a circuit in a case (`flow`, `oil..cold-start`, or `all` where the worst is wanted); a panel or a lever
 * (`cut`, `panel/PN1`, or `all`); temperatures in a case (`cook`, `full-load..line..O7`, or `all`); what comes off
 * for one thing (`off`, `replace/turbo`, or `all`).
 */
export const namedPapers = ['line', 'part', 'snag', 'tape', 'compare', 'flow', 'cut', 'cook', 'off'] as const;

export type PlainPaper = (typeof plainPapers)[number];
export type NamedPaper = (typeof namedPapers)[number];

/** What lies open beside the car. */
export type Paper =
  | { readonly [K in PlainPaper]: { readonly kind: K } }[PlainPaper]
  | { readonly [K in NamedPaper]: { readonly kind: K; readonly id: string } }[NamedPaper];

/** Where the builder is: which car, which paper. It stands in the address, so that Back goes back and a place can be sent on. */
export interface Place {
  readonly car: string | null;
  readonly paper: Paper;
}

const isPlain = (kind: string): kind is PlainPaper => plainPapers.some((one) => one === kind);
const isNamed = (kind: string): kind is NamedPaper => namedPapers.some((one) => one === kind);

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
  if (isPlain(kind)) return { car, paper: { kind } };
  if (isNamed(kind) && id !== '') return { car, paper: { kind, id } };
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
