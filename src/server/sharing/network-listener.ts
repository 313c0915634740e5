/**
 * The door to the local network: one port, on which an encrypted shop answers TLS in full and plain http only as a
 * doorstep, where a phone learns whom to trust. What comes in here is marked; what is not marked came from this machine.
 */
import { createServer as createPlainServer, type IncomingMessage, type ServerResponse } from "node:http";
import { createServer as createTlsServer } from "node:https";
import { type AddressInfo, createServer, type Socket } from "node:net";
import { isLocalAddress } from "./own-addresses.ts";

/** How a request came in over the network. `doorstep`: in plain text although the shop is shared encrypted. */
export type Arrival = {
  encrypted: boolean;
  doorstep: boolean;
  /** Whether who asks is let in: a stranger has little time to say what it wants, and is the first to make room. */
  fromDevice(isLetIn: boolean): void;
};

const arrivals = new WeakMap<IncomingMessage, Arrival>();

/** Null: from this machine, over loopback. */
export const networkArrival = (request: IncomingMessage): Arrival | null => arrivals.get(request) ?? null;

export type Credentials = { key: string; cert: string };

export type NetworkListener = {
  port: number;
  /** Shows another certificate from the next connection on. */
  renew(credentials: Credentials): void;
  close(): Promise<void>;
};

/** How long whom is waited for, ms. */
const patience = {
  /** A first byte, and a TLS handshake. */
  firstByteMs: 10_000,
  headersMs: 10_000,
  /** The whole request of somebody who is not let in: a code and a name. */
  strangerMs: 10_000,
  /** The whole request of a device: a photograph over a bad network in a yard. */
  requestMs: 600_000,
  /** Nothing goes either way: a pair of photographs is read for two minutes at most, and then the answer is fetched. */
  silenceMs: 180_000,
  checkEveryMs: 5_000,
};
export type Patience = typeof patience;

type Listening = {
  host: string;
  port: number;
  credentials: Credentials | null;
  answer: (request: IncomingMessage, response: ServerResponse) => void;
  /** Other times than the usual ones. */
  patience?: Partial<Patience> | undefined;
};

/** A browser opens six connections to a place; a few devices may share an address. */
export const connectionsOfOneAddress = 64;
const connectionsInAll = 512;

export async function networkListener({
  host,
  port,
  credentials,
  answer,
  ...more
}: Listening): Promise<NetworkListener> {
  const times: Patience = { ...patience, ...more.patience };
  const limits = {
    maxHeaderSize: 16_384,
    headersTimeout: times.headersMs,
    requestTimeout: times.requestMs,
    keepAliveTimeout: 15_000,
    connectionsCheckingInterval: times.checkEveryMs,
  };
  const sockets = openSockets();
  const marked =
    (way: Pick<Arrival, "encrypted" | "doorstep">) => (request: IncomingMessage, response: ServerResponse) => {
      const place = sockets.placeOf(request.socket);
      const fromDevice = (isLetIn: boolean) => {
        if (place) place.isLetIn = isLetIn;
      };
      const late = setTimeout(() => {
        if (!place?.isLetIn && !request.complete) request.socket.destroy();
      }, times.strangerMs).unref();
      request.once("close", () => clearTimeout(late));
      arrivals.set(request, { ...way, fromDevice });
      answer(request, response);
    };
  const plain = createPlainServer(limits, marked({ encrypted: false, doorstep: credentials !== null }));
  const tls =
    credentials &&
    createTlsServer(
      { ...limits, ...credentials, minVersion: "TLSv1.2", handshakeTimeout: times.firstByteMs },
      marked({ encrypted: true, doorstep: false }),
    );
  const inner = tls ? [plain, tls] : [plain];
  for (const server of inner) {
    // Who asks and never reads the answer.
    server.timeout = times.silenceMs;
    // They never listen themselves; this is what starts their watch over slow headers.
    server.emit("listening");
  }
  const front = createServer((socket) => {
    if (!sockets.admit(socket)) return socket.destroy();
    handOver(socket, times, (first) => (first === tlsHandshake ? tls : plain));
  });
  await new Promise<void>((resolve, reject) => {
    front.once("error", reject);
    front.listen({ host, port }, resolve);
  }).catch((error: unknown) => {
    for (const server of inner) server.close();
    throw error;
  });
  return {
    port: (front.address() as AddressInfo).port,
    renew: (next) => tls?.setSecureContext({ ...next, minVersion: "TLSv1.2" }),
    async close() {
      const closed = new Promise((resolve) => front.close(resolve));
      for (const server of inner) server.close();
      sockets.destroyAll();
      await closed;
    },
  };
}

/** The first byte of a TLS record that begins a connection (RFC 8446, 5.1); no HTTP request begins with it. */
const tlsHandshake = 22;

type Inner = { emit(event: "connection", socket: Socket): boolean };

/** Looks at the first byte, puts it back, and gives the connection to who speaks that. */
function handOver(
  socket: Socket,
  { firstByteMs }: Patience,
  speaker: (first: number | undefined) => Inner | null,
): void {
  const dropped = () => socket.destroy();
  socket.on("error", dropped);
  socket.setTimeout(firstByteMs, dropped);
  socket.once("readable", () => {
    const first: Buffer | null = socket.read(1);
    const inner = first && speaker(first[0]);
    if (!inner) return socket.destroy();
    socket.setTimeout(0);
    socket.off("timeout", dropped);
    socket.unshift(first);
    inner.emit("connection", socket);
  });
}

type Place = { socket: Socket; address: string; isLetIn: boolean };

/** Keeps count, so that one address cannot hold every place, nor several strangers those of devices; and all can be ended at once. */
function openSockets() {
  const open = new Map<string, Place>();
  return {
    admit(socket: Socket): boolean {
      const address = socket.remoteAddress;
      if (address === undefined || !isLocalAddress(address)) return false;
      const others = [...open.values()].filter((one) => one.address === address).length;
      if (others >= connectionsOfOneAddress) return false;
      if (open.size >= connectionsInAll && !makeRoom(open)) return false;
      const key = keyOf(socket);
      open.set(key, { socket, address, isLetIn: false });
      socket.once("close", () => open.delete(key));
      return true;
    },
    /** Also of a TLS socket, which has its address and port from the one below it. */
    placeOf: (socket: Socket) => open.get(keyOf(socket)),
    destroyAll() {
      for (const { socket } of open.values()) socket.destroy();
    },
  };
}

const keyOf = ({ remoteAddress, remotePort }: Socket) => `${remoteAddress} ${remotePort}`;

/** Ends the oldest connection of the address that has most strangers. False: only devices are here. */
function makeRoom(open: Map<string, Place>): boolean {
  const strangers = [...open].filter(([, { isLetIn }]) => !isLetIn);
  const ofAddress = new Map<string, number>();
  for (const [, { address }] of strangers) ofAddress.set(address, (ofAddress.get(address) ?? 0) + 1);
  const most = Math.max(...ofAddress.values());
  const oldest = strangers.find(([, { address }]) => ofAddress.get(address) === most);
  if (!oldest) return false;
  const [key, { socket }] = oldest;
  open.delete(key);
  socket.destroy();
  return true;
}
