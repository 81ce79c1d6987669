/**
 * A breath between two pieces of work, in which a slow phone takes taps and draws.
 */

/** @returns {Promise<void>} once the browser has done what waited; a message comes sooner than a timer would */
export function breath() {
  return new Promise((go) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => {
      port1.close();
      go();
    };
    port2.postMessage(null);
  });
}
