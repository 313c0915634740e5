/** What takes seconds to make and comes out the same each time, such as a rendered photograph: walks on phone and desk share it. */
export function madeOnce<Of extends readonly (number | string)[], Made>(
  make: (...of: Of) => Promise<Made>,
): (...of: Of) => Promise<Made> {
  const made = new Map<string, Promise<Made>>();
  return (...of) => {
    const key = of.join(" ");
    const one = made.get(key) ?? make(...of);
    made.set(key, one);
    return one;
  };
}
