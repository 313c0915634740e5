/** Under which addresses and names this machine is reached on its local network. */
import { BlockList, isIPv4 } from "node:net";
import { hostname, networkInterfaces } from "node:os";

/** RFC 1918, RFC 3927 (link-local), RFC 6598 (shared space, also of private overlays), and this machine itself. */
export const localRanges = [
  { address: "10.0.0.0", prefix: 8 },
  { address: "172.16.0.0", prefix: 12 },
  { address: "192.168.0.0", prefix: 16 },
  { address: "169.254.0.0", prefix: 16 },
  { address: "100.64.0.0", prefix: 10 },
  { address: "127.0.0.0", prefix: 8 },
] as const;

const local = new BlockList();
for (const { address, prefix } of localRanges) local.addSubnet(address, prefix);

/** A router that hands the wider network through leaves the caller's own address standing: such a one is not let near. */
export function isLocalAddress(address: string): boolean {
  const plain = address.replace(/^::ffff:/, "");
  return isIPv4(plain) && local.check(plain);
}

/** Everywhere. */
const anyAddress = "0.0.0.0";

/** The addresses by which others reach what listens there; home networks' usual ones first, link-local ones last. */
export function addressesAt(host: string): string[] {
  if (host !== anyAddress) return [host];
  return Object.values(networkInterfaces())
    .flatMap((all) => all ?? [])
    .filter(({ family, internal, address }) => family === "IPv4" && !internal && isLocalAddress(address))
    .map(({ address }) => address)
    .sort((one, other) => rank(one) - rank(other) || one.localeCompare(other, "en", { numeric: true }));
}

/** Bridges of containers and virtual machines usually sit in 172.16/12. */
const usual = [/^192\.168\./, /^10\./, /^172\./, /^100\./];
function rank(address: string): number {
  const at = usual.findIndex((one) => one.test(address));
  return at < 0 ? usual.length : at;
}

/** The name that machines of a local network find each other by (RFC 6762), where it is one. */
export function localName(name = hostname()): string | null {
  const plain = name.toLowerCase().replace(/\.local$/, "");
  return /^[a-z0-9-]{1,63}$/.test(plain) ? `${plain}.local` : null;
}
