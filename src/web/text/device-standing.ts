import type { Role } from "../../api/sharing.ts";

/** What a device of that role does, as a sentence about it goes on. */
export const roleWords: Record<Role, string> = {
  viewer: "looks only",
  helper: "looks and writes down",
  owner: "may do all that you may",
  sensor: "brings readings",
};

/** What this device can and cannot do because of how it reached the shop. */
export const standingText = {
  as: (name: string, role: Role) => `This device is let in as “${name}”; it ${roleWords[role]}.`,
  plain:
    "The connection is not encrypted: anybody on this network can read along. The page does not open without network and shows no live camera picture; photographs go through the phone's own camera. The screen is kept on only on some phones.",
  untrusted:
    "This device does not trust the shop's certificate yet: the page does not open without network. The steps take two minutes.",
  looksOnly: "This device looks only; nothing can be written down with it.",
  ownersPlace: "This device looks and writes down. A trial is begun, and its plan changed, on an owner's device.",
  shared: "Shared",
  moved: "Shared, at a new address",
  toSharing: "Phones and other devices",
  toTrust: "How to trust it",
};
