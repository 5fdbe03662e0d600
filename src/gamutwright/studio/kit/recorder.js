// @ts-check
// The microphone: opened as raw as the browser gives it, measured all the time, gathered while a line is recorded.
//
// Samples are numbers from -1 to 1; levels are peaks in decibels of full scale. A recording begins a fifth of a second
// before it is asked for, so that whoever comes in early keeps the first word.

import { txt } from "./words.js";

/** @typedef {{peak: number, clipped: boolean, seconds: number}} Level */

const RATE_HZ = 48_000, BEFORE_S = 0.2;
/** Three samples in a row at full scale are no accident: the recorder could not take more. */
const FULL = 0.998, RUN = 3;

/** @param {unknown} error @returns {string} what to tell the teacher */
function inWords(error) {
  const name = error instanceof DOMException ? error.name : "";
  if (name === "NotAllowedError" || name === "SecurityError") return txt("This browser does not let the studio use the microphone. Allow it beside the address, then try again.");
  if (name === "NotFoundError") return txt("No microphone is found. Plug one in, then try again.");
  if (name === "NotReadableError" || name === "AbortError") return txt("The microphone cannot be opened; another program may be using it.");
  return txt`The microphone cannot be opened (${error instanceof Error ? error.message : error}).`;
}

export class Microphone {
  /** Told of every piece that is heard. @type {(level: Level) => void} */ onlevel = () => {};
  /** Told in words when the microphone is gone. @type {(why: string) => void} */ onlost = () => {};
  /** @type {AudioContext | undefined} */ audio;
  /** @type {MediaStream | undefined} */ #stream;
  /** @type {AudioWorkletNode | undefined} */ #node;
  /** @type {Float32Array[]} */ #before = [];
  /** @type {((samples: Float32Array) => void) | undefined} */ #take;
  /** @type {(() => void) | undefined} */ #ended;

  get isOpen() { return Boolean(this.#stream); }

  get rate() { return this.audio?.sampleRate ?? RATE_HZ; }

  /** Which one is open. */
  get device() { return this.#stream?.getAudioTracks()[0]?.getSettings().deviceId ?? ""; }

  /**
   * @param {string} device "" for the system's choice
   * @param {boolean} isProcessed whether the browser may change the sound
   * @returns {Promise<string>} "" or what is to be told
   */
  async open(device, isProcessed) {
    this.close();
    if (!navigator.mediaDevices) throw new Error(txt("Open the studio at 127.0.0.1: browsers give no microphone to other addresses."));
    const sound = { channelCount: 1, echoCancellation: isProcessed, noiseSuppression: isProcessed, autoGainControl: isProcessed };
    let told = "";
    try {
      try {
        this.#stream = await navigator.mediaDevices.getUserMedia({ audio: device ? { ...sound, deviceId: { exact: device } } : sound });
      } catch (error) {
        // The one that was chosen last time may be unplugged.
        if (!device || !(error instanceof DOMException) || !["OverconstrainedError", "NotFoundError"].includes(error.name)) throw error;
        this.#stream = await navigator.mediaDevices.getUserMedia({ audio: sound });
        told = txt("The microphone chosen before is not there; another one is open.");
      }
      await this.#listen(this.#stream);
    } catch (error) {
      this.close();
      throw new Error(inWords(error), { cause: error });
    }
    return told;
  }

  /** @param {MediaStream} stream */
  async #listen(stream) {
    let source;
    try {
      this.audio = new AudioContext({ sampleRate: RATE_HZ, latencyHint: "interactive" });
      source = this.audio.createMediaStreamSource(stream);
    } catch {
      // Some browsers do not change the rate of a microphone.
      await this.audio?.close();
      this.audio = new AudioContext();
      source = this.audio.createMediaStreamSource(stream);
    }
    await this.audio.audioWorklet.addModule(new URL("./gathering-worklet.js", import.meta.url));
    const node = new AudioWorkletNode(this.audio, "gathering", { channelCount: 1, channelCountMode: "explicit" });
    node.port.onmessage = (event) => this.#heard(event.data);
    source.connect(node);
    // Nothing is sent out, but a node without a way out may be left aside.
    const mute = this.audio.createGain();
    mute.gain.value = 0;
    node.connect(mute).connect(this.audio.destination);
    this.#node = node;
    await this.audio.resume();
    for (const track of stream.getAudioTracks()) {
      track.addEventListener("ended", () => { if (this.#stream === stream) { this.close(); this.onlost(txt("The microphone is gone.")); } });
    }
  }

  close() {
    for (const track of this.#stream?.getTracks() ?? []) track.stop();
    this.audio?.close();
    this.#stream = this.#node = this.audio = undefined;
    this.#before = [];
    this.#ended?.();
  }

  /** @param {{samples: Float32Array, isLast: boolean}} piece */
  #heard({ samples, isLast }) {
    if (samples.length) {
      this.#take?.(samples);
      this.#before.push(samples);
      while (this.#before.length * 2048 > BEFORE_S * this.rate + 2048) this.#before.shift();
      this.onlevel({ ...measured(samples), seconds: samples.length / this.rate });
    }
    if (isLast) this.#ended?.();
  }

  /** Begin to gather. @param {(samples: Float32Array) => void} take given every piece */
  begin(take) {
    for (const samples of this.#before) take(samples);
    this.#take = take;
  }

  /** Give what is still on the way, and stop gathering. @returns {Promise<void>} */
  async end() {
    if (this.#node) {
      await new Promise((resolve) => {
        this.#ended = () => resolve(undefined);
        setTimeout(resolve, 500);
        this.#node?.port.postMessage("all");
      });
    }
    this.#take = this.#ended = undefined;
  }

  /**
   * A soft click that counts in: far below full scale, and short.
   * @param {boolean} isLast
   */
  click(isLast) {
    if (!this.audio) return;
    const tone = this.audio.createOscillator(), shape = this.audio.createGain(), now = this.audio.currentTime;
    tone.frequency.value = isLast ? 880 : 660;
    shape.gain.setValueAtTime(0, now);
    shape.gain.linearRampToValueAtTime(CLICK, now + 0.005);
    shape.gain.setTargetAtTime(0, now + 0.02, 0.01);
    tone.connect(shape).connect(this.audio.destination);
    tone.start(now);
    tone.stop(now + 0.1);
  }
}

/** -28 dB of full scale at its peak. */
export const CLICK = 0.04;

/** @param {Float32Array} samples @returns {{peak: number, clipped: boolean}} */
export function measured(samples) {
  let peak = 0, run = 0, clipped = false;
  for (const sample of samples) {
    const size = Math.abs(sample);
    if (size > peak) peak = size;
    run = size >= FULL ? run + 1 : 0;
    if (run >= RUN) clipped = true;
  }
  return { peak, clipped };
}

/** @param {number} size @returns {number} decibels of full scale, -100 for nothing */
export const decibels = (size) => (size > 1e-5 ? 20 * Math.log10(size) : -100);

/**
 * Microphones that are there; their names are known once one was opened.
 * @returns {Promise<{id: string, name: string}[]>}
 */
export async function microphones() {
  const all = await navigator.mediaDevices?.enumerateDevices() ?? [];
  return all.filter((one) => one.kind === "audioinput" && one.deviceId && one.deviceId !== "communications")
    .map((one, index) => ({ id: one.deviceId, name: one.label || txt`Microphone ${index + 1}` }));
}
