// @ts-check
// Seeing a lesson: a word is chosen and the picture at that word is there; a line is played at once, with its sounds;
// the whole lesson plays line after line, or from one small film where that was made.

import { ask, Refused } from "./asking.js";
import { cancel, duration, follow, isOpen, start } from "./tasks.js";
import { txt } from "./words.js";

/** @typedef {{id: string, chapter: number, start_s: number, end_s: number, words: [string, number][]}} Line */
/** @typedef {{key: string, seconds: number, chapters: {title: string, start_s: number}[], lines: Line[], faults: number, film: string}} Lesson */

const $ = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));
const slug = $("seeing").dataset.slug, path = `/api/lesson/${encodeURIComponent(slug)}`;
/** @type {HTMLVideoElement} */ const film = $("film");
/** @type {HTMLImageElement} */ const still = $("still");
const AHEAD_S = 0.02, KEPT = 12;
/** @type {Lesson} */ let lesson;
/** @type {HTMLElement[]} */ let rows = [];
let line = 0, word = 0, playsOn = false, offset = 0, source = "", asked = 0;

// --- what is said ------------------------------------------------------------------------------------------------

async function load() {
  try {
    const found = await ask("GET", `${path}/timeline`);
    const isOther = !lesson || lesson.key !== found.key;
    lesson = found;
    if (isOther) lay();
    tellWhole();
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    $("waits").textContent = txt("There is nothing to see yet.");
    $("told").textContent = `${error.message}`;
  }
}

function lay() {
  halt();
  for (const url of clips.values()) URL.revokeObjectURL(url);
  clips.clear();
  rows = [];
  const pieces = [];
  let chapter = -1;
  for (const [index, told] of lesson.lines.entries()) {
    if (told.chapter !== chapter) {
      chapter = told.chapter;
      const heading = document.createElement("h3");
      heading.textContent = lesson.chapters[Math.min(chapter, lesson.chapters.length - 1)].title;
      pieces.push(heading);
    }
    const row = document.createElement("p");
    row.className = "said-line";
    row.tabIndex = -1;
    row.dataset.line = String(index);
    row.append(...told.words.map(([text], place) => {
      const piece = document.createElement("span");
      piece.textContent = text;
      piece.dataset.word = String(place);
      return piece;
    }));
    rows.push(row);
    pieces.push(row);
  }
  $("text").replaceChildren(...pieces);
  $("chapter").replaceChildren(...lesson.chapters.map((one, index) => new Option(one.title, String(index))));
  $("place").max = String(lesson.seconds);
  for (const id of ["place", "play", "one", "chapter"]) $(id).disabled = !rows.length;
  $("told").textContent = lesson.faults
    ? txt`${lesson.faults === 1 ? txt("One statement is") : txt`${lesson.faults} statements are`} not proved: what you see is marked as a draft.` : "";
  if (rows.length) choose(Math.min(line, rows.length - 1), 0, false);
  else $("waits").textContent = txt("The script has no line that is spoken.");
}

/** @param {number} at */
const clock = (at) => `${Math.floor(at / 60)}:${String(Math.floor(at % 60)).padStart(2, "0")}`;

/** Mark a word without changing the picture. @param {number} index @param {number} place */
function mark(index, place) {
  if (index !== line || !rows[index].classList.contains("here")) {
    rows[line]?.classList.remove("here");
    rows[line]?.removeAttribute("aria-current");
    if (rows[line]) rows[line].tabIndex = -1;
    rows[index].classList.add("here");
    rows[index].setAttribute("aria-current", "true");
    rows[index].tabIndex = 0;
    reveal(rows[index]);
  }
  rows[line]?.querySelector(".now")?.classList.remove("now");
  rows[index].querySelector(".now")?.classList.remove("now");
  rows[index].children[place]?.classList.add("now");
  [line, word] = [index, place];
  const moment = lesson.lines[line].words[word][1];
  $("place").value = String(moment);
  $("place").setAttribute("aria-valuetext", `${clock(moment)}, ${lesson.lines[line].words[word][0].trim()}`);
  $("clock").textContent = txt`${clock(moment)} of ${clock(lesson.seconds)}`;
  const chapter = lesson.chapters.findLastIndex((one) => one.start_s <= moment + AHEAD_S);
  $("chapter").value = String(Math.max(0, chapter));
}

/** Scroll the text, and the text alone, so that a line is seen. @param {HTMLElement} row */
function reveal(row) {
  const box = /** @type {HTMLElement} */ (row.closest(".telling"));
  if (box.scrollHeight <= box.clientHeight) return;
  const top = row.offsetTop, bottom = top + row.offsetHeight;
  if (top < box.scrollTop + 40 || bottom > box.scrollTop + box.clientHeight - 40) box.scrollTop = top - box.clientHeight / 3;
}

/** Go to a word, and show the picture that is there. @param {number} index @param {number} place @param {boolean} focus */
function choose(index, place, focus) {
  halt();
  mark(index, Math.max(0, Math.min(place, lesson.lines[index].words.length - 1)));
  if (focus) rows[index].focus({ preventScroll: true });
  draw();
}

let drawing = false, drawnAt = -1;
/** One picture is asked for at a time; the last that was wanted is shown in the end. */
async function draw() {
  if (drawing) return;
  drawing = true;
  try {
    for (;;) {
      const moment = lesson.lines[line].words[word][1];
      if (moment === drawnAt && still.dataset.key === lesson.key) break;
      const next = new Image();
      next.src = `${path}/still?tick=${Math.round((moment + AHEAD_S) * 48000)}&of=${lesson.key.slice(0, 16)}`;
      await next.decode();
      still.src = next.src;
      still.dataset.key = lesson.key;
      still.alt = txt`The picture at the word “${lesson.lines[line].words[word][0].trim()}”`;
      drawnAt = moment;
      if (!isPlaying()) uncover(still);
    }
  } catch { $("waits").textContent = txt("This picture could not be drawn; choose the word again."); $("waits").hidden = false; }
  drawing = false;
}

/** @param {HTMLElement} which */
function uncover(which) {
  still.hidden = which !== still;
  film.hidden = which !== film;
  $("waits").hidden = true;
}

// --- playing -----------------------------------------------------------------------------------------------------

/** @type {Map<string, string>} */ const clips = new Map();
/** @type {Map<string, Promise<string>>} */ const coming = new Map();

/** @param {number} index @returns {Promise<string>} */
function clip(index) {
  const name = lesson.lines[index].id, key = lesson.key, had = clips.get(name);
  if (had) return Promise.resolve(had);
  let made = coming.get(name);
  if (!made) {
    made = (async () => {
      const answer = await fetch(`${path}/clip/${encodeURIComponent(name)}?of=${key.slice(0, 16)}`);
      if (!answer.ok) throw new Refused(answer.status, await answer.json().catch(() => null));
      const url = URL.createObjectURL(await answer.blob());
      clips.set(name, url);
      for (const [old, kept] of clips) {
        if (clips.size <= KEPT) break;
        if (kept !== source) { URL.revokeObjectURL(kept); clips.delete(old); }
      }
      return url;
    })().finally(() => coming.delete(name));
    coming.set(name, made);
  }
  return made;
}

const isPlaying = () => !film.hidden && !film.paused && !film.ended;

/** @param {boolean} on whether the lines that follow are played too */
async function play(on) {
  const mine = ++asked, index = line, moment = lesson.lines[line].words[word][1];
  playsOn = on;
  showPlaying(true);
  try {
    if (lesson.film === "new") await use(`${path}/small-film?of=${lesson.key.slice(0, 16)}`, 0);
    else {
      $("waits").textContent = txt("This line is made …");
      const late = setTimeout(() => { $("waits").hidden = false; }, 200);
      const url = await clip(index).finally(() => clearTimeout(late));
      if (mine !== asked) return;
      await use(url, lesson.lines[index].start_s);
    }
    if (mine !== asked) return;
    film.currentTime = Math.max(0, moment - offset);
    film.playbackRate = Number($("speed").value);
    uncover(film);
    await film.play();
    if (lesson.film !== "new" && on && index + 1 < rows.length) clip(index + 1).catch(() => {});
    watch(mine);
  } catch (error) {
    if (mine !== asked) return;
    halt();
    $("told").textContent = error instanceof Refused ? error.message : txt("This browser cannot play it.");
  }
}

/** @param {string} url @param {number} begins */
async function use(url, begins) {
  offset = begins;
  if (source === url) return;
  source = url;
  film.src = url;
  await new Promise((resolve, reject) => {
    film.onloadedmetadata = () => resolve(undefined);
    film.onerror = () => reject(new Error("media"));
  });
}

/** Follow the film: the word that is heard is marked. @param {number} mine */
function watch(mine) {
  if (mine !== asked) return;
  const now = film.currentTime + offset + AHEAD_S;
  const told = lesson.lines[line];
  if (film.ended || (now >= told.end_s && (!playsOn || lesson.film !== "new" || line + 1 >= rows.length))) {
    if (playsOn && line + 1 < rows.length) { mark(line + 1, 0); play(true); }
    else if (playsOn && lesson.film === "new" && !film.ended) requestAnimationFrame(() => watch(mine));
    else { const on = line; halt(); if (on === line) draw(); }
    return;
  }
  let index = line;
  while (index + 1 < rows.length && lesson.lines[index + 1].start_s <= now) index += 1;
  const place = Math.max(0, lesson.lines[index].words.findLastIndex(([, at]) => at <= now));
  if (index !== line || place !== word) mark(index, place);
  requestAnimationFrame(() => watch(mine));
}

function halt() {
  asked += 1;
  if (!film.paused) film.pause();
  showPlaying(false);
  if (!film.hidden && still.src) { drawnAt = -1; draw(); }
}

/** @param {boolean} is */
function showPlaying(is) { $("play").textContent = is ? txt("Stop") : txt("Play on"); }

// --- the whole, small --------------------------------------------------------------------------------------------

let task = "", isStarting = false;
function tellWhole() {
  const words = {
    new: txt("It is made, and the player above uses it."),
    old: txt("It was made before the script or the recordings changed."),
    none: txt("Lines can be played without it. With it the lesson can be watched in one piece."),
  };
  if (!task) $("whole-said").textContent = words[/** @type {keyof typeof words} */ (lesson.film)];
  $("make").disabled = Boolean(task) || lesson.film === "new" || !rows.length;
  $("make").textContent = lesson.film === "old" ? txt("Make it again") : txt("Make it");
}

$("make").addEventListener("click", async () => {
  isStarting = true;
  $("make").disabled = true;
  try { task = (await start("preview", slug)).id; }
  catch (error) { $("whole-said").textContent = error instanceof Refused ? error.message : String(error); $("make").disabled = false; }
  isStarting = false;
});
$("stop").addEventListener("click", () => { if (task) cancel(task).catch(() => {}); });

follow((tasks) => {
  const found = tasks.find((one) => one.kind === "preview" && one.lesson === slug);
  if (!found || (isStarting && !task)) return;
  const runs = isOpen(found);
  $("whole-bar").hidden = $("stop").hidden = !runs;
  if (runs) {
    task = found.id;
    $("make").disabled = true;
    $("whole-bar").value = found.share;
    const left = found.left === null ? "" : txt`; about ${duration(found.left)} left`;
    $("whole-said").textContent = found.state === "waiting" ? txt("It waits for its turn.") : txt`Being made${left}.`;
  } else if (task === found.id) {
    task = "";
    if (found.state === "done") load();
    else if (lesson) { tellWhole(); $("whole-said").textContent = found.state === "cancelled" ? txt("Cancelled.") : found.message || txt("It was not made."); }
  }
});

// --- events ------------------------------------------------------------------------------------------------------

$("text").addEventListener("click", (/** @type {MouseEvent} */ event) => {
  const piece = /** @type {HTMLElement} */ (event.target), row = /** @type {HTMLElement | null} */ (piece.closest(".said-line"));
  if (row) choose(Number(row.dataset.line), Number(piece.dataset.word ?? 0), true);
});
$("text").addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
  if (event.ctrlKey || event.altKey || event.metaKey) return;
  const words = lesson.lines[line].words.length;
  if (event.key === "ArrowDown") choose(Math.min(rows.length - 1, line + 1), 0, true);
  else if (event.key === "ArrowUp") choose(Math.max(0, line - 1), 0, true);
  else if (event.key === "ArrowRight" && word + 1 < words) choose(line, word + 1, true);
  else if (event.key === "ArrowRight" && line + 1 < rows.length) choose(line + 1, 0, true);
  else if (event.key === "ArrowLeft" && word) choose(line, word - 1, true);
  else if (event.key === "ArrowLeft" && line) choose(line - 1, lesson.lines[line - 1].words.length - 1, true);
  else if (event.key === "Enter") play(false);
  else return;
  event.preventDefault();
});
addEventListener("keydown", (event) => {
  const field = /** @type {HTMLElement} */ (event.target).closest("input, select, button, textarea, a");
  if (event.key !== " " || field || event.ctrlKey || event.altKey || event.metaKey || !rows.length) return;
  event.preventDefault();
  if (isPlaying()) halt(); else play(true);
});
$("play").addEventListener("click", () => { if ($("play").textContent === txt("Stop")) halt(); else play(true); });
$("one").addEventListener("click", () => play(false));
$("speed").addEventListener("change", () => { film.playbackRate = Number($("speed").value); });
$("place").addEventListener("input", () => {
  const now = Number($("place").value);
  const index = Math.max(0, lesson.lines.findLastIndex((one) => one.start_s <= now));
  choose(index, Math.max(0, lesson.lines[index].words.findLastIndex(([, at]) => at <= now)), false);
});
$("chapter").addEventListener("change", () => {
  const wanted = Number($("chapter").value), index = lesson.lines.findIndex((one) => one.chapter >= wanted);
  if (index >= 0) choose(index, 0, false);
});
document.addEventListener("visibilitychange", () => { if (!document.hidden) load(); });

load();
