// @ts-check
// One set of tones in two pictures: the ring of steps, and the keys of a piano where there are twelve.

/** @typedef {{name: string, hz: number}} Step */
/** @typedef {{divisions: number, root: number, steps: Step[]}} Frame */
/** @typedef {{build: (frame: Frame) => void, paint: (tones: Set<number>, frame: Frame) => void, light: (parts: number[][]) => void, beside: (tones: number[]) => void, focus: (step: number) => void, place: HTMLElement}} Picture */
/** @typedef {{set: (step: number, picture: Picture) => void, root: (step: number, picture: Picture) => void}} Deeds */

const SVG = "http://www.w3.org/2000/svg", RADIUS = 38, INNER = 30, OUTER = 47, GAP = 0.012;
/** Where each pitch class lies, in widths of a white key, and whether it is a black one. */
const KEYS = [[0.5, 0], [1, 1], [1.5, 0], [2, 1], [2.5, 0], [3.5, 0], [4, 1], [4.5, 0], [5, 1], [5.5, 0], [6, 1], [6.5, 0]];
const NARROW = 0.62;

/**
 * Let buttons be one stop of the Tab key, with arrow keys from one to the next.
 * @param {HTMLElement} place
 * @param {string} kind the class of the buttons, each with its step in `data-step`
 * @param {boolean} isRound whether the last is followed by the first
 * @param {Deeds} deeds
 * @param {Picture} picture
 */
function moved(place, kind, isRound, deeds, picture) {
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
    const by = /** @type {Record<string, number>} */ ({ ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 })[event.key];
    if (by) picture.focus(isRound ? (step + by + count) % count : Math.max(0, Math.min(count - 1, step + by)));
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
    const where = !step ? "the root" : step === frame.divisions ? "the root's octave" : `${step} above the root`;
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
export function ring(place, deeds) {
  /** @type {Frame} */ let frame;
  /** @type {Element[]} */ let pegs = [];
  const shape = drawn("polygon", { id: "shape" }), other = drawn("polygon", { id: "other-shape" }), lines = drawn("g", { id: "lines" }), arcs = drawn("g", { id: "arcs" });
  const spot = (/** @type {number} */ step, /** @type {number} */ radius) => {
    const turn = (2 * Math.PI * step) / frame.divisions;
    return [50 + radius * Math.sin(turn), 50 - radius * Math.cos(turn)];
  };
  const around = (/** @type {number[]} */ steps) => steps.map((step) => spot(step, INNER).join(",")).join(" ");
  /** Each step of the scale as an arc with its size beside it. @param {number[]} up */
  const arced = (up) => up.flatMap((tone, place) => {
    const next = place + 1 < up.length ? up[place + 1] : frame.divisions, gap = GAP * frame.divisions, isLong = 2 * (next - tone - 2 * gap) > frame.divisions;
    // An arc that closes on itself is none; the last hair of a circle is left out.
    const [from, to] = [spot(tone + gap, RADIUS), spot(next - gap, RADIUS)], [x, y] = spot((tone + next) / 2, OUTER);
    const size = drawn("text", { x: String(x), y: String(y), class: "size" });
    size.textContent = String(next - tone);
    return [drawn("path", { d: `M${from.join(" ")}A${RADIUS} ${RADIUS} 0 ${Number(isLong)} 1 ${to.join(" ")}`, class: "arc" }), size];
  });
  const picture = /** @type {Picture} */ ({
    place,
    build(next) {
      frame = next;
      const drawing = drawn("svg", { viewBox: "0 0 100 100", "aria-hidden": "true" });
      drawing.append(arcs, shape, other, lines);
      pegs = frame.steps.slice(0, -1).map((_, step) => {
        const peg = button(step, "peg"), [x, y] = spot(step, RADIUS);
        peg.style.setProperty("left", `${x}%`);
        peg.style.setProperty("top", `${y}%`);
        return peg;
      });
      place.style.setProperty("--peg", `${Math.min(3.2, 34 / frame.divisions)}rem`);
      place.replaceChildren(drawing, ...pegs);
    },
    paint(tones, next) {
      frame = next;
      press(pegs, frame, tones);
      const up = [...tones].sort((a, b) => a - b);
      shape.setAttribute("points", around(up));
      arcs.replaceChildren(...arced(up));
    },
    light(parts) {
      const lit = new Set(parts.flat().map((step) => step % frame.divisions));
      for (const peg of /** @type {HTMLElement[]} */ (pegs)) peg.classList.toggle("lit", lit.has(Number(peg.dataset.step)));
      lines.replaceChildren(...parts.filter((part) => part.length > 1).map((part) => {
        const whole = part.length > 2 ? [...part, part[0]] : part;
        return drawn("polyline", { points: whole.map((step) => spot(step % frame.divisions, INNER).join(",")).join(" ") });
      }));
    },
    beside(tones) { other.setAttribute("points", around(tones)); },
  });
  moved(place, "peg", true, deeds, picture);
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
