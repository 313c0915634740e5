/** A real browser before the built server, as a user has it. */
import { mkdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { type Browser, chromium, type Page } from "playwright-core";
import { expect, onTestFailed } from "vitest";
import { findBrowser } from "../src/cli/find-browser.ts";
import type { RunningServer, ShareOptions } from "../src/server/start-server.ts";

export type { Page };
/** Looks at the page as it stands: keeps a picture and complains of what cannot be reached or seen. */
export type Looked = (what: string) => Promise<void>;

export const root = join(import.meta.dirname, "..");
export const foundBrowser = findBrowser({ mayInstall: false });

const flags = [
  ...["--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run"],
  ...["--disable-background-networking", "--disable-component-update", "--disable-sync"],
];

export const openBrowser = (...more: string[]): Promise<Browser> =>
  chromium.launch({ executablePath: foundBrowser.path!, args: [...flags, ...more] });

/** At night with wet gloves, and by day indoors. */
export const phone = { width: 390, height: 844, colorScheme: "dark" } as const;
export const desk = { width: 1280, height: 800, colorScheme: "light" } as const;
type Screen = { width: number; height: number; colorScheme: "dark" | "light" };

/** A page on a screen of this size; `faults` gathers what it complains of in its console. */
export async function openPage(browser: Browser, { width, height, colorScheme }: Screen) {
  const context = await browser.newContext({ viewport: { width, height }, colorScheme, bypassCSP: true });
  const page = await context.newPage();
  page.setDefaultTimeout(15_000);
  const faults: string[] = [];
  page.on("pageerror", (error) => faults.push(error.message));
  page.on("console", (message) => {
    if (message.type() === "error") faults.push(`${message.text()} (${message.location().url})`);
  });
  onTestFailed(() => keepPicture(page, `${width}-failed`));
  const looked: Looked = async (what) => {
    await keepPicture(page, `${width}-${what}`);
    expect(await overflowPx(page), `${what} is wider than the window`).toBeLessThanOrEqual(0);
    expect(await smallLetters(page, 12), `${what} has letters under 12 px in a figure`).toEqual([]);
    expect(await accessFaults(page), what).toEqual([]);
  };
  return { context, page, faults, looked };
}

/** The built server's own code: worker threads need files that are already translated. */
export async function builtServer(shopDir: string, port = 0, share: ShareOptions = {}): Promise<RunningServer> {
  const { startServer } = await import(join(root, "dist", "node", "server", "start-server.js"));
  return startServer({ shopDir, port, share });
}

const axe = readFileSync(join(root, "node_modules", "axe-core", "axe.min.js"), "utf8");

/** Faults of access on the page as it stands, in words. */
async function accessFaults(page: Page): Promise<string[]> {
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
const overflowPx = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

/** Letters of a figure under this size: 12 px for a phone held in the yard. A sheet shown before it is printed is read on paper. */
export const smallLetters = (page: Page, leastPx: number): Promise<string[]> =>
  page.evaluate(
    (least) =>
      [...document.querySelectorAll<SVGTextElement>("svg:not(.measuring-card) text")].flatMap((text) => {
        const onScreen = text.getScreenCTM();
        if (!onScreen || text.getBoundingClientRect().width === 0) return [];
        const px = Number.parseFloat(getComputedStyle(text).fontSize) * Math.hypot(onScreen.b, onScreen.d);
        return px < least - 0.05 ? [`${text.textContent}: ${px.toFixed(1)} px`] : [];
      }),
    leastPx,
  );

/** Kept as an artefact of the test, to be looked at. */
async function keepPicture(page: Page, name: string): Promise<void> {
  const folder = join(root, "test-artefacts");
  mkdirSync(folder, { recursive: true });
  await page.screenshot({ path: join(folder, `${name}.png`) });
}
