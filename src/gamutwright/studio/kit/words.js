// @ts-check
// What the studio says, in the language of its course: English in these sources, other languages by a table in the page.

const held = /** @type {HTMLMetaElement | null} */ (document.querySelector("meta[name=tongue]"));
/** English texts, with numbered slots, to those of the language. @type {Record<string, string>} */
const table = held ? JSON.parse(held.content) : {};

/** The language of the page. */
export const LANG = document.documentElement.lang || "en";

/**
 * Say a text: `txt("The line")`, or with slots as a template, txt`Take ${number}`.
 * @param {string | TemplateStringsArray} text
 * @param {...any} parts what stands in the slots
 * @returns {string}
 */
export function txt(text, ...parts) {
  const english = typeof text === "string" ? text : text.reduce((said, piece, place) => `${said}{${place - 1}}${piece}`);
  return (table[english] ?? english).replace(/\{(\d+)\}/g, (slot, place) => (Number(place) < parts.length ? String(parts[Number(place)]) : slot));
}
