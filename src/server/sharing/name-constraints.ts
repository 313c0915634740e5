/**
 * What an authority may vouch for (RFC 5280, 4.2.1.10): addresses of local networks and names under `local` alone. Who
 * gets hold of its key can still not pretend to be a bank to a phone that trusts it and obeys this limit.
 */
import { localRanges } from "./own-addresses.ts";

export const nameConstraintsOid = "2.5.29.30";
const localNames = ["local", "localhost"];

/** The extension's value in DER. */
export function localNamesAlone(): Uint8Array {
  const names = localNames.map((name) => subtree(dnsName, Buffer.from(name, "latin1")));
  const ranges = localRanges.map(({ address, prefix }) =>
    subtree(ipAddress, Buffer.from([...address.split(".").map(Number), ...maskOf(prefix)])),
  );
  return der(sequence, der(permittedSubtrees, ...names, ...ranges));
}

/** Tags of RFC 5280's types, as DER writes them. */
const sequence = 0x30;
const permittedSubtrees = 0xa0;
const dnsName = 0x82;
const ipAddress = 0x87;

const subtree = (kind: number, base: Uint8Array) => der(sequence, der(kind, base));

function der(tag: number, ...parts: Uint8Array[]): Uint8Array {
  const content = Buffer.concat(parts);
  const length = content.length < 128 ? [content.length] : [0x82, content.length >> 8, content.length & 0xff];
  return Buffer.concat([Buffer.from([tag, ...length]), content]);
}

function maskOf(prefix: number): number[] {
  const mask = (0xffffffff << (32 - prefix)) >>> 0;
  return [24, 16, 8, 0].map((shift) => (mask >>> shift) & 0xff);
}
