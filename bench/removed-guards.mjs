// Takes one guard of the shared shop out of the source at a time and says whether its test notices. Puts it back each time.
//   node bench/removed-guards.mjs [from to]
import { spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

const root = join(import.meta.dirname, "..");
const sharing = (file) => `src/server/sharing/${file}`;
const guard = sharing("access-guard.ts");
const guardTest = sharing("access-guard.test.ts");

/** What it keeps out, where it stands, what is left of it, and the test that must fail. */
const removed = [
  [
    "a stranger",
    guard,
    "if (!device) return sendNotPaired(request, reply);",
    "if (!device) return;",
    guardTest,
    "without a token",
  ],
  ["a viewer that writes", guard, "if (!may(device.role, least))", "if (!device)", guardTest, "each role"],
  [
    "a sensor at another site",
    guard,
    'if (device.role === "sensor" && site',
    "if (!device && site",
    guardTest,
    "a sensor brings",
  ],
  [
    "a route without a row",
    sharing("access-table.ts"),
    '?? { least: "owner" };',
    '?? { least: "viewer" };',
    guardTest,
    "without a row",
  ],
  [
    "a device sent away, its open lines",
    sharing("open-answers.ts"),
    "if (answer !== but) answer.socket?.destroy();",
    "if (!answer) answer;",
    guardTest,
    "loses its open live line",
  ],
  [
    "another name that points here",
    guard,
    "if (!isAmong(names,",
    "if (!names || !isAmong([...names, host.replace(/:\\d+$/, '').toLowerCase()],",
    guardTest,
    "a name that somebody let point",
  ],
  [
    "a write from another page",
    guard,
    "origin !== undefined && origin !== own",
    "origin !== undefined && !own",
    guardTest,
    "a write from",
  ],
  [
    "a write that names no page",
    guard,
    "cookie !== undefined && origin === undefined",
    "cookie === own && origin === undefined",
    guardTest,
    "names no page",
  ],
  [
    "a read into another page",
    guard,
    'if (isForeign && (isWrite || mode !== "navigate"))',
    "if (isForeign && isWrite)",
    guardTest,
    "a read into",
  ],
  ["a cookie for scripts", sharing("device-cookie.ts"), '"HttpOnly", ', "", guardTest, "the cookie is out of reach"],
  ["a frame", "src/server/local-only.ts", '"x-frame-options": "DENY",', "", guardTest, "no answer lets another page"],
  [
    "too many requests of a device",
    guard,
    "ofDevice: limit(perMinute.ofDevice)",
    "ofDevice: limit(1e9)",
    guardTest,
    "one device that floods",
  ],
  [
    "too many costly ones",
    guard,
    "rule.heavy && request.device",
    "rule.heavy && !request.device",
    guardTest,
    "what costs seconds",
  ],
  [
    "too many of a stranger",
    guard,
    "ofStranger: limit(perMinute.ofStranger)",
    "ofStranger: limit(1e9)",
    guardTest,
    "questions of a stranger",
  ],
  [
    "too many listening pages",
    "src/server/event-hub.ts",
    "others >= linesOfOneDevice",
    "others >= 1e9",
    guardTest,
    "pages of one device",
  ],
  [
    "a page that never reads",
    "src/server/event-hub.ts",
    "response.writableLength > unreadBytes",
    "response.writableLength > 1e12",
    "src/server/event-hub.test.ts",
    "never read",
  ],
  [
    "headers beyond the limit",
    sharing("network-listener.ts"),
    "maxHeaderSize: 16_384,",
    "maxHeaderSize: 65_536,",
    guardTest,
    "headers beyond",
  ],
  [
    "a large body of a stranger",
    "src/server/routes/sharing-routes.ts",
    "{ bodyLimit: 2000, schema",
    "{ schema",
    guardTest,
    "a stranger's body",
  ],
  [
    "slow headers",
    sharing("network-listener.ts"),
    'server.emit("listening");',
    "",
    sharing("sharing.test.ts"),
    "says nothing",
  ],
  [
    "too many connections",
    sharing("network-listener.ts"),
    "if (others >= connectionsOfOneAddress) return false;",
    "",
    sharing("sharing.test.ts"),
    "only so many",
  ],
  [
    "guessing a code for ever",
    sharing("pairing-desk.ts"),
    "if (code.triesLeft > 0)",
    "if (code.triesLeft > -1e9)",
    sharing("pairing.test.ts"),
    "guessing ends",
  ],
  [
    "a code used twice",
    sharing("pairing-desk.ts"),
    "        held = null;\n        return code.role;",
    "        return code.role;",
    sharing("pairing.test.ts"),
    "a pairing code",
  ],
  [
    "a code too old",
    sharing("pairing-desk.ts"),
    "if (held && now() >= held.expiresAt) held = null;",
    "",
    sharing("pairing.test.ts"),
    "a pairing code",
  ],
  ["many tries a minute", guard, "pairing: 20 }", "pairing: 2000 }", sharing("pairing.test.ts"), "too many tries"],
  [
    "a compare that takes its time",
    sharing("pairing-desk.ts"),
    "timingSafeEqual(digestOf(asWritten(typed)), code.digest)",
    "digestOf(asWritten(typed)).equals(code.digest)",
    sharing("pairing-desk.test.ts"),
    "compared whole",
  ],
  [
    "a token kept as it is",
    sharing("sharing.ts"),
    "tokenSha256: tokenSha256(token) };",
    "tokenSha256: tokenSha256(token) };\n      await store.settings.knowAddress(token, now().toISOString());",
    sharing("pairing.test.ts"),
    "stands in no answer",
  ],
  [
    "devices in a backup",
    "src/store/backup-shop.ts",
    '{ sql: "delete from device", values: [] },',
    "",
    "src/store/backup-shop.test.ts",
    "",
  ],
  [
    "a token from plain text",
    guard,
    '(found.way === "encrypted") !== arrival.encrypted',
    "!found",
    sharing("tls.test.ts"),
    "takes no token",
  ],
  [
    "a key that others may read",
    sharing("authority.ts"),
    "mode: 0o600",
    "mode: 0o644",
    sharing("tls.test.ts"),
    "read by the shop's user alone",
  ],
  [
    "an authority for the whole world",
    sharing("authority.ts"),
    "new x509.Extension(nameConstraintsOid, true, new Uint8Array(localNamesAlone())),",
    "",
    sharing("tls.test.ts"),
    "cannot vouch",
  ],
  [
    "a certificate that has ended",
    sharing("certificate-files.ts"),
    "if (until <= now)",
    "if (until <= from)",
    sharing("tls.test.ts"),
    "one that has ended",
  ],
  [
    "callers from the wider network",
    sharing("own-addresses.ts"),
    "return isIPv4(plain) && local.check(plain);",
    "return isIPv4(plain);",
    sharing("sharing.test.ts"),
    "RFC 1918",
  ],
  [
    "a stranger's body, a byte at a time",
    sharing("network-listener.ts"),
    "if (!place?.isLetIn && !request.complete)",
    "if (!place)",
    sharing("sharing.test.ts"),
    "byte at a time",
  ],
  [
    "a device's body, a byte at a time",
    sharing("network-listener.ts"),
    "requestTimeout: times.requestMs,",
    "requestTimeout: 0,",
    sharing("sharing.test.ts"),
    "byte at a time",
  ],
  [
    "an answer that nobody reads",
    sharing("network-listener.ts"),
    "server.timeout = times.silenceMs;",
    "",
    sharing("sharing.test.ts"),
    "never reads",
  ],
  [
    "strangers in every place",
    sharing("network-listener.ts"),
    "if (open.size >= connectionsInAll && !makeRoom(open)) return false;",
    "if (open.size >= connectionsInAll) return false;",
    sharing("sharing.test.ts"),
    "several addresses",
  ],
  [
    "whole photographs in memory",
    "src/server/routes/photo-routes.ts",
    "const wholeOfOneDevice = 2;",
    "const wholeOfOneDevice = 200;",
    "src/server/routes/photo-routes.test.ts",
    "fill no memory",
  ],
  [
    "whole pictures decoded at once",
    "src/server/photos/read-photo.ts",
    "turns(2)",
    "turns(200)",
    "src/server/photos/read-photo.test.ts",
    "come at once",
  ],
  ["two hosts, a whole address", guard, "if (isAmbiguous(request))", "if (!request)", guardTest, "two lengths"],
  [
    "a cell that is a formula",
    "src/api/plain-table-csv.ts",
    "&& !isNumber(cell) ?",
    "&& isNumber(cell) ?",
    "src/api/plain-table.test.ts",
    "no formula",
  ],
  [
    "a name that a shell would carry out",
    "src/cli/export.ts",
    "if (!/[$`",
    "if (!/[`",
    "src/cli/export.test.ts",
    "a shell reads",
  ],
  [
    "a name with lines of its own in a calendar",
    "src/report/look-calendar.ts",
    'record.name.replace(/\\p{Cc}+/gu, " ")',
    "record.name",
    "src/report/look-calendar.test.ts",
    "lines of its own",
  ],
];

let unnoticed = 0;
/** From which to which, to share the work: 0 16, 16 99. */
const [from = 0, to = removed.length] = process.argv.slice(2).map(Number);
for (const [what, file, is, becomes, test, named] of removed.slice(from, to)) {
  const path = join(root, file);
  const whole = readFileSync(path, "utf8");
  if (!whole.includes(is)) {
    console.log(`NOT FOUND  ${what}: ${file} has no longer ${JSON.stringify(is)}`);
    unnoticed += 1;
    continue;
  }
  try {
    writeFileSync(
      path,
      whole.replace(is, () => becomes),
    );
    const run = ["vitest", "run", test, ...(named === "" ? [] : ["-t", named])];
    const { stdout, status } = spawnSync("npx", run, {
      cwd: root,
      encoding: "utf8",
      env: { ...process.env, NO_COLOR: "1" },
    });
    // A test that was not found, or a file that no longer loads, notices nothing.
    const failed = Number(/Tests\s+(\d+) failed/.exec(stdout)?.[1] ?? 0);
    const noticed = status !== 0 && failed > 0;
    if (!noticed) unnoticed += 1;
    console.log(`${noticed ? "noticed  " : "UNNOTICED"}  ${what}`);
  } finally {
    writeFileSync(path, whole);
  }
}
process.exit(unnoticed === 0 ? 0 : 1);
