/** SHA-256 of a photograph, hex. Over plain http a browser computes none itself; there a library does, loaded when it is needed. */

/** As much at a time as leaves the page answering to a finger. */
const sliceBytes = 256 * 1024;

export async function contentHashOf(file: Blob): Promise<string> {
  const digest =
    "subtle" in crypto
      ? new Uint8Array(await crypto.subtle.digest("SHA-256", await file.arrayBuffer()))
      : await digestInSlices(file);
  return Array.from(digest, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

export async function digestInSlices(file: Blob): Promise<Uint8Array> {
  const { sha256 } = await import("@noble/hashes/sha2.js");
  const hash = sha256.create();
  for (let from = 0; from < file.size; from += sliceBytes)
    hash.update(new Uint8Array(await file.slice(from, from + sliceBytes).arrayBuffer()));
  return hash.digest();
}
