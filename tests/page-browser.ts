/** A real browser before the built server, as a user has it. */
import { mkdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";

export const root = join(import.meta.dirname, "..");
export const browserPath = process.env.CHROMIUM ?? "/usr/bin/chromium";

const flags = ["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking"];

export const openBrowser = (): Promise<Browser> => chromium.launch({ executablePath: browserPath, args: flags });

/** The built server's own code: worker threads need files that are already translated. */
export async function builtServer(shopDir: string): Promise<{ url: string; close: () => Promise<void> }> {
  const { startServer } = await import(join(root, "dist", "node", "server", "start-server.js"));
  return startServer({ shopDir, port: 0 });
}

const axe = readFileSync(join(root, "node_modules", "axe-core", "axe.min.js"), "utf8");

/** Faults of access on the page as it stands, in words. */
export async function accessFaults(page: Page): Promise<string[]> {
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const { axe } = window as unknown as {
      axe: { run(options: object): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
    };
    const { violations } = await axe.run({ resultTypes: ["violations"] });
    return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 160)}`);
  });
}

/** Pixels by which the page is wider than the window. */
export const overflowPx = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

/** Kept as an artefact of the test, to be looked at. */
export async function keepPicture(page: Page, name: string): Promise<void> {
  const folder = join(root, "test-artefacts");
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `${name}.png`) });
}
