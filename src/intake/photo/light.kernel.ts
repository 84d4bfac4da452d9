/** A photo as its bytes: red, green, blue, and one not used, row by row from the top left, the right way up. */
export interface PhotoImage {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly rgba: Uint8Array;
  /** Focal length for a full frame 36 x 24 mm, as the camera wrote it into the file [mm]. */
  readonly focal35Mm?: number;
}

/** Light of each of the 256 values, 0 to 1. Source: iec-61966-2-1. */
export const LIGHT = Float32Array.from({ length: 256 }, (_, i) => {
  const v = i / 255;
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
});

/** A picture in linear light, three planes one after the other. */
export interface SmallImage {
  readonly width: number;
  readonly height: number;
  /** Photo pixels to one of these. */
  readonly shrink: number;
  readonly light: Float32Array;
}

/** The photo made smaller by a whole number, each pixel the mean of a square of light. */
export function smallImage(photo: PhotoImage, longest: number): SmallImage {
  const shrink = Math.max(1, Math.ceil(Math.max(photo.widthPx, photo.heightPx) / longest));
  const width = Math.floor(photo.widthPx / shrink);
  const height = Math.floor(photo.heightPx / shrink);
  const plane = width * height;
  const light = new Float32Array(3 * plane);
  const share = 1 / (shrink * shrink);
  for (let y = 0; y < height * shrink; y++) {
    const row = Math.floor(y / shrink) * width;
    for (let x = 0; x < width * shrink; x++) {
      const from = 4 * (y * photo.widthPx + x);
      const to = row + Math.floor(x / shrink);
      light[to]! += share * LIGHT[photo.rgba[from]!]!;
      light[plane + to]! += share * LIGHT[photo.rgba[from + 1]!]!;
      light[2 * plane + to]! += share * LIGHT[photo.rgba[from + 2]!]!;
    }
  }
  return { width, height, shrink, light };
}

/** Light at a place between pixels (the middle of the first at 0.5), into `out` from `at` on; false outside the picture. */
export function lightAt(photo: PhotoImage, x: number, y: number, out: Float64Array, at: number): boolean {
  const [fx, fy] = [x - 0.5, y - 0.5];
  const i = Math.floor(fx);
  const j = Math.floor(fy);
  if (!(i >= 0 && j >= 0 && i < photo.widthPx - 1 && j < photo.heightPx - 1)) return false;
  const u = fx - i;
  const v = fy - j;
  const { rgba } = photo;
  const a = 4 * (j * photo.widthPx + i);
  const b = a + 4 * photo.widthPx;
  for (let c = 0; c < 3; c++)
    out[at + c] =
      (1 - v) * ((1 - u) * LIGHT[rgba[a + c]!]! + u * LIGHT[rgba[a + 4 + c]!]!) +
      v * ((1 - u) * LIGHT[rgba[b + c]!]! + u * LIGHT[rgba[b + 4 + c]!]!);
  return true;
}
