/** Answers: what mesh and CAD files of other programs hold, as triangles in millimetres, or the one line that says why not. */
export type { MeshNotes } from './mesh-notes.ts';
export type { MeshUnit } from './mesh-unit.ts';
export { type MeshKind, type MeshReading, readMesh } from './read-mesh.ts';
export { stlBinary } from './stl-binary.ts';
