/** Who may reach the shop over the local network: devices, their roles, pairing, and how the shop is shared. */
import * as z from "zod/mini";
import { name } from "./observation.ts";

/** What a person's device may do: look; write down what is seen and done; or all of it. */
export const personRole = z.enum(["viewer", "helper", "owner"]);
export type PersonRole = z.infer<typeof personRole>;

/** A sensor only brings the readings of its one site. */
export const role = z.enum(["viewer", "helper", "owner", "sensor"]);
export type Role = z.infer<typeof role>;

const deviceName = z.string().check(z.trim(), z.minLength(1), z.maxLength(60));

/** "encrypted" needs each phone to be told once whom to trust; "plain" can be read by anyone on the same network. */
export const sharingWay = z.enum(["encrypted", "plain"]);
export type SharingWay = z.infer<typeof sharingWay>;

/** A device that is let in. Its token is stored as a hash only and is never given out again. */
export const device = z.strictObject({
  id: z.string(),
  name: z.string(),
  role,
  /** The site that a sensor reads; null for a person's device. */
  site: z.nullable(z.string()),
  /** How its token was handed over; it is good for connections of that way alone. */
  way: sharingWay,
  pairedAt: z.string(),
  /** To the minute or so. */
  lastSeenAt: z.nullable(z.string()),
});
export type Device = z.infer<typeof device>;

/** What a page may know of the device it runs on. */
export const me = z.strictObject({
  device: z.strictObject({ id: z.string(), name: z.string(), role }),
  /** Whether nobody on the way can read along: this machine itself, or an encrypted connection. */
  secure: z.boolean(),
  sharing: z.boolean(),
  /** The machine has another address than devices know; missing in what a device kept from earlier versions. */
  moved: z.exactOptional(z.boolean()),
});
export type Me = z.infer<typeof me>;

export const sharingChoice = z.strictObject({ on: z.boolean(), way: sharingWay });
export type SharingChoice = z.infer<typeof sharingChoice>;

/** A code that is open just now; the code itself is shown only where it was asked for. */
const openPairing = z.strictObject({ expiresAt: z.string(), triesLeft: z.int(), role: personRole });

export const sharing = z.strictObject({
  on: z.boolean(),
  way: sharingWay,
  /** Where the shop is reached over the network, the likeliest first. */
  addresses: z.array(z.string()),
  /** Where a phone gets the authority's certificate, over plain http; empty where none is needed. */
  trustAddresses: z.array(z.string()),
  /** Whose certificate an encrypted connection shows; null while there is none. */
  certificate: z.nullable(
    z.strictObject({
      from: z.enum(["this shop", "a file"]),
      /** Of the authority, or of the file's own certificate: to be compared by eye. */
      sha256: z.string(),
      validUntil: z.string(),
    }),
  ),
  /** Under which address devices know this machine, if it has it no more. */
  movedFrom: z.nullable(z.string()),
  pairing: z.nullable(openPairing),
  /** Why nobody reaches the shop although it was to be shared. */
  failure: z.nullable(z.string()),
});
export type SharingState = z.infer<typeof sharing>;

export const newPairingCode = z.strictObject({ role: personRole });

export const pairingCode = z.strictObject({
  code: z.string(),
  role: personRole,
  expiresAt: z.string(),
  /** The page that asks for the code, at each address of the shop. */
  addresses: z.array(z.string()),
});
export type PairingCode = z.infer<typeof pairingCode>;

/** What a phone sends to be let in. */
export const pairing = z.strictObject({ code: z.string().check(z.maxLength(60)), name: deviceName });

export const newSensor = z.strictObject({ name: deviceName, site: name });

/** The one time that a token is shown. */
export const sensorLetIn = z.strictObject({ device, token: z.string() });
