/** HEIC by its first bytes (ISO/IEC 14496-12 and 23008-12): page and server tell it alike, whatever the file's name says. */

/** What has to be there to tell: size, `ftyp`, major brand. */
export const heicHeadBytes = 12;

const brands = /^(hei[cxms]|hev[cxms]|mif1|msf1)$/;

/** What phones store unless they are told to store JPEG. */
export function isHeicHead(head: Uint8Array): boolean {
  const text = String.fromCharCode(...head.subarray(0, heicHeadBytes));
  return text.slice(4, 8) === "ftyp" && brands.test(text.slice(8, 12));
}
