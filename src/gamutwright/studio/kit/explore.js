// @ts-check
// Looking at a scale: a click sets a tone and changes the picture at once; the facts follow.

import { ask, Refused } from "./asking.js";
import { hush, play } from "./sounding.js";

/** @typedef {{id: string, title: string, group: string, level: string, value: string, means: string, places: string, parts: number[][][], rare: string}} Fact */
/** @typedef {{title: string, text: string, divisions: number, root: number, tones: number[], names: string[], steps: {name: string, hz: number}[], facts: Fact[]}} Scale */

const $ = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));
const ring = $("ring"), LEVELS = ["foundation", "further", "research"], SVG = "http://www.w3.org/2000/svg";
/** @type {Scale} */ let scale;
/** @type {Set<number>} */ let tones = new Set();
let asked = 0;
/** @type {AbortController | undefined} */ let asking;

/** @param {Record<string, string>} question */
async function look(question) {
  asking?.abort();
  asking = new AbortController();
  const mine = ++asked;
  try {
    const found = await ask("GET", `/api/scale?${new URLSearchParams(question)}`, undefined, { signal: asking.signal });
    if (mine !== asked) return;
    const isOther = !scale || scale.divisions !== found.divisions || scale.root !== found.root;
    scale = found;
    tones = new Set(scale.tones);
    if (isOther) buildRing();
    paint();
    tell();
  } catch (error) {
    if (!(error instanceof Refused)) return;
    $("said").textContent = error.message;
    if (scale) { tones = new Set(scale.tones); paint(); }
  }
}

const bits = () => Array.from({ length: scale.divisions }, (_, step) => (tones.has(step) ? "1" : "0")).join("");
const ask_again = () => look({ bits: bits(), root: String(scale.root) });

// --- the ring ----------------------------------------------------------------------------------------------------

/** @param {number} step @param {number} radius @returns {[number, number]} per cent of the ring */
function place(step, radius) {
  const turn = (2 * Math.PI * step) / scale.divisions;
  return [50 + radius * Math.sin(turn), 50 - radius * Math.cos(turn)];
}

function buildRing() {
  const picture = document.createElementNS(SVG, "svg");
  picture.setAttribute("viewBox", "0 0 100 100");
  picture.setAttribute("aria-hidden", "true");
  const circle = document.createElementNS(SVG, "circle");
  for (const [key, value] of [["cx", "50"], ["cy", "50"], ["r", "40"], ["class", "track"]]) circle.setAttribute(key, value);
  const shape = document.createElementNS(SVG, "polygon");
  shape.id = "shape";
  const lines = document.createElementNS(SVG, "g");
  lines.id = "lines";
  picture.append(circle, shape, lines);
  const pegs = scale.steps.slice(0, -1).map((_, step) => {
    const peg = document.createElement("button");
    peg.type = "button";
    peg.className = "peg";
    peg.dataset.step = String(step);
    peg.tabIndex = step ? -1 : 0;
    const [x, y] = place(step, 40);
    peg.style.setProperty("left", `${x}%`);
    peg.style.setProperty("top", `${y}%`);
    return peg;
  });
  ring.style.setProperty("--peg", `${Math.min(3.2, 34 / scale.divisions)}rem`);
  ring.replaceChildren(picture, ...pegs);
}

function paint() {
  for (const peg of ring.querySelectorAll(".peg")) {
    const step = Number(peg.dataset.step), name = scale.steps[step].name;
    peg.textContent = name;
    peg.setAttribute("aria-pressed", String(tones.has(step)));
    peg.setAttribute("aria-label", step ? `${name}, ${step} above the root` : `${name}, the root`);
    peg.classList.toggle("root", step === 0);
  }
  $("shape").setAttribute("points", [...tones].sort((a, b) => a - b).map((step) => place(step, 40).join(",")).join(" "));
  light([]);
}

/** @param {number[][]} parts tones that belong together */
function light(parts) {
  const lit = new Set(parts.flat());
  for (const peg of ring.querySelectorAll(".peg")) peg.classList.toggle("lit", lit.has(Number(peg.dataset.step) % scale.divisions));
  $("lines").replaceChildren(...parts.filter((part) => part.length > 1).map((part) => {
    const line = document.createElementNS(SVG, "polyline");
    const around = part.length > 2 ? [...part, part[0]] : part;
    line.setAttribute("points", around.map((step) => place(step % scale.divisions, 33).join(",")).join(" "));
    return line;
  }));
}

ring.addEventListener("click", (/** @type {MouseEvent} */ event) => {
  const peg = /** @type {HTMLElement} */ (event.target).closest(".peg");
  if (!peg) return;
  const step = Number(/** @type {HTMLElement} */ (peg).dataset.step);
  focusPeg(step);
  if (!step) { $("said").textContent = "The root belongs to the scale. R on another tone makes that the root."; return; }
  if (!tones.delete(step)) tones.add(step);
  paint();
  ask_again();
});

/** @param {number} step */
function focusPeg(step) {
  for (const peg of ring.querySelectorAll(".peg")) {
    const is = Number(peg.dataset.step) === step;
    peg.tabIndex = is ? 0 : -1;
    if (is) peg.focus();
  }
}

ring.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
  const peg = /** @type {HTMLElement} */ (event.target).closest(".peg");
  if (!peg || event.altKey || event.ctrlKey || event.metaKey) return;
  const step = Number(/** @type {HTMLElement} */ (peg).dataset.step), n = scale.divisions;
  const moves = /** @type {Record<string, number>} */ ({ ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 });
  if (event.key in moves) focusPeg((step + moves[event.key] + n) % n);
  else if (event.key === "Home") focusPeg(0);
  else if (event.key.toLowerCase() === "r" && tones.has(step)) {
    const turned = new Set([...tones].map((tone) => (tone - step + n) % n));
    const wanted = Array.from({ length: n }, (_, k) => (turned.has(k) ? "1" : "0")).join("");
    look({ bits: wanted, root: String((scale.root + step) % n) }).then(() => focusPeg(0));
  } else return;
  event.preventDefault();
});

// --- facts -------------------------------------------------------------------------------------------------------

function tell() {
  $("name").textContent = scale.title;
  document.title = `${scale.title} · Explore`;
  $("text").value = scale.text;
  $("divisions").value = String(scale.divisions);
  $("said").textContent = `${scale.tones.length} tones${scale.names.length ? `; ${scale.names.join(", ")}` : ""}. ${scale.facts.length} facts.`;
  history.replaceState(null, "", `?${new URLSearchParams({ scale: scale.text })}`);
  listFacts();
}

function listFacts() {
  const words = $("sift").value.toLowerCase().split(/\s+/).filter(Boolean), upto = LEVELS.indexOf($("level").value);
  const shown = scale.facts.filter((fact) => LEVELS.indexOf(fact.level) <= upto
    && words.every((/** @type {string} */ word) => `${fact.title} ${fact.value} ${fact.group}`.toLowerCase().includes(word)));
  const groups = [...new Set(shown.map((fact) => fact.group))];
  $("facts").replaceChildren(...groups.flatMap((group) => {
    const heading = document.createElement("h3");
    heading.textContent = group;
    const list = document.createElement("dl");
    list.append(...shown.filter((fact) => fact.group === group).flatMap(row));
    return [heading, list];
  }));
  if (!shown.length) $("facts").textContent = "No fact has these words. Take one out, or choose a higher level.";
}

/** @param {Fact} fact */
function row(fact) {
  const pair = document.createElement("div"), title = document.createElement("dt"), value = document.createElement("dd");
  title.textContent = fact.title;
  title.title = fact.means;
  const number = document.createElement("span");
  number.className = "value";
  number.textContent = fact.value;
  value.append(number);
  if (fact.rare) value.append(small(`like ${fact.rare}`));
  if (fact.places) value.append(small(fact.places));
  if (fact.parts.length) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "where";
    button.textContent = "Show and play";
    button.setAttribute("aria-label", `Show and play: ${fact.title}`);
    button.addEventListener("click", () => show(fact));
    value.append(button);
  }
  pair.append(title, value);
  return [pair];
}

/** @param {string} text */
function small(text) {
  const note = document.createElement("span");
  note.className = "hint";
  note.textContent = text;
  return note;
}

/** @param {Fact} fact */
function show(fact) {
  const parts = fact.parts.flat(), n = scale.divisions;
  const chords = parts.map((part) => {
    let last = -1;
    // Each tone lies above the one before, so that a step over the octave is heard as a step.
    return part.map((tone) => {
      while (tone <= last) tone += n;
      last = tone;
      return scale.steps[tone % n].hz * 2 ** Math.floor(tone / n);
    });
  });
  play(chords, 0.7, (index) => light(index < 0 ? [] : [parts[index]]));
}

// --- events ------------------------------------------------------------------------------------------------------

$("ask").addEventListener("submit", (/** @type {Event} */ event) => {
  event.preventDefault();
  look({ text: $("text").value, divisions: $("divisions").value });
});
$("sift").addEventListener("input", listFacts);
$("level").addEventListener("change", listFacts);
$("hear").addEventListener("click", () => {
  const up = [...tones].sort((a, b) => a - b).concat(scale.divisions);
  play(up.map((step) => [scale.steps[step].hz]), 0.42, (index) => light(index < 0 ? [] : [[up[index] % scale.divisions]]));
});
$("write").addEventListener("click", async () => {
  try {
    const made = await ask("POST", "/api/lessons", { scale: scale.text });
    location.assign(`/lesson/${encodeURIComponent(made.slug)}`);
  } catch (error) {
    $("said").textContent = error instanceof Refused ? error.message : String(error);
  }
});
addEventListener("pagehide", hush);
look({ text: $("text").value, divisions: $("divisions").value });
