/** What a camera wrote about a picture, as far as it matters here. */
export interface Exif {
  /** How the stored picture is to be turned, 1 to 8. Source: cipa-dc-008. */
  readonly orientation: number;
  /** Focal length for a full frame [mm]. */
  readonly focal35Mm?: number;
}

const ORIENTATION = 0x0112;
const EXIF_PART = 0x8769;
const FOCAL_35 = 0xa405;
const SHORT = 3;
const LONG = 4;
const MOST_ENTRIES = 512;
const ENTRY_BYTES = 12;
/** Outside these a focal length is a slip of the camera's [mm]. */
const LEAST_FOCAL = 8;
const MOST_FOCAL = 400;

/** Reads the part of an Exif block after its "Exif\0\0"; whatever is broken in it is left out, a picture can do without. */
export function readExif(block: Uint8Array): Exif {
  const view = new DataView(block.buffer, block.byteOffset, block.byteLength);
  const mark = block.length >= 8 ? view.getUint16(0) : 0;
  if (mark !== 0x4949 && mark !== 0x4d4d) return { orientation: 1 };
  const little = mark === 0x4949;
  const first = directory(view, view.getUint32(4, little), little);
  const orientation = first.get(ORIENTATION) ?? 1;
  const part = first.get(EXIF_PART);
  const focal = part === undefined ? undefined : directory(view, part, little).get(FOCAL_35);
  return {
    orientation: orientation >= 1 && orientation <= 8 ? orientation : 1,
    ...(focal !== undefined && focal >= LEAST_FOCAL && focal <= MOST_FOCAL ? { focal35Mm: focal } : {}),
  };
}

/** Single whole numbers of one directory by their tag. */
function directory(view: DataView, at: number, little: boolean): Map<number, number> {
  const out = new Map<number, number>();
  if (at + 2 > view.byteLength) return out;
  const count = Math.min(MOST_ENTRIES, view.getUint16(at, little));
  for (let i = 0; i < count; i++) {
    const entry = at + 2 + i * ENTRY_BYTES;
    if (entry + ENTRY_BYTES > view.byteLength) break;
    const kind = view.getUint16(entry + 2, little);
    if (view.getUint32(entry + 4, little) !== 1) continue;
    if (kind === SHORT) out.set(view.getUint16(entry, little), view.getUint16(entry + 8, little));
    if (kind === LONG) out.set(view.getUint16(entry, little), view.getUint32(entry + 8, little));
  }
  return out;
}
