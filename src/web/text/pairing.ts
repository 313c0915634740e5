import type { Role } from "../../api/sharing.ts";
import { roleWords } from "./device-standing.ts";

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
  codeMissing: "Type the code that stands on the shop's own machine.",
  nameMissing: "Give this device a name.",
  go: "Let me in",
  done: "This device is let in.",
  doneAs: (role: Role) => `It ${roleWords[role]}.`,
  toToday: "To what is due today",
};
