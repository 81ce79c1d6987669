/**
 * A voice note: at most a minute, its level heard while it is spoken.
 */

export const MOST_MS = 60_000;
const MEDIA = ["audio/webm;codecs=opus", "audio/mp4", "audio/ogg;codecs=opus"];
const BITS_PER_SECOND = 32_000;
const LOOK_MS = 100;
const LOUDER = 3; // speech at arm's length fills about a third of what the microphone can tell

/**
 * @typedef {object} Recording
 * @property {() => void} stop ends it; what was said is kept
 * @property {() => void} drop ends it; nothing is kept
 * @property {Promise<import("./types.js").FileKept | null>} file null when it was dropped
 */

/** @returns {boolean} whether this page can ask for a microphone at all: no, without HTTPS */
export function mayRecord() {
  return Boolean(navigator.mediaDevices) && typeof MediaRecorder !== "undefined";
}

/**
 * @param {(elapsed: number, level: number) => void} onLook milliseconds, and how loud it is from 0 to 1
 * @returns {Promise<Recording>} rejects when the microphone is refused or absent
 */
export async function record(onLook) {
  const stream = await navigator.mediaDevices.getUserMedia({ audio: true });
  const mimeType = MEDIA.find((each) => MediaRecorder.isTypeSupported(each));
  const recorder = new MediaRecorder(stream, { mimeType, audioBitsPerSecond: BITS_PER_SECOND });
  const ear = levelOf(stream);
  const began = performance.now();
  const stop = () => void (recorder.state === "inactive" || recorder.stop());
  const look = setInterval(() => {
    onLook(performance.now() - began, ear.level());
    if (performance.now() - began >= MOST_MS) stop();
  }, LOOK_MS);
  let isDropped = false;
  const file = whole(recorder).then((blob) => (isDropped || !blob.size ? null : kept(blob)));
  const end = () => {
    clearInterval(look);
    ear.close();
    for (const track of stream.getTracks()) track.stop();
  };
  file.then(end, end);
  recorder.start();
  const drop = () => {
    isDropped = true;
    stop();
  };
  return { stop, drop, file };
}

/**
 * @param {MediaRecorder} recorder
 * @returns {Promise<Blob>}
 */
function whole(recorder) {
  /** @type {Blob[]} */
  const parts = [];
  return new Promise((resolve, reject) => {
    recorder.ondataavailable = ({ data }) => void parts.push(data);
    recorder.onerror = () => reject(new Error("The recording broke off."));
    recorder.onstop = () => resolve(new Blob(parts, { type: recorder.mimeType }));
  });
}

/**
 * @param {Blob} blob
 * @returns {Promise<import("./types.js").FileKept>}
 */
export async function kept(blob) {
  return { bytes: await blob.arrayBuffer(), media: blob.type.split(";")[0] };
}

/**
 * @param {MediaStream} stream
 * @returns {{level: () => number, close: () => void}}
 */
function levelOf(stream) {
  const context = new AudioContext();
  const ear = context.createAnalyser();
  context.createMediaStreamSource(stream).connect(ear);
  const samples = new Uint8Array(ear.fftSize);
  return {
    level() {
      ear.getByteTimeDomainData(samples);
      return Math.min(1, (LOUDER * Math.max(...samples.map((sample) => Math.abs(sample - 128)))) / 128);
    },
    close: () => void context.close(),
  };
}
