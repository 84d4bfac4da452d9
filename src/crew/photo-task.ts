import type { Outline, PlaneCamera, Point2 } from '#geometry';
import { outlineFromImage, type OutlineWish, type PhotoReport, readPhoto } from '#intake';

export interface PhotoAsk {
  readonly bytes: Uint8Array;
  readonly wish: OutlineWish;
}

/** What the photo of a template shows, to be drawn over it and corrected; or the one line that says why nothing is given. */
export type PhotoSeen =
  | {
      readonly ok: true;
      readonly sizePx: Point2;
      /** Counter-clockwise seen from above [mm]. */
      readonly outline: Outline;
      readonly openings: readonly Outline[];
      /** 95 % bound on the worst place [mm]. */
      readonly errorMm: number;
      readonly report: PhotoReport;
      readonly referencePx: readonly Point2[];
      /** How high above the bench the outline lies [mm]. */
      readonly heightMm: number;
      readonly camera: SentCamera;
    }
  | { readonly ok: false; readonly refusal: string };

/** The camera in plain numbers, as it can be sent. */
export type SentCamera = Omit<PlaneCamera, 'rotation'> & { readonly rotation: readonly number[] };

export async function photoSeen({ bytes, wish }: PhotoAsk): Promise<PhotoSeen> {
  const photo = await readPhoto(bytes);
  if (!photo.ok) return { ok: false, refusal: photo.fault };
  const found = outlineFromImage(photo.image, wish);
  if (!found.ok) return found;
  const { outline, openings, errorMm, report, pictures } = found;
  const { camera, reference } = pictures;
  return {
    ok: true,
    ...{ outline, openings, errorMm, report },
    sizePx: [photo.image.widthPx, photo.image.heightPx],
    referencePx: reference,
    heightMm: wish.thicknessMm,
    camera: { ...camera, rotation: [...camera.rotation] },
  };
}
