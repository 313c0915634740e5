/** The names and addresses that a certificate is for (RFC 9525), with "*" for one whole label at the left. */
import { X509Certificate } from "node:crypto";
import { isIPv4 } from "node:net";
import { hostname } from "node:os";

/** As written in it, in small letters. A wildcard over a whole top level, or over part of a label, counts for nothing. */
export function namesIn(cert: string): string[] {
  const alternatives = new X509Certificate(cert).subjectAltName ?? "";
  const names = [...alternatives.matchAll(/DNS:([\w.*-]+)/g)].map(([, name]) => name!.toLowerCase());
  const addresses = [...alternatives.matchAll(/IP Address:([\d.]+)(?=,|$)/g)].map(([, address]) => address!);
  return [...names.filter((name) => isWildcard(name) || !name.includes("*")), ...addresses.filter(isIPv4)];
}

/** "*.shed.example", but not "*.example" and not "a*.shed.example". */
const isWildcard = (name: string) => /^\*(\.[a-z0-9_-]+){2,}$/.test(name);

/** A wildcard stands for exactly one label, and never for an address. */
export function isAmong(names: readonly string[], host: string): boolean {
  if (names.includes(host)) return !host.includes("*");
  if (isIPv4(host)) return false;
  const [label, ...rest] = host.split(".");
  return /^[a-z0-9_-]+$/.test(label ?? "") && names.includes(`*.${rest.join(".")}`);
}

/** Where a machine of that name is reached: under a wildcard, most likely by its own name there. */
export function nameToShow(name: string, machine = hostname()): string | null {
  if (!isWildcard(name)) return name;
  const label = machine.toLowerCase().split(".")[0]!;
  return /^[a-z0-9-]+$/.test(label) ? name.replace("*", label) : null;
}
