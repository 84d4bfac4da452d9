import type { PhotoSeen } from '#crew';
import type { Point2 } from '#geometry';
import type { TemplateShape } from '#panels';
import { shapeFound } from './ground.ts';

/** A photo as it was chosen: its bytes, where the browser has it, how large it is the right way up. */
export interface ChosenPhoto {
  readonly name: string;
  readonly bytes: ArrayBuffer;
  readonly url: string;
  readonly sizePx: Point2;
}

/** What was found, and as it is corrected. */
export interface Card {
  readonly found: Extract<PhotoSeen, { ok: true }>;
  readonly shape: TemplateShape;
  /** How well corrected corners are known, as it is typed. */
  readonly byHand: string;
}

export const isCorrected = ({ found, shape }: Card): boolean =>
  JSON.stringify(shape) !== JSON.stringify(shapeFound(found));

/** @throws Error where the browser cannot show it */
export async function chosenPhoto(file: File): Promise<ChosenPhoto> {
  const bytes = await file.arrayBuffer();
  const url = URL.createObjectURL(file);
  const picture = new Image();
  picture.src = url;
  try {
    await picture.decode();
  } catch {
    URL.revokeObjectURL(url);
    throw new Error(`${file.name}: is no picture that can be shown; a JPEG or PNG photo is wanted`);
  }
  return { name: file.name, bytes, url, sizePx: [picture.naturalWidth, picture.naturalHeight] };
}
