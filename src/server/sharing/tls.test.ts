import { X509Certificate } from "node:crypto";
import { readFile, stat, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { connect, type PeerCertificate } from "node:tls";
import { describe, expect, onTestFinished, test } from "vitest";
import { send, sharedShop } from "../../../tests/network-side.ts";
import { temporaryFolder } from "../../../tests/temporary-folder.ts";
import { openShop } from "../../store/open-shop.ts";
import { startServer } from "../start-server.ts";
import { type Authority, certify, leafDays, openAuthority } from "./authority.ts";
import { namesIn } from "./certificate-files.ts";
import { networkListener } from "./network-listener.ts";
import { sharingOf } from "./sharing.ts";

const now = new Date();
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
    const store = await openShop(await temporaryFolder());
    const place = { host: "127.0.0.1", port: 0, addressesAt: () => addresses };
    const sharing = sharingOf({ store, now: () => clock, changed: () => {} }, place);
    onTestFinished(async () => {
      await sharing.close();
      await store.close();
    });
    await sharing.choose({ on: true, way: "encrypted" });
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
  const daysFromNow = (count: number) => new Date(now.getTime() + count * 86_400_000);

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

  test("with files that are no certificate is not shared, and says why", async () => {
    const folder = await temporaryFolder();
    const certificateFiles = { certFile: join(folder, "own.crt"), keyFile: join(folder, "own.key") };
    await writeFile(certificateFiles.certFile, "mine");
    await writeFile(certificateFiles.keyFile, "mine too");
    const server = await startServer({
      shopDir: folder,
      port: 0,
      share: { host: "127.0.0.1", start: "encrypted", certificateFiles },
    });
    onTestFinished(() => server.close());
    expect(server.sharing.state()).toMatchObject({
      on: false,
      failure: expect.stringMatching(/no certificate and its key/),
    });
  });
});
