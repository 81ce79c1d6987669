/**
 * Ids of events, made on the device so that sending one twice is harmless.
 */

/** @returns {Uint8Array} sixteen random bytes; works on plain HTTP, where randomUUID does not exist */
function sixteenBytes() {
  return crypto.getRandomValues(new Uint8Array(16));
}

/**
 * Return a UUIDv7 (RFC 9562): 48 bits of milliseconds, then random bits, so that ids sort by time.
 * @param {number} [now] milliseconds since 1970
 * @param {Uint8Array} [bytes] sixteen random bytes
 * @returns {string}
 */
export function newId(now = Date.now(), bytes = sixteenBytes()) {
  const filled = Uint8Array.from(bytes);
  for (let index = 0; index < 6; index += 1) {
    filled[index] = Math.floor(now / 256 ** (5 - index)) % 256;
  }
  filled[6] = (filled[6] & 0x0f) | 0x70;
  filled[8] = (filled[8] & 0x3f) | 0x80;
  const hex = Array.from(filled, (byte) => byte.toString(16).padStart(2, "0")).join("");
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join("-");
}
