// @ts-check
// Recording a lesson line by line, by keys or by mouse: read it, keep it, go on.
//
// What is recorded is kept in this browser until the studio has it. Nothing is spoken by the page while a line is being
// recorded, since a screen reader's voice would be recorded too.

import { ask, Refused } from "./asking.js";
import { singleKeys } from "./keys.js";
import { listWaiting, Outbox } from "./outbox.js";
import { chosen, kept, paceInWords, paceOf, sizes, spell, totalsInWords } from "./prompter.js";
import { Session } from "./session.js";
import { faultsOf, listTakes, Player } from "./takes.js";
import { txt } from "./words.js";

/** @typedef {import("./prompter.js").Line} Line */
/** @typedef {import("./outbox.js").Recording} Recording */

const $ = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));
const slug = $("speak").dataset.slug, path = `/api/lesson/${encodeURIComponent(slug)}`, LARGEST = 64e6;
/** @type {Line[]} */ let lines = [];
/** @type {{title: string, lines: Line[]}[]} */ let chapters = [];
/** @type {{id: string, text: string, takes: number[]}[]} */ let lost = [];
let at = 0, usual = 140;
/** What can be taken back. @type {(() => Promise<void>)[]} */ let undone = [];
/** Recordings that are to be thrown away as soon as they are in. @type {Set<string>} */ const doomed = new Set();

const outbox = new Outbox(slug), player = new Player(say), session = new Session(outbox, (blob) => player.play(URL.createObjectURL(blob), txt("Trying the microphone")));
const resize = sizes($("words"));
const here = () => lines[at];
const lineAt = (/** @type {Line} */ line, /** @type {string} */ rest) => `${path}/lines/${encodeURIComponent(line.id)}${rest}`;
const sound = (/** @type {string} */ id, /** @type {number} */ take) => ({ path: `/api/takes/${encodeURIComponent(slug)}/${encodeURIComponent(id)}/${take}`, name: txt`Take ${take}` });

/** @param {string} text */
function say(text) { if (text) $("said").textContent = text[0].toUpperCase() + text.slice(1); }

// --- what is shown -----------------------------------------------------------------------------------------------

/** @param {any} told */
function takeListing(told) {
  const id = told.id ?? here()?.id ?? decodeURIComponent(location.hash.slice(1));
  ({ chapters, lost } = told);
  usual = told.rate;
  session.longest = told.longest;
  lines = chapters.flatMap((chapter) => chapter.lines.map((line) => Object.assign(line, { chapter: chapter.title })));
  at = Math.max(0, lines.findIndex((line) => line.id === id));
  buildList();
  paint();
}

function buildList() {
  $("list").replaceChildren(...chapters.flatMap((chapter) => {
    const list = document.createElement("ol");
    list.start = chapter.lines[0].number;
    list.append(...chapter.lines.map((line) => {
      const item = document.createElement("li"), button = document.createElement("button");
      button.type = "button";
      button.dataset.line = line.id;
      button.append(document.createElement("span"), document.createElement("small"));
      button.addEventListener("click", () => { go(lines.findIndex((one) => one.id === line.id)); $("stand").focus({ preventScroll: innerWidth > 960 }); });
      item.append(button);
      return item;
    }));
    const heading = document.createElement("h3");
    heading.textContent = chapter.title;
    return chapter.title ? [heading, list] : [list];
  }));
  $("lost").replaceChildren(...(lost.length ? [document.createElement("h3"), document.createElement("ul")] : []));
  if (!lost.length) return;
  $("lost").firstChild.textContent = txt("Takes of lines that are gone");
  $("lost").lastChild.append(...lost.map((one) => {
    const item = document.createElement("li"), button = document.createElement("button");
    button.type = "button";
    button.className = "where";
    button.textContent = `“${one.text}”`;
    button.setAttribute("aria-label", txt`Play: ${one.text}`);
    button.addEventListener("click", () => player.play(sound(one.id, one.takes[one.takes.length - 1]).path, one.text));
    item.append(button);
    return item;
  }));
}

/** @param {Line} line */
function stateOf(line) {
  if ([...outbox.offered].some((one) => one.line === line.id)) return ["waiting", txt("not sent")];
  const take = chosen(line), faults = take?.faults.map((fault) => fault.name).join(", ");
  if (line.state === "none" || !take) return ["none", line.unproved.length ? txt("not proved") : txt("no take")];
  if (line.state === "stale") return ["stale", txt("stale")];
  return [faults ? "faulty" : "recorded", `${spell(take.seconds)}${line.takes.length > 1 ? txt`, take ${take.number}` : ""}${faults ? `, ${faults}` : ""}`];
}

function paintList() {
  for (const button of $("list").querySelectorAll("button")) {
    const line = lines.find((one) => one.id === button.dataset.line);
    if (!line) continue;
    const [state, words] = stateOf(line);
    button.className = `line-button ${state}`;
    button.firstChild.textContent = line.text;
    button.lastChild.textContent = words;
    if (line === here()) button.setAttribute("aria-current", "true");
    else button.removeAttribute("aria-current");
  }
}

function paint() {
  const line = here();
  paintList();
  $("totals").textContent = totalsInWords(lines);
  if (!line) { $("words").textContent = txt("There is no line to record yet."); return; }
  $("which").textContent = txt`Line ${line.number} of ${lines.length}${line.chapter ? `: ${line.chapter}` : ""}`;
  $("words").textContent = line.text;
  $("next").textContent = lines[at + 1] ? txt`Then: ${lines[at + 1].text}` : txt("The last line.");
  $("pace").textContent = paceInWords(line, lines, usual);
  session.expected = (60 * line.words) / paceOf(lines, usual).rate;
  const stale = line.state === "stale" && txt`The words have changed since take ${line.chosen}, which says: “${chosen(line)?.said}”`;
  const unproved = line.unproved.length && txt`Not proved: ${line.unproved.map((words) => `“${words}”`).join(", ")}. Mend it before you record it.`;
  $("warning").textContent = stale || unproved || "";
  $("warning").hidden = !(stale || unproved);
  listTakes(line, { play: playTake, compare, choose, discard, restore });
  paintDeeds();
}

function paintDeeds() {
  const { phase } = session, isOn = phase === "recording" || phase === "counting";
  $("stand").dataset.phase = phase;
  $("said").setAttribute("aria-live", isOn ? "off" : "polite");
  $("record").firstChild.textContent = phase === "recording" ? txt("Stop ") : phase === "counting" ? txt("Stop the count ") : txt("Record ");
  $("record").disabled = !here() || phase === "opening" || phase === "testing";
  $("play").disabled = isOn || !here()?.takes.length;
  $("discard").disabled = phase === "counting" || !(phase === "recording" || here()?.takes.length);
  $("keep").disabled = phase === "counting" || !here();
  $("change").disabled = isOn || !here();
  $("earlier").disabled = isOn || at <= 0;
  $("later").disabled = isOn || at >= lines.length - 1;
  $("missing").disabled = isOn || lines.every((one) => one.state === "recorded");
  $("undo").disabled = isOn || !undone.length;
  $("test").disabled = $("open").disabled = $("device").disabled = isOn;
}

function paintWaiting() {
  listWaiting(outbox, lines, (blob) => player.play(URL.createObjectURL(blob), txt("What was not sent")), (recording) => {
    // A line that is gone has no takes to be among: they go to the one that is shown.
    if (!lines.some((line) => line.id === recording.line)) recording.line = here().id;
    send(recording);
  });
  if (!outbox.isKept) say(txt("This browser keeps nothing: stay on this page until a take is in."));
  paintList();
}

// --- going about -------------------------------------------------------------------------------------------------

/** @param {number} index */
function go(index) {
  if (index < 0 || index >= lines.length || index === at || session.isBusy) return;
  unedit();
  player.forget();
  at = index;
  history.replaceState(null, "", `#${encodeURIComponent(here().id)}`);
  paint();
  const button = $("list").querySelector("[aria-current]");
  if (document.activeElement?.closest?.("#list")) button.focus();
  else if (innerWidth > 960) button.scrollIntoView({ block: "nearest" });
}

function goMissing() {
  const order = [...lines.slice(at + 1), ...lines.slice(0, at + 1)], found = order.find((line) => line.state !== "recorded");
  if (found) go(lines.indexOf(found));
  say(found ? txt`Line ${here().number}.` : txt("Every line is recorded."));
}

// --- recording ---------------------------------------------------------------------------------------------------

async function record() {
  if (session.phase === "recording" || session.phase === "counting") { session.stop(); return; }
  if (session.isBusy || !here()) return;
  unedit();
  player.stop();
  await session.start(here());
}

/** @param {Recording} recording @param {number} [peak] */
async function send(recording, peak) {
  say(txt("Sending …"));
  const level = peak === undefined ? "" : txt` Its peak was ${String(peak).replace("-", "−")} dB.`;
  const answer = await outbox.send(recording);
  if (!answer) { say(recording.refused); doomed.delete(recording.name); return; }
  const take = answer.line.takes.find((/** @type {any} */ one) => one.number === answer.take);
  if (doomed.delete(recording.name)) { await discard(answer.take, answer.line.id); return; }
  say(take ? txt`Take ${take.number} of line ${answer.line.number}: ${spell(take.seconds)}, ${Math.round(take.words_per_minute)} words a minute.${level} ${faultsOf(take).join(" ") || txt("Nothing is wrong with it.")}` : txt("It is in."));
}

async function keepAndGo() {
  const isRecording = session.phase === "recording";
  if (isRecording) await session.stop();
  if (session.isBusy) return;
  if (at === lines.length - 1) say(txt("That was the last line."));
  go(at + 1);
  if (!isRecording && here()) say(txt`Line ${here().number}.`);
}

// --- takes -------------------------------------------------------------------------------------------------------

/** @param {Line} row */
function replaceLine(row) {
  const index = lines.findIndex((line) => line.id === row.id);
  if (index >= 0) Object.assign(lines[index], row);
  paint();
}

/**
 * Ask for a change of a line's takes, show what came of it, and keep the focus near.
 * @param {string} method @param {string} rest @param {any} body @param {string} text @param {string} id
 * @returns {Promise<boolean>}
 */
async function change(method, rest, body, text, id) {
  const line = lines.find((one) => one.id === id) ?? here(), wasInside = document.activeElement?.closest("#takes");
  try {
    replaceLine(await ask(method, lineAt(line, rest), body));
    say(text);
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    say(error.message);
    return false;
  }
  if (wasInside) $("takes-h").focus();
  return true;
}

/** @param {number} take */
const playTake = (take) => { player.stop(); player.play(sound(here().id, take).path, sound(here().id, take).name); };

/** @param {number} take */
function compare(take) {
  const line = here();
  if (line.chosen) player.compare(sound(line.id, line.chosen), sound(line.id, take));
}

/** @param {number} take */
async function choose(take) {
  const id = here().id;
  if (await change("PUT", "/choice", { take }, txt`Take ${take} is chosen.`, id)) {
    undone.push(async () => { await change("DELETE", "/choice", undefined, txt("The choice is undone."), id); });
    paintDeeds();
  }
}

/** @param {number} take @param {string} [id] */
async function discard(take, id = here().id) {
  player.stop();
  if (await change("DELETE", `/takes/${take}`, undefined, txt`Take ${take} is thrown away. U takes it back.`, id)) {
    undone.push(() => restore(take, id));
    paintDeeds();
  }
}

/** @param {number} take @param {string} [id] */
async function restore(take, id = here().id) { await change("PUT", `/takes/${take}`, undefined, txt`Take ${take} is back.`, id); }

async function discardLast() {
  if (session.phase === "recording") {
    doomedNext = true;
    await session.stop();
  } else if (here()?.takes.length) await discard(here().takes[here().takes.length - 1].number);
}
let doomedNext = false;

async function undo() {
  const last = undone.pop();
  if (last) await last();
  else if (here()?.earlier) await change("DELETE", "/choice", undefined, txt("The choice is undone."), here().id);
  else say(txt("There is nothing to undo."));
  paintDeeds();
}

function playOrPause() {
  const line = here();
  if (player.pair.length) { if (player.isPlaying) player.sound.pause(); else player.sound.play(); return; }
  const take = line?.chosen ?? line?.takes[line.takes.length - 1]?.number;
  if (take) player.toggle(sound(line.id, take).path, sound(line.id, take).name);
  else say(txt("This line has no take yet."));
}

async function upload() {
  const file = $("file").files[0], line = here();
  if (!file || !line) return;
  if (file.size > LARGEST) { say(txt("This file is larger than 64 MB: cut it into lines.")); return; }
  say(txt("Sending …"));
  const query = new URLSearchParams({ name: file.name.slice(0, 200), said: line.text });
  const type = /^(audio|video)\//.test(file.type) ? file.type : "application/octet-stream";
  try {
    const answer = await ask("POST", `/api/takes/${encodeURIComponent(slug)}/${encodeURIComponent(line.id)}?${query}`, file, { type });
    replaceLine(answer.line);
    say(txt`Take ${answer.take} is in.`);
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    say(error.message);
  }
  $("file").value = "";
}

// --- the words ---------------------------------------------------------------------------------------------------

const draftKey = () => `line ${slug} ${here().id}`;

function edit() {
  if (!here() || session.isBusy) return;
  $("edit").hidden = false;
  $("edit").dataset.before = here().source;
  $("markup").value = kept(draftKey()) || here().source;
  $("markup").focus();
}

function unedit() {
  if ($("edit").hidden) return;
  $("edit").hidden = true;
  if ($("edit").contains(document.activeElement)) $("stand").focus();
}

/** @param {Event} event */
async function saveWords(event) {
  event.preventDefault();
  const key = draftKey();
  try {
    const told = await ask("PUT", lineAt(here(), ""), { before: $("edit").dataset.before, after: $("markup").value });
    forgetDraft(key);
    unedit();
    $("stand").focus();
    takeListing(told);
    say(here().state === "stale" ? txt("The words are saved. The take is stale: record the line again.") : txt("The words are saved."));
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    if (error.status === 412) {
      $("edit").dataset.before = error.data.now.source;
      replaceLine(error.data.now);
      say(txt`These words were changed elsewhere; they are now: “${error.data.now.source}”. Save again to put yours in their place, or leave yours.`);
    } else say(error.data?.problems?.[0]?.message ?? error.message);
  }
}

/** @param {string} key */
function forgetDraft(key) { try { localStorage.removeItem(key); } catch { /* nothing is kept */ } }

// --- keys --------------------------------------------------------------------------------------------------------

singleKeys([
  ["r", txt("R|record, or stop"), record],
  [" ", txt("Space|play the chosen take, or pause"), playOrPause],
  ["enter", txt("Enter|keep the take and go to the next line"), keepAndGo],
  ["backspace", txt("Backspace|throw the last take away; while recording, this one"), discardLast],
  ["u", txt("U|undo a choice, or take back what was thrown away"), undo],
  ["arrowup", txt("↑|the line before"), () => go(at - 1)],
  ["arrowdown", txt("↓|the line after"), () => go(at + 1)],
  ["n", txt("N|the next line without a take"), goMissing],
  ["e", txt("E|change the words"), edit],
  ["x", txt("X|while two takes are compared: the other one"), () => player.swap()],
  ["+", txt("+|larger words"), () => resize(1)],
  ["-", txt("−|smaller words"), () => resize(-1)],
  ["m", txt("M|mirror the words"), mirror],
  ["o", txt("O|only the line, or everything"), alone],
], () => { if ($("speak").classList.contains("alone")) alone(); });

function mirror() {
  const isOn = $("words").classList.toggle("mirrored");
  $("next").classList.toggle("mirrored", isOn);
  $("mirror").setAttribute("aria-pressed", String(isOn));
  kept("speak mirror", isOn ? "yes" : "no");
}

function alone() { $("alone").setAttribute("aria-pressed", String($("speak").classList.toggle("alone"))); }

// --- events ------------------------------------------------------------------------------------------------------

session.onphase = paintDeeds;
session.say = say;
session.ondone = (/** @type {import("./outbox.js").Recording} */ recording, /** @type {number} */ peak) => {
  if (doomedNext) doomed.add(recording.name);
  doomedNext = false;
  send(recording, peak);
};
outbox.onchange = paintWaiting;
outbox.onwaiting = (/** @type {string} */ why) => say(why && `Not sent. ${why} It is kept in this browser, and sent as soon as that is mended.`);
outbox.ontaken = (/** @type {unknown} */ _, /** @type {any} */ answer) => replaceLine(answer.line);
for (const [id, act] of /** @type {[string, () => void][]} */ ([["record", record], ["play", playOrPause], ["keep", keepAndGo], ["discard", discardLast],
  ["undo", undo], ["change", edit], ["unedit", () => { forgetDraft(draftKey()); unedit(); }], ["missing", goMissing], ["earlier", () => go(at - 1)], ["later", () => go(at + 1)], ["smaller", () => resize(-1)],
  ["larger", () => resize(1)], ["mirror", mirror], ["alone", alone]])) {
  $(id).addEventListener("click", (/** @type {MouseEvent} */ event) => {
    act();
    // Whoever uses a mouse goes on with keys: Space and Enter are not to press the same button again.
    if (event.detail && ["record", "play", "keep", "discard", "undo", "missing"].includes(id)) $("stand").focus({ preventScroll: true });
  });
}
$("file").addEventListener("change", upload);
$("edit").addEventListener("submit", saveWords);
$("markup").addEventListener("input", () => kept(draftKey(), $("markup").value));
$("markup").addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
  if (event.key === "Escape") unedit();
  else if (event.key === "Enter" && (event.ctrlKey || event.metaKey)) $("edit").requestSubmit();
  else return;
  event.preventDefault();
});
addEventListener("pagehide", () => session.hold());
addEventListener("beforeunload", (event) => {
  session.hold();
  if (session.isBusy || !outbox.isEmpty) event.preventDefault();
});
if (kept("speak mirror") === "yes") mirror();
try {
  takeListing(await ask("GET", `${path}/lines`));
  await outbox.look();
} catch (error) {
  if (!(error instanceof Refused)) throw error;
  $("words").textContent = error.data?.problems?.[0]?.message ?? error.message;
}
$("speak").dataset.ready = "yes";
