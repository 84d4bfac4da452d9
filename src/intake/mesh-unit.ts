/** The length unit a mesh file's bare numbers are in. STL, PLY and OBJ don't say; the builder does. */
export type MeshUnit = 'mm' | 'cm' | 'm' | 'in';

/** Millimetres in one of each; the inch is exact by definition (international yard and pound agreement, 1959). */
export const MM_PER: Readonly<Record<MeshUnit, number>> = { mm: 1, cm: 10, m: 1000, in: 25.4 };
