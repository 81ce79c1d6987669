/**
 * Second taps that nobody meant: the same control within 350 ms, the next step within 800 ms.
 */

export const SAME_MS = 350;
export const NEXT_MS = 800;

/**
 * Return a gate that answers whether a tap counts. A step that appeared under the finger waits 800 ms.
 * @returns {{takes: (control: string, now: number) => boolean, moved: (now: number) => void}}
 */
export function tapGate() {
  /** @type {Map<string, number>} */
  const last = new Map();
  let movedAt = -Infinity;
  return {
    takes(control, now) {
      const isTooSoon = now - (last.get(control) ?? -Infinity) < SAME_MS || now - movedAt < NEXT_MS;
      if (!isTooSoon) last.set(control, now);
      return !isTooSoon;
    },
    moved(now) {
      movedAt = now;
    },
  };
}
