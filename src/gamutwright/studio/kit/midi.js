// @ts-check
// A MIDI keyboard sets the scale: the first tone is the root, every further one is added. After three seconds in which
// no key is held, the next tone begins another scale.
// Bytes as in MIDI 1.0, detailed specification: 0x9n note on, 0x8n note off, note on with velocity 0 is note off; from memory.

import { txt } from "./words.js";

const PAUSE_MS = 3000;

/** @param {Uint8Array} bytes one whole message @returns {{note: number, isOn: boolean} | null} */
export function read(bytes) {
  const kind = bytes[0] & 0xf0;
  if (bytes.length < 3 || (kind !== 0x90 && kind !== 0x80) || bytes[1] > 127) return null;
  return { note: bytes[1], isOn: kind === 0x90 && bytes[2] > 0 };
}

/** Gathers the tones that are played. */
export class Gathering {
  constructor() {
    /** @type {Set<number>} */ this.held = new Set();
    /** @type {Set<number>} */ this.tones = new Set();
    this.root = -1;
    this.quietSince = 0;
  }

  /**
   * @param {{note: number, isOn: boolean}} message
   * @param {number} at milliseconds
   * @returns {{root: number, tones: Set<number>, isNew: boolean} | null} the scale now, where it has changed
   */
  take({ note, isOn }, at) {
    if (!isOn) {
      if (this.held.delete(note) && !this.held.size) this.quietSince = at;
      return null;
    }
    const isNew = this.root < 0 || (!this.held.size && at - this.quietSince >= PAUSE_MS);
    this.held.add(note);
    if (isNew) {
      this.root = note % 12;
      this.tones = new Set();
    }
    const tone = (note - this.root + 120) % 12, had = this.tones.has(tone);
    this.tones.add(tone);
    return had ? null : { root: this.root, tones: new Set(this.tones), isNew };
  }
}

/**
 * @param {HTMLButtonElement} button
 * @param {HTMLElement} said
 * @param {(played: {root: number, tones: Set<number>, isNew: boolean}) => void} onPlayed
 */
export function listen(button, said, onPlayed) {
  const navigator_ = /** @type {any} */ (navigator);
  if (!navigator_.requestMIDIAccess) {
    said.textContent = txt("This browser cannot listen to a MIDI keyboard.");
    return;
  }
  button.hidden = false;
  /** @type {any} */ let access = null;
  const show = () => {
    button.textContent = access ? txt("Stop listening") : txt("Listen to a MIDI keyboard");
    if (!access) { said.textContent = ""; return; }
    const names = [...access.inputs.values()].map((input) => input.name || txt("a keyboard without a name"));
    said.textContent = names.length
      ? txt`Listening to ${names.join(", ")}. The first tone is the root, every further one is added; after three seconds of rest the next begins another scale.`
      : txt("No MIDI keyboard is connected. Plug one in: it is heard at once.");
  };
  /** @type {Gathering} */ let gathering = new Gathering();
  const attend = () => {
    for (const input of access.inputs.values()) {
      input.onmidimessage = (/** @type {{data: Uint8Array, timeStamp: number}} */ event) => {
        const message = event.data && read(event.data), played = message && gathering.take(message, event.timeStamp);
        if (played) onPlayed(played);
      };
    }
    show();
  };
  button.addEventListener("click", async () => {
    if (access) {
      for (const input of access.inputs.values()) input.onmidimessage = null;
      access.onstatechange = null;
      access = null;
      show();
      return;
    }
    try {
      access = await navigator_.requestMIDIAccess({ sysex: false });
    } catch {
      said.textContent = txt("The browser was not allowed to listen to MIDI keyboards. Allow it beside the address, then try again.");
      return;
    }
    gathering = new Gathering();
    // A keyboard that was unplugged holds no keys.
    access.onstatechange = () => { gathering.held.clear(); attend(); };
    attend();
  });
}
