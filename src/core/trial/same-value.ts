/** Whether two plain values say the same, in whichever order their fields were written. */

/** Of numbers, texts, null, arrays and plain objects; a field that is undefined is a field that is not there. */
export function sameValue(one: unknown, other: unknown): boolean {
  if (Array.isArray(one) && Array.isArray(other))
    return one.length === other.length && one.every((item, at) => sameValue(item, other[at]));
  if (!isPlain(one) || !isPlain(other)) return Object.is(one, other);
  const keys = new Set([...Object.keys(one), ...Object.keys(other)]);
  return [...keys].every((key) => sameValue(one[key], other[key]));
}

function isPlain(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
