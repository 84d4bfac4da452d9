/** The same points walked the other way. */
export function reversedPath(path: Float64Array): Float64Array {
  const out = new Float64Array(path.length);
  for (let i = 0; i < path.length; i += 3) out.set(path.subarray(path.length - 3 - i, path.length - i), i);
  return out;
}
