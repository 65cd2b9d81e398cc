/** A longer copy of an array. */
export function grown(array: Int32Array, length: number): Int32Array {
  const larger = new Int32Array(length);
  larger.set(array);
  return larger;
}
