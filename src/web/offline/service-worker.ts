/**
 * Opens the page where the network is gone: the built page as it was installed, and the shop's answers as they were last
 * given, marked with their age. It never answers a write; those wait in the page's own queue.
 */
import { keptAtHeader } from "./kept-answer.ts";
import { isKept, readsName, shellName } from "./kept-reads.ts";

declare global {
  // The page's own library of types knows no service worker; this is what is used of one.
  interface WindowEventMap {
    install: WorkerEvent;
    activate: WorkerEvent;
    fetch: WorkerEvent & { readonly request: Request; respondWith(answer: Promise<Response>): void };
  }
  interface WorkerEvent extends Event {
    waitUntil(work: Promise<unknown>): void;
  }
  function skipWaiting(): Promise<void>;
  const clients: { claim(): Promise<void> };
  /** Put in by the build: every file of the page, and a name that changes with any of them. */
  const BUILT_PAGE: { version: string; files: string[] };
}

/** With a kept answer at hand, a shop that has not answered by then counts as silent. */
const patienceMs = 4000;
const shell = shellName(BUILT_PAGE.version);

addEventListener("install", (event) => {
  event.waitUntil(install());
});

async function install() {
  const cache = await caches.open(shell);
  await cache.addAll(["/", ...BUILT_PAGE.files]);
  await skipWaiting();
}

addEventListener("activate", (event) => {
  event.waitUntil(activate());
});

/** Files of earlier builds go. A page still open that asks for one of them gets it from the shop, or reloads. */
async function activate() {
  for (const name of await caches.keys()) if (name !== shell && name !== readsName) await caches.delete(name);
  await clients.claim();
}

addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== location.origin) return;
  if (request.mode === "navigate" && !url.pathname.startsWith("/api/")) event.respondWith(page(request));
  else if (BUILT_PAGE.files.includes(url.pathname)) event.respondWith(builtFile(request));
  else if (isKept(url)) event.respondWith(lastKnown(request));
});

/** The page comes from this device, so that it stands at once; a newer build is installed beside it and comes next time. */
async function page(request: Request): Promise<Response> {
  // A report, a calendar, a file to keep: no place of the page.
  if (/\.\w+$/.test(new URL(request.url).pathname)) return fetch(request);
  return (await caches.match("/", { cacheName: shell })) ?? fetch(request);
}

async function builtFile(request: Request): Promise<Response> {
  return (await caches.match(request, { cacheName: shell })) ?? fetch(request);
}

async function lastKnown(request: Request): Promise<Response> {
  const cache = await caches.open(readsName);
  const kept = await cache.match(request);
  const asked = ask(request, cache);
  if (!kept) return asked;
  const silence = new Promise<Response>((resolve) => setTimeout(() => resolve(kept), patienceMs));
  return Promise.race([asked.catch(() => kept), silence]);
}

/** A device that is no longer let in keeps nothing of the shop. */
async function ask(request: Request, cache: Cache): Promise<Response> {
  const answer = await fetch(request);
  if (answer.status === 401) await caches.delete(readsName);
  if (answer.ok) await cache.put(request, await dated(answer.clone())).catch(() => {});
  return answer;
}

async function dated(answer: Response): Promise<Response> {
  const headers = new Headers(answer.headers);
  headers.set(keptAtHeader, new Date().toISOString());
  // A length or a packing belongs to the answer as it travelled, not as it is kept.
  headers.delete("content-encoding");
  headers.delete("content-length");
  return new Response(await answer.blob(), { status: answer.status, headers });
}
