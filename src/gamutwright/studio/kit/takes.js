// @ts-check
// The takes of a line: what each is like, and one heard against another.

import { spell } from "./prompter.js";
import { txt } from "./words.js";

/** @typedef {import("./prompter.js").Line} Line */
/** @typedef {import("./prompter.js").Take} Take */

const $ = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));
const signed = (/** @type {number} */ value) => value.toFixed(1).replace("-", "−");

/** @param {Take} take @returns {string} */
function verdict(take) {
  return txt`${spell(take.seconds)}, ${Math.round(take.words_per_minute)} words a minute, ${signed(take.loudness_lufs)} LUFS, `
    + txt`peak ${signed(take.peak_dbtp)} dB, noise ${signed(take.noise_dbfs)} dB`;
}

/** @param {Take} take @returns {string[]} each with what to do */
export const faultsOf = (take) => take.faults.map(({ name, advice }) => `${name[0].toUpperCase()}${name.slice(1)}. ${advice}`);

/** @param {string} text @param {string} name @param {() => void} act */
function button(text, name, act) {
  const made = document.createElement("button");
  made.type = "button";
  made.className = "quiet";
  made.textContent = text;
  made.setAttribute("aria-label", `${text}: ${name}`);
  made.addEventListener("click", act);
  return made;
}

/** @param {string} kind @param {string} text @param {string} [className] */
function told(kind, text, className = "") {
  const made = document.createElement(kind);
  made.textContent = text;
  made.className = className;
  return made;
}

/**
 * @param {Line} line
 * @param {{play: (take: number) => void, compare: (take: number) => void, choose: (take: number) => void, discard: (take: number) => void, restore: (take: number) => void}} deeds
 */
export function listTakes(line, deeds) {
  const list = document.createElement("ol");
  list.className = "takes";
  for (const take of [...line.takes].reverse()) {
    const name = txt`take ${take.number}`, isChosen = take.number === line.chosen, item = document.createElement("li");
    item.dataset.take = String(take.number);
    item.classList.toggle("chosen", isChosen);
    item.append(told("strong", txt`Take ${take.number}${isChosen ? ", chosen" : ""}`), told("span", verdict(take), "hint"));
    if (take.is_stale) item.append(told("span", txt`Stale. It says: “${take.said}”`, "fault"));
    for (const fault of faultsOf(take)) item.append(told("span", fault, "fault"));
    if (!take.is_stale && !take.faults.length) item.append(told("span", txt("Nothing is wrong with it."), "good"));
    const row = document.createElement("span");
    row.className = "deeds";
    row.append(button(txt("Play"), name, () => deeds.play(take.number)));
    if (!isChosen) {
      row.append(button(txt("Choose"), name, () => deeds.choose(take.number)));
      row.append(button(txt("Compare"), txt`${name} with the chosen one`, () => deeds.compare(take.number)));
    }
    row.append(button(txt("Throw away"), name, () => deeds.discard(take.number)));
    item.append(row);
    list.append(item);
  }
  const away = line.discarded.map((take) => button(txt`Take back ${take.number}`, txt`thrown away, ${spell(take.seconds)}`, () => deeds.restore(take.number)));
  const bin = document.createElement("p");
  bin.className = "deeds";
  bin.append(told("span", txt("Thrown away:"), "hint"), ...away);
  $("takes").replaceChildren(...(line.takes.length ? [list] : [told("p", txt("There is none yet."), "hint")]), ...(away.length ? [bin] : []));
}

/** Plays takes, one after another where two are compared, and changes from one to the other in the middle. */
export class Player {
  /** @param {(why: string) => void} say */
  constructor(say) {
    /** @type {HTMLAudioElement} */ this.sound = $("sound");
    this.say = say;
    /** @type {Map<string, Promise<string>>} */ this.known = new Map();
    /** @type {{path: string, name: string}[]} */ this.pair = [];
    this.at = 0;
    this.sound.addEventListener("ended", () => { if (this.pair.length && this.at === 0) this.turn(1, 0); });
    $("switch").addEventListener("click", () => this.swap());
  }

  get isPlaying() { return !this.sound.paused && !this.sound.ended; }

  stop() {
    this.sound.pause();
    this.pair = [];
    $("comparing").hidden = true;
  }

  /** Forget the sounds of a line. */
  forget() {
    this.stop();
    for (const url of this.known.values()) url.then((one) => URL.revokeObjectURL(one), () => {});
    this.known.clear();
    this.sound.hidden = true;
    this.sound.removeAttribute("src");
    delete this.sound.dataset.name;
  }

  /** @param {string} path @returns {Promise<string>} */
  fetched(path) {
    let url = this.known.get(path);
    if (!url) {
      url = fetch(path).then(async (answer) => {
        if (!answer.ok) throw new Error(txt("This take cannot be played. Load the page again."));
        return URL.createObjectURL(await answer.blob());
      });
      url.catch(() => this.known.delete(path));
      this.known.set(path, url);
    }
    return url;
  }

  /** @param {string} path @param {string} name @param {number} [from] seconds */
  async play(path, name, from = 0) {
    try {
      const url = path.startsWith("blob:") ? path : await this.fetched(path);
      if (this.sound.src !== url) this.sound.src = url;
      this.sound.hidden = false;
      this.sound.dataset.name = name;
      this.sound.setAttribute("aria-label", name);
      this.sound.currentTime = from;
      await this.sound.play();
    } catch (error) {
      if (error instanceof DOMException && error.name === "AbortError") return;
      this.say(error instanceof Error ? error.message : String(error));
    }
  }

  /** @param {{path: string, name: string}} first @param {{path: string, name: string}} second */
  async compare(first, second) {
    this.stop();
    await Promise.all([this.fetched(first.path), this.fetched(second.path)]).catch(() => {});
    this.pair = [first, second];
    $("comparing").hidden = false;
    await this.turn(0, 0);
  }

  /** @param {number} which @param {number} from */
  async turn(which, from) {
    this.at = which;
    $("heard").textContent = txt`Now: ${this.pair[which].name}.`;
    await this.play(this.pair[which].path, this.pair[which].name, from);
  }

  /** Go on with the other take where this one is. */
  swap() { if (this.pair.length) this.turn(1 - this.at, this.sound.ended ? 0 : this.sound.currentTime); }

  /** @param {string} path @param {string} name play it, or pause where it is playing */
  toggle(path, name) {
    if (this.isPlaying) this.sound.pause();
    else if (this.sound.dataset.name === name && this.sound.src && !this.sound.ended && this.sound.currentTime > 0) this.sound.play();
    else { this.stop(); this.play(path, name); }
  }
}
