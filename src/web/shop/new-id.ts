/** An id for something written down here: a version 4 UUID. A phone on plain http has no crypto.randomUUID. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return uuidOf(bytes);
}

/** The 16 bytes with the marks of version 4 set. */
export function uuidOf(bytes: Uint8Array): string {
  const marked = Array.from(bytes, (byte, at) =>
    at === 6 ? (byte & 0x0f) | 0x40 : at === 8 ? (byte & 0x3f) | 0x80 : byte,
  );
  const hex = marked.map((byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}

/** A seed for a draw by lot. Written down with the plan, so that the draw can be repeated. */
export function newSeed(): number {
  return crypto.getRandomValues(new Uint32Array(1))[0]! % 1_000_000;
}
