import type { Role, SharingWay } from "../../api/sharing.ts";
import { counted } from "./parts.ts";

const roleWords: Record<Role, string> = {
  viewer: "looks only",
  helper: "looks and writes down",
  owner: "may do all that you may",
  sensor: "brings readings",
};

/** Words of sharing the shop on the local network. */
export const sharingText = {
  shared: "Shared",
  toSharing: "Phones and other devices",
  off: "This shop is open on this machine alone.",
  on: (devices: number) =>
    devices === 0
      ? "This shop is shared on the local network; no device is let in yet."
      : `This shop is shared on the local network with ${counted(devices, "device")}.`,
  more: "A phone by the tank or in the yard can then look and write down. Each device is let in by a code, and can be sent away at once.",
  failed: (why: string) => `The shop is not shared. ${why}`,

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
    "If the first one does not open, try the next. When the machine's number on the network changes, a phone no longer finds it there: have your router always give it the same one (common practice: a fixed or reserved address).",

  letInTitle: "Let a device in",
  as: "The device",
  roleWords,
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
  codeGone: "That code is no longer open: it was used, is too old, or was tried wrongly too often.",
  firstTrust: "First time with this phone? It has to be told whom to trust",
  scanTrust: "Scan this first, or open the address on the phone, and follow the steps there.",
  compare: "What the phone then shows as the certificate's SHA-256 is this, to the last pair:",
  ownCertificate: (until: string) => `Shown is your own certificate, good until ${until}.`,

  devicesTitle: "Devices let in",
  noDevices: "None yet.",
  thisDevice: "this device",
  ofSite: (site: string) => `readings of ${site}`,
  paired: (when: string) => `let in ${when}`,
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

/** Words of the page on which a device is let in. */
export const pairText = {
  title: "Let this device in",
  away: "This device is not let in, or was sent away.",
  awayMore: "What waits on it unsent stays on it, and is sent once it is let in again.",
  how: "At the shop's own machine: Settings, “Phones and other devices”, “Show a code”.",
  code: "Code",
  codeHint: "Eight letters and figures, good for five minutes",
  name: "Name of this device",
  nameHint: "As it will stand in the list of devices, for example “phone by the tank”",
  missing: "Something is missing here.",
  go: "Let me in",
  done: "This device is let in.",
  doneAs: (role: Role) => `It ${roleWords[role]}.`,
  toToday: "To what is due today",
  looksOnly: "This device looks only; nothing can be written down with it.",
};

/** What this device can and cannot do because of how it reached the shop. */
export const standingText = {
  as: (name: string, role: Role) => `This device is let in as “${name}”; it ${roleWords[role]}.`,
  plain:
    "The connection is not encrypted: anybody on this network can read along. The page does not open without network and shows no live camera picture; photographs go through the phone's own camera. The screen is kept on only on some phones.",
  untrusted:
    "This device does not trust the shop's certificate yet: the page does not open without network. The steps take two minutes.",
  toTrust: "How to trust it",
};

/** Steps by which a device comes to trust the shop's authority. Names of settings as they usually are. */
export const trustText = {
  title: "Tell this device whom to trust",
  lead: "The shop has made a certificate of its own. Once this device knows it, everything between the two is encrypted, and the page opens without network.",
  get: "Get the certificate",
  next: "Then go on to let the device in",
  compare:
    "Before you trust it: the certificate's SHA-256 that the device shows must be the one on the shop's own machine, under “Phones and other devices”. Another one means that somebody stands between the two.",
  practice: "Common practice; names of settings differ from phone to phone and from year to year.",
  ways: [
    {
      name: "Android",
      steps: [
        "Press “Get the certificate” and keep the file.",
        "Open the phone's settings and search for “CA certificate” (usually under Security, More, Encryption and credentials, Install a certificate).",
        "Choose “CA certificate”, then “Install anyway”, and pick the file coatwright-authority.crt. The phone asks for its screen lock.",
        "Open the shop's address again. No warning appears any more.",
      ],
      undo: "Settings, search for “Trusted credentials”, the tab “User”, the entry of this shop, “Remove”.",
    },
    {
      name: "iPhone and iPad",
      steps: [
        "Open this page in the browser that came with the phone. Press “Get the certificate” and allow the download of a profile.",
        "Open Settings: “Profile downloaded” stands near the top. Install it; the phone asks for its code.",
        "Settings, General, About, at the very bottom “Certificate Trust Settings”: switch this shop's entry on.",
        "Open the shop's address again. No warning appears any more.",
      ],
      undo: "Settings, General, “VPN & Device Management”, the entry of this shop, “Remove Profile”.",
    },
    {
      name: "A computer",
      steps: [
        "Press “Get the certificate” and keep the file.",
        "Open the browser's settings, search for “certificates”, and import the file among the authorities, for web sites.",
        "Open the shop's address again. No warning appears any more.",
      ],
      undo: "The same place: the entry of this shop among the authorities, “Delete”.",
    },
  ],
  undo: "To undo it",
  meaningTitle: "What it means",
  meaning: [
    "The device then believes whoever shows a certificate from this shop's authority. The authority is limited to addresses of local networks and to names that end in “.local”: it cannot vouch for a bank or for mail. Not every older phone obeys that limit.",
    "The authority's key lies in the shop's folder on the machine that serves it, readable by its user. Who copies that key could pretend to be this shop to this device. Backups leave it behind.",
    "A phone may say from now on that the network can be watched. It says so of every authority that it did not come with.",
  ],
};
