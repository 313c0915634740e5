/** Where a shop lies when nobody says: in the user's data folder, as each system has it. */
import { homedir } from "node:os";
import { join } from "node:path";

type Machine = { platform: NodeJS.Platform; env: NodeJS.ProcessEnv; home: string };

export function shopFolder(
  { platform, env, home }: Machine = { platform: process.platform, env: process.env, home: homedir() },
): string {
  if (platform === "win32") return join(env.APPDATA ?? join(home, "AppData", "Roaming"), "Coatwright");
  if (platform === "darwin") return join(home, "Library", "Application Support", "Coatwright");
  return join(env.XDG_DATA_HOME || join(home, ".local", "share"), "coatwright");
}

/** The demonstration shop lies beside it, under a name of its own. */
export function demoFolder(): string {
  return `${shopFolder()}-demonstration`;
}
