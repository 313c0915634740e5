import { spawn, spawnSync } from "node:child_process";
import { createHash, randomBytes, randomUUID } from "node:crypto";
import { once } from "node:events";
import { existsSync, mkdtempSync, readdirSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { setTimeout } from "node:timers/promises";
import { chromium } from "playwright-core";
import sharp from "sharp";
// src/cli/find-browser.ts
/** Finds a Chromium-like browser for PDF and for the page's tests; on Debian as root it may install one. */
const names = [
	"chromium",
	"chromium-browser",
	"google-chrome",
	"google-chrome-stable",
	"microsoft-edge"
];
const usualPlaces = {
	win32: [
		"C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe",
		"C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe",
		"C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe"
	],
	darwin: [
		"/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
		"/Applications/Chromium.app/Contents/MacOS/Chromium",
		"/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge"
	]
};
const advices = {
	win32: "No browser found. Install one with: winget install Google.Chrome (or set CHROMIUM to its path)",
	darwin: "No browser found. Install one with: brew install --cask chromium (or set CHROMIUM to its path)",
	linux: "No browser found. Install one with: sudo apt-get install chromium (or set CHROMIUM to its path)"
};
/** The browser's path, or the one command that would bring one. */
function findBrowser({ mayInstall }) {
	const path = named() ?? onPath() ?? inUsualPlaces();
	if (path) return {
		path,
		advice: null
	};
	if (mayInstall && process.platform === "linux" && process.getuid?.() === 0 && existsSync("/usr/bin/apt-get")) {
		console.error("Installing Chromium for the page's tests...");
		spawnSync("apt-get", ["-q", "update"], { stdio: [
			"ignore",
			2,
			2
		] });
		spawnSync("apt-get", [
			"-q",
			"install",
			"-y",
			"--no-install-recommends",
			...["chromium", "fonts-dejavu-core"]
		], { stdio: [
			"ignore",
			2,
			2
		] });
		const installed = onPath();
		if (installed) return {
			path: installed,
			advice: null
		};
	}
	return {
		path: null,
		advice: advices[process.platform] ?? advices.linux
	};
}
function named() {
	return [process.env.CHROMIUM, process.env.CHROME_PATH].find((path) => path && existsSync(path));
}
function onPath() {
	return (process.env.PATH ?? "").split(delimiter).flatMap((folder) => names.map((name) => join(folder, name))).find((path) => existsSync(path));
}
function inUsualPlaces() {
	return (usualPlaces[process.platform] ?? []).find((path) => existsSync(path));
}
// bench/yard-rounds.ts
/**
* Rounds in a yard out of reach: a phone opens from its own store, 30 things wait on it (5 large photographs among them),
* it is reloaded, the shop comes back, is killed (-9) while a photograph is on its way, and comes back again. Each thing
* must be in the shop exactly once, in the order of its own time, and a desktop beside it must find the shop again.
*
*   npx rolldown bench/yard-rounds.ts --platform node --external playwright-core --external sharp \
*     --file bench/yard-rounds.mjs && node bench/yard-rounds.mjs 20   (after a build)
*/
const root = join(import.meta.dirname, "..");
const rounds = Number(process.argv[2] ?? 20);
const things = 30;
const photographEvery = 6;
const patienceMs = 9e4;
/** A server in a process of its own, so that it can be killed like one. */
async function serve(shopDir, port) {
	const start = join(root, "dist", "node", "server", "start-server.js");
	const script = `import { startServer } from ${JSON.stringify(`file://${start}`)};
    console.log((await startServer({ shopDir: ${JSON.stringify(shopDir)}, port: ${port} })).url);`;
	const child = spawn(process.execPath, [
		"--input-type=module",
		"--eval",
		script
	], { stdio: [
		"ignore",
		"pipe",
		"inherit"
	] });
	const [url] = await once(child.stdout, "data");
	return {
		url: String(url).trim(),
		child
	};
}
/** Four coupons that have hung in the shed for a week. */
async function trialOutdoors(url) {
	const id = randomUUID();
	const post = async (path, body) => {
		const answer = await fetch(`${url}api/${path}`, {
			method: "POST",
			headers: { "content-type": "application/json" },
			body: JSON.stringify(body)
		});
		if (answer.status !== 201) throw new Error(await answer.text());
	};
	await post("trials", {
		id,
		name: "shed",
		by: "Ada",
		draft: {
			question: "Does wax hold off rust longer than oil?",
			questions: [{
				response: "time to first rust",
				family: "control",
				margin: 1.5,
				atDay: null
			}],
			treatments: ["oil", "wax"].map((name) => ({
				name,
				role: name === "oil" ? "control" : "finish",
				coupons: 2,
				route: [{
					name,
					treated: "alone"
				}]
			})),
			blocks: 1,
			couponSize: {
				lengthMm: 100,
				widthMm: 50,
				thicknessMm: 2
			},
			edgeBandMm: 5,
			rustThresholdPercent: .01,
			lookDays: [1, 7],
			rackColumns: 4,
			sparesOfEach: 0,
			seed: 7
		}
	});
	const body = {
		kind: "put out",
		site: "shed",
		date: (/* @__PURE__ */ new Date(Date.now() - 6048e5)).toISOString().slice(0, 10),
		coupons: [
			"1",
			"2",
			"3",
			"4"
		]
	};
	await post(`trials/${id}/observations`, {
		id: randomUUID(),
		by: "Ada",
		corrects: null,
		body
	});
	return id;
}
async function kill(child) {
	const gone = once(child, "exit");
	child.kill("SIGKILL");
	await gone;
}
/** Noise packs badly: about three pieces. */
async function noisyPhoto() {
	const side = 1100;
	return sharp(randomBytes(side * side * 3), { raw: {
		width: side,
		height: side,
		channels: 3
	} }).jpeg({ quality: 98 }).toBuffer();
}
async function planned() {
	return Promise.all(Array.from({ length: things }, async (_, at) => ({
		id: randomUUID(),
		coupon: String(at % 4 + 1),
		photo: at % photographEvery === 5 ? await noisyPhoto() : null
	})));
}
/** Into the page's own queue, as its forms write it. */
async function queue(page, trial, all) {
	const rows = all.map(({ id, coupon, photo }, at) => ({
		id,
		coupon,
		photo: photo?.toString("base64") ?? null,
		at
	}));
	await page.evaluate(async ({ trial, rows }) => {
		const database = await new Promise((resolve, reject) => {
			const opening = indexedDB.open("coatwright");
			opening.onsuccess = () => resolve(opening.result);
			opening.onerror = () => reject(opening.error);
		});
		const writing = database.transaction("waiting", "readwrite");
		const began = Date.now() - rows.length * 6e4;
		for (const { id, coupon, photo, at } of rows) {
			const kept = {
				id,
				writtenAt: new Date(began + at * 6e4).toISOString(),
				skewMs: 0,
				refused: null
			};
			const body = {
				kind: "look",
				coupon,
				face: "front",
				when: { date: new Date(began).toISOString().slice(0, 10) },
				rustedPercent: at / 100,
				edgePercent: null,
				how: "eye",
				blind: true,
				measurement: null
			};
			const bytes = photo === null ? null : Uint8Array.from(atob(photo), (letter) => letter.charCodeAt(0));
			writing.objectStore("waiting").add(bytes ? {
				...kept,
				kind: "photo",
				inspection: `${trial} ${coupon} front ${at}`,
				file: new Blob([bytes], { type: "image/jpeg" })
			} : {
				...kept,
				kind: "observation",
				trial,
				observation: {
					id,
					by: "Ines",
					corrects: null,
					body
				}
			});
		}
		await new Promise((resolve, reject) => {
			writing.oncomplete = resolve;
			writing.onerror = reject;
		});
		database.close();
	}, {
		trial,
		rows
	});
}
/** Waits for a photograph that is partly in the shop; false: all were too fast to be caught. */
async function midUpload(shopDir) {
	const folder = join(shopDir, "uploads");
	for (const end = Date.now() + patienceMs; Date.now() < end; await setTimeout(5)) if ((() => {
		try {
			return readdirSync(folder).filter((name) => name.endsWith(".part"));
		} catch {
			return [];
		}
	})().some((name) => (statSync(join(folder, name), { throwIfNoEntry: false })?.size ?? 0) > 0)) return true;
	return false;
}
async function round(browser) {
	const began = performance.now();
	const faults = [];
	const shopDir = mkdtempSync(join(tmpdir(), "coatwright-yard-"));
	let server = await serve(shopDir, 0);
	const { url } = server;
	const port = Number(new URL(url).port);
	const trial = await trialOutdoors(url);
	const phone = await browser.newContext({ viewport: {
		width: 390,
		height: 844
	} });
	const desk = await browser.newContext({ viewport: {
		width: 1280,
		height: 800
	} });
	const desktop = await desk.newPage();
	await desktop.goto(`${url}trials/${trial}`);
	await desktop.locator("main h1").waitFor();
	let askedAgain = 0;
	desktop.on("response", (answer) => {
		if (answer.ok() && answer.url().endsWith(`/api/trials/${trial}`)) askedAgain++;
	});
	const first = await phone.newPage();
	await first.goto(url);
	await first.evaluate(() => navigator.serviceWorker.ready.then(() => {}));
	await first.reload();
	await first.locator("main h1").waitFor();
	await first.close();
	await kill(server.child);
	const cold = await phone.newPage();
	await cold.goto(`${url}waiting`);
	await cold.getByText("Nothing waits on this device").waitFor();
	const all = await planned();
	await queue(cold, trial, all);
	await cold.reload();
	await cold.getByText(`${things} things recorded on this device are not in the shop yet`).waitFor();
	server = await serve(shopDir, port);
	if (!await midUpload(shopDir)) faults.push("no photograph was caught on its way");
	await kill(server.child);
	server = await serve(shopDir, port);
	await cold.getByText("Nothing waits on this device").waitFor({ timeout: patienceMs });
	await desktop.locator(".waiting-mark.is-away").waitFor({
		state: "detached",
		timeout: patienceMs
	});
	const looks = (await (await fetch(`${url}api/trials/${trial}`)).json()).observations.filter(({ body }) => body.kind === "look");
	const wanted = all.filter(({ photo }) => !photo).map(({ id }) => id);
	if (looks.map(({ id }) => id).join() !== wanted.join()) faults.push(`looks: ${looks.length} of ${wanted.length}, or out of order`);
	const times = looks.map(({ written }) => written?.at ?? "");
	if (times.includes("") || times.join() !== [...times].sort().join()) faults.push("not in the order of their own time");
	for (const { photo } of all) {
		if (!photo) continue;
		const hash = createHash("sha256").update(photo).digest("hex");
		if (!Buffer.from(await (await fetch(`${url}api/photos/${hash}`)).arrayBuffer()).equals(photo)) faults.push(`photograph ${hash.slice(0, 8)} is not the same`);
	}
	const files = readdirSync(join(shopDir, "photos"), { recursive: true }).filter((name) => String(name).endsWith(".jpg"));
	if (files.length !== things / photographEvery) faults.push(`${files.length} files of photographs`);
	if (readdirSync(join(shopDir, "uploads")).length > 0) faults.push("a piece was left behind");
	if (askedAgain === 0) faults.push("the desktop never asked again");
	await phone.close();
	await desk.close();
	await kill(server.child);
	rmSync(shopDir, { recursive: true });
	return {
		faults,
		seconds: (performance.now() - began) / 1e3
	};
}
const browser = await chromium.launch({
	executablePath: findBrowser({ mayInstall: false }).path,
	args: ["--no-sandbox", "--disable-gpu"]
});
let whole = 0;
for (let at = 1; at <= rounds; at++) {
	const { faults, seconds } = await round(browser).catch((error) => ({
		faults: [error.message.split("\n")[0]],
		seconds: 0
	}));
	if (faults.length === 0) whole++;
	console.log(`round ${at}: ${faults.length === 0 ? "whole" : faults.join("; ")}, ${seconds.toFixed(0)} s`);
}
console.log(`${whole} of ${rounds} rounds whole`);
await browser.close();
process.exitCode = whole === rounds ? 0 : 1;
export {};
