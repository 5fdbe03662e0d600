// @ts-check
// Recordings on their way to the studio: kept in this browser piece by piece while they are made, and until the studio
// has said that it has them. A reload, a crash of the browser or a studio that is gone loses nothing.
//
// A recording that is being made or sent is held by a lock of the tab that does so; one without a lock was left over,
// and is offered.

import { ask, Refused } from "./asking.js";
import { spell } from "./prompter.js";
import { toWave } from "./wave.js";
import { txt } from "./words.js";

/** @typedef {{name: string, slug: string, line: string, text: string, rate: number, begun: string, seconds: number, refused: string}} Recording */

const AGAIN_MS = 2000, GATHER = 10;
const lockOf = (/** @type {string} */ name) => `recording ${name}`;

/** @returns {Promise<IDBDatabase>} */
const opened = new Promise((resolve, reject) => {
  const wish = indexedDB.open("recordings", 1);
  wish.onupgradeneeded = () => {
    wish.result.createObjectStore("recordings", { keyPath: "name" });
    wish.result.createObjectStore("pieces");
  };
  wish.onsuccess = () => resolve(wish.result);
  wish.onerror = wish.onblocked = () => reject(wish.error);
});
opened.catch(() => {});

/**
 * @template T
 * @param {IDBTransactionMode} mode
 * @param {(recordings: IDBObjectStore, pieces: IDBObjectStore) => IDBRequest<T> | void} what
 * @returns {Promise<T>} once it is on the disk
 */
async function within(mode, what) {
  const all = (await opened).transaction(["recordings", "pieces"], mode, { durability: "strict" });
  const wish = what(all.objectStore("recordings"), all.objectStore("pieces"));
  return new Promise((resolve, reject) => {
    all.oncomplete = () => resolve(/** @type {any} */ (wish)?.result);
    all.onerror = all.onabort = () => reject(all.error);
  });
}

const piecesOf = (/** @type {string} */ name) => IDBKeyRange.bound([name, 0], [name, Infinity]);

export class Outbox {
  /** Told when something begins to wait, is refused or is gone. */ onchange = () => {};
  /** Told of what the studio has taken in. @type {(recording: Recording, answer: any) => void} */ ontaken = () => {};
  /** Told in words that nobody answers; "" once somebody does. @type {(why: string) => void} */ onwaiting = () => {};
  /** Recordings that wait for the teacher's word. @type {Recording[]} */ offered = [];
  /** Recordings that are on their way. @type {Set<string>} */ sending = new Set();
  /** Whether this browser keeps them. */ isKept = true;
  /** @type {Map<string, () => void>} */ #held = new Map();
  /** @type {Map<string, Float32Array[]>} */ #here = new Map();

  /** @param {string} slug */
  constructor(slug) { this.slug = slug; }

  get isEmpty() { return !this.offered.length && !this.sending.size && !this.#here.size; }

  /** Find what was left over. */
  async look() {
    try {
      const all = await within("readonly", (recordings) => recordings.getAll());
      const held = new Set((await navigator.locks.query()).held?.map((lock) => lock.name));
      this.offered = all.filter((/** @type {Recording} */ one) => one.slug === this.slug && !held.has(lockOf(one.name)));
    } catch { this.isKept = false; }
    this.onchange();
  }

  /**
   * Begin a recording.
   * @param {string} line @param {string} text @param {number} rate
   */
  begin(line, text, rate) {
    const begun = new Date().toISOString();
    const name = `studio-${begun.replace(/[^0-9T]/g, "").toLowerCase()}-${crypto.randomUUID().slice(0, 8)}.wav`;
    /** @type {Recording} */
    const recording = { name, slug: this.slug, line, text, rate, begun, seconds: 0, refused: "" };
    /** @type {Float32Array[]} */ const pieces = [];
    let kept = 0;
    const keep = () => {
      const some = pieces.slice(kept), from = kept;
      kept = pieces.length;
      const joined = new Float32Array(some.reduce((sum, piece) => sum + piece.length, 0));
      some.reduce((at, piece) => { joined.set(piece, at); return at + piece.length; }, 0);
      within("readwrite", (recordings, stored) => { recordings.put(recording); stored.put(joined, [name, from]); })
        .catch(() => { this.isKept = false; });
    };
    this.#here.set(name, pieces);
    this.#hold(name);
    return {
      recording,
      add: (/** @type {Float32Array} */ piece) => {
        pieces.push(piece);
        recording.seconds += piece.length / rate;
        if (pieces.length - kept >= GATHER) keep();
      },
      keep,
    };
  }

  /** @param {string} name */
  #hold(name) {
    navigator.locks.request(lockOf(name), () => new Promise((free) => { this.#held.set(name, () => free(undefined)); }));
  }

  /** @param {Recording} recording @returns {Promise<Blob>} */
  async sound(recording) {
    const pieces = this.#here.get(recording.name)
      ?? await within("readonly", (_, stored) => stored.getAll(piecesOf(recording.name)));
    return toWave(pieces, recording.rate);
  }

  /**
   * Send a recording until the studio has it, or refuses it.
   * @param {Recording} recording
   * @returns {Promise<any>} the studio's answer; undefined where it was refused
   */
  async send(recording) {
    const { name } = recording;
    if (this.sending.has(name)) return undefined;
    this.sending.add(name);
    recording.refused = "";
    this.offered = this.offered.filter((one) => one.name !== name);
    if (!this.#held.has(name)) this.#hold(name);
    this.onchange();
    const query = new URLSearchParams({ name, said: recording.text });
    const path = `/api/takes/${encodeURIComponent(this.slug)}/${encodeURIComponent(recording.line)}?${query}`;
    const body = await this.sound(recording).catch(() => null);
    if (!body) recording.refused = txt("This browser cannot read it any more.");
    const answer = body ? await this.#delivered(recording, path, body) : undefined;
    if (answer) {
      await this.discard(recording);
      this.ontaken(recording, answer);
      return answer;
    }
    this.sending.delete(name);
    this.offered = [...this.offered, recording];
    within("readwrite", (recordings) => { recordings.put(recording); }).catch(() => {});
    this.onchange();
    return undefined;
  }

  /**
   * Send a body until somebody answers.
   * @param {Recording} recording @param {string} path @param {Blob} body
   * @returns {Promise<any>} undefined where it was refused
   */
  async #delivered(recording, path, body) {
    for (;;) {
      try {
        const answer = await ask("POST", path, body, { type: "audio/wav" });
        this.onwaiting("");
        return answer;
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        if (error.status && error.status !== 401 && error.status !== 408 && error.status < 500) {
          this.onwaiting("");
          recording.refused = error.message;
          return undefined;
        }
        // Nobody there, or a studio that was started anew and does not know this browser yet.
        this.onwaiting(error.message);
        await new Promise((resolve) => setTimeout(resolve, AGAIN_MS));
      }
    }
  }

  /** Let a recording go. @param {Recording} recording */
  async discard(recording) {
    const { name } = recording;
    await within("readwrite", (recordings, stored) => { recordings.delete(name); stored.delete(piecesOf(name)); })
      .catch(() => {});
    this.sending.delete(name);
    this.#here.delete(name);
    this.offered = this.offered.filter((one) => one.name !== name);
    this.#held.get(name)?.();
    this.#held.delete(name);
    this.onchange();
  }
}

/**
 * List what waits for the teacher's word.
 * @param {Outbox} outbox
 * @param {{id: string, number: number}[]} lines those of the script
 * @param {(blob: Blob) => void} listen
 * @param {(recording: Recording) => void} send
 */
export function listWaiting(outbox, lines, listen, send) {
  const place = /** @type {HTMLElement} */ (document.getElementById("waiting"));
  place.replaceChildren(...outbox.offered.map((recording) => {
    const notice = document.createElement("div"), line = lines.find((one) => one.id === recording.line);
    const when = `${new Date(recording.begun).toLocaleString()}, ${spell(recording.seconds)}`;
    notice.className = "notice";
    notice.append(recording.refused ? txt`Not taken (${when}). ${recording.refused} `
      : txt`A recording of ${line ? txt`line ${line.number}` : txt("a line that is gone")} was not sent: “${recording.text}” (${when}). `);
    /** @type {[string, () => void][]} */ const choices = [
      [txt("Listen"), async () => listen(await outbox.sound(recording))],
      [line ? txt("Send it") : txt("Send it to the line shown"), () => send(recording)],
      [txt("Discard it"), () => { outbox.discard(recording); document.getElementById("stand")?.focus(); }],
    ];
    for (const [label, act] of choices) {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = label;
      button.addEventListener("click", act);
      notice.append(button, " ");
    }
    return notice;
  }));
}
