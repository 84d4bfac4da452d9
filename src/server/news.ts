/** What every open screen is told. */
export type News =
  | { readonly kind: 'car'; readonly id: string; readonly revision: number; readonly who: string }
  | { readonly kind: 'cars' }
  /** Something about a car has come in that was not waited for. */
  | { readonly kind: 'behind'; readonly id: string }
  | { readonly kind: 'shop'; readonly revision: number }
  | {
      readonly kind: 'job';
      readonly job: string;
      readonly car: string;
      readonly state: string;
      readonly done: number;
      readonly total: number;
    };

type Hear = (news: News) => void;

/** Screens that listen, and what they are told. */
export class NewsDesk {
  private readonly hearers = new Set<Hear>();

  tell(news: News): void {
    for (const hear of this.hearers) hear(news);
  }

  /** Listens until the call that comes back is made. */
  listen(hear: Hear): () => void {
    this.hearers.add(hear);
    return () => this.hearers.delete(hear);
  }
}
