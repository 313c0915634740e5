/** The one code that is open at a time: short-lived, good once, and thrown away after a few wrong tries. Kept in memory only. */
import { createHash, randomInt, timingSafeEqual } from "node:crypto";
import type { PersonRole } from "../../api/sharing.ts";

/** No letter or figure that looks like another: read off a screen, typed with a glove. */
const letters = "ABCDEFGHJKMNPQRSTUVWXYZ23456789";
const length = 8;
export const codeLastsMs = 5 * 60_000;
export const codeTries = 5;

type OpenCode = { digest: Buffer; role: PersonRole; expiresAt: Date; triesLeft: number };

/** Why nobody was let in, and what to do. */
export type Turned = "no code" | "wrong" | "locked";

export type PairingDesk = {
  /** Any code that was open before is void. */
  open(role: PersonRole): { code: string; role: PersonRole; expiresAt: string };
  standing(): { role: PersonRole; expiresAt: string; triesLeft: number } | null;
  close(): void;
  /** The role to let in, or why not. */
  try(code: string): PersonRole | Turned;
};

export function pairingDesk(now: () => Date): PairingDesk {
  let held: OpenCode | null = null;
  const current = () => {
    if (held && now() >= held.expiresAt) held = null;
    return held;
  };
  return {
    open(role) {
      const code = Array.from({ length }, () => letters[randomInt(letters.length)]).join("");
      held = { digest: digestOf(code), role, expiresAt: new Date(now().getTime() + codeLastsMs), triesLeft: codeTries };
      return { code: `${code.slice(0, 4)}-${code.slice(4)}`, role, expiresAt: held.expiresAt.toISOString() };
    },
    standing() {
      const code = current();
      return code && { role: code.role, expiresAt: code.expiresAt.toISOString(), triesLeft: code.triesLeft };
    },
    close() {
      held = null;
    },
    try(typed) {
      const code = current();
      if (!code) return "no code";
      // Of digests, so that neither the time nor the length tells how much of it was right.
      if (timingSafeEqual(digestOf(asWritten(typed)), code.digest)) {
        held = null;
        return code.role;
      }
      code.triesLeft -= 1;
      if (code.triesLeft > 0) return "wrong";
      held = null;
      return "locked";
    },
  };
}

const digestOf = (code: string) => createHash("sha256").update(code).digest();

/** Small letters, spaces and dashes are how people type it. */
const asWritten = (typed: string) => typed.toUpperCase().replace(/[^A-Z0-9]/g, "");
