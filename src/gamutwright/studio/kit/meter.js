// @ts-check
// How loud the microphone is, in decibels of full scale: the peak of what is heard, the highest of the last moments, and
// a lamp that lights where samples really stood at full scale, and stays lit until it is put out.

import { decibels } from "./recorder.js";
import { txt } from "./words.js";

const LOWEST = -60, FALL_DB_S = 24, HOLD_MS = 1500, MARKS = [-40, -20, -12, -6, 0];

export class Meter {
  /** @param {HTMLElement} place */
  constructor(place) {
    this.bar = document.createElement("div");
    this.bar.className = "level-bar";
    this.held = document.createElement("div");
    this.held.className = "level-held";
    const scale = document.createElement("div");
    scale.className = "level-scale";
    for (const mark of MARKS) {
      const at = document.createElement("span");
      at.textContent = String(mark).replace("-", "−");
      at.style.setProperty("left", `${share(mark)}%`);
      scale.append(at);
    }
    this.track = document.createElement("div");
    this.track.className = "level-track";
    this.track.append(this.bar, this.held);
    for (const [key, value] of [["role", "meter"], ["aria-label", txt("Level of the microphone")], ["aria-valuemin", String(LOWEST)], ["aria-valuemax", "0"]]) {
      this.track.setAttribute(key, value);
    }
    place.replaceChildren(this.track, scale);
    this.now = this.highest = -100;
    this.since = 0;
    this.rest();
  }

  /** Show that nothing is heard, because the microphone is off. */
  rest() {
    this.now = this.highest = -100;
    this.since = 0;
    this.show("off");
  }

  /** @param {{peak: number, seconds: number}} level */
  add({ peak, seconds }) {
    const db = decibels(peak);
    this.now = Math.max(db, this.now - FALL_DB_S * seconds);
    const time = performance.now();
    if (db >= this.highest || time - this.since > HOLD_MS) {
      this.highest = db;
      this.since = time;
    }
    this.show(`${Math.round(Math.max(LOWEST, this.highest))} dB`.replace("-", "−"));
  }

  /** @param {string} text */
  show(text) {
    this.bar.style.setProperty("width", `${share(this.now)}%`);
    this.held.style.setProperty("left", `${share(this.highest)}%`);
    this.held.hidden = this.highest <= LOWEST;
    this.track.setAttribute("aria-valuenow", String(Math.round(Math.max(LOWEST, Math.min(0, this.now)))));
    this.track.setAttribute("aria-valuetext", text);
  }
}

/** @param {number} db @returns {number} per cent of the scale */
const share = (db) => Math.max(0, Math.min(100, (100 * (db - LOWEST)) / -LOWEST));
