/** The user's own certificate and key, from files that another program may renew. */
import { X509Certificate } from "node:crypto";
import { readFile } from "node:fs/promises";
import { createSecureContext } from "node:tls";
import type { Credentials } from "./network-listener.ts";

export type CertificateFiles = { certFile: string; keyFile: string };

/** The files are no certificate and its key. */
export class CertificateRefused extends Error {}

export async function readCertificateFiles({ certFile, keyFile }: CertificateFiles): Promise<Credentials> {
  const [cert, key] = await Promise.all([readText(certFile), readText(keyFile)]);
  try {
    createSecureContext({ cert, key });
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    throw new CertificateRefused(`${certFile} and ${keyFile} are no certificate and its key in PEM form: ${why}`);
  }
  return { cert, key };
}

const readText = (file: string) =>
  readFile(file, "utf8").catch((error: Error) => {
    throw new CertificateRefused(`${file} cannot be read: ${error.message}`);
  });

/** The names and addresses that a certificate is for; a wildcard names no machine. */
export function namesIn(cert: string): string[] {
  const alternatives = new X509Certificate(cert).subjectAltName ?? "";
  return [...alternatives.matchAll(/(?:DNS|IP Address):([\w.-]+)/g)].map(([, name]) => name!.toLowerCase());
}
