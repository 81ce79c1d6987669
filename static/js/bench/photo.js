/**
 * A photo made small on the phone, before it is kept: at most 1600 px, JPEG, nothing but pixels. A page's canvas takes
 * neither the place nor the camera over.
 */

export const LONGEST_SIDE = 1600;
const QUALITY = 0.82;

/**
 * @param {number} width px
 * @param {number} height px
 * @returns {[number, number]} the size to draw it in, never larger than it is
 */
export function fitted(width, height) {
  const scale = Math.min(1, LONGEST_SIDE / Math.max(width, height));
  return [Math.max(1, Math.round(width * scale)), Math.max(1, Math.round(height * scale))];
}

/**
 * @param {Blob} file
 * @returns {Promise<import("./types.js").FileKept>}
 */
export async function shrunk(file) {
  const image = await createImageBitmap(file, { imageOrientation: "from-image" });
  const canvas = document.createElement("canvas");
  [canvas.width, canvas.height] = fitted(image.width, image.height);
  canvas.getContext("2d")?.drawImage(image, 0, 0, canvas.width, canvas.height);
  image.close();
  const blob = await new Promise((/** @type {(blob: Blob | null) => void} */ resolve) => canvas.toBlob(resolve, "image/jpeg", QUALITY));
  if (!blob) throw new Error("The canvas gave no picture.");
  return { bytes: await blob.arrayBuffer(), media: "image/jpeg" };
}
