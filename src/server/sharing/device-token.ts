/** The secret that lets a device in, and the one form in which it is kept. */
import { createHash, randomBytes } from "node:crypto";

/** 256 bits: not to be guessed, so a plain hash of it is enough, and looking it up by that hash tells nobody's clock anything. */
export const newToken = (): string => randomBytes(32).toString("base64url");

export const tokenSha256 = (token: string): string => createHash("sha256").update(token).digest("hex");
