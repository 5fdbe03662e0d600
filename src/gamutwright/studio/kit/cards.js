// @ts-check
// Scales to go to: links that can be opened in a tab of their own, and that a plain click looks at here.

import { made } from "./facts.js";

/** @typedef {{title: string, text: string, divisions: number, bits: string, root: number, steps: string, tones: string}} Card */

/** @type {(card: Card) => void} */ let onGo = () => {};

/** @param {(card: Card) => void} go what looks at a scale */
export function begin(go) { onGo = go; }

/** @param {{text: string, divisions: number}} scale @returns {string} its address */
export const address = (scale) => `/explore?${new URLSearchParams({ scale: scale.text, ...(scale.divisions === 12 ? {} : { divisions: String(scale.divisions) }) })}`;

/** @param {Card} card @param {string} [text] what the link says; its title without it */
export function link(card, text = card.title) {
  const one = /** @type {HTMLAnchorElement} */ (made("a", text));
  one.href = address(card);
  one.addEventListener("click", (event) => {
    if (event.button || event.ctrlKey || event.metaKey || event.shiftKey || event.altKey) return;
    event.preventDefault();
    onGo(card);
  });
  return one;
}

/** @param {string} heading @param {HTMLElement[]} rows @param {string} [hint] @param {string} [kind] */
export function section(heading, rows, hint = "", kind = "cards") {
  const whole = document.createElement("section"), list = made("ul", "", kind);
  list.append(...rows.map((row) => {
    const item = document.createElement("li");
    item.append(row);
    return item;
  }));
  whole.append(made("h3", heading), ...(hint ? [made("p", hint, "hint")] : []), list);
  return whole;
}

/** @param {...(HTMLElement | string)} parts */
export function line(...parts) {
  const whole = document.createElement("div");
  whole.append(...parts.map((part) => (typeof part === "string" ? made("span", part, "hint") : part)));
  return whole;
}
