import { createServer } from "node:net";
import { join } from "node:path";
import { describe, expect, onTestFinished, test, vi } from "vitest";
import { temporaryFolder } from "../../tests/temporary-folder.ts";
import { openShop } from "../store/open-shop.ts";
import { exitCodes } from "./exit.ts";
import { run } from "./main.ts";
import { shopFolder } from "./shop-folder.ts";

/** What a command prints, line by line, and its exit code. */
async function ran(...args: string[]) {
  const [out, err] = [vi.spyOn(console, "log"), vi.spyOn(console, "error")].map((spy) => spy.mockReturnValue());
  const stderr = vi.spyOn(process.stderr, "write").mockReturnValue(true);
  onTestFinished(() => void vi.restoreAllMocks());
  const code = await run(args);
  return {
    code,
    out: out!.mock.calls.flat().map(String),
    err: [...err!.mock.calls, ...stderr.mock.calls].flat().join("\n"),
  };
}

describe("serve", () => {
  test.each(["abc", "-1", "65536", "80.5"])("on port %s is wrong usage", async (port) => {
    const { code, err } = await ran("serve", `--port=${port}`, "--shop", await temporaryFolder());
    expect(code).toBe(exitCodes.wrongUsage);
    expect(err).toMatch(/whole number from 0 to 65535/);
  });

  test("on a shop that is open elsewhere is refused in words", async () => {
    const dir = await temporaryFolder();
    const shop = await openShop(dir);
    const { code, err } = await ran("serve", "--port", "0", "--shop", dir);
    expect({ code, err }).toEqual({ code: exitCodes.inputRefused, err: expect.stringMatching(/open in another/) });
    await shop.close();
  });

  test("on a taken port names a way out", async () => {
    const other = createServer().listen(0, "127.0.0.1");
    onTestFinished(() => void other.close());
    await new Promise((resolve) => other.once("listening", resolve));
    const address = other.address();
    const port = typeof address === "object" && address ? String(address.port) : "";
    const { code, err } = await ran("serve", "--port", port, "--shop", await temporaryFolder());
    expect({ code, err }).toEqual({ code: exitCodes.inputRefused, err: expect.stringMatching(/is taken .* --port 0/) });
  });
});

describe("serve to the local network", () => {
  test.each([
    [["--share", "open"], /Allowed choices are encrypted, plain/],
    [["--share-port", "70000"], /whole number from 0 to 65535/],
    [["--cert", "own.crt"], /--cert and --key belong together/],
  ])("%j is wrong usage", async (args, words) => {
    const { code, err } = await ran("serve", "--port", "0", "--shop", await temporaryFolder(), ...args);
    expect(code).toBe(exitCodes.wrongUsage);
    expect(err).toMatch(words);
  });
});

test("serve --share says where, and how the first device gets in, on a machine without a screen", async () => {
  const dir = await temporaryFolder();
  const said = vi.spyOn(console, "log").mockReturnValue();
  onTestFinished(() => void vi.restoreAllMocks());
  const ports = ["--port", "0", "--share-port", "0"];
  const running = run(["serve", "--share", "plain", ...ports, "--shop", dir, "--json"]);
  await vi.waitFor(() => expect(said).toHaveBeenCalled(), 10_000);
  const { url, shared } = JSON.parse(String(said.mock.calls[0]![0]));
  expect(shared.way).toBe("plain");
  expect(shared.firstCode).toMatchObject({ role: "owner", code: expect.stringMatching(/^[A-Z2-9]{4}-[A-Z2-9]{4}$/) });
  const { pairing } = await (await fetch(`${url}api/sharing`)).json();
  expect(pairing).toMatchObject({ role: "owner", triesLeft: 5 });
  process.emit("SIGTERM", "SIGTERM");
  expect(await running).toBe(exitCodes.done);
});

describe("backup", () => {
  test("of a shop that is open says what it copied", async () => {
    const folder = await temporaryFolder();
    const [dir, to] = [join(folder, "shop"), join(folder, "copy")];
    const shop = await openShop(dir);
    const { code, out } = await ran("backup", to, "--shop", dir, "--json");
    expect(code).toBe(exitCodes.done);
    expect(JSON.parse(out.join(""))).toEqual({ to, trials: 0, observations: 0, photos: 0, bytes: 0 });
    expect((await ran("backup", to, "--shop", dir)).code).toBe(exitCodes.inputRefused);
    const second = await ran("backup", `${to}-2`, "--shop", dir);
    expect(second.out.join("\n")).toContain("photographs in it still say where they were taken");
    await shop.close();
  });
});

describe("where a shop lies when nobody says", () => {
  const home = join("/", "home", "ada");
  test.each([
    ["linux", {}, join(home, ".local", "share", "coatwright")],
    ["linux", { XDG_DATA_HOME: join("/", "data") }, join("/", "data", "coatwright")],
    ["linux", { XDG_DATA_HOME: "" }, join(home, ".local", "share", "coatwright")],
    ["darwin", {}, join(home, "Library", "Application Support", "Coatwright")],
    ["win32", { APPDATA: join("/", "roaming") }, join("/", "roaming", "Coatwright")],
    ["win32", {}, join(home, "AppData", "Roaming", "Coatwright")],
  ] as const)("on %s with %j", (platform, env, folder) => expect(shopFolder({ platform, env, home })).toBe(folder));
});
