/**
 * The door to the local network: one port, on which an encrypted shop answers TLS in full and plain http only as a
 * doorstep, where a phone learns whom to trust. What comes in here is marked; what is not marked came from this machine.
 */
import { createServer as createPlainServer, type IncomingMessage, type ServerResponse } from "node:http";
import { createServer as createTlsServer } from "node:https";
import { type AddressInfo, createServer, type Socket } from "node:net";
import { isLocalAddress } from "./own-addresses.ts";

/** How a request came in over the network. `doorstep`: in plain text although the shop is shared encrypted. */
export type Arrival = { encrypted: boolean; doorstep: boolean };

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

type Listening = {
  host: string;
  port: number;
  credentials: Credentials | null;
  answer: (request: IncomingMessage, response: ServerResponse) => void;
};

/** A browser opens six connections to a place; a few devices may share an address. */
export const connectionsOfOneAddress = 64;
const connectionsInAll = 512;
const firstByteMs = 10_000;
const limits = {
  maxHeaderSize: 16_384,
  headersTimeout: 10_000,
  // A photograph over a bad network in a yard.
  requestTimeout: 600_000,
  keepAliveTimeout: 15_000,
  connectionsCheckingInterval: 5_000,
};

export async function networkListener({ host, port, credentials, answer }: Listening): Promise<NetworkListener> {
  const marked = (arrival: Arrival) => (request: IncomingMessage, response: ServerResponse) => {
    arrivals.set(request, arrival);
    answer(request, response);
  };
  const plain = createPlainServer(limits, marked({ encrypted: false, doorstep: credentials !== null }));
  const tls =
    credentials &&
    createTlsServer(
      { ...limits, ...credentials, minVersion: "TLSv1.2", handshakeTimeout: firstByteMs },
      marked({ encrypted: true, doorstep: false }),
    );
  const inner = tls ? [plain, tls] : [plain];
  // They never listen themselves; this is what starts their watch over slow headers.
  for (const server of inner) server.emit("listening");
  const sockets = openSockets();
  const front = createServer((socket) => {
    if (!sockets.admit(socket)) return socket.destroy();
    handOver(socket, (first) => (first === tlsHandshake ? tls : plain));
  });
  front.maxConnections = connectionsInAll;
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
function handOver(socket: Socket, speaker: (first: number | undefined) => Inner | null): void {
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

/** Keeps count, so that one address cannot hold every place, and all can be ended at once. */
function openSockets() {
  const open = new Map<Socket, string>();
  return {
    admit(socket: Socket): boolean {
      const from = socket.remoteAddress;
      if (from === undefined || !isLocalAddress(from)) return false;
      const others = [...open.values()].filter((address) => address === from).length;
      if (others >= connectionsOfOneAddress) return false;
      open.set(socket, from);
      socket.once("close", () => open.delete(socket));
      return true;
    },
    destroyAll() {
      for (const socket of open.keys()) socket.destroy();
    },
  };
}
