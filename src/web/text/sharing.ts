import type { SharingWay } from "../../api/sharing.ts";
import { counted } from "./parts.ts";

/** Words of sharing the shop on the local network. */
export const sharingText = {
  off: "This shop is open on this machine alone.",
  on: (devices: number) =>
    devices === 0
      ? "This shop is shared on the local network; no device is let in yet."
      : `This shop is shared on the local network with ${counted(devices, "device")}.`,
  more: "A phone by the tank or in the yard can then look and write down. Each device is let in by a code, and can be sent away at once.",
  failed: (why: string) => `Nobody on the network reaches this shop. ${why}`,

  wayTitle: "How it is shared",
  ways: {
    encrypted: "Encrypted",
    plain: "Plain",
  } satisfies Record<SharingWay, string>,
  wayMore: {
    encrypted:
      "Nobody else on the network can read along, and the page opens in a yard without network. Each phone is told once whom to trust.",
    plain:
      "Works at once, without trust steps. Anybody on the same network can read along and could take over a device's place; the page does not open without network, shows no live camera picture, and keeps the screen on only on some phones.",
  } satisfies Record<SharingWay, string>,
  share: "Share it",
  stop: "Stop sharing",
  change: (way: SharingWay) => (way === "encrypted" ? "Share it encrypted" : "Share it plain"),
  stays: "It stays shared after a restart, until you stop it here. No shop is shared unless somebody chose so.",
  onlyHere: "Sharing is switched on and off at the machine that serves the shop.",
  addresses: "Addresses",
  addressesMore:
    "If the first one does not open, try the next. A name that ends in .local stays when the machine's number changes; most phones and computers find it, some Android ones and some networks do not. Else have your router always give the machine the same number (a fixed or reserved address): a phone that knows another one no longer finds the shop.",
  movedTitle: "This machine has a new address.",
  moved: (from: string, to: string) => `Devices that found it at ${from} no longer do; it is at ${to} now.`,
  movedBest:
    "Best give it the old number back, in the router, as a fixed or reserved address: then every phone finds it again, and what waits unsent on one is sent.",
  movedElse:
    "Or let each device in again at the new address. To a phone that is another shop: it is paired anew, and what waits unsent stays under the old address until the machine is found there again.",
  movedKnown: "It stays at the new address",

  letInTitle: "Let a device in",
  as: "The device",
  roles: {
    helper: "looks and writes down (looks, photographs, what was done)",
    viewer: "looks only",
    owner: "may do all that you may, also let others in",
  },
  showCode: "Show a code",
  newCode: "Show another code",
  noCode: "Take the code back",
  scanPair: "Scan this with the device's camera, or open the address and type the code.",
  code: "Code",
  codeUntil: (when: string, tries: number) =>
    `Good once, until ${when}, for ${counted(tries, "more wrong try", "more wrong tries")}.`,
  isIn: (name: string) => `“${name}” is let in.`,
  codeGone: "That code is no longer open: it was used, is too old, or was tried wrongly too often.",
  firstTrust: "First time with this phone? It has to be told whom to trust",
  scanTrust: "Scan this first, or open the address on the phone, and follow the steps there.",
  compare: "The certificate's fingerprint (SHA-256). What the phone shows on the way must be this, to the last pair:",
  ownCertificate: (until: string) => `Shown is your own certificate, good until ${until}.`,

  devicesTitle: "Devices let in",
  noDevices: "None yet.",
  thisDevice: "this device",
  ofSite: (site: string) => `readings of ${site}`,
  paired: (when: string, way: SharingWay) => `let in ${when}${way === "plain" ? ", plain" : ""}`,
  seen: (when: string) => `last seen ${when}`,
  sendAway: "Send away",
  sendAwayAsk: (name: string) => `${name} is out at once. What waits on it unsent stays on it.`,
  sendAwayGo: "Send it away",
  keep: "Leave it",

  sensorTitle: "Let a sensor in",
  sensorMore: "A sensor or a script brings temperature and humidity of one site, and can do nothing else.",
  sensorName: "Name of the sensor",
  sensorSite: "Site it reads",
  sensorGo: "Let it in",
  sensorToken: "Its token, shown this once. Whoever has it can write readings of this site:",
  sensorExample: "It sends, for example:",
};
