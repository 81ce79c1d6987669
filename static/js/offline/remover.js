/** The worker that takes every earlier one away, with all that it kept: the way out, should a worker ever do harm. */
"use strict";

const gone = /** @type {any} */ (self);
gone.addEventListener("install", () => gone.skipWaiting());
gone.addEventListener("activate", (/** @type {any} */ event) =>
  event.waitUntil(
    (async () => {
      for (const name of await caches.keys()) await caches.delete(name);
      await gone.registration.unregister();
      for (const client of await gone.clients.matchAll({ type: "window" })) client.navigate(client.url);
    })(),
  ),
);
