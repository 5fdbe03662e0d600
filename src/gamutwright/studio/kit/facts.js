// @ts-check
// What is so: the facts of the scale that is looked at, sifted by words and level.

import { txt } from "./words.js";

/** @typedef {{id: string, title: string, group: string, level: string, value: string, means: string, places: string, parts: number[][][], rare: string, count: string}} Fact */

const $ = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));
const LEVELS = ["foundation", "further", "research"];
/** @type {Fact[]} */ let facts = [];
/** @type {(fact: Fact) => void} */ let onShow = () => {};

/** @param {(fact: Fact) => void} show what shows and plays the places of a fact */
export function begin(show) {
  onShow = show;
  $("sift").addEventListener("input", list);
  $("level").addEventListener("change", list);
}

/** @param {Fact[]} next */
export function tell(next) {
  facts = next;
  list();
}

function list() {
  const words = $("sift").value.toLowerCase().split(/\s+/).filter(Boolean), upto = LEVELS.indexOf($("level").value);
  const shown = facts.filter((fact) => LEVELS.indexOf(fact.level) <= upto
    && words.every((/** @type {string} */ word) => `${fact.title} ${fact.value} ${fact.group}`.toLowerCase().includes(word)));
  const groups = [...new Set(shown.map((fact) => fact.group))];
  $("facts").replaceChildren(...groups.flatMap((group) => {
    const heading = made("h3", group), list = document.createElement("dl");
    list.append(...shown.filter((fact) => fact.group === group).map(row));
    return [heading, list];
  }));
  if (!shown.length) $("facts").textContent = txt("No fact has these words. Take one out, or choose a higher level.");
}

/** @param {Fact} fact */
function row(fact) {
  const pair = document.createElement("div"), title = made("dt", fact.title), value = document.createElement("dd");
  title.title = fact.means;
  value.append(made("span", fact.value, "value"));
  if (fact.rare) value.append(made("span", `${fact.rare} (${fact.count})`, "hint"));
  if (fact.places) value.append(made("span", fact.places, "hint"));
  if (fact.parts.length) {
    const button = /** @type {HTMLButtonElement} */ (made("button", txt("Show and play"), "where"));
    button.type = "button";
    button.setAttribute("aria-label", txt`Show and play: ${fact.title}`);
    button.addEventListener("click", () => onShow(fact));
    value.append(button);
  }
  pair.append(title, value);
  return pair;
}

/**
 * @param {string} name @param {string} [text] @param {string} [kind] its class
 * @returns {HTMLElement}
 */
export function made(name, text = "", kind = "") {
  const element = document.createElement(name);
  if (text) element.textContent = text;
  if (kind) element.className = kind;
  return element;
}
