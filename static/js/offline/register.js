/**
 * Every page: starts the service worker, asks it now and then to keep the open runs, and offers a new edition.
 * A new edition never replaces the old one by itself: it waits until somebody taps, and never at a run.
 */
const KEEP_EVERY_MS = 5 * 60_000;
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
  registration.addEventListener("updatefound", () => {
    const coming = registration.installing;
    coming?.addEventListener("statechange", () => coming.state === "installed" && offer(registration));
  });
}

async function keepNowAndThen() {
  const { active } = await navigator.serviceWorker.ready;
  const last = Number(localStorage.getItem("kept-at") ?? 0);
  if (!active || Date.now() - last < KEEP_EVERY_MS) return;
  localStorage.setItem("kept-at", String(Date.now()));
  active.postMessage({ type: "keep" });
}

if ("serviceWorker" in navigator) {
  navigator.serviceWorker.register("/sw.js").then(watch, () => {}); // without it the app works, only not offline
  keepNowAndThen().catch(() => {});
}
