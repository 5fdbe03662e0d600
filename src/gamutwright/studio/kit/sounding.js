// @ts-check
// Playing tones: soft, one gain for all, and never louder than a fixed level.

const LEVEL = 0.16, HELD = 0.05, ATTACK_S = 0.012, RELEASE_S = 0.12, SOFTLY_S = 0.15;
/** @type {AudioContext | undefined} */ let audio;
/** @type {AudioNode[]} */ let playing = [];

/**
 * Play tones one after another, or several at once.
 * @param {number[][]} chords frequencies that sound together, in turn
 * @param {number} [each] seconds for each
 * @param {(index: number) => void} [told] told which is heard, -1 at the end
 */
export function play(chords, each = 0.42, told = () => {}) {
  const context = audio ??= new AudioContext();
  context.resume();
  hush();
  const start = context.currentTime + 0.05, out = context.createGain();
  out.gain.value = LEVEL;
  out.connect(context.destination);
  playing.push(out);
  chords.forEach((chord, index) => {
    const begin = start + index * each;
    for (const hz of chord) {
      const tone = context.createOscillator(), shape = context.createGain();
      tone.type = "triangle";
      tone.frequency.value = hz;
      shape.gain.setValueAtTime(0, begin);
      shape.gain.linearRampToValueAtTime(1 / Math.max(2, chord.length), begin + ATTACK_S);
      shape.gain.setTargetAtTime(0, begin + each - RELEASE_S, RELEASE_S / 3);
      tone.connect(shape).connect(out);
      tone.start(begin);
      tone.stop(begin + each + RELEASE_S);
    }
    later.push(setTimeout(() => told(index), (begin - context.currentTime) * 1000));
  });
  later.push(setTimeout(() => told(-1), (start + chords.length * each - context.currentTime) * 1000));
}

/** @type {number[]} */ let later = [];

/** End what sounds. */
export function hush() {
  later.forEach(clearTimeout);
  later = [];
  playing.forEach((node) => node.disconnect());
  playing = [];
}

/** @type {{tone: OscillatorNode, shape: GainNode} | null} */ let held = null;

/**
 * Hold a tone below whatever is played, softly; it goes on until another is held, or none.
 * @param {number | null} hz
 */
export function hold(hz) {
  if (hz === null) {
    if (!held || !audio) return;
    const { tone, shape } = held;
    held = null;
    shape.gain.setTargetAtTime(0, audio.currentTime, SOFTLY_S / 3);
    tone.stop(audio.currentTime + 2 * SOFTLY_S);
    return;
  }
  audio ??= new AudioContext();
  audio.resume();
  if (held) { held.tone.frequency.setTargetAtTime(hz, audio.currentTime, SOFTLY_S / 3); return; }
  const tone = audio.createOscillator(), shape = audio.createGain();
  tone.type = "triangle";
  tone.frequency.value = hz;
  shape.gain.setValueAtTime(0, audio.currentTime);
  shape.gain.linearRampToValueAtTime(HELD, audio.currentTime + SOFTLY_S);
  tone.connect(shape).connect(audio.destination);
  tone.start();
  held = { tone, shape };
}
