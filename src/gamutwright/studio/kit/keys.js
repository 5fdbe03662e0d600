// @ts-check
// Single keys that act: never while somebody types, never with another key held, and not at all where they are off.

import { kept } from "./prompter.js";

const $ = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));
const TYPING = "textarea, select, audio, [contenteditable], input:not([type=checkbox])";

/**
 * @param {[string, string, () => void][]} all the key in small letters, its name and what it does with a bar between, the deed
 * @param {() => void} onEscape what Escape does, which acts always
 */
export function singleKeys(all, onEscape) {
  const keys = [...all, /** @type {[string, string, () => void]} */ (["?", "?|this list", () => $("keys").showModal()])];
  $("single").checked = kept("speak keys") !== "no";
  $("single").addEventListener("change", () => kept("speak keys", $("single").checked ? "yes" : "no"));
  $("keys-open").addEventListener("click", () => $("keys").showModal());
  $("keys-close").addEventListener("click", () => $("keys").close());
  $("key-list").replaceChildren(...keys.flatMap(([, words]) => {
    const [name, what] = words.split("|"), term = document.createElement("dt"), key = document.createElement("kbd"), deed = document.createElement("dd");
    key.textContent = name;
    deed.textContent = what;
    term.append(key);
    return [term, deed];
  }));
  addEventListener("keydown", (event) => {
    const isOther = event.ctrlKey || event.altKey || event.metaKey || event.repeat || event.isComposing;
    if (event.defaultPrevented || isOther || $("keys").open || !(event.target instanceof Element)) return;
    const key = event.key.toLowerCase();
    if (event.target.closest(TYPING)) return;
    // Buttons and links have keys of their own.
    if ((key === "enter" || key === " ") && event.target.closest("button, a, summary, input")) return;
    if (key === "escape") { onEscape(); return; }
    const found = $("single").checked && keys.find(([one]) => one === (key === "=" ? "+" : key));
    if (!found) return;
    event.preventDefault();
    found[2]();
  });
}
