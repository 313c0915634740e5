/**
 * A small authority of the shop's own, made once, and the certificate that it gives this machine. A phone that trusts it
 * knows the shop again at any address. Its key stays in the shop's folder, readable by its owner alone; backups leave it
 * behind.
 */
import "reflect-metadata";
import { randomBytes, webcrypto, X509Certificate } from "node:crypto";
import { mkdir, readFile, rename, writeFile } from "node:fs/promises";
import { hostname } from "node:os";
import { join } from "node:path";
import * as x509 from "@peculiar/x509";
import { localNamesAlone, nameConstraintsOid } from "./name-constraints.ts";
import type { Credentials } from "./network-listener.ts";

x509.cryptoProvider.set(webcrypto as Crypto);

/** In the shop's folder, beside what a backup copies. */
export const networkFolder = "network";
const dayMs = 86_400_000;
const authorityDays = 3650;
/** Phones refuse a certificate for longer than 398 days, whoever vouches for it. */
export const leafDays = 397;
/** Clocks of phones differ. */
const backdatedDays = 2;

const curve = { name: "ECDSA", namedCurve: "P-256", hash: "SHA-256" };

export type Authority = { certificate: x509.X509Certificate; key: CryptoKey };
export type Reached = { names: readonly string[]; addresses: readonly string[] };

/** Opens the authority of this shop; makes one where there is none, or where it has ended. */
export async function openAuthority(shopDir: string, now: Date): Promise<Authority> {
  const folder = join(shopDir, networkFolder);
  const [keyFile, certificateFile] = [join(folder, "authority-key.pem"), join(folder, "authority.pem")];
  const pem = await readFile(certificateFile, "utf8").catch(nullIfMissing);
  if (pem !== null && new Date(new X509Certificate(pem).validTo) > now) {
    const der = x509.PemConverter.decode(await readFile(keyFile, "utf8"))[0]!;
    const key = await webcrypto.subtle.importKey("pkcs8", der, curve, false, ["sign"]);
    return { certificate: new x509.X509Certificate(pem), key };
  }
  const made = await makeAuthority(now);
  await mkdir(folder, { recursive: true, mode: 0o700 });
  await writeWhole(
    keyFile,
    x509.PemConverter.encode(await webcrypto.subtle.exportKey("pkcs8", made.key), "PRIVATE KEY"),
  );
  await writeWhole(certificateFile, made.certificate.toString("pem"));
  return made;
}

async function makeAuthority(now: Date): Promise<Authority> {
  const keys = await webcrypto.subtle.generateKey(curve, true, ["sign", "verify"]);
  const machine = hostname().replace(/[^\w.-]/g, "") || "this machine";
  const certificate = await x509.X509CertificateGenerator.createSelfSigned({
    serialNumber: serialNumber(),
    name: `CN=Coatwright shop on ${machine} since ${now.toISOString().slice(0, 10)}`,
    notBefore: days(now, -backdatedDays),
    notAfter: days(now, authorityDays),
    signingAlgorithm: curve,
    keys,
    extensions: [
      // It vouches for machines, never for further authorities.
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.keyCertSign | x509.KeyUsageFlags.cRLSign, true),
      new x509.Extension(nameConstraintsOid, true, new Uint8Array(localNamesAlone())),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
    ],
  });
  return { certificate, key: keys.privateKey };
}

/** A certificate for this machine under these names and addresses. Its key is new and never reaches the disk. */
export async function certify(authority: Authority, reached: Reached, now: Date): Promise<Credentials> {
  const keys = await webcrypto.subtle.generateKey(curve, true, ["sign", "verify"]);
  const certificate = await x509.X509CertificateGenerator.create({
    serialNumber: serialNumber(),
    subject: `CN=${reached.names[0] ?? reached.addresses[0] ?? "this machine"}`,
    issuer: authority.certificate.subject,
    notBefore: days(now, -backdatedDays),
    notAfter: days(now, leafDays - backdatedDays),
    signingAlgorithm: curve,
    publicKey: keys.publicKey,
    signingKey: authority.key,
    extensions: [
      new x509.BasicConstraintsExtension(false, undefined, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      new x509.SubjectAlternativeNameExtension([
        ...reached.names.map((value) => ({ type: "dns", value }) as const),
        ...reached.addresses.map((value) => ({ type: "ip", value }) as const),
      ]),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey),
      await x509.AuthorityKeyIdentifierExtension.create(authority.certificate),
    ],
  });
  const key = x509.PemConverter.encode(await webcrypto.subtle.exportKey("pkcs8", keys.privateKey), "PRIVATE KEY");
  return { key, cert: certificate.toString("pem") };
}

const days = (from: Date, count: number) => new Date(from.getTime() + count * dayMs);

/** Positive, and never the same again. */
function serialNumber(): string {
  const bytes = randomBytes(16);
  bytes[0] = (bytes[0]! & 0x3f) | 0x40;
  return bytes.toString("hex");
}

/** Beside its place first: a machine that dies half-way leaves no half key. */
async function writeWhole(file: string, content: string): Promise<void> {
  await writeFile(`${file}.new`, content, { mode: 0o600 });
  await rename(`${file}.new`, file);
}

function nullIfMissing(error: NodeJS.ErrnoException): null {
  if (error.code === "ENOENT") return null;
  throw error;
}
