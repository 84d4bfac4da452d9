import type { GlbParts } from './glb-json.ts';
import { IntakeFault } from './intake-fault.ts';
import { counted } from './limits.ts';

/** One row of an accessor's values after another: `at(row, part)`. */
export interface GlbValues {
  readonly count: number;
  at(row: number, part: number): number;
}

interface Component {
  readonly bytes: number;
  readonly read: (view: DataView, at: number) => number;
  /** What a normalised whole number is divided by (glTF 2.0, section 3.6.2.2, "Accessor Data Types"). */
  readonly full: number;
}

const COMPONENTS: Readonly<Record<number, Component>> = {
  5120: { bytes: 1, read: (view, at) => view.getInt8(at), full: 127 },
  5121: { bytes: 1, read: (view, at) => view.getUint8(at), full: 255 },
  5122: { bytes: 2, read: (view, at) => view.getInt16(at, true), full: 32_767 },
  5123: { bytes: 2, read: (view, at) => view.getUint16(at, true), full: 65_535 },
  5125: { bytes: 4, read: (view, at) => view.getUint32(at, true), full: 1 },
  5126: { bytes: 4, read: (view, at) => view.getFloat32(at, true), full: 1 },
};

/** An accessor's values, its bounds held against the binary chunk; nothing is copied. */
export function glbValues(parts: GlbParts, number: number, type: 'SCALAR' | 'VEC3'): GlbValues {
  const where = `GLB JSON accessors.${number}`;
  const accessor = parts.json.accessors?.[number];
  if (accessor === undefined)
    throw new IntakeFault(where, 'not there', `0 to ${(parts.json.accessors?.length ?? 0) - 1}`);
  if (accessor.type !== type)
    throw new IntakeFault(`${where}.type`, JSON.stringify(accessor.type.slice(0, 40)), `"${type}"`);
  const component = COMPONENTS[accessor.componentType];
  if (component === undefined)
    throw new IntakeFault(`${where}.componentType`, String(accessor.componentType), Object.keys(COMPONENTS).join(', '));
  if (accessor.sparse !== undefined || accessor.bufferView === undefined) {
    throw new IntakeFault(where, 'sparse values, or none', 'values that stand in the binary chunk');
  }
  const view = parts.json.bufferViews?.[accessor.bufferView];
  if (view === undefined)
    throw new IntakeFault(
      `${where}.bufferView`,
      String(accessor.bufferView),
      `0 to ${(parts.json.bufferViews?.length ?? 0) - 1}`,
    );
  if (view.buffer !== 0)
    throw new IntakeFault(
      `GLB JSON bufferViews.${accessor.bufferView}.buffer`,
      String(view.buffer),
      '0, the binary chunk',
    );
  const row = component.bytes * (type === 'VEC3' ? 3 : 1);
  const stride = view.byteStride ?? row;
  if (stride < row)
    throw new IntakeFault(`GLB JSON bufferViews.${accessor.bufferView}.byteStride`, String(stride), `${row} or more`);
  const start = (view.byteOffset ?? 0) + (accessor.byteOffset ?? 0);
  const end = accessor.count === 0 ? start : start + stride * (accessor.count - 1) + row;
  const last = Math.min(parts.bin.length, (view.byteOffset ?? 0) + view.byteLength);
  if (end > last)
    throw new IntakeFault(
      where,
      `${counted(accessor.count)} values end at byte ${counted(end)}`,
      `at most byte ${counted(last)} (is the file cut short?)`,
    );
  const data = new DataView(parts.bin.buffer, parts.bin.byteOffset, parts.bin.byteLength);
  const by = accessor.normalized === true ? 1 / component.full : 1;
  const read =
    by === 1 ? component.read : (d: DataView, at: number): number => Math.max(component.read(d, at) * by, -1);
  return { count: accessor.count, at: (r, part) => read(data, start + stride * r + component.bytes * part) };
}
