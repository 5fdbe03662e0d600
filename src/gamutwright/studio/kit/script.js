// @ts-check
// Writing a script: saved while typing, checked while typing, nothing lost.
//
// What is typed goes into this browser's own storage at once, to the disk 300 ms after the last key, and to the check 60 ms
// after it. A save names the version it was made from; where the file was changed elsewhere, both texts are offered.
// The server's answers never replace the text that is being typed.

import { ask, Refused } from "./asking.js";
import { Lines } from "./lines.js";
import { offer } from "./saying.js";
import { txt } from "./words.js";

/** @typedef {{start: number, end: number, kind: string, fact: string, words: string, message: string, next_step: string, mend: string}} Mark */

const CHECK_MS = 60, SAVE_MS = 300, AGAIN_MS = 2000;
const $ = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));
/** @type {HTMLTextAreaElement} */ const script = $("script");
const desk = $("desk"), behind = $("behind"), saved = $("saved"), notice = $("notice"), list = $("faults");
const slug = desk.dataset.slug, path = `/api/lesson/${encodeURIComponent(slug)}`, draftKey = `script ${slug}`;
let version = desk.dataset.version, onDisk = script.value, asked = 0;
/** @type {Mark[]} */ let faults = [];
/** @type {any} */ let checked = null;
/** The line that the address names, until it was gone to. */ let wanted = Number(/^#line-(\d+)$/.exec(location.hash)?.[1] ?? 0);
let at = -1, saving = false, saveTimer = 0, checkTimer = 0;
/** @type {AbortController | undefined} */ let checking;
let view = new URLSearchParams(location.search).get("view") ?? recalled();

/** Which way of writing was chosen last. */
function recalled() { try { return localStorage.getItem("writes") ?? "lines"; } catch { return "lines"; } }

const lines = new Lines($("lines"), {
  text: () => script.value,
  replace: (start, end, text) => { script.setRangeText(text, start, end, "end"); script.dispatchEvent(new Event("input")); },
  check: () => { check(); },
  preview: glance,
  mend: (mark) => change(mark.start, mark.end, mark.mend),
  undo: () => travel(past, future),
  redo: () => travel(future, past),
});

// --- this browser's own copy -------------------------------------------------------------------------------------

const keep = () => {
  try {
    if (script.value === onDisk) localStorage.removeItem(draftKey);
    else localStorage.setItem(draftKey, JSON.stringify({ text: script.value, version, at: new Date().toISOString() }));
  } catch { /* a full storage leaves the copy on the disk, 300 ms later */ }
};

function offerDraft() {
  let draft = null;
  try { draft = JSON.parse(localStorage.getItem(draftKey) || "null"); } catch { /* no draft can be read */ }
  if (!draft || draft.text === script.value) return;
  const when = new Date(draft.at).toLocaleString();
  tell(txt`This browser holds text of ${when} that was not saved; it differs from line ${firstDifference(draft.text, script.value)} on.`, [
    [txt("Take it"), () => { replaceAll(draft.text); }],
    [txt("Discard it"), () => { localStorage.removeItem(draftKey); }],
  ]);
}

/** @param {string} one @param {string} other @returns {number} */
function firstDifference(one, other) {
  const a = one.split("\n"), b = other.split("\n");
  let line = 0;
  while (line < a.length && line < b.length && a[line] === b[line]) line += 1;
  return line + 1;
}

// --- saving ------------------------------------------------------------------------------------------------------

/** @param {string} text */
const showSaved = (text) => { if (saved.textContent !== text) saved.textContent = text; };

async function save() {
  clearTimeout(saveTimer);
  if (saving) return;
  if (script.value === onDisk) {
    // A draft that is on offer stays until somebody chooses.
    showSaved(txt("Saved"));
    return;
  }
  saving = true;
  const text = script.value;
  try {
    const now = await ask("PUT", `${path}/script`, { text }, { version });
    version = now.version;
    onDisk = text;
    keep();
    showSaved(script.value === text ? txt("Saved") : txt("Saving …"));
    if (notice.dataset.about === "line") hush();
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    showSaved(txt("Not saved"));
    if (error.status === 412) conflict(error.data.now);
    else if (error.status === 0 || error.status === 401 || error.status >= 500) {
      // Nobody there, or a studio that was started anew and does not know this browser yet.
      tell(txt`Not saved. ${error.message} Your text is kept in this browser; it is saved as soon as that is mended.`, [], "line");
      saveTimer = setTimeout(save, AGAIN_MS);
    } else tell(error.message, []);
    saving = false;
    return;
  }
  saving = false;
  if (script.value !== onDisk) saveTimer = setTimeout(save, SAVE_MS);
}

/** @param {{text: string, version: string}} now */
function conflict(now) {
  tell(txt`The script was changed elsewhere; the texts differ from line ${firstDifference(now.text, script.value)} on. Nothing was overwritten.`, [
    [txt("Keep mine"), () => { version = now.version; onDisk = now.text; save(); }],
    [txt("Take theirs"), () => { version = now.version; onDisk = now.text; replaceAll(now.text); }],
  ]);
}

// --- notices -----------------------------------------------------------------------------------------------------

/** @param {string} text @param {[string, () => void][]} choices @param {string} [about] */
function tell(text, choices, about = "") {
  notice.replaceChildren(document.createTextNode(text));
  for (const [label, act] of choices) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = label;
    button.addEventListener("click", () => { hush(); act(); script.focus(); });
    notice.append(" ", button);
  }
  notice.dataset.about = about;
  notice.hidden = false;
}

function hush() { notice.hidden = true; notice.replaceChildren(); delete notice.dataset.about; }

// --- changing the text so that the browser's own undo takes it back ---------------------------------------------

/** @param {number} start @param {number} end @param {string} text */
function write(start, end, text) {
  script.focus();
  script.setSelectionRange(start, end);
  if (!document.execCommand("insertText", false, text)) {
    script.setRangeText(text, start, end, "end");
    script.dispatchEvent(new Event("input"));
  }
}

/** @param {number} start @param {number} end @param {string} text */
function change(start, end, text) {
  if (view === "text") { write(start, end, text); return; }
  lines.wanted = start + text.length;
  script.setRangeText(text, start, end, "end");
  script.dispatchEvent(new Event("input"));
  check();
}

/** @param {string} text */
const replaceAll = (text) => change(0, script.value.length, text);

// --- taking back: every view's changes, in pauses of typing; the field's own undo goes on beside it --------------

const PAUSE_MS = 700, DEEPEST = 200;
/** @type {string[]} */ const past = [];
/** @type {string[]} */ const future = [];
let lastText = script.value, typedAt = 0, travels = false;

function remember() {
  if (travels || script.value === lastText) return;
  const now = performance.now();
  if (now - typedAt > PAUSE_MS || Math.abs(script.value.length - lastText.length) > 1) past.push(lastText);
  if (past.length > DEEPEST) past.shift();
  future.length = 0;
  typedAt = now;
  lastText = script.value;
  tellTravel();
}

/** @param {string[]} from @param {string[]} to */
function travel(from, to) {
  const text = from.pop();
  if (text === undefined) return;
  to.push(script.value);
  travels = true;
  let start = 0;
  while (start < text.length && text[start] === script.value[start]) start += 1;
  lines.wanted = start;
  script.value = lastText = text;
  script.dispatchEvent(new Event("input"));
  travels = false;
  typedAt = 0;
  tellTravel();
  check();
}

function tellTravel() { $("undo").disabled = !past.length; $("redo").disabled = !future.length; }

// --- the check ---------------------------------------------------------------------------------------------------

async function check() {
  clearTimeout(checkTimer);
  checking?.abort();
  checking = new AbortController();
  const mine = ++asked, text = script.value;
  let found;
  try {
    found = await ask("POST", "/api/check", { text }, { signal: checking.signal });
  } catch (error) {
    if (error instanceof Refused && error.status !== 0) $("verdict").textContent = error.message;
    return;
  }
  // Marks of a text that is no longer there would stand at wrong places.
  if (mine !== asked || text !== script.value) return;
  faults = found.marks.filter((/** @type {Mark} */ mark) => mark.kind === "fault" || mark.kind === "problem");
  at = Math.min(at, faults.length - 1);
  checked = found;
  if (view === "lines") lines.take(found);
  paint(found.marks);
  listFaults();
  tellPace(found.pace);
  const proved = found.marks.filter((/** @type {Mark} */ mark) => mark.kind === "proved").length;
  const isUnread = faults.some((mark) => mark.kind === "problem");
  $("verdict").textContent = isUnread
    ? txt`It cannot be read as it stands: ${faults.length === 1 ? txt("one thing is") : txt`${faults.length} things are`} wrong.`
    : faults.length ? txt`${faults.length === 1 ? txt("One thing is") : txt`${faults.length} things are`} not proved; ${proved === 1 ? txt("one statement is") : txt`${proved} statements are`}.`
    : proved > 1 ? txt`All ${proved} statements are proved.` : proved ? txt("The one statement is proved.") : txt("Nothing is stated that has to be proved.");
  arrive();
  const seconds = Math.round(found.minutes * 60);
  $("length").textContent = seconds ? txt`About ${Math.floor(seconds / 60)} min ${String(seconds % 60).padStart(2, "0")} s in ${found.lines.length} lines.` : "";
  desk.dataset.checked = String(mine);
}

/** @param {Mark[]} marks */
function paint(marks) {
  behind.textContent = `${script.value}\n`;
  const css = /** @type {any} */ (CSS);
  if (!css.highlights) return;
  const node = behind.firstChild;
  for (const kind of ["fault", "problem", "proved"]) {
    const ranges = view === "lines" ? lines.ranges(kind) : marks.filter((mark) => mark.kind === kind && mark.end > mark.start).map((mark) => {
      const range = new Range();
      range.setStart(node, mark.start);
      range.setEnd(node, Math.min(mark.end, script.value.length));
      return range;
    });
    css.highlights.set(kind, new Highlight(...ranges));
  }
}

function listFaults() {
  list.replaceChildren(...faults.map((mark, index) => {
    const item = document.createElement("li");
    const where = document.createElement("button");
    where.type = "button";
    where.className = "where";
    where.textContent = mark.words ? `“${mark.words}”` : txt`Line ${script.value.slice(0, mark.start).split("\n").length}`;
    where.addEventListener("click", () => go(index));
    const why = document.createElement("p");
    const reason = mark.message[0].toUpperCase() + mark.message.slice(1);
    why.textContent = `${reason}${/[.!?]$/.test(reason) ? "" : "."} ${mark.mend ? "" : mark.next_step}`.trim();
    item.append(where, why);
    if (mark.mend) {
      const mend = document.createElement("button");
      mend.type = "button";
      mend.textContent = txt`Write: ${mark.mend}`;
      mend.addEventListener("click", () => repair(index));
      item.append(mend);
    }
    return item;
  }));
}

/** @param {number} index */
function go(index) {
  const mark = faults[index];
  if (!mark) return;
  at = index;
  if (view === "lines") { lines.go(mark.start, mark.end); return; }
  script.focus();
  script.setSelectionRange(mark.start, mark.end);
  // A field scrolls to its selection only when something is typed; the layer behind knows how high the place is.
  const before = new Range();
  if (behind.firstChild) {
    before.setStart(behind.firstChild, mark.start);
    script.scrollTop = before.getBoundingClientRect().top - behind.getBoundingClientRect().top - script.clientHeight / 3;
  }
}

/** Go to what is not proved in the line that the address names. */
function arrive() {
  if (!wanted) return;
  go(faults.findIndex((mark) => script.value.slice(0, mark.start).split("\n").length === wanted));
  wanted = 0;
}

/** @param {number} index */
function repair(index) {
  const mark = faults[index];
  if (mark?.mend) change(mark.start, mark.end, mark.mend);
}

// --- pace --------------------------------------------------------------------------------------------------------

/** @typedef {{name: string, unit: string, value: number, against: number, verdict: string, source: string, advice: string}} Figure */
/** @param {{title: string, minutes: number, words: number, figures: Figure[]}[]} pace */
function tellPace(pace) {
  const open = new Set([...$("pace").querySelectorAll("details[open]")].map((one) => one.dataset.title));
  $("pace").replaceChildren(...pace.map((one, place) => {
    const box = document.createElement("details"), head = document.createElement("summary"), list = document.createElement("dl");
    const weak = one.figures.filter((figure) => figure.verdict !== "fine");
    box.dataset.title = place ? one.title : " ";
    box.open = open.has(box.dataset.title);
    head.textContent = `${place ? one.title || txt("Before the first chapter") : txt("The whole")}: ${one.minutes.toFixed(1)} min${weak.length ? txt`, ${weak.length} to look at` : ""}`;
    list.append(...one.figures.map((figure) => {
      const pair = document.createElement("div"), name = document.createElement("dt"), value = document.createElement("dd");
      name.textContent = figure.name;
      value.textContent = `${figure.value} ${figure.unit}`.trim() + (figure.verdict === "fine" ? "" : `: ${figure.verdict}. ${figure.advice}`);
      pair.title = figure.source;
      pair.className = figure.verdict;
      pair.append(name, value);
      return pair;
    }));
    box.append(head, list);
    return box;
  }));
}

// --- seeing a line -----------------------------------------------------------------------------------------------

/** Play a line of the script as it is on the disk. @param {string} id */
async function glance(id) {
  const dialog = $("glance"), film = $("glance-film"), told = $("glance-told");
  const line = checked?.lines.find((/** @type {{id: string}} */ one) => one.id === id);
  if (!line) return;
  dialog.showModal();
  film.removeAttribute("src");
  told.textContent = line.text ? txt`${line.text} (It is made …)` : txt("A line without words is seen with the line before it.");
  if (!line.text) return;
  for (let tries = 0; script.value !== onDisk && tries < 50; tries += 1) await new Promise((resolve) => setTimeout(resolve, 100));
  const asks = await fetch(`${path}/clip/${encodeURIComponent(id)}`);
  if (!asks.ok) { told.textContent = new Refused(asks.status, await asks.json().catch(() => null)).message; return; }
  if (!dialog.open) return;
  URL.revokeObjectURL(film.src);
  film.src = URL.createObjectURL(await asks.blob());
  told.textContent = line.text;
  film.play().catch(() => {});
}

// --- ways of writing ---------------------------------------------------------------------------------------------

/** @param {string} wanted */
function write_in(wanted) {
  view = wanted === "text" ? "text" : "lines";
  $("lines").hidden = view !== "lines";
  $("sheet").hidden = view !== "text";
  for (const button of document.querySelectorAll("[data-view]")) button.setAttribute("aria-pressed", String(/** @type {HTMLElement} */ (button).dataset.view === view));
  if (checked && view === "lines") lines.take(checked);
  if (checked) paint(checked.marks);
}

// --- earlier versions --------------------------------------------------------------------------------------------

let chosen = "";
async function openHistory() {
  const dialog = /** @type {HTMLDialogElement} */ ($("history"));
  $("shown").textContent = "";
  $("take").disabled = true;
  const rows = await ask("GET", `${path}/history`);
  $("kept").replaceChildren(...rows.map((/** @type {{version: string, saved_at: string, characters: number}} */ row) => {
    const item = document.createElement("li"), button = document.createElement("button");
    button.type = "button";
    button.className = "where";
    button.textContent = txt`${new Date(row.saved_at).toLocaleString()}, ${row.characters} characters`;
    button.addEventListener("click", async () => {
      chosen = (await ask("GET", `${path}/history/${row.version}`)).text;
      $("shown").textContent = chosen;
      $("take").disabled = false;
    });
    item.append(button);
    return item;
  }));
  if (!rows.length) $("kept").replaceChildren(txt("There is no earlier version yet."));
  dialog.showModal();
}

// --- events ------------------------------------------------------------------------------------------------------

script.addEventListener("input", () => {
  remember();
  keep();
  behind.textContent = `${script.value}\n`;
  showSaved(txt("Saving …"));
  clearTimeout(saveTimer);
  saveTimer = setTimeout(save, SAVE_MS);
  clearTimeout(checkTimer);
  checkTimer = setTimeout(check, CHECK_MS);
});
script.addEventListener("scroll", () => { behind.parentElement.scrollTop = script.scrollTop; }, { passive: true });
addEventListener("beforeunload", (event) => { if (script.value !== onDisk) { save(); event.preventDefault(); } });
document.addEventListener("visibilitychange", () => { if (document.hidden) save(); });
addEventListener("keydown", (event) => {
  if (!event.altKey || event.ctrlKey || event.metaKey) return;
  if (event.code === "KeyN" && faults.length) go((at + 1) % faults.length);
  else if (event.code === "KeyM" && at >= 0) repair(at);
  else if (event.code === "KeyH") openHistory();
  else if (event.code === "KeyF") { $("offer").open = true; $("sift").focus(); }
  else if (event.code === "KeyP" && lines.here?.id) glance(lines.here.id);
  else return;
  event.preventDefault();
});
$("versions").addEventListener("click", openHistory);
$("undo").addEventListener("click", () => travel(past, future));
$("redo").addEventListener("click", () => travel(future, past));
for (const button of document.querySelectorAll("[data-view]")) {
  button.addEventListener("click", () => {
    const wanted = /** @type {HTMLElement} */ (button).dataset.view ?? "lines";
    try { localStorage.setItem("writes", wanted); } catch { /* it is the usual one next time */ }
    write_in(wanted);
  });
}
$("glance-close").addEventListener("click", () => $("glance").close());
$("glance").addEventListener("close", () => { $("glance-film").pause(); });
offer({
  text: () => script.value,
  say: (words) => { if (view === "lines") lines.say(words); else { script.focus(); write(script.selectionEnd, script.selectionEnd, ` ${words} `); } },
  cue: (cue) => { if (view === "lines") lines.cue(cue); else { script.focus(); write(script.selectionEnd, script.selectionEnd, cue); } },
});
$("leave").addEventListener("click", () => $("history").close());
$("take").addEventListener("click", () => { $("history").close(); replaceAll(chosen); });

tellTravel();
write_in(view);
offerDraft();
behind.textContent = `${script.value}\n`;
check();
