// @ts-check
// What is one click away: modes, neighbours, mirror, complement, named scales inside and around, other roots.

import { ask, Refused } from "./asking.js";
import { line, link, section } from "./cards.js";
import { made } from "./facts.js";
import { txt } from "./words.js";

/** @typedef {import("./cards.js").Card} Card */
/** @typedef {{modes: (Card & {like: string})[], neighbours: (Card & {move: string})[], mirror: Card & {is_same: boolean}, complement: Card | null, inside: Card[], more_inside: number, around: Card[], roots: (Card & {name: string, is_here: boolean})[]}} Relatives */

const panel = /** @type {HTMLElement} */ (document.getElementById("near-panel"));
/** @type {AbortController | undefined} */ let asking;

/** @param {{bits: string, root: number}} scale */
export async function show({ bits, root }) {
  asking?.abort();
  asking = new AbortController();
  try {
    tell(await ask("GET", `/api/relatives?${new URLSearchParams({ bits, root: String(root) })}`, undefined, { signal: asking.signal }));
  } catch (error) {
    if (error instanceof Refused) panel.replaceChildren(made("p", error.message));
  }
}

/** @param {Relatives} found */
function tell(found) {
  const own = document.activeElement instanceof HTMLElement && panel.contains(document.activeElement);
  panel.replaceChildren(
    section(txt("On another root"), found.roots.map((one) => {
      const there = link(one, one.name);
      there.setAttribute("aria-label", one.title);
      if (one.is_here) there.setAttribute("aria-current", "true");
      return there;
    }), "", "roots"),
    section(txt("Modes"), found.modes.map((one, index) => line(link(one), one.steps, index ? (one.like ? txt`the steps of the mode from ${one.like}` : "") : txt("this one")))),
    section(txt("Neighbours: one tone moved by one step"), found.neighbours.map((one) => line(link(one), one.move)),
      found.neighbours.length ? "" : txt("There is none: no tone has an empty place beside it.")),
    section(txt("Mirror and complement"), [
      line(link(found.mirror), found.mirror.is_same ? txt("the mirror about the root: this scale is its own") : txt("the mirror about the root")),
      found.complement ? line(link(found.complement), txt`the complement: ${found.complement.tones}`) : line(txt("no complement: every tone belongs to the scale")),
    ]),
    section(txt("Named scales inside"), found.inside.map((one) => line(link(one), one.tones)),
      found.more_inside ? txt`And ${found.more_inside} more.` : found.inside.length ? "" : txt("None is known by a name.")),
    section(txt("Named scales around, on the same root"), found.around.map((one) => line(link(one), one.tones)),
      found.around.length ? "" : txt("None is known by a name.")),
  );
  // Whoever chose a relative by keys goes on from the list.
  if (own) panel.focus();
}
