/** Sharing the shop on the local network: on or off, with which certificate, at which addresses, and who is let in. */
import { randomUUID, X509Certificate } from "node:crypto";
import type { IncomingMessage, ServerResponse } from "node:http";
import type { Device, SharingChoice, SharingState, SharingWay } from "../../api/sharing.ts";
import type { ShopStore } from "../../store/open-shop.ts";
import { type CertificateFiles, readCertificateFiles, whyRefused } from "./certificate-files.ts";
import { namesIn, nameToShow } from "./certificate-names.ts";
import { newToken, tokenSha256 } from "./device-token.ts";
import { knownAddress } from "./known-address.ts";
import { type Credentials, type NetworkListener, networkListener, type Patience } from "./network-listener.ts";
import { type OpenAnswers, openAnswers } from "./open-answers.ts";
import { addressesAt, localName } from "./own-addresses.ts";
import { type PairingDesk, pairingDesk } from "./pairing-desk.ts";

export type SharingPlace = {
  /** All of this machine's addresses, unless told otherwise. */
  host?: string;
  /** 0: any free one. */
  port: number;
  /** Instead of the shop's own authority. */
  certificateFiles?: CertificateFiles | null;
  /** The addresses found there, if they are not to be asked of the system. */
  addressesAt?: (host: string) => string[];
  /** How long it waits for whom, if not as long as usual. */
  patience?: Partial<Patience>;
};

type LetIn = { name: string; role: Device["role"]; site: string | null };

export type Sharing = {
  state(): SharingState;
  /** Says who answers what comes in, before anything may. */
  answerWith(answer: (request: IncomingMessage, response: ServerResponse) => void): void;
  /** Kept for the next start unless told otherwise. Where it cannot be, the state says why. */
  choose(choice: SharingChoice, options?: { keep: boolean }): Promise<SharingState>;
  /** Devices were told where the machine is reached now. */
  knowAddress(): Promise<SharingState>;
  /** Host names under which the network may ask. */
  names(): string[];
  pairing: PairingDesk;
  pairAddresses(): string[];
  deviceByToken(tokenSha256: string): Promise<Device | null>;
  hasDevices(): Promise<boolean>;
  letIn(device: LetIn): Promise<{ device: Device; token: string }>;
  /** At once, with all that it has open but the answer that tells of it. */
  revoke(id: string, but?: ServerResponse): Promise<Device | null>;
  open: OpenAnswers;
  /** The authority's certificate for phones to trust, DER; null where there is none. */
  authorityDer(): Uint8Array | null;
  /** Takes up another address, and renews a certificate that no longer fits or soon ends. Happens by itself, again and again. */
  look(): Promise<void>;
  close(): Promise<void>;
};

type Served = { store: ShopStore; now: () => Date; changed: () => void };

/** How often the addresses and the certificate's end are looked at. */
const lookEveryMs = 10_000;
/** How often files are read again that another program renews. */
const filesEveryMs = 3_600_000;
/** A certificate is renewed when it has less than this left. */
const renewBeforeMs = 30 * 86_400_000;
/** Often enough for "seen today"; not a write with each request. */
const seenEveryMs = 60_000;

export function sharingOf({ store, now, changed }: Served, place: SharingPlace): Sharing {
  const host = place.host ?? "0.0.0.0";
  const addressesNow = () => (place.addressesAt ?? addressesAt)(host);
  const pairing = pairingDesk(now);
  const open = openAnswers();
  const hasDevices = async () => (await store.devices.all()).length > 0;
  const known = knownAddress(store.settings, hasDevices, now);
  const seen = new Map<string, number>();
  let answer: Parameters<Sharing["answerWith"]>[0] = (_request, response) => response.destroy();
  let shared: Shared | null = null;
  let [way, failure]: [SharingWay, string | null] = ["encrypted", null];
  // One change at a time: a switch pressed twice must not open two doors.
  let turn: Promise<unknown> = Promise.resolve();

  const start = async () => {
    const addresses = addressesNow();
    const credentials = way === "encrypted" ? await findCredentials(store.dir, place, addresses, now()) : null;
    const tls = credentials?.tls ?? null;
    const listener = await networkListener({
      host,
      port: place.port,
      credentials: tls,
      answer,
      patience: place.patience,
    });
    await known.look(addresses);
    shared = { listener, credentials, addresses, timer: setInterval(() => void look(), lookEveryMs) };
    shared.timer.unref();
  };
  const stop = async () => {
    const ended = shared;
    shared = null;
    pairing.close();
    if (!ended) return;
    clearInterval(ended.timer);
    await ended.listener.close();
  };
  const look = async () => {
    if (!shared) return;
    const addresses = addressesNow();
    const moved = addresses.join() !== shared.addresses.join();
    const { credentials } = shared;
    shared.addresses = addresses;
    if (credentials && (moved || isDue(credentials, place, now()))) {
      // What stands goes on where nothing better can be had: a file just being written, a full disk.
      shared.credentials = await findCredentials(store.dir, place, addresses, now()).catch(() => credentials);
      shared.listener.renew(shared.credentials.tls);
    }
    if (!moved) return;
    await known.look(addresses);
    changed();
  };
  const state = (): SharingState => ({
    on: shared !== null,
    way,
    addresses: shared ? urlsOf(shared) : [],
    trustAddresses: shared?.credentials?.authorityDer ? urlsOf(shared).map(trustAddress) : [],
    certificate: shared?.credentials ? shownOf(shared.credentials) : null,
    movedFrom: shared && ownNames(shared) === null ? known.movedFrom(shared.addresses) : null,
    pairing: pairing.standing(),
    failure: shared ? failureOf(shared, now()) : failure,
  });
  const choose: Sharing["choose"] = (choice, { keep } = { keep: true }) => {
    const done = turn.then(async () => {
      if (choice.on !== (shared !== null) || choice.way !== way) await stop();
      way = choice.way;
      failure = null;
      if (choice.on && !shared)
        await start().catch((error: unknown) => {
          failure = wordsOf(error, place.port);
        });
      if (keep) await store.settings.share(choice, now().toISOString());
      changed();
      return state();
    });
    turn = done.catch(() => {});
    return done;
  };
  return {
    state,
    answerWith(who) {
      answer = who;
    },
    choose,
    async knowAddress() {
      const [first] = shared?.addresses ?? [];
      if (first !== undefined) await known.learn(first);
      changed();
      return state();
    },
    names: () => (shared ? namesOf(shared) : []),
    pairing,
    pairAddresses: () => (shared ? urlsOf(shared).map((one) => `${one}pair`) : []),
    async deviceByToken(sha256) {
      const found = await store.devices.byToken(sha256);
      const at = now().getTime();
      if (found && at - (seen.get(found.id) ?? 0) >= seenEveryMs) {
        seen.set(found.id, at);
        await store.devices.seen(found.id, now().toISOString());
      }
      return found;
    },
    hasDevices,
    async letIn(device) {
      const token = newToken();
      const made = { ...device, way, id: randomUUID(), tokenSha256: tokenSha256(token) };
      const kept = await store.devices.add(made, now().toISOString());
      changed();
      return { device: kept, token };
    },
    async revoke(id, but) {
      const gone = await store.devices.revoke(id, now().toISOString());
      open.end(id, but);
      seen.delete(id);
      if (gone) changed();
      return gone;
    },
    open,
    look,
    authorityDer: () => shared?.credentials?.authorityDer ?? null,
    async close() {
      await turn;
      await stop();
    },
  };
}

type Found = { tls: Credentials; authorityDer: Uint8Array | null; foundAt: Date };
type Shared = {
  listener: NetworkListener;
  credentials: Found | null;
  addresses: string[];
  timer: ReturnType<typeof setInterval>;
};

async function findCredentials(
  shopDir: string,
  { certificateFiles }: SharingPlace,
  addresses: readonly string[],
  now: Date,
): Promise<Found> {
  if (certificateFiles)
    return { tls: await readCertificateFiles(certificateFiles, now), authorityDer: null, foundAt: now };
  // Only a shop that is shared needs it: it takes a while to load.
  const { openAuthority, certify } = await import("./authority.ts");
  const authority = await openAuthority(shopDir, now);
  const name = localName();
  const tls = await certify(authority, { names: name === null ? [] : [name], addresses }, now);
  return { tls, authorityDer: new Uint8Array(authority.certificate.rawData), foundAt: now };
}

function isDue({ tls, foundAt }: Found, { certificateFiles }: SharingPlace, now: Date): boolean {
  if (certificateFiles) return now.getTime() - foundAt.getTime() > filesEveryMs;
  return new Date(new X509Certificate(tls.cert).validTo).getTime() - now.getTime() < renewBeforeMs;
}

function shownOf({ tls, authorityDer }: Found): NonNullable<SharingState["certificate"]> {
  const shown = new X509Certificate(authorityDer ?? tls.cert);
  return {
    from: authorityDer ? "this shop" : "a file",
    sha256: shown.fingerprint256,
    validUntil: new Date(shown.validTo).toISOString(),
  };
}

const noAddress =
  "This machine has no address of a local network just now (as 192.168.1.7); it is looked for again every ten seconds.";

/** Files are read again when they may have been renewed; if nobody did, what is shown ends one day. */
function failureOf({ addresses, credentials }: Shared, now: Date): string | null {
  if (addresses.length === 0) return noAddress;
  const why = credentials?.authorityDer === null ? whyRefused(new X509Certificate(credentials.tls.cert), now) : null;
  return why === null ? null : `The certificate ${why}`;
}

const trustAddress = (url: string) => `${url.replace(/^https/, "http")}trust`;

/** A certificate of the user's own is for what it names; the shop's own authority vouches for every address. */
function urlsOf(shared: Shared): string[] {
  const own = ownNames(shared);
  const hosts = own === null ? hostsOf(shared) : own.flatMap((name) => nameToShow(name) ?? []);
  return [...new Set(hosts)].map((one) => `${shared.credentials ? "https" : "http"}://${one}:${shared.listener.port}/`);
}

const ownNames = ({ credentials }: Shared): string[] | null =>
  credentials && !credentials.authorityDer ? namesIn(credentials.tls.cert) : null;

function hostsOf({ addresses }: Shared): string[] {
  const name = localName();
  return name === null ? addresses : [...addresses, name];
}

/** Whoever goes on past a browser's warning reaches the shop by its address as well. */
const namesOf = (shared: Shared): string[] => [...new Set([...(ownNames(shared) ?? []), ...hostsOf(shared)])];

function wordsOf(error: unknown, port: number): string {
  if (error instanceof Error && "code" in error && error.code === "EADDRINUSE")
    return `Port ${port} is taken by another program. Start with --share-port and another number.`;
  return error instanceof Error ? error.message : String(error);
}
