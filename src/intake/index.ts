/**
 * Answers: what mesh and CAD files of other programs hold, as triangles in millimetres, and what outline the photo of a
 * template shows; or the one line that says why not.
 */
export { type Decimated, decimated, type DecimateOptions } from './decimated.ts';
export { type CarMeshes, loadCarMeshes } from './load-car-meshes.ts';
export type { MeshNotes } from './mesh-notes.ts';
export type { MeshUnit } from './mesh-unit.ts';
export { type PictureLevel, PICTURE_TRIANGLES, pictureLevels } from './picture-levels.ts';
export { type Placing, placeByPoints, type PointPair } from './place-by-points.ts';
export { type MeshKind, meshKindOf, type MeshOptions, type MeshReading, readMesh } from './read-mesh.ts';
export { stlBinary } from './stl-binary.ts';
export type { StepLimits } from './step-file.ts';
export { type SurfaceError, surfaceError } from './surface-error.ts';
export { type DriveLogOptions, type DriveLogReading, readDriveLog } from './drive-log-file.ts';
export type { PhotoImage } from './photo/light.kernel.ts';
export {
  outlineFromImage,
  type PhotoOutline,
  type PhotoReport,
} from './photo/outline-from-photo.ts';
export type { OutlineWish, PhotoHints } from './photo/found-things.ts';
export { type PhotoReading, readPhoto } from './photo/read-photo.ts';
export type { PhotoReference } from './photo/reference.ts';
export { readReference, REFERENCE_WORDS } from './photo/reference-words.ts';
