/**
 * The service worker: the app's files and the kept pages without a network.
 *
 * A classic script, read by /sw.js, which tells it the edition and the files. It takes over only when a page says so:
 * a new edition waits beside an open run. Caches of an older edition stay for as long as a kept page needs them.
 * POST is never touched: what happens at the bench has its own way, through the outbox.
 */
"use strict";

/** @typedef {any} FetchEvent the type library of pages does not know the workers' own */
const worker = /** @type {any} */ (self);
const { edition, shell, fallback, kept } = worker.SOAPBENCH;
const SHELL = `shell ${edition}`;
const PAGES = `pages ${edition}`;
const PATIENCE_MS = 3000; // after so long a kept page is better than a slow one
const RUN = /^\/(bench|rack|logbook)\/[0-9a-f-]{36}\/$/;
const LISTS = ["/", "/rack/", "/logbook/"];

worker.addEventListener("install", (/** @type {FetchEvent} */ event) => event.waitUntil(install()));
worker.addEventListener("activate", (/** @type {FetchEvent} */ event) => event.waitUntil(activate()));
worker.addEventListener("message", (/** @type {FetchEvent} */ event) => event.waitUntil(answer(event.data)));
worker.addEventListener("fetch", (/** @type {FetchEvent} */ event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== "GET" || url.origin !== worker.location.origin) return;
  if (shell.includes(url.pathname) || url.pathname.startsWith("/static/")) event.respondWith(file(event.request));
  else if (event.request.mode === "navigate") event.respondWith(page(event, url));
});

worker.addEventListener("notificationclick", (/** @type {FetchEvent} */ event) => {
  event.notification.close();
  event.waitUntil(worker.clients.openWindow(event.notification.data ?? "/"));
});

async function install() {
  const cache = await caches.open(SHELL);
  await cache.addAll(shell);
  await cache.add(new Request(fallback, { cache: "reload" }));
}

async function activate() {
  await dropOld();
  await worker.clients.claim();
}

/** @param {{type: string}} message */
async function answer({ type }) {
  if (type === "claim") await worker.clients.claim();
  if (type === "keep") await keepPages();
  if (type === "take over") {
    await keepPages(); // before the switch: a page of the old edition must not lose its files
    await worker.skipWaiting();
  }
}

/**
 * Return a file of the app: names carry a digest, so what is kept is right for ever.
 * @param {Request} request
 */
async function file(request) {
  return (await caches.match(request)) ?? fetch(request);
}

/**
 * Return a page: the network's when it comes in time, else the kept one, else the page that says why not.
 * @param {FetchEvent} event
 * @param {URL} url
 */
async function page(event, url) {
  const fresh = fetch(event.request).then((response) => keep(url, response));
  event.waitUntil(fresh.catch(() => {}));
  const old = await keptPage(url);
  if (!old) return fresh.catch(() => instead(url));
  return Promise.race([fresh.catch(() => old), later(PATIENCE_MS).then(() => old)]);
}

const later = (/** @type {number} */ milliseconds) => new Promise((done) => setTimeout(done, milliseconds));
const isKept = (/** @type {string} */ path) => RUN.test(path) || LISTS.includes(path);

/**
 * Keep a page of this edition for the day without a network; redirects, errors and sign-in pages are never kept.
 * @param {URL} url
 * @param {Response} response
 */
async function keep(url, response) {
  const isPage = response.ok && !response.redirected && response.type === "basic";
  const isOurs = response.headers.get("X-Soapbench-Edition") === edition;
  if (isPage && !isOurs) worker.registration.update().catch(() => {});
  if (isPage && isOurs && isKept(url.pathname)) {
    const cache = await caches.open(PAGES);
    await cache.put(url.pathname, response.clone()).catch(() => {}); // a full disk must not spoil the answer
  }
  return response;
}

/**
 * Return the kept page of an address, this edition's before an older one's.
 * @param {URL} url
 */
async function keptPage(url) {
  if (!isKept(url.pathname) || url.searchParams.has("start")) return undefined;
  const own = await (await caches.open(PAGES)).match(url.pathname);
  return own ?? caches.match(url.pathname);
}

/**
 * Return what stands in for a page that is not kept: the open run for the start, else an honest page.
 * @param {URL} url
 */
async function instead(url) {
  if (url.searchParams.has("start")) {
    const list = await keptList();
    return Response.redirect(list?.start ?? "/");
  }
  return (await caches.match(fallback)) ?? Response.error();
}

async function keptList() {
  return (await caches.match(kept))?.json();
}

/** Fetch every page that the server wants kept, and forget the pages of runs that it no longer names. */
async function keepPages() {
  const response = await fetch(kept, { credentials: "same-origin" }).catch(() => null);
  if (!response?.ok || response.redirected) return;
  const cache = await caches.open(PAGES);
  await cache.put(kept, response.clone());
  const { pages } = await response.json();
  for (const path of pages) await fetchPage(cache, path);
  await forget(new Set(pages));
  await dropOld();
}

/**
 * @param {Cache} cache
 * @param {string} path
 */
async function fetchPage(cache, path) {
  const page = await fetch(path, { credentials: "same-origin" }).catch(() => null);
  if (page?.ok && !page.redirected && page.headers.get("X-Soapbench-Edition") === edition) {
    await cache.put(path, page).catch(() => {});
  }
}

/** @param {Set<string>} wanted paths of the runs to keep */
async function forget(wanted) {
  for (const name of await caches.keys()) {
    if (!name.startsWith("pages ")) continue;
    const cache = await caches.open(name);
    for (const { url } of await cache.keys()) {
      const { pathname } = new URL(url);
      if (RUN.test(pathname) && !wanted.has(pathname)) await cache.delete(pathname);
    }
  }
}

/** Delete the caches of an older edition once every page in them is kept in this one. */
async function dropOld() {
  const own = new Set((await (await caches.open(PAGES)).keys()).map(({ url }) => url));
  const names = await caches.keys();
  for (const name of names.filter((each) => each.startsWith("pages ") && each !== PAGES)) {
    const left = (await (await caches.open(name)).keys()).filter(({ url }) => !own.has(url));
    if (left.length === 0) await caches.delete(name);
  }
  const needed = new Set([SHELL, ...(await caches.keys()).map((name) => name.replace(/^pages /, "shell "))]);
  for (const name of names) if (name.startsWith("shell ") && !needed.has(name)) await caches.delete(name);
}
