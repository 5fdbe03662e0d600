// @ts-check
// One set of tones in two pictures: the ladder of steps, and the keys of a piano where there are twelve.

import { txt } from "./words.js";

/** @typedef {{name: string, hz: number}} Step */
/** @typedef {{divisions: number, root: number, steps: Step[]}} Frame */
/** @typedef {{build: (frame: Frame) => void, paint: (tones: Set<number>, frame: Frame) => void, light: (parts: number[][]) => void, beside: (tones: number[]) => void, focus: (step: number) => void, place: HTMLElement}} Picture */
/** @typedef {{set: (step: number, picture: Picture) => void, root: (step: number, picture: Picture) => void}} Deeds */

const SVG = "http://www.w3.org/2000/svg";
/** The ladder, in tenths of the size of its letters: how wide, where its rails, its sizes and what is marked stand. */
const WIDE = 160, LEFT = 48, RIGHT = 118, SIZES = 136, MARKED = 38, LANE = 7, LANES = 5;
/** How tall all rows are together, and one at least, in sizes of its letters. */
const TALL = 22, LEAST = 1.65;
/** Where each pitch class lies, in widths of a white key, and whether it is a black one. */
const KEYS = [[0.5, 0], [1, 1], [1.5, 0], [2, 1], [2.5, 0], [3.5, 0], [4, 1], [4.5, 0], [5, 1], [5.5, 0], [6, 1], [6.5, 0]];
const NARROW = 0.62;

/**
 * Let buttons be one stop of the Tab key, with arrow keys from one to the next.
 * @param {HTMLElement} place
 * @param {string} kind the class of the buttons, each with its step in `data-step`
 * @param {boolean} isUpright whether the next stands above, and the last is followed by the first
 * @param {Deeds} deeds
 * @param {Picture} picture
 */
function moved(place, kind, isUpright, deeds, picture) {
  const every = () => /** @type {HTMLElement[]} */ ([...place.querySelectorAll(`.${kind}`)]);
  picture.focus = (step) => every().forEach((one) => {
    const is = Number(one.dataset.step) === step;
    one.tabIndex = is ? 0 : -1;
    if (is) one.focus();
  });
  const hit = (/** @type {Event} */ event) => /** @type {HTMLElement | null} */ (/** @type {Element} */ (event.target).closest(`.${kind}`));
  place.addEventListener("click", (event) => {
    const one = hit(event);
    if (!one) return;
    const step = Number(one.dataset.step);
    picture.focus(step);
    deeds.set(step, picture);
  });
  place.addEventListener("keydown", (event) => {
    const one = hit(event);
    if (!one || event.altKey || event.ctrlKey || event.metaKey) return;
    const step = Number(one.dataset.step), count = every().length;
    const down = isUpright ? -1 : 1;
    const by = /** @type {Record<string, number>} */ ({ ArrowRight: 1, ArrowLeft: -1, ArrowDown: down, ArrowUp: -down })[event.key];
    if (by) picture.focus(isUpright ? (step + by + count) % count : Math.max(0, Math.min(count - 1, step + by)));
    else if (event.key === "Home") picture.focus(0);
    else if (event.key === "End") picture.focus(count - 1);
    else if (event.key.toLowerCase() === "r") deeds.root(step, picture);
    else return;
    event.preventDefault();
  });
}

/** @param {Element[]} buttons @param {Frame} frame @param {Set<number>} tones */
function press(buttons, frame, tones) {
  for (const one of /** @type {HTMLElement[]} */ (buttons)) {
    const step = Number(one.dataset.step), name = frame.steps[step].name, is = tones.has(step % frame.divisions);
    if (one.textContent !== name) (one.firstElementChild ?? one).textContent = name;
    one.setAttribute("aria-pressed", String(is));
    const where = !step ? txt("the root") : step === frame.divisions ? txt("the root's octave") : txt`${step} above the root`;
    one.setAttribute("aria-label", `${name}, ${where}`);
  }
}

/** @param {number} step @param {string} kind @returns {HTMLButtonElement} */
function button(step, kind) {
  const made = document.createElement("button");
  made.type = "button";
  made.className = step ? kind : `${kind} root`;
  made.dataset.step = String(step);
  made.tabIndex = step ? -1 : 0;
  return made;
}

/** @param {string} name @param {Record<string, string>} attributes */
function drawn(name, attributes) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, value);
  return made;
}

/** @param {HTMLElement} place @param {Deeds} deeds @returns {Picture} */
export function ladder(place, deeds) {
  /** @type {Frame} */ let frame;
  /** @type {HTMLElement[]} */ let rungs = [];
  let row = 1;
  const others = drawn("g", { id: "other-tones" }), marks = drawn("g", { id: "marks" }), treads = drawn("g", { id: "steps" });
  /** The middle of a step's row; the octave has the topmost. @param {number} step */
  const height = (step) => 10 * row * (frame.divisions - step + 0.5);
  /** Each step of the scale as a bar as tall as it is, with its size beside it. @param {number[]} up */
  const stepped = (up) => up.flatMap((tone, index) => {
    const next = index + 1 < up.length ? up[index + 1] : frame.divisions, low = height(tone), high = height(next);
    const size = drawn("text", { x: String(SIZES), y: String((low + high) / 2), class: "size" });
    size.textContent = String(next - tone);
    return [drawn("rect", { x: String(LEFT + 4), y: String(high), width: String(RIGHT - LEFT - 8), height: String(low - high), class: "step" }), size];
  });
  const dot = (/** @type {number} */ x, /** @type {number} */ step) => drawn("circle", { cx: String(x), cy: String(height(step)), r: "3.2" });
  const picture = /** @type {Picture} */ ({
    place,
    build(next) {
      frame = next;
      row = Math.max(LEAST, TALL / (frame.divisions + 1));
      const tall = row * (frame.divisions + 1), drawing = drawn("svg", { viewBox: `0 0 ${WIDE} ${10 * tall}`, "aria-hidden": "true" });
      const rails = [LEFT, RIGHT].map((x) => drawn("path", { d: `M${x} ${height(0) + 6}V${height(frame.divisions) - 6}`, class: "rail" }));
      drawing.append(treads, ...rails, drawn("path", { d: `M${LEFT} ${height(frame.divisions)}H${RIGHT}`, class: "rail" }), others, marks);
      rungs = frame.steps.slice(0, -1).map((_, step) => {
        const rung = button(step, "rung");
        rung.style.setProperty("top", `${height(step) / 10}em`);
        return rung;
      });
      place.style.setProperty("--tall", `${tall}em`);
      place.style.setProperty("--rung", `${Math.min(2, row - 0.1)}em`);
      place.replaceChildren(drawing, ...rungs);
    },
    paint(tones, next) {
      frame = next;
      press(rungs, frame, tones);
      treads.replaceChildren(...stepped([...tones].sort((a, b) => a - b)));
    },
    light(parts) {
      const lit = new Set(parts.flat().map((step) => step % frame.divisions));
      for (const rung of rungs) rung.classList.toggle("lit", lit.has(Number(rung.dataset.step)));
      // Tones that belong together are strung on a line beside the ladder, several side by side.
      marks.replaceChildren(...parts.filter((part) => part.length > 1).flatMap((part, index) => {
        const x = MARKED - LANE * (index % LANES), steps = part.map((step) => step % frame.divisions);
        return [drawn("path", { d: `M${x} ${height(Math.min(...steps))}V${height(Math.max(...steps))}` }), ...steps.map((step) => dot(x, step))];
      }));
    },
    beside(tones) { others.replaceChildren(...tones.map((tone) => dot(RIGHT + 8, tone))); },
  });
  moved(place, "rung", true, deeds, picture);
  return picture;
}

/** @param {HTMLElement} place @param {HTMLElement} around hidden where there are no keys @param {Deeds} deeds @returns {Picture} */
export function keys(place, around, deeds) {
  /** @type {Frame} */ let frame;
  /** @type {HTMLButtonElement[]} */ let every = [];
  const picture = /** @type {Picture} */ ({
    place,
    build(next) {
      frame = next;
      around.hidden = frame.divisions !== 12;
      every = around.hidden ? [] : frame.steps.map((_, step) => {
        const key = button(step, "key");
        key.append(document.createElement("span"));
        return key;
      });
      const spans = every.map((_, step) => {
        const pitch = frame.root + step, [middle, isBlack] = KEYS[pitch % 12], width = isBlack ? NARROW : 1;
        return { left: 7 * Math.floor(pitch / 12) + middle - width / 2, width, isBlack };
      });
      const first = Math.min(...spans.map((span) => span.left)), last = Math.max(...spans.map((span) => span.left + span.width));
      every.forEach((key, step) => {
        const { left, width, isBlack } = spans[step];
        key.classList.toggle("short", Boolean(isBlack));
        key.style.setProperty("left", `${(100 * (left - first)) / (last - first)}%`);
        key.style.setProperty("width", `${(100 * width) / (last - first)}%`);
      });
      place.replaceChildren(...every);
    },
    paint(tones, next) {
      frame = next;
      press(every, frame, tones);
    },
    light(parts) {
      const lit = new Set(parts.flat().map((step) => step % 12));
      for (const key of every) key.classList.toggle("lit", lit.has(Number(key.dataset.step) % 12));
    },
    beside(tones) {
      const has = new Set(tones);
      for (const key of every) key.classList.toggle("also", has.has(Number(key.dataset.step) % 12));
    },
  });
  moved(place, "key", false, deeds, picture);
  return picture;
}
