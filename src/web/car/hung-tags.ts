/** Where a tag hangs on the picture [px]. */
export interface HungTag {
  /** Its place on the car. */
  readonly x: number;
  readonly y: number;
  /** Up to the middle of the tag. */
  readonly wire: number;
  /** The tag stands beside its wire, where the edge of the picture wants it. */
  readonly aside: number;
}

/** Height of a tag, with what keeps it apart from the next [px]. */
export const TAG_HIGH_PX = 34;
const WIRE_PX = 34;
const MOST_WIRE_PX = 8 * TAG_HIGH_PX;

/**
 * Tags hung above their places, moved up where another hangs already, all of them within the picture. One that finds no room is left out:
 * they come worst first, and all are on the papers too.
 *
 * @param wide - of each tag [px]
 */
export function hungTags(
  places: readonly { readonly x: number; readonly y: number; readonly wide: number }[],
  size: { readonly width: number; readonly height: number },
): (HungTag | null)[] {
  const taken: { readonly x: number; readonly y: number; readonly wide: number }[] = [];
  return places.map(({ x, y, wide }) => {
    const middle = Math.max(wide / 2, Math.min(size.width - wide / 2, x));
    const isFree = (at: number): boolean =>
      taken.every((tag) => Math.abs(tag.x - middle) >= (wide + tag.wide) / 2 || Math.abs(tag.y - at) >= TAG_HIGH_PX);
    const highest = TAG_HIGH_PX / 2;
    for (let wire = WIRE_PX; wire <= MOST_WIRE_PX; wire += TAG_HIGH_PX / 2) {
      const at = Math.max(highest, y - wire);
      if (isFree(at)) {
        taken.push({ x: middle, y: at, wide });
        return { x, y, wire: Math.max(0, y - at), aside: middle - x };
      }
      if (at === highest) break;
    }
    return null;
  });
}
