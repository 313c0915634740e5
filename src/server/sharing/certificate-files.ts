/** The user's own certificate and key, from files that another program may renew. */
import { createPrivateKey, X509Certificate } from "node:crypto";
import { readFile } from "node:fs/promises";
import { createSecureContext } from "node:tls";
import { namesIn } from "./certificate-names.ts";
import type { Credentials } from "./network-listener.ts";

export type CertificateFiles = { certFile: string; keyFile: string };

/** The files are no certificate and its key, or no browser would take them. */
export class CertificateRefused extends Error {}

export async function readCertificateFiles(files: CertificateFiles, now: Date): Promise<Credentials> {
  const [cert, key] = await Promise.all([readText(files.certFile), readText(files.keyFile)]);
  try {
    createSecureContext({ cert, key });
  } catch (error) {
    throw new CertificateRefused(unusable(files, error, { cert, key }));
  }
  const why = whyRefused(new X509Certificate(cert), now);
  if (why !== null) throw new CertificateRefused(`${files.certFile} ${why}`);
  return { cert, key };
}

/** What a browser would stop at; null: nothing. Goes on after the certificate's name. */
export function whyRefused(cert: X509Certificate, now: Date): string | null {
  const [from, until] = [new Date(cert.validFrom), new Date(cert.validTo)];
  if (until <= now) return `ended on ${dateOf(until)}: every browser refuses it. Have it renewed.`;
  if (from > now) return `is good only from ${dateOf(from)} on, by this machine's clock.`;
  if (namesIn(cert.toString()).length === 0)
    return "names no machine: browsers look for a DNS name or an IP address in its subject alternative names.";
  return null;
}

const dateOf = (at: Date) => at.toISOString().slice(0, 10);

function unusable({ certFile, keyFile }: CertificateFiles, error: unknown, { cert, key }: Credentials): string {
  if (isOfAnother({ cert, key })) return `${keyFile} is not the key of ${certFile}: the two belong to different pairs.`;
  if (/ENCRYPTED/.test(key)) return `${keyFile} is locked by a passphrase; expected one without.`;
  const why = error instanceof Error ? error.message : String(error);
  return `${certFile} and ${keyFile} are no certificate and its key in PEM form: ${why}`;
}

function isOfAnother({ cert, key }: Credentials): boolean {
  try {
    return !new X509Certificate(cert).checkPrivateKey(createPrivateKey(key));
  } catch {
    return false;
  }
}

const readText = (file: string) =>
  readFile(file, "utf8").catch((error: Error) => {
    throw new CertificateRefused(`${file} cannot be read: ${error.message}`);
  });
