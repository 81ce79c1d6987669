/**
 * Tones and vibration. A browser lets a page sound only after a first tap; `unlock` is called with every one.
 */

/** @type {AudioContext | null} */
let audio = null;

export function unlock() {
  audio ??= "AudioContext" in window ? new AudioContext() : null;
  if (audio?.state === "suspended") audio.resume();
}

/**
 * @param {number} pulses
 * @param {number} hertz between 600 and 1500, so that a blender does not hide it
 */
export function ring(pulses = 3, hertz = 880) {
  navigator.vibrate?.(Array.from({ length: pulses * 2 - 1 }, (_, index) => (index % 2 ? 150 : 250)));
  if (!audio || audio.state !== "running") return;
  for (let pulse = 0; pulse < pulses; pulse += 1) {
    const [tone, volume] = [audio.createOscillator(), audio.createGain()];
    const begin = audio.currentTime + pulse * 0.4;
    tone.frequency.value = hertz;
    volume.gain.setValueAtTime(0.4, begin);
    volume.gain.exponentialRampToValueAtTime(0.001, begin + 0.3);
    tone.connect(volume).connect(audio.destination);
    tone.start(begin);
    tone.stop(begin + 0.3);
  }
}
