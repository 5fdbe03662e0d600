// @ts-check
// Making a lesson: what keeps it from being made, how far it is, and what came out of it.

import { ask, Refused } from "./asking.js";
import { duration, follow, isOpen, start } from "./tasks.js";
import { element, taskView } from "./taskview.js";
import { txt } from "./words.js";

/** @typedef {import("./tasks.js").Task} Task */
/** @typedef {{name: string, words: string, bytes: number, is_known: boolean}} File */
/** @typedef {{group: string, name: string, verdict: string, expected: string, found: string, next_step: string}} Check */

const $ = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));
const slug = $("make").dataset.slug, path = `/api/lesson/${encodeURIComponent(slug)}`, made = `/made/${encodeURIComponent(slug)}`;
const KINDS = ["package", "verify"];
const film = /** @type {HTMLVideoElement} */ ($("film"));
let version = "", canMake = false, note = "", isOpenHere = false;

const megabytes = (/** @type {number} */ bytes) => (bytes < 100_000 ? `${Math.max(1, Math.round(bytes / 1000))} kB` : `${(bytes / 1e6).toFixed(1)} MB`);
const sentence = (/** @type {string} */ text) => text ? text[0].toUpperCase() + text.slice(1) + (/[.!?]$/.test(text) ? "" : ".") : "";

// --- what there is -----------------------------------------------------------------------------------------------

async function look() {
  let now;
  try {
    now = await ask("GET", `${path}/made`);
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    $("state").textContent = error.message;
    return;
  }
  const words = { "built": txt("Built, and nothing has changed since."), "to build": txt("To build"), "faults": txt("Not made yet"), "failed": txt("The last try failed") };
  const first = words[/** @type {keyof typeof words} */ (now.state)] ?? now.state;
  const faults = now.problem ? 1 : now.faults.length;
  $("state").textContent = now.state === "faults"
    ? txt`Nothing can be made yet: ${now.problem ? txt("the script cannot be read") : faults === 1 ? txt("one statement is not proved") : txt`${faults} statements are not proved`}.`
    : now.state === "built" ? first : sentence(`${first}: ${now.detail}`);
  $("make").dataset.state = now.state;
  canMake = now.state !== "faults";
  $("begin").hidden = now.state === "built";
  allow();
  drawFaults(now);
  const isThere = now.files.length > 0;
  $("result").hidden = !isThere;
  $("read-back").hidden = !isThere;
  $("folder").hidden = !isThere || $("make").dataset.desktop !== "yes";
  if (!isThere) return;
  drawFilm(now);
  drawFiles(now.files);
  drawReport(now.reading);
  drawCorrections(now.corrections);
  drawPublish(now.publish);
}

const allow = () => {
  $("begin").disabled = !canMake || isOpenHere;
  $("read-back").disabled = isOpenHere;
};

/** @param {{problem: string, faults: {line: number, words: string, reason: string, mend: string}[]}} now */
function drawFaults(now) {
  const rows = now.problem ? [{ line: 0, words: "", reason: now.problem, mend: "" }] : now.faults;
  $("faults-part").hidden = !rows.length;
  $("faults").replaceChildren(...rows.map((fault) => element("li", {},
    element("a", { href: `/lesson/${encodeURIComponent(slug)}${fault.line ? `#line-${fault.line}` : ""}` }, fault.words ? txt`Line ${fault.line}: “${fault.words}”` : txt("The script")),
    element("p", {}, sentence(fault.reason)))));
}

/** @param {{version: string, language: string, about: Record<string, number>}} now */
function drawFilm(now) {
  if (now.version === version && film.src) return;
  version = now.version;
  const query = `?v=${encodeURIComponent(version)}`;
  film.poster = `${made}/poster.png${query}`;
  film.src = `${made}/film.mp4${query}`;
  const captions = element("track", { kind: "captions", label: txt("Captions"), srclang: now.language, src: `${made}/captions.vtt${query}`, default: true });
  const chapters = element("track", { kind: "chapters", label: txt("Chapters"), srclang: now.language, src: `${made}/chapters.vtt${query}` });
  film.replaceChildren(captions, chapters);
  chapters.addEventListener("load", () => {
    $("chapters").replaceChildren(...[...(chapters.track.cues ?? [])].map((cue) => {
      const at = Math.floor(cue.startTime), go = element("button", { type: "button", className: "where" });
      go.textContent = `${Math.floor(at / 60)}:${String(at % 60).padStart(2, "0")}  ${/** @type {VTTCue} */ (cue).text}`;
      go.addEventListener("click", () => { film.currentTime = cue.startTime; film.play(); });
      return element("li", {}, go);
    }));
  });
  chapters.track.mode = "hidden";
}

/** @param {File[]} files */
function drawFiles(files) {
  const row = (/** @type {File} */ file) => {
    const address = file.name ? `${made}/${file.name.split("/").map(encodeURIComponent).join("/")}` : `${made}.zip`;
    const link = element("a", { href: address }, file.words);
    if (/\.(html|pdf|png)$/.test(file.name)) Object.assign(link, { target: "_blank", rel: "noopener" });
    else link.download = "";
    return element("li", {}, link, ` ${megabytes(file.bytes)}`);
  };
  const shown = (/** @type {File} */ file) => file.is_known && !/\.(md|json|jsonld|png)$/.test(file.name);
  $("files").replaceChildren(...files.filter(shown).map(row));
  $("more-files").replaceChildren(...files.filter((file) => !shown(file)).map(row));
}

/** @param {null | {at: string, held: number, broken: string[], checks: Check[]}} reading */
function drawReport(reading) {
  const checks = reading?.checks ?? [];
  $("report-table").hidden = !checks.length;
  if (!reading) {
    $("report-said").textContent = txt("This film was not read back yet. Until it is, nobody has looked at what was really written.");
    return;
  }
  const when = new Date(reading.at).toLocaleString();
  $("report-said").textContent = reading.broken.length
    ? txt`${reading.broken.length} of ${Math.max(checks.length, 1)} checks are broken, read on ${when}. ${checks.length ? "" : reading.broken[0]}`
    : txt`All ${reading.held} checks hold, read on ${when}: decoded again, listened to and looked at, by other means than those that made it.`;
  let group = "";
  $("report").replaceChildren(...checks.flatMap((check) => {
    const rows = [];
    if (check.group !== group) {
      group = check.group;
      rows.push(element("tr", { className: "group" }, element("th", { scope: "rowgroup", colSpan: 3 }, sentence(group).replace(/\.$/, ""))));
    }
    const sign = check.verdict === "held" ? "✓ " : check.verdict === "broken" ? "✗ " : "– ";
    rows.push(element("tr", { className: check.verdict === "broken" ? "broken" : "" },
      element("th", { scope: "row" }, sign + check.name), element("td", {}, check.expected),
      element("td", {}, check.found + (check.next_step ? ` ${check.next_step}` : ""))));
    return rows;
  }));
}

/** @param {{problem: string, note: string, corrections: any[], redefined: any[]}} found */
function drawCorrections(found) {
  const clock = (/** @type {number} */ ms) => `${Math.floor(ms / 60000)}:${String(Math.floor(ms / 1000) % 60).padStart(2, "0")}`;
  const rows = [
    ...found.corrections.map((one) => txt`${clock(one.start_ms)}: it says “${one.said}”; ${one.now ? txt`it is “${one.now}” today.` : sentence(one.reason)}`),
    ...found.redefined.map((one) => txt`The definition of “${one.title}” has changed, or its source; its value has not.`),
  ];
  note = found.note;
  $("corrections-part").hidden = !rows.length && !found.problem;
  $("copy-note").hidden = !note;
  $("corrections-said").textContent = found.problem || txt("This package is older than the facts. What was published with it says:");
  $("corrections").replaceChildren(...rows.map((text) => element("li", {}, text)));
}

/** What is typed into a platform's form, part by part, each with a button that copies it. @param {string} text */
function drawPublish(text) {
  const place = $("publish"), parts = [];
  const before = text.split(/^## /m)[0].replace(/^# .*$/m, "").trim();
  if (before) parts.push(element("p", { className: "hint" }, before));
  for (const [, heading, body] of text.matchAll(/^## (.+)\n+```text\n([\s\S]*?)\n```/gm)) {
    parts.push(element("h3", {}, heading), element("pre", { tabIndex: 0 }, body), element("p", {}, copying(txt`Copy: ${heading.toLowerCase()}`, () => body)));
    parts[parts.length - 2].setAttribute("aria-label", heading);
  }
  place.replaceChildren(...parts);
}

/** @param {string} label @param {() => string} text */
function copying(label, text) {
  const button = element("button", { type: "button", className: "quiet", textContent: label });
  button.addEventListener("click", () => copy(button, text()));
  return button;
}

/** @param {HTMLButtonElement} button @param {string} text */
async function copy(button, text) {
  const label = button.dataset.label ??= button.textContent ?? "";
  try {
    await navigator.clipboard.writeText(text);
    button.textContent = txt("Copied");
  } catch {
    button.textContent = txt("It cannot be copied from here; select it");
  }
  $("said").textContent = button.textContent;
  setTimeout(() => { button.textContent = label; }, 2000);
}

// --- what is under way -------------------------------------------------------------------------------------------

/** @type {Map<string, ReturnType<typeof taskView>>} */ const views = new Map();
/** @type {Set<string>} */ const seenOpen = new Set();
let lastStage = "";

/** @param {Task[]} tasks */
function show(tasks) {
  const own = tasks.filter((task) => task.lesson === slug && KINDS.includes(task.kind));
  const ahead = tasks.find((task) => task.state === "running" && !(task.lesson === slug && KINDS.includes(task.kind)));
  const last = own.find((task) => !isOpen(task));
  // What has ended well is told by what was made; what has not keeps its place until something else is begun.
  const shown = own.filter(isOpen).concat(last && last.state !== txt("done") && !own.some(isOpen) ? [last] : []);
  for (const [id, view] of views) if (!shown.some((task) => task.id === id)) { view.root.remove(); views.delete(id); }
  for (const task of shown) {
    let view = views.get(task.id);
    if (!view) {
      view = taskView(() => "");
      views.set(task.id, view);
      $("under-way").append(view.root);
    }
    view.update(task);
  }
  const running = own.find((task) => task.state === "running");
  if (running && running.stage !== lastStage) tell(running.stage ? sentence(running.stage) : txt("It begins."));
  lastStage = running?.stage ?? "";
  if (!running && ahead && own.some(isOpen)) tell(txt("It begins as soon as what runs now has ended."));
  isOpenHere = own.some(isOpen);
  allow();
  for (const task of own) {
    if (isOpen(task)) seenOpen.add(task.id);
    else if (seenOpen.delete(task.id)) { tell(task.message); look(); }
  }
}

/** @param {string} text */
const tell = (text) => { if ($("said").textContent !== text) $("said").textContent = text; };

/** @param {string} kind */
async function begin(kind) {
  tell("");
  try {
    seenOpen.add((await start(kind, slug)).id);
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    tell(error.message);
  }
}

$("begin").addEventListener("click", () => begin("package"));
$("read-back").addEventListener("click", () => begin("verify"));
$("copy-note").addEventListener("click", () => copy($("copy-note"), note));
$("folder").addEventListener("click", async () => {
  try {
    tell((await ask("POST", `${path}/folder`)).opened ? txt("The folder is opened beside the browser.") : txt("The folder cannot be opened from here; its place stands above."));
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    tell(error.message);
  }
});
look();
follow(show, (answers) => { $("lost").hidden = answers; if (answers) look(); });
