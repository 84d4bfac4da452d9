/** What one photo may ask of the machine; held against what the file declares before it is decoded. */
export const PHOTO_LIMITS = {
  /** Largest file [bytes]. */
  fileBytes: 64 * 1024 * 1024,
  /** Most pixels: a large telephone camera's. */
  pixels: 52_000_000,
  /** Shortest side [px]: below this no edge is known to a millimetre. */
  sidePx: 200,
  /** What decoding may take [MB]. */
  decodeMb: 1024,
  /** Most passes over a picture that is built up step by step (usual: 10), times its millions of pixels. */
  passMegapixels: 1500,
} as const;
