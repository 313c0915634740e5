/** What a browser takes for known in place of an authority in its store: the hash of the key that is shown at an address. */
import { createHash, X509Certificate } from "node:crypto";
import { connect } from "node:tls";

export function keyHashAt(address: string): Promise<string> {
  const { hostname, port } = new URL(address);
  return new Promise((resolve, reject) => {
    const socket = connect({ host: hostname, port: Number(port), rejectUnauthorized: false }, () => {
      const shown = new X509Certificate(socket.getPeerCertificate().raw);
      const key = shown.publicKey.export({ type: "spki", format: "der" });
      socket.destroy();
      resolve(createHash("sha256").update(key).digest("base64"));
    });
    socket.on("error", reject);
  });
}
