import { X509Certificate } from "node:crypto";
import { readFile, stat, writeFile } from "node:fs/promises";
import { isIPv4 } from "node:net";
import { hostname } from "node:os";
import { join } from "node:path";
import { connect, type PeerCertificate } from "node:tls";
import { describe, expect, onTestFinished, test } from "vitest";
import { send, sharedShop } from "../../../tests/network-side.ts";
import { temporaryFolder } from "../../../tests/temporary-folder.ts";
import { openShop } from "../../store/open-shop.ts";
import { type Authority, certify, leafDays, openAuthority } from "./authority.ts";
import { namesIn } from "./certificate-names.ts";
import { networkListener } from "./network-listener.ts";
import { type SharingPlace, sharingOf } from "./sharing.ts";

const now = new Date();
const daysFromNow = (count: number) => new Date(now.getTime() + count * 86_400_000);
const pem = (authority: Authority) => authority.certificate.toString("pem");

/** What a client says that trusts this authority alone, asked for that name. */
function trusted(port: number, ca: string, servername?: string): Promise<PeerCertificate | string> {
  return new Promise((resolve) => {
    const socket = connect({ host: "127.0.0.1", port, ca, ...(servername ? { servername } : {}) }, () => {
      resolve(socket.getPeerCertificate());
      socket.destroy();
    });
    socket.on("error", (error: NodeJS.ErrnoException) => resolve(`${error.code} ${error.message}`));
  });
}

async function listening(credentials: { key: string; cert: string }) {
  const listener = await networkListener({
    host: "127.0.0.1",
    port: 0,
    credentials,
    answer: (_request, response) => response.end("here"),
  });
  onTestFinished(() => listener.close());
  return listener;
}

describe("the shop's own authority", () => {
  test("is made once and opened again", async () => {
    const dir = await temporaryFolder();
    expect(pem(await openAuthority(dir, now))).toBe(pem(await openAuthority(dir, now)));
  });

  test("is made anew when it has ended", async () => {
    const dir = await temporaryFolder();
    const first = pem(await openAuthority(dir, now));
    const later = new Date(now.getTime() + 11 * 366 * 86_400_000);
    expect(pem(await openAuthority(dir, later))).not.toBe(first);
  });

  test.skipIf(process.platform === "win32")("its key can be read by the shop's user alone", async () => {
    const dir = await temporaryFolder();
    await openAuthority(dir, now);
    expect((await stat(join(dir, "network", "authority-key.pem"))).mode & 0o777).toBe(0o600);
    expect((await stat(join(dir, "network"))).mode & 0o777).toBe(0o700);
  });

  test("what it gives a machine holds no longer than phones accept, and names what it was asked for", async () => {
    const authority = await openAuthority(await temporaryFolder(), now);
    const { cert } = await certify(authority, { names: ["shed.local"], addresses: ["192.168.1.7", "10.0.0.2"] }, now);
    const leaf = new X509Certificate(cert);
    const days = (new Date(leaf.validTo).getTime() - new Date(leaf.validFrom).getTime()) / 86_400_000;
    expect(days).toBeLessThanOrEqual(leafDays);
    expect(new Date(leaf.validFrom) < now).toBe(true);
    expect(namesIn(cert)).toEqual(["shed.local", "192.168.1.7", "10.0.0.2"]);
    expect(leaf.ca).toBe(false);
    expect(leaf.verify(new X509Certificate(pem(authority)).publicKey)).toBe(true);
  });

  test("a client that trusts it trusts the shop, one that does not does not", async () => {
    const authority = await openAuthority(await temporaryFolder(), now);
    const other = await openAuthority(await temporaryFolder(), now);
    const { port } = await listening(await certify(authority, { names: ["localhost"], addresses: ["127.0.0.1"] }, now));
    expect(await trusted(port, pem(authority))).toMatchObject({ subject: { CN: "localhost" } });
    expect(await trusted(port, pem(authority), "localhost")).toMatchObject({ subject: { CN: "localhost" } });
    expect(await trusted(port, pem(other))).toMatch(/SELF_SIGNED|UNABLE_TO|SIGNATURE/);
  });

  test.each(["bank.example", "local.example"])("it cannot vouch for %s, even by who has its key", async (name) => {
    const authority = await openAuthority(await temporaryFolder(), now);
    const { port } = await listening(await certify(authority, { names: [name], addresses: [] }, now));
    expect(await trusted(port, pem(authority), name)).toMatch(/permitted subtree violation/);
  });

  test("nor for an address of the wider network", async () => {
    const authority = await openAuthority(await temporaryFolder(), now);
    const { port } = await listening(
      await certify(authority, { names: [], addresses: ["127.0.0.1", "203.0.113.5"] }, now),
    );
    expect(await trusted(port, pem(authority))).toMatch(/permitted subtree violation/);
  });

  test("a renewed certificate is shown from the next connection on", async () => {
    const authority = await openAuthority(await temporaryFolder(), now);
    const reached = { names: ["localhost"], addresses: ["127.0.0.1"] };
    const listener = await listening(await certify(authority, reached, now));
    const first = await trusted(listener.port, pem(authority));
    listener.renew(await certify(authority, reached, now));
    const second = await trusted(listener.port, pem(authority));
    expect((second as PeerCertificate).fingerprint256).toMatch(/^[0-9A-F:]{95}$/);
    expect((second as PeerCertificate).fingerprint256).not.toBe((first as PeerCertificate).fingerprint256);
  });
});

describe("the certificate that is shown", () => {
  async function sharedUntil() {
    let clock = now;
    let addresses = ["127.0.0.1"];
    const { sharing, store, close } = await sharingAlone({ addressesAt: () => addresses }, () => clock);
    onTestFinished(close);
    const ca = await readFile(join(store.dir, "network", "authority.pem"), "utf8");
    const port = Number(new URL(sharing.state().addresses[0]!).port);
    const shown = () => trusted(port, ca);
    const fits = async () => (await shown()) as PeerCertificate;
    return {
      sharing,
      shown,
      fits,
      later: (days: number) => (clock = daysFromNow(days)),
      move: (to: string[]) => (addresses = to),
    };
  }
  test("is renewed when the machine's address changes, and names the new one", async () => {
    const { sharing, fits, move } = await sharedUntil();
    expect((await fits()).subjectaltname).not.toMatch(/10\.0\.0\.9/);
    move(["127.0.0.1", "10.0.0.9"]);
    await sharing.look();
    expect((await fits()).subjectaltname).toMatch(/IP Address:127\.0\.0\.1, IP Address:10\.0\.0\.9/);
    expect(sharing.names()).toContain("10.0.0.9");
  });

  test("is renewed a month before its end, and left alone until then", async () => {
    const { sharing, shown, fits, later } = await sharedUntil();
    const first = await fits();
    later(leafDays - 40);
    await sharing.look();
    expect((await fits()).fingerprint256).toBe(first.fingerprint256);
    later(leafDays - 20);
    await sharing.look();
    // A client by the real clock meets one that begins only then.
    expect(await shown()).toMatch(/CERT_NOT_YET_VALID/);
  });
});

describe("an encrypted shop", () => {
  test("answers in full over TLS, and in plain text only how to trust it", async () => {
    const { address, pair } = await sharedShop({ way: "encrypted" });
    const { cookie } = await pair("viewer");
    expect(address().protocol).toBe("https:");
    const plain = (path: string) => new URL(path, address().href.replace("https:", "http:"));
    const headers = { cookie: cookie.replace("__Host-", "") };
    expect((await send(plain("/api/shop"), { headers })).status).toBe(403);
    expect((await send(plain("/c/12"), { headers })).headers.location).toBe(new URL("/c/12", address()).href);
    expect((await send(plain("/api/pairing"), { method: "POST", body: { code: "A", name: "b" } })).status).toBe(403);
    const { status, headers: given, text } = await send(plain("/coatwright-authority.crt"));
    expect({ status, type: given["content-type"] }).toEqual({ status: 200, type: "application/x-x509-ca-cert" });
    expect(text).not.toMatch(/PRIVATE/);
  });

  test("takes no token that ever went in plain text", async () => {
    const { server, address, here, there, pair } = await sharedShop({ way: "encrypted" });
    const sensor = async () =>
      JSON.parse((await here("/api/devices", { method: "POST", body: { name: "sensor", site: "shed" } })).text).token;
    const asked = (token: string) => ({ headers: { authorization: `Bearer ${token}` } });
    const token = await sensor();
    expect((await there("/api/me", asked(token))).status).toBe(200);
    const plain = new URL("/api/me", address().href.replace("https:", "http:"));
    expect((await send(plain, asked(token))).status).toBe(403);
    expect((await there("/api/me", asked(token))).status).toBe(401);
    // A phone that was let in plain, with its token under the name that an encrypted shop reads.
    await server.sharing.choose({ on: true, way: "plain" });
    const phone = await pair("owner");
    expect((await phone.as("/api/me")).status).toBe(200);
    await server.sharing.choose({ on: true, way: "encrypted" });
    const headers = { cookie: `__Host-coatwright=${phone.token}` };
    expect((await there("/api/me", { headers })).status).toBe(401);
  });

  test("says whose certificate it shows, and where a phone gets it", async () => {
    const { server, shopDir } = await sharedShop({ way: "encrypted" });
    const { certificate, trustAddresses, addresses } = server.sharing.state();
    const kept = new X509Certificate(await readFile(join(shopDir, "network", "authority.pem")));
    expect(certificate).toMatchObject({ from: "this shop", sha256: kept.fingerprint256 });
    expect(trustAddresses[0]).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/trust$/);
    expect(addresses[0]).toMatch(/^https:\/\/127\.0\.0\.1:\d+\/$/);
  });

  test("takes the user's own certificate instead, and then has no authority to trust", async () => {
    const folder = await temporaryFolder();
    const authority = await openAuthority(folder, now);
    const own = await certify(authority, { names: ["shed.local"], addresses: ["127.0.0.1"] }, now);
    const certificateFiles = { certFile: join(folder, "own.crt"), keyFile: join(folder, "own.key") };
    await writeFile(certificateFiles.certFile, own.cert);
    await writeFile(certificateFiles.keyFile, own.key);
    const { server, there } = await sharedShop({ way: "encrypted", certificateFiles });
    expect(server.sharing.state()).toMatchObject({
      certificate: { from: "a file", sha256: new X509Certificate(own.cert).fingerprint256 },
      trustAddresses: [],
    });
    expect((await there("/coatwright-authority.crt")).status).toBe(404);
  });

  test("with a wildcard answers to each name under it, and to no other", async () => {
    const { certificateFiles } = await ownFiles(["*.shed.example"]);
    const { server, address, there } = await sharedShop({ way: "encrypted", certificateFiles });
    const [label] = hostname().toLowerCase().split(".");
    expect(server.sharing.state().addresses[0]).toBe(`https://${label}.shed.example:${address().port}/`);
    const asked = async (host: string) => (await there("/api/shop", { headers: { host } })).status;
    expect(await asked("bench.shed.example")).toBe(401);
    expect(await asked(`BENCH.shed.example:${address().port}`)).toBe(401);
    for (const other of ["shed.example", "a.bench.shed.example", "*.shed.example", "bench.shed.example.evil.example"])
      expect(await asked(other)).toBe(403);
  });

  test.each([
    ["no certificate at all", () => refusedFiles({ cert: "mine", key: "mine too" }), /no certificate and its key/],
    ["another's key", async () => refusedFiles({ key: (await ownFiles(["a.example"])).key }), /is not the key of/],
    ["one that has ended", () => refusedFiles({ names: ["a.example"], at: daysFromNow(-500) }), /ended on \d{4}-/],
    [
      "one that has not begun",
      () => refusedFiles({ names: ["a.example"], at: daysFromNow(9) }),
      /good only from \d{4}-/,
    ],
    ["one that names nothing", () => refusedFiles({ names: [] }), /names no machine/],
    ["one that is for a whole top level", () => refusedFiles({ names: ["*.example"] }), /names no machine/],
    ["a file that is not there", () => refusedFiles({ certFile: "nowhere.crt" }), /nowhere\.crt cannot be read/],
  ])("with %s is not shared, and says why", async (_what, failure, words) => expect(await failure()).toMatch(words));

  test("whose own certificate ends while it is shown says so, and takes a renewed one up", async () => {
    const { certificateFiles, renew } = await ownFiles(["shed.example", "127.0.0.1"]);
    let clock = now;
    const { sharing, close } = await sharingAlone({ certificateFiles }, () => clock);
    onTestFinished(close);
    expect(sharing.state().failure).toBeNull();
    clock = daysFromNow(leafDays);
    await sharing.look();
    expect(sharing.state()).toMatchObject({ on: true, failure: expect.stringMatching(/^The certificate ended on/) });
    await renew(clock);
    clock = new Date(clock.getTime() + 2 * 3_600_000);
    await sharing.look();
    expect(sharing.state().failure).toBeNull();
  });
});

async function sharingAlone(place: Partial<SharingPlace>, clock: () => Date) {
  const store = await openShop(await temporaryFolder());
  const sharing = sharingOf({ store, now: clock, changed: () => {} }, { host: "127.0.0.1", port: 0, ...place });
  await sharing.choose({ on: true, way: "encrypted" });
  const close = async () => {
    await sharing.close();
    await store.close();
  };
  return { sharing, store, close };
}

/** A certificate as a user may have one of elsewhere, in files. */
async function ownFiles(names: string[], at = now) {
  const folder = await temporaryFolder();
  const authority = await openAuthority(folder, now);
  const certificateFiles = { certFile: join(folder, "own.crt"), keyFile: join(folder, "own.key") };
  const reached = { names: names.filter((one) => !isIPv4(one)), addresses: names.filter((one) => isIPv4(one)) };
  const renew = async (when: Date) => {
    const { cert, key } = await certify(authority, reached, when);
    await writeFile(certificateFiles.certFile, cert);
    await writeFile(certificateFiles.keyFile, key);
    return key;
  };
  return { certificateFiles, renew, key: await renew(at) };
}

/** Why a shop with these files is not shared. */
async function refusedFiles({
  names = ["a.example"],
  at = now,
  cert,
  key,
  certFile,
}: { names?: string[]; at?: Date } & Record<string, unknown>) {
  const { certificateFiles: files } = await ownFiles(names, at);
  if (cert) await writeFile(files.certFile, String(cert));
  if (key) await writeFile(files.keyFile, String(key));
  const certificateFiles = { ...files, ...(certFile ? { certFile: String(certFile) } : {}) };
  const { sharing, close } = await sharingAlone({ certificateFiles }, () => now);
  onTestFinished(close);
  expect(sharing.state().on).toBe(false);
  return sharing.state().failure;
}
