/**
 * Every page: starts the service worker, asks it now and then to keep the open runs, and offers a new edition.
 * A new edition never replaces the old one by itself: it waits until somebody taps, and never at a run.
 */
const KEEP_EVERY_MS = 5 * 60_000;
const AGAIN_MS = 10_000;
const notice = document.querySelector("[data-new-edition]");

/** @param {ServiceWorkerRegistration} registration */
function offer(registration) {
  if (document.querySelector("[data-run]")) return; // the batch goes on with the version that it began with
  const waiting = registration.waiting;
  if (!waiting || !navigator.serviceWorker.controller || !(notice instanceof HTMLElement)) return;
  notice.hidden = false;
  notice.querySelector("button")?.addEventListener("click", () => {
    navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
    waiting.postMessage({ type: "take over" });
  });
}

/** @param {ServiceWorkerRegistration} registration */
function watch(registration) {
  offer(registration);
  attend(registration);
  registration.addEventListener("updatefound", () => attend(registration));
}

/**
 * See a worker through its installing; one that could not fetch every file is tried again.
 * @param {ServiceWorkerRegistration} registration
 */
function attend(registration) {
  const coming = registration.installing;
  coming?.addEventListener("statechange", () => {
    if (coming.state === "installed") offer(registration);
    if (coming.state === "redundant" && !registration.active) setTimeout(start, AGAIN_MS);
  });
}

function start() {
  navigator.serviceWorker.register("/sw.js").then(watch, () => {}); // without it the app works, only not offline
}

async function keepNowAndThen() {
  const { active } = await navigator.serviceWorker.ready;
  // A page that was loading while the worker took over belongs to none yet.
  if (!navigator.serviceWorker.controller) active?.postMessage({ type: "claim" });
  const last = Number(localStorage.getItem("kept-at") ?? 0);
  if (!active || Date.now() - last < KEEP_EVERY_MS) return;
  localStorage.setItem("kept-at", String(Date.now()));
  active.postMessage({ type: "keep" });
}

if ("serviceWorker" in navigator) {
  start();
  keepNowAndThen().catch(() => {});
}
