// @ts-check
// The catalogue: conditions with help, results a page at a time, and the building of what is missing.

import { ask, Refused } from "./asking.js";
import { link, section } from "./cards.js";
import { made } from "./facts.js";
import { LANG, txt } from "./words.js";

/** @typedef {import("./cards.js").Card} Card */
/** @typedef {{divisions: number, state: string, share: number, left: number | null, message: string, is_quick: boolean}} State */
/** @typedef {{id: string, title: string, group: string, kind: string, means: string, try: string, sorts: boolean}} Column */
/** @typedef {{columns: Column[], examples: {says: string, condition: string}[]}} Help */
/** @typedef {{total: number, page: number, pages: number, columns: {id: string, title: string}[], rows: (Card & {names: string, values: string[]})[]}} Found */

const $ = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));
const EACH_MS = 500;
/** @typedef {{bits: string, root: number, divisions: number} | null} Looked */
/** @type {Looked} */ let scale = null;
/** @type {Help | null} */ let help = null;
let helpFor = 0, searched = 0, watching = 0, isAsked = false;

export function begin() {
  $("search").addEventListener("submit", (/** @type {Event} */ event) => { event.preventDefault(); isAsked = true; search(0); });
  for (const id of ["relation", "sort", "largest"]) $(id).addEventListener("change", () => { if (isAsked) search(0); });
  $("column").addEventListener("input", listColumns);
  for (const [id, verb] of [["build", "build"], ["stop", "cancel"]]) {
    $(id).addEventListener("click", async () => {
      if (!scale) return;
      try { told(await ask("POST", `/api/catalogue/${scale.divisions}/${verb}`)); } catch (error) { refused(error); }
    });
  }
}

/** @param {Looked} next */
export async function show(next) {
  const isOther = !scale || !next || scale.divisions !== next.divisions;
  scale = next;
  if (!scale) return;
  if (isOther) {
    isAsked = false;
    searched += 1;
    $("found").replaceChildren();
    $("find-said").textContent = "";
  }
  watch();
  const mine = ++helpFor;
  try {
    const found = await ask("GET", `/api/search/columns?${new URLSearchParams({ bits: scale.bits, root: String(scale.root) })}`);
    if (mine !== helpFor) return;
    help = found;
    listHelp();
  } catch (error) { refused(error); }
}

export const hide = () => clearTimeout(watching);

// --- the catalogue itself --------------------------------------------------------------------------------------------

async function watch() {
  clearTimeout(watching);
  if (!scale) return;
  try { told(await ask("GET", `/api/catalogue/${scale.divisions}`)); } catch (error) { refused(error); }
}

/** @param {State} state */
function told(state) {
  if (!scale || state.divisions !== scale.divisions) return;
  const wasHidden = $("building").hidden, isReady = state.state === "ready", isBuilding = state.state === "building";
  $("building").hidden = isReady;
  $("built").hidden = $("stop").hidden = !isBuilding;
  $("build").hidden = isBuilding || state.state === "waiting";
  if (isBuilding && state.share) $("built").value = state.share; else $("built").removeAttribute("value");
  const what = txt`The catalogue of ${state.divisions} divisions`, isLong = !state.is_quick;
  /** @type {Record<string, string>} */
  const words = {
    building: txt`${what} is being built, once${state.left === null ? "" : txt`; about ${Math.ceil(state.left)} seconds are left`}. The rest of the studio goes on.`,
    waiting: txt`${what} waits for another one, which is being built.`,
    missing: txt`${what} is not built yet${isLong ? txt("; so large a one takes up to a minute") : ""}. It is built once, beside the other work, and can be cancelled.`,
    failed: txt`${what} is not there. ${state.message}`,
  };
  if (!isReady) $("find-said").textContent = words[state.state] ?? "";
  else if (!wasHidden) {
    $("find-said").textContent = txt`${what} is ready.`;
    if (isAsked) search(0);
  }
  clearTimeout(watching);
  if (isBuilding || state.state === "waiting") watching = setTimeout(watch, EACH_MS);
}

// --- results ---------------------------------------------------------------------------------------------------------

/** @param {number} page */
async function search(page) {
  if (!scale || !$("building").hidden) return;
  const mine = ++searched, sort = $("sort").value;
  const question = {
    bits: scale.bits, root: String(scale.root), condition: $("condition").value.trim(), relation: $("relation").value,
    sort: sort && $("largest").checked ? `-${sort}` : sort, page: String(page),
  };
  $("find-said").textContent = txt("Searching …");
  try {
    const found = await ask("GET", `/api/search?${new URLSearchParams(question)}`);
    if (mine === searched) list(found);
  } catch (error) {
    if (mine === searched) { $("found").replaceChildren(); refused(error); }
  }
}

/** @param {unknown} error */
function refused(error) {
  if (error instanceof Refused) $("find-said").textContent = [error.message, ...(error.data?.readings ?? [])].join(" ");
}

/** @param {Found} found */
function list(found) {
  const many = found.total === 1 ? txt("One scale") : txt`${found.total.toLocaleString(LANG)} scales`;
  $("find-said").textContent = !found.total ? txt("No scale meets this. Leave out a part of the condition.") : found.pages > 1 ? txt`${many}, page ${found.page + 1} of ${found.pages.toLocaleString(LANG)}.` : `${many}.`;
  if (!found.total) { $("found").replaceChildren(); return; }
  const place = made("div", "", "wide"), table = document.createElement("table"), head = document.createElement("tr"), top = document.createElement("thead"), body = document.createElement("tbody");
  head.append(...[txt("Tones"), txt("Name"), ...found.columns.map((column) => column.title)].map((text) => {
    const cell = /** @type {HTMLTableCellElement} */ (made("th", text));
    cell.scope = "col";
    return cell;
  }));
  top.append(head);
  body.append(...found.rows.map((one) => {
    const row = document.createElement("tr"), first = /** @type {HTMLTableCellElement} */ (document.createElement("th"));
    first.scope = "row";
    first.append(link(one, one.tones));
    row.append(first, made("td", one.names || (one.divisions === 12 ? one.title : one.steps)), ...one.values.map((value) => made("td", value)));
    return row;
  }));
  table.append(made("caption", txt("Scales found, on the root of the ring")), top, body);
  place.tabIndex = 0;
  place.setAttribute("role", "region");
  place.setAttribute("aria-label", txt("Scales found"));
  place.append(table);
  $("found").replaceChildren(place, ...(found.pages > 1 ? [pager(found)] : []));
}

/** @param {Found} found */
function pager(found) {
  const row = made("p", "", "row"), last = found.pages - 1;
  for (const [text, page] of /** @type {[string, number][]} */ ([[txt("First"), 0], [txt("Earlier"), found.page - 1], [txt("Later"), found.page + 1], [txt("Last"), last]])) {
    const button = /** @type {HTMLButtonElement} */ (made("button", text, "quiet"));
    button.type = "button";
    button.disabled = page < 0 || page > last || page === found.page;
    button.addEventListener("click", async () => {
      await search(page);
      const again = [.../** @type {NodeListOf<HTMLButtonElement>} */ ($("found").querySelectorAll("p button"))].find((one) => one.textContent === text);
      if (again && !again.disabled) again.focus(); else $("found").querySelector(".wide")?.focus();
    });
    row.append(button);
  }
  return row;
}

// --- help ------------------------------------------------------------------------------------------------------------

function listHelp() {
  if (!help) return;
  const chosen = $("sort").value;
  $("sort").replaceChildren(new Option(txt("number of tones, then class"), ""), ...help.columns.filter((one) => one.sorts).map((one) => new Option(one.title, one.id)));
  $("sort").value = help.columns.some((one) => one.id === chosen) ? chosen : "";
  $("examples").replaceChildren(section("", help.examples.map((one) => {
    const row = document.createElement("div");
    row.append(put(one.says, () => one.condition), made("code", one.condition));
    return row;
  })).lastElementChild ?? "");
  listColumns();
}

function listColumns() {
  if (!help) return;
  const words = $("column").value.toLowerCase().split(/\s+/).filter(Boolean), list = made("ul", "", "cards");
  const shown = help.columns.filter((one) => words.every((/** @type {string} */ word) => `${one.id} ${one.title} ${one.group} ${one.means}`.toLowerCase().includes(word)));
  list.append(...shown.map((one) => {
    const item = document.createElement("li"), row = document.createElement("div");
    const add = put(one.title, () => { const had = $("condition").value.trim(); return had ? `${had} AND ${one.try}` : one.try; });
    add.title = one.means;
    row.append(add, made("code", one.try), made("span", one.kind, "hint"));
    item.append(row);
    return item;
  }));
  $("columns").replaceChildren(shown.length ? list : made("p", txt("No column has these words.")));
}

/** @param {string} text @param {() => string} condition */
function put(text, condition) {
  const button = /** @type {HTMLButtonElement} */ (made("button", text, "where"));
  button.type = "button";
  button.addEventListener("click", () => {
    $("condition").value = condition();
    isAsked = true;
    search(0);
  });
  return button;
}
