// @ts-check
// Recording a line: the microphone with its choices and its meter, the count, and what is gathered after it.

import { Meter } from "./meter.js";
import { kept } from "./prompter.js";
import { decibels, measured, Microphone, microphones } from "./recorder.js";
import { toWave } from "./wave.js";
import { txt } from "./words.js";

/** @typedef {import("./outbox.js").Outbox} Outbox */
/** @typedef {import("./outbox.js").Recording} Recording */
/** @typedef {import("./prompter.js").Line} Line */

const $ = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));
const BEAT_MS = 700, TEST_MS = 3000, SILENT_DB = -60, SILENT_S = 1.5, MARGIN_S = 2, LARGEST = 64e6;
const pause = (/** @type {number} */ ms) => new Promise((resolve) => setTimeout(resolve, ms));

export class Session {
  /** idle, opening, counting, recording, ending or testing */ phase = "idle";
  /** Told when the phase changes. */ onphase = () => {};
  /** Told in words. @type {(text: string) => void} */ say = () => {};
  /** Given what was recorded, and its highest peak in dB. @type {(recording: Recording, peak: number) => void} */ ondone = () => {};
  /** Seconds that the line lasts at the teacher's pace. */ expected = 5;
  longest = 300;
  microphone = new Microphone();
  meter = new Meter($("level"));
  /** @type {ReturnType<Outbox["begin"]> | undefined} */ #running;
  #peak = 0;
  #loudest = 0;
  #silent = 0;

  /** @param {Outbox} outbox @param {(blob: Blob) => void} listen plays a test */
  constructor(outbox, listen) {
    this.outbox = outbox;
    this.listen = listen;
    $("processed").checked = kept("speak processed") === "yes";
    $("click").checked = kept("speak click") === "yes";
    $("countin").value = kept("speak count") || "3";
    $("processed").addEventListener("change", () => { kept("speak processed", $("processed").checked ? "yes" : ""); this.#again(); });
    $("click").addEventListener("change", () => kept("speak click", $("click").checked ? "yes" : ""));
    $("countin").addEventListener("change", () => kept("speak count", $("countin").value));
    $("device").addEventListener("change", () => { kept("speak device", $("device").value); this.#again(); });
    $("open").addEventListener("click", () => (this.microphone.isOpen ? this.#close() : this.#open(true)));
    $("test").addEventListener("click", () => this.test());
    $("lamp").addEventListener("click", () => this.#light(false));
    this.microphone.onlevel = (level) => this.#heard(level);
    this.microphone.onlost = (why) => { this.#shown(); this.stop(); this.say(txt`${why} What was recorded is kept.`); };
    navigator.mediaDevices?.addEventListener("devicechange", () => this.#list());
    this.#list();
  }

  get isBusy() { return this.phase !== "idle"; }

  /** @param {string} phase */
  #enter(phase) { this.phase = phase; this.onphase(); }

  // --- the microphone ---

  async #list() {
    const all = await microphones(), wanted = kept("speak device");
    $("device").replaceChildren(new Option(txt("The system’s choice"), ""), ...all.filter((one) => one.id !== "default").map((one) => new Option(one.name, one.id)));
    $("device").value = all.some((one) => one.id === wanted) ? wanted : "";
  }

  /** @param {boolean} [isAsked] whether it was asked for by itself @returns {Promise<boolean>} whether it is open */
  async #open(isAsked = false) {
    if (this.microphone.isOpen) return true;
    this.#enter("opening");
    try {
      const told = await this.microphone.open(kept("speak device"), $("processed").checked);
      this.say(told || (isAsked ? txt("The microphone is on.") : ""));
      await this.#list();
    } catch (error) {
      this.say(error instanceof Error ? error.message : String(error));
    }
    this.#enter("idle");
    this.#shown();
    return this.microphone.isOpen;
  }

  #close() {
    this.microphone.close();
    this.#shown();
  }

  async #again() {
    if (this.isBusy || !this.microphone.isOpen) return;
    this.microphone.close();
    await this.#open(true);
  }

  #shown() {
    $("open").textContent = this.microphone.isOpen ? txt("Turn it off") : txt("Turn it on");
    if (!this.microphone.isOpen) this.meter.rest();
  }

  /** @param {import("./recorder.js").Level} level */
  #heard(level) {
    this.meter.add(level);
    this.#peak = Math.max(this.#peak, level.peak);
    this.#loudest = Math.max(this.#loudest, level.peak);
    if (level.clipped) this.#light(true);
    if (this.phase !== "recording" || !this.#running) return;
    const seconds = this.#running.recording.seconds;
    $("gone").style.setProperty("width", `${Math.min(100, (100 * seconds) / Math.max(0.5, this.expected))}%`);
    // A muted microphone is told of while there is still time, by signs alone: a voice would be recorded.
    this.#silent = decibels(level.peak) < SILENT_DB ? this.#silent + level.seconds : 0;
    $("stand").classList.toggle("deaf", this.#silent > SILENT_S && decibels(this.#loudest) < SILENT_DB);
    if (seconds > Math.min(this.longest, LARGEST / 3 / this.microphone.rate) - MARGIN_S) this.stop();
  }

  /** @param {boolean} isLit */
  #light(isLit) {
    const lamp = $("lamp");
    if (lamp.classList.contains("lit") === isLit) return;
    lamp.classList.toggle("lit", isLit);
    lamp.disabled = !isLit;
    lamp.textContent = isLit ? txt("Clipped: turn the level down") : txt("not clipped");
  }

  /** Record three seconds, say what was heard and play them; they go nowhere. */
  async test() {
    if (this.isBusy || !await this.#open()) return;
    this.#enter("testing");
    this.say(txt("Say something …"));
    /** @type {Float32Array[]} */ const pieces = [];
    this.microphone.begin((piece) => pieces.push(piece));
    await pause(TEST_MS);
    const rate = this.microphone.rate;
    await this.microphone.end();
    const peak = Math.max(0, ...pieces.map((piece) => measured(piece).peak)), db = Math.round(decibels(peak));
    const heard = db < SILENT_DB ? txt("Nothing is heard. Is the microphone muted, or is it the wrong one?")
      : db < -30 ? txt("That is very soft: go nearer, or turn the level up.")
      : db > -1 ? txt("That is too loud: turn the level down.") : txt("That is a good level.");
    this.say(txt`${heard} The peak was ${String(db).replace("-", "−")} dB. You hear it now.`);
    this.#enter("idle");
    if (db >= SILENT_DB) this.listen(toWave(pieces, rate));
  }

  // --- a recording ---

  /** @param {Line} line */
  async start(line) {
    if (this.isBusy || !await this.#open()) return;
    this.#light(false);
    this.#enter("counting");
    for (let beat = Number($("countin").value); beat > 0; beat -= 1) {
      $("count").textContent = String(beat);
      if ($("click").checked) this.microphone.click(beat === 1);
      await pause(BEAT_MS);
      if (this.phase !== "counting") return;
    }
    $("count").textContent = "";
    if (!this.microphone.isOpen) { this.#enter("idle"); return; }
    this.#peak = this.#loudest = this.#silent = 0;
    const running = this.outbox.begin(line.id, line.text, this.microphone.rate);
    this.#running = running;
    this.microphone.begin((piece) => {
      this.#peak = Math.max(this.#peak, measured(piece).peak);
      running.add(piece);
    });
    this.#enter("recording");
  }

  /** End the count, or the recording. */
  async stop() {
    if (this.phase === "counting") {
      $("count").textContent = "";
      this.#enter("idle");
      this.say(txt("Not recorded."));
    }
    if (this.phase !== "recording" || !this.#running) return;
    this.#enter("ending");
    await this.microphone.end();
    const { recording, keep } = this.#running;
    keep();
    this.#running = undefined;
    $("gone").style.setProperty("width", "0");
    $("stand").classList.remove("deaf");
    this.#enter("idle");
    this.ondone(recording, Math.round(decibels(this.#peak)));
  }

  /** Put away what is not put away yet; the page is being left. */
  hold() { this.#running?.keep(); }
}
