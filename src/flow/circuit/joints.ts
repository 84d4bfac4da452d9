/** Spots that are joined without loss count as one joint. */
export class Joints {
  readonly #parent = new Map<string, string>();

  /** The joint that a spot belongs to. */
  of(spot: string): string {
    const parent = this.#parent.get(spot);
    if (parent === undefined || parent === spot) return spot;
    const root = this.of(parent);
    this.#parent.set(spot, root);
    return root;
  }

  /** Joins two spots; the joint keeps the name of the first one's. */
  join(a: string, b: string): void {
    const [first, second] = [this.of(a), this.of(b)];
    if (first !== second) this.#parent.set(second, first);
  }
}
