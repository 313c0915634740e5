/**
 * Addresses of pictures on this device. Each keeps its whole file within reach until it is let go; so only what is shown
 * stays, and the few newest, which are about to be.
 */

/** Both of a tape test and one more. */
const newest = 3;

type Shelf = { address: (file: Blob) => string; letGo: (address: string) => void };

export function pictureShelf({ address, letGo }: Shelf) {
  const addresses = new Map<string, string>();
  const holders = new Map<string, number>();
  const tidy = () => {
    const idle = [...addresses].filter(([hash]) => !holders.has(hash));
    for (const [hash, old] of idle.slice(0, Math.max(0, idle.length - newest))) {
      addresses.delete(hash);
      letGo(old);
    }
  };
  const count = (hash: string, more: 1 | -1) => {
    const now = (holders.get(hash) ?? 0) + more;
    if (now > 0) holders.set(hash, now);
    else holders.delete(hash);
    tidy();
  };
  return {
    put(hash: string, file: Blob) {
      if (!addresses.has(hash)) addresses.set(hash, address(file));
      tidy();
    },
    addressOf: (hash: string): string | undefined => addresses.get(hash),
    /** It is shown until the returned function is called. */
    hold(hash: string): () => void {
      count(hash, 1);
      return () => count(hash, -1);
    },
  };
}
