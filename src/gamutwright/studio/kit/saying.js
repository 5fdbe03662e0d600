// @ts-check
// What can be put into a script: a fact in a sentence whose words are proved, and cues by name.

import { ask, Refused } from "./asking.js";
import { txt } from "./words.js";

/** @typedef {{id: string, title: string, level: string, value: string, says: string, explains: string, is_told: boolean, is_explained: boolean}} Fact */

const $ = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));
const LEVELS = ["foundation", "further", "research"], MOST = 40;

/** @param {{text: () => string, say: (words: string) => void, cue: (cue: string) => void}} desk */
export function offer(desk) {
  /** @type {Fact[]} */ let facts = [];
  let asked = "";

  const fetchFacts = async () => {
    const text = desk.text();
    if (text === asked) return;
    try {
      const found = await ask("POST", "/api/sentences", { text });
      asked = text;
      facts = found.facts;
      if ($("cue").options.length === 1) {
        for (const [key, names] of [["show", found.shows], ["play", found.plays]]) {
          for (const name of names) $("cue").append(new Option(`${key} ${name}`, `{${key}=${name}}`));
        }
        $("cue").append(new Option(txt("rest for a second"), "{pause=1}"));
      }
      list();
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      $("offered").replaceChildren();
      $("offer-said").textContent = error.message;
    }
  };

  const list = () => {
    const words = $("sift").value.toLowerCase().split(/\s+/).filter(Boolean);
    const fitting = facts
      .filter((fact) => words.every((/** @type {string} */ word) => `${fact.title} ${fact.value}`.toLowerCase().includes(word)))
      .sort((a, b) => Number(a.is_told) - Number(b.is_told) || LEVELS.indexOf(a.level) - LEVELS.indexOf(b.level));
    $("offer-said").textContent = fitting.length > MOST ? txt`${fitting.length} facts; these are the first ${MOST}.` : fitting.length === 1 ? txt("One fact.") : txt`${fitting.length} facts.`;
    $("offered").replaceChildren(...fitting.slice(0, MOST).map(row));
  };

  /** @param {Fact} fact */
  const row = (fact) => {
    const item = document.createElement("li"), title = document.createElement("strong"), value = document.createElement("span");
    title.textContent = fact.title;
    value.className = "hint";
    value.textContent = ` ${fact.value}${fact.is_told ? txt(" (told)") : ""}`;
    item.append(title, value, document.createElement("br"));
    for (const [label, words] of [[txt("Say it"), fact.says], [fact.is_explained ? txt("Explain it again") : txt("Explain it"), fact.explains]]) {
      const button = document.createElement("button");
      button.type = "button";
      button.className = "small quiet";
      button.textContent = label;
      button.setAttribute("aria-label", `${label}: ${fact.title}`);
      button.title = words;
      button.addEventListener("click", () => desk.say(words));
      item.append(button, " ");
    }
    return item;
  };

  $("sift").addEventListener("focus", fetchFacts);
  $("sift").addEventListener("input", list);
  $("offer").addEventListener("toggle", () => { if ($("offer").open) fetchFacts(); });
  $("cue").addEventListener("pointerdown", fetchFacts);
  $("cue").addEventListener("focus", fetchFacts);
  $("cue").addEventListener("change", () => {
    const cue = $("cue").value;
    $("cue").selectedIndex = 0;
    if (cue) desk.cue(cue);
  });
}
