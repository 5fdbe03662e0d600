// @ts-check
// A second scale beside the one that is looked at: what they share, what differs, and both heard in turn.

import { ask, Refused } from "./asking.js";
import { link } from "./cards.js";
import { made } from "./facts.js";
import { play } from "./sounding.js";
import { txt } from "./words.js";

/** @typedef {import("./cards.js").Card & {hz: number[]}} Heard */
/**
 * @typedef {object} Comparison
 * @property {Heard} one
 * @property {Heard} other
 * @property {string[]} relations
 * @property {string} common
 * @property {string} only_one
 * @property {string} only_other
 * @property {string[]} moves
 * @property {{title: string, value: string, source: string}[]} measures
 * @property {{id: string, title: string, level: string, one: string, other: string}[]} differ
 * @property {string[]} alike
 */
/** @typedef {{text: string, bits: string, root: number}} Kept */

const $ = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));
/** @type {Kept | null} */ let kept = null;
/** @typedef {{bits: string, root: number, divisions: number, text: string, title: string} | null} Looked */
/** @type {Looked} */ let scale = null;
/** @type {AbortController | undefined} */ let asking;
/**
 * @typedef {object} Deeds
 * @property {(tones: number[]) => void} beside
 * @property {(parts: number[][]) => void} light
 * @property {() => number} each
 * @property {() => void} changed
 */
/** @type {Deeds} */ let deeds;

/** @param {typeof deeds} given */
export function begin(given) {
  deeds = given;
  if ($("other").value) kept = { text: $("other").value, bits: "", root: 0 };
  $("compare").addEventListener("submit", (/** @type {Event} */ event) => {
    event.preventDefault();
    const text = $("other").value.trim();
    kept = text ? { text, bits: "", root: 0 } : null;
    look();
  });
  $("keep").addEventListener("click", () => {
    if (!scale) return;
    kept = { text: scale.text, bits: scale.bits, root: scale.root };
    $("other").value = scale.text;
    $("beside-said").textContent =
      txt`${scale.title} is kept. Set another scale: both stand here beside each other.`;
    $("both").replaceChildren();
    deeds.beside([]);
    deeds.changed();
  });
}

/** @returns {string} what is compared with, for the address */
export const beside = () => kept?.text ?? "";

/** @param {Looked} next */
export function show(next) {
  scale = next;
  look();
}

/** Leave the second picture out while another part of the screen is looked at. */
export const hide = () => deeds.beside([]);

async function look() {
  asking?.abort();
  asking = new AbortController();
  if (!scale) return;
  if (!kept || (kept.bits === scale.bits && kept.root === scale.root)) {
    if (!kept) {
      $("beside-said").textContent = txt("Name a second scale, or keep this one and set another.");
      $("both").replaceChildren();
    }
    deeds.beside([]);
    deeds.changed();
    return;
  }
  const question = {
    bits: scale.bits,
    root: String(scale.root),
    other_text: kept.text,
    other_bits: kept.bits,
    other_root: String(kept.root),
  };
  try {
    const found = await ask("GET", `/api/comparison?${new URLSearchParams(question)}`, undefined, {
      signal: asking.signal,
    });
    tell(found);
    deeds.changed();
  } catch (error) {
    if (!(error instanceof Refused)) return;
    $("beside-said").textContent = [error.message, ...(error.data?.readings ?? [])].join(" ");
    $("both").replaceChildren();
    deeds.beside([]);
  }
}

/** @param {string} bits @returns {number[]} */
const tonesOf = (bits) => [...bits].flatMap((sign, step) => (sign === "1" ? [step] : []));

/** @param {Comparison} found */
function tell(found) {
  const { one, other } = found,
    n = one.divisions;
  // The other's tones on the places of this ring, which has this one's root on top.
  const there = tonesOf(other.bits)
    .map((tone) => (tone + other.root - one.root + n) % n)
    .sort((a, b) => a - b);
  deeds.beside(there);
  $("beside-said").textContent = found.relations.length
    ? found.relations.join(" ")
    : txt`${found.differ.length} facts differ, ${found.alike.length} are the same.`;
  const heading = made("p", "", "pair");
  heading.append(made("strong", one.title), made("span", " beside "), link(other));
  const hear = /** @type {HTMLButtonElement} */ (made("button", "Hear one after the other"));
  hear.type = "button";
  hear.addEventListener("click", () => {
    const first = [...tonesOf(one.bits), n],
      second = [...tonesOf(other.bits), n];
    const chords = [...first.map((step) => [one.hz[step]]), [], ...second.map((step) => [other.hz[step]])];
    const places = [...first, null, ...second.map((step) => step + other.root - one.root + n)];
    play(chords, deeds.each(), (index) =>
      deeds.light(index < 0 || places[index] === null ? [] : [[/** @type {number} */ (places[index]) % n]]),
    );
  });
  const picture = /** @type {HTMLImageElement} */ (made("img", "", "both"));
  picture.alt = txt`${one.title} and ${other.title} as two rings`;
  const root = document.documentElement;
  const shade = root.dataset.shade || (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light");
  const drawn = new URLSearchParams({
    bits: one.bits,
    root: String(one.root),
    other_bits: other.bits,
    other_root: String(other.root),
    shade,
  });
  picture.src = `/api/comparison/picture?${drawn}`;
  $("both").replaceChildren(
    heading,
    hear,
    pairs([
      [txt("Shared"), found.common || "none"],
      [txt`Only in ${one.title}`, found.only_one || "none"],
      [txt`Only in ${other.title}`, found.only_other || "none"],
      [txt("Smallest way over"), found.moves.join(", ") || txt("nothing moves")],
    ]),
    picture,
    made("p", txt`A is ${one.title}, B is ${other.title}; on the ring and the keys, B is dashed.`, "hint"),
    differences(found, txt`What differs: ${found.differ.length} facts`, (fact) => fact.level !== "research"),
    more(txt("What differs of the research level"), [
      differences(found, txt("Research level"), (fact) => fact.level === "research"),
    ]),
    more(txt("The same in both"), [made("p", found.alike.join(", ") || txt("Nothing."))]),
    more(txt("How far apart"), [pairs(found.measures.map(({ title, value, source }) => [title, value, source]))]),
  );
}

/** @param {string[][]} rows title, value and a word of explanation */
function pairs(rows) {
  const list = document.createElement("dl");
  list.className = "pairs";
  list.append(
    ...rows.map(([title, value, note]) => {
      const row = document.createElement("div"),
        said = made("dd", value);
      if (note) said.append(made("span", note, "hint"));
      row.append(made("dt", title), said);
      return row;
    }),
  );
  return list;
}

/** @param {Comparison} found @param {string} title @param {(fact: {level: string}) => boolean} isShown */
function differences(found, title, isShown) {
  const place = made("div", "", "wide"),
    table = document.createElement("table"),
    head = document.createElement("tr"),
    body = document.createElement("tbody");
  head.append(
    ...[txt("Fact"), found.one.title, found.other.title].map((text) => {
      const cell = /** @type {HTMLTableCellElement} */ (made("th", text));
      cell.scope = "col";
      return cell;
    }),
  );
  body.append(
    ...found.differ.filter(isShown).map((fact) => {
      const row = document.createElement("tr"),
        title = /** @type {HTMLTableCellElement} */ (made("th", fact.title));
      title.scope = "row";
      row.append(title, made("td", fact.one), made("td", fact.other));
      return row;
    }),
  );
  const top = document.createElement("thead");
  top.append(head);
  table.append(made("caption", title), top, body);
  place.tabIndex = 0;
  place.setAttribute("role", "region");
  place.setAttribute("aria-label", title);
  place.append(table);
  return place;
}

/** @param {string} summary @param {HTMLElement[]} content */
function more(summary, content) {
  const details = document.createElement("details");
  details.append(made("summary", summary), ...content);
  return details;
}
