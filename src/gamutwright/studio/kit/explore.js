// @ts-check
// Looking at a scale: a click sets a tone and changes the pictures at once; the facts follow.

import { ask, Refused } from "./asking.js";
import * as cards from "./cards.js";
import * as facts from "./facts.js";
import { keys, ladder } from "./pictures.js";
import { hold, hush, play } from "./sounding.js";
import * as steps from "./steps.js";
import { tabs } from "./tabs.js";
import { txt } from "./words.js";

/** @typedef {{title: string, text: string, divisions: number, root: number, tones: number[], names: string[], steps: {name: string, hz: number}[], facts: import("./facts.js").Fact[], counts: string}} Scale */
/** @typedef {{bits: string, root: string}} Bits */

const $ = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));
const COUNTED_MS = 700;
/** @type {Scale | undefined} */ let scale;
/** @type {Set<number>} */ let tones = new Set();
let asked = 0, counting = 0;
/** @type {AbortController | undefined} */ let asking;

let isWriting = false;
/** What is asked for once the scale is seen. @type {{comparing: typeof import("./comparing.js"), relatives: typeof import("./relatives.js"), searching: typeof import("./searching.js")} | undefined} */
let later;

/** @param {Set<number>} set @param {number} n */
const written = (set, n) => Array.from({ length: n }, (_, step) => (set.has(step) ? "1" : "0")).join("");
const current = () => (scale ? { bits: written(tones, scale.divisions), root: scale.root, divisions: scale.divisions, text: scale.text, title: scale.title } : null);

/**
 * Ask for a scale and show it; an answer that comes after a later question is left alone.
 * @param {Record<string, string>} question bits and root, or words and divisions
 * @param {"further" | "same"} [how] whether it is a further step of the work
 */
async function look(question, how = "further") {
  asking?.abort();
  clearTimeout(counting);
  asking = new AbortController();
  const mine = ++asked;
  try {
    const found = await ask("GET", `/api/scale?${new URLSearchParams(question)}`, undefined, { signal: asking.signal });
    if (mine !== asked) return;
    const before = scale && { bits: written(new Set(scale.tones), scale.divisions), root: scale.root };
    take(found);
    const now = current();
    if (!now) return;
    if (how === "further" && before && (before.bits !== now.bits || before.root !== now.root)) steps.step(now);
    tell();
  } catch (error) {
    if (error instanceof Refused) refuse(error);
  }
}

/** @param {Refused} error */
function refuse(error) {
  $("said").textContent = error.message;
  $("readings").replaceChildren(...(error.data?.readings ?? []).map((/** @type {string} */ one) => facts.made("li", one)));
}

/** @param {Scale} found */
function take(found) {
  const isOther = !scale || scale.divisions !== found.divisions || scale.root !== found.root;
  scale = found;
  tones = new Set(found.tones);
  if (isOther) for (const picture of pictures) picture.build(found);
  paint();
}

function paint() {
  if (!scale) return;
  for (const picture of pictures) picture.paint(tones, scale);
  light([]);
}

/** @param {number[][]} parts tones that belong together */
const light = (parts) => { for (const picture of pictures) picture.light(parts); };

// --- setting tones ---------------------------------------------------------------------------------------------------

/** @type {import("./pictures.js").Deeds} */
const deeds = {
  set(step, picture) {
    if (!scale) return;
    const tone = step % scale.divisions, isNew = !tones.has(tone);
    if (picture === piano && isNew) play([[scale.steps[step].hz]], each());
    if (!tone) { $("said").textContent = txt("The root belongs to the scale. R on another tone makes that the root."); return; }
    if (!tones.delete(tone)) tones.add(tone);
    paint();
    steps.step({ bits: written(tones, scale.divisions), root: scale.root });
    look({ bits: written(tones, scale.divisions), root: String(scale.root) }, "same");
  },
  async root(step, picture) {
    if (!scale || !tones.has(step % scale.divisions)) return;
    const n = scale.divisions, turned = new Set([...tones].map((tone) => (tone - step + n) % n));
    await look({ bits: written(turned, n), root: String((scale.root + step) % n) });
    picture.focus(0);
  },
};
const piano = keys($("keys"), $("keyboard"), deeds);
const pictures = [ladder($("ladder"), deeds), piano];

/** @param {{tones: Set<number>, root: number, isNew: boolean}} played tones of a MIDI keyboard */
function hear(played) {
  const bits = written(played.tones, 12), isSame = scale && scale.divisions === 12 && scale.root === played.root;
  if (isSame) { tones = played.tones; paint(); }
  // What is played in one go is one step of the work.
  if (played.isNew) steps.step({ bits, root: played.root });
  look({ bits, root: String(played.root) }, "same");
}

// --- telling ---------------------------------------------------------------------------------------------------------

/** @param {string} name */
function showPart(name) {
  const now = current();
  if (!now || !later) return;
  if (name === "near") later.relatives.show(now);
  else if (name === "beside") later.comparing.show(now);
  else if (name === "find") later.searching.show(now);
}

function settle() {
  const now = current();
  if (!now) return;
  const besides = later ? later.comparing.beside() : $("other").value, address = cards.address(now) + (besides ? `&${new URLSearchParams({ beside: besides })}` : "");
  steps.settle(now, address + (shown() === "facts" ? "" : `#${shown()}`));
}

function tell() {
  if (!scale) return;
  $("name").textContent = scale.title;
  document.title = txt`${scale.title} · Explore`;
  // An answer never replaces words that somebody is writing; they count once they are asked about.
  if (!isWriting) {
    $("text").value = scale.text;
    $("divisions").value = String(scale.divisions);
  }
  $("said").textContent = txt`${scale.tones.length === 1 ? txt("One tone") : txt`${scale.tones.length} tones`}${scale.names.length ? `; ${scale.names.join(", ")}` : ""}. ${scale.facts.length} facts.`;
  $("readings").replaceChildren();
  settle();
  facts.tell(scale.facts);
  count();
  drone();
  showPart(shown());
}

/** Say how common values are counted; where they are still being counted, ask again when they are. */
function count() {
  if (!scale) return;
  const isWaiting = scale.counts === "building" || scale.counts === "waiting";
  $("counted").textContent = scale.counts === "failed" ? txt("How common a value is, was not counted; Search tells why.") : isWaiting ? txt("How common each value is, is being counted; it follows by itself.")
    : scale.facts.some((fact) => fact.rare) ? txt("How common a value is: among all scales with equally many tones, each mode counted by itself.") : "";
  if (isWaiting) counting = setTimeout(recount, COUNTED_MS, scale);
}

/** @param {Scale} looked */
async function recount(looked) {
  try {
    const { state } = await ask("GET", `/api/catalogue/${looked.divisions}`);
    if (scale !== looked) return;
    if (state === "building" || state === "waiting") counting = setTimeout(recount, COUNTED_MS, looked);
    else look({ bits: written(tones, looked.divisions), root: String(looked.root) }, "same");
  } catch { /* the counts come with the next scale */ }
}

// --- sounding --------------------------------------------------------------------------------------------------------

const each = () => Number($("speed").value);
const drone = () => hold($("drone").checked && scale ? scale.steps[0].hz / 2 : null);

/** @param {import("./facts.js").Fact} fact */
function show(fact) {
  if (!scale) return;
  const looked = scale, parts = fact.parts.flat(), n = looked.divisions;
  const chords = parts.map((part) => {
    let last = -1;
    // Each tone lies above the one before, so that a step over the octave is heard as a step.
    return part.map((tone) => {
      while (tone <= last) tone += n;
      last = tone;
      return looked.steps[tone % n].hz * 2 ** Math.floor(tone / n);
    });
  });
  play(chords, 1.7 * each(), (index) => light(index < 0 ? [] : [parts[index]]));
}

$("hear").addEventListener("click", () => {
  if (!scale) return;
  const looked = scale, up = [...tones].sort((a, b) => a - b).concat(looked.divisions);
  play(up.map((step) => [looked.steps[step].hz]), each(), (index) => light(index < 0 ? [] : [[up[index]]]));
});
$("drone").addEventListener("change", drone);
addEventListener("pagehide", () => { hush(); hold(null); });

// --- events ----------------------------------------------------------------------------------------------------------

for (const id of ["text", "divisions"]) $(id).addEventListener("input", () => { isWriting = true; });
$("ask").addEventListener("submit", (/** @type {Event} */ event) => {
  isWriting = false;
  event.preventDefault();
  look({ text: $("text").value, divisions: $("divisions").value });
});
$("write").addEventListener("click", async () => {
  if (!scale) return;
  $("write").disabled = true;
  $("said").textContent = txt("Drafting …");
  try {
    const made = await ask("POST", "/api/lessons", { scale: scale.text, divisions: scale.divisions });
    location.assign(`/lesson/${encodeURIComponent(made.slug)}`);
  } catch (error) {
    $("said").textContent = error instanceof Refused ? error.message : String(error);
  }
  $("write").disabled = false;
});
facts.begin(show);
cards.begin((card) => look({ bits: card.bits, root: String(card.root) }));
const shown = tabs($("tabs"), (name) => {
  if (name !== "beside") later?.comparing.hide();
  if (name !== "find") later?.searching.hide();
  if (scale) { showPart(name); settle(); }
});
const again = steps.loaded();
steps.begin((entry) => {
  // The pictures at once, where they are of the same root.
  if (scale && scale.divisions === entry.bits.length && scale.root === entry.root) {
    tones = new Set([...entry.bits].flatMap((sign, step) => (sign === "1" ? [step] : [])));
    paint();
  }
  look({ bits: entry.bits, root: String(entry.root) }, "same");
});

// --- what comes after the first look ---------------------------------------------------------------------------------

/** Buttons pressed in parts that have not come yet; they are pressed again once they have. @type {HTMLElement[]} */
const early = [];
for (const id of ["near-panel", "beside-panel", "find-panel"]) {
  $(id).addEventListener("click", (/** @type {Event} */ event) => {
    const button = event.target instanceof Element && event.target.closest("button");
    if (later || !(button instanceof HTMLElement)) return;
    event.preventDefault();
    early.push(button);
  });
}
await look(again ? { bits: again.bits, root: String(again.root) } : { text: $("text").value, divisions: $("divisions").value }, "same");
const rest = await Promise.all([import("./comparing.js"), import("./relatives.js"), import("./searching.js"), import("./midi.js")]).catch(() => null);
if (rest) {
  const [comparing, relatives, searching, { listen }] = rest;
  later = { comparing, relatives, searching };
  comparing.begin({ beside: (set) => pictures.forEach((picture) => picture.beside(set)), light, each, changed: settle });
  searching.begin();
  listen($("midi"), $("midi-said"), hear);
  showPart(shown());
  for (const button of early) button.click();
} else $("said").textContent = txt("The studio does not answer. Once it runs again, load this page anew.");
