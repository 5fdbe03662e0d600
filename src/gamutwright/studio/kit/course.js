// @ts-check
// The course: its lessons and their states, what is built and what waits, and a new lesson from a scale.

import { ask, Refused } from "./asking.js";
import { follow, isOpen, start } from "./tasks.js";
import { element, taskView } from "./taskview.js";
import { txt } from "./words.js";

/** @typedef {import("./tasks.js").Task} Task */

const $ = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));
const form = /** @type {HTMLFormElement} */ ($("new")), said = $("said"), newSaid = $("new-said");
const rows = new Map([.../** @type {NodeListOf<HTMLElement>} */ (document.querySelectorAll("[data-slug]"))].map((row) => [row.dataset.slug ?? "", row]));
const titled = (/** @type {string} */ slug) => rows.get(slug)?.querySelector("a, .title")?.textContent ?? slug;
const tell = (/** @type {string} */ text) => { if (said.textContent !== text) said.textContent = text; };
const SHOWN = 8;

/** @template T @param {() => Promise<T>} deed @param {(text: string) => void} [told] @returns {Promise<T | undefined>} */
async function asked(deed, told = tell) {
  try {
    return await deed();
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    told(error.message);
    return undefined;
  }
}

// --- a new lesson ------------------------------------------------------------------------------------------------

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const fields = new FormData(form), button = /** @type {HTMLButtonElement} */ (form.querySelector("button"));
  button.disabled = true;
  newSaid.textContent = txt("Drafting …");
  const made = await asked(() => ask("POST", "/api/lessons", {
    scale: String(fields.get("scale")), language: String(fields.get("language")), minutes: Number(fields.get("minutes")),
  }), (text) => { newSaid.textContent = text; });
  if (made) location.assign(`/lesson/${encodeURIComponent(made.slug)}`);
  else {
    button.disabled = false;
    /** @type {HTMLInputElement} */ (form.elements.namedItem("scale")).focus();
  }
});

// --- instruments and music ---------------------------------------------------------------------------------------

const playing = /** @type {HTMLFormElement} */ ($("playing")), playingSaid = $("playing-said");
playing.addEventListener("submit", async (event) => {
  event.preventDefault();
  const fields = new FormData(playing);
  const kept = await asked(() => ask("POST", "/api/course/playing", {
    soundfont: String(fields.get("soundfont")),
    instruments: String(fields.get("instruments")).split(",").map((one) => one.trim()).filter(Boolean),
    written_for: ["Bb", "Eb", "F"].filter((key) => fields.has(key)),
    play_along: fields.has("play_along"),
  }), (text) => { playingSaid.textContent = text; });
  if (!kept) return;
  playingSaid.textContent = txt("Kept. What it changes is built again.");
  await look();
});

// --- lessons, check, plan ----------------------------------------------------------------------------------------

async function look() {
  const now = await asked(() => ask("GET", "/api/course"));
  if (!now) return;
  if (now.lessons.some((/** @type {any} */ lesson) => rows.get(lesson.slug)?.querySelector("a") ? false : lesson.has_script) || now.lessons.length !== rows.size) {
    location.reload();  // lessons have come, or have their scripts now
    return;
  }
  $("summary").textContent = now.summary;
  now.lessons.forEach(drawLesson);
  const build = /** @type {HTMLButtonElement} */ (document.querySelector("[data-kind=course]"));
  build.textContent = now.due ? txt`Build all that changed (${now.due})` : txt("Nothing to build");
  /** @type {HTMLElement} */ (document.querySelector("[data-kind=draft]")).hidden = !now.missing;
  const pages = { "index.html": txt("The course's page"), "state.html": txt("Report on the course") };
  $("pages").replaceChildren(...now.pages.map((/** @type {keyof typeof pages} */ name) => element("li", {},
    element("a", { href: `/made/${name}`, target: "_blank", rel: "noopener" }, pages[name]))));
  $("folder").hidden = !now.pages.length || $("course").dataset.desktop !== "yes";
  drawCheck(now.check);
  drawPlan(now.plan);
}

/** @param {{slug: string, state: string, shape: string, detail: string, can_be_made: boolean}} lesson */
function drawLesson(lesson) {
  const row = rows.get(lesson.slug);
  if (!row) return;
  row.className = `lesson ${lesson.shape}`;
  /** @type {HTMLElement} */ (row.querySelector(".state")).textContent = lesson.state;
  /** @type {HTMLElement} */ (row.querySelector(".detail")).textContent = lesson.detail;
  const [link, button] = /** @type {NodeListOf<HTMLElement>} */ (row.querySelectorAll(".go > *"));
  if (!link) return;
  const hadFocus = document.activeElement === button;
  link.hidden = lesson.can_be_made;
  button.hidden = !lesson.can_be_made;
  if (hadFocus && button.hidden) link.focus();
}

const when = (/** @type {string} */ at) => new Date(at).toLocaleString();

/** @param {null | {at: string, checks: {rule: string, standing: string, detail: string, lessons: string[], next_step: string}[]}} check */
function drawCheck(check) {
  $("check-part").hidden = !check;
  if (!check) return;
  const broken = check.checks.filter((one) => one.standing === "broken").length;
  $("check-said").textContent = txt`${broken > 1 ? txt`${broken} things to mend` : broken ? txt("one thing to mend") : txt("Nothing is broken")}; checked on ${when(check.at)}.`;
  const signs = { "holds": "✓ ", "broken": "✗ ", "not checked": "– " };
  $("checks").replaceChildren(...check.checks.map((one) => {
    const row = element("li", { className: one.standing }, element("strong", {}, (signs[/** @type {keyof typeof signs} */ (one.standing)] ?? "") + one.rule));
    if (one.detail) row.append(element("p", {}, [one.lessons.slice(0, SHOWN).map(titled).join(", "), one.detail].filter(Boolean).join(": ")));
    if (one.next_step) row.append(element("p", { className: "next" }, one.next_step));
    return row;
  }));
}

/** @param {null | {at: string, places: Record<string, string>[], warnings: string[], sizes: Record<string, string>[], levels: Record<string, string>[]}} plan */
function drawPlan(plan) {
  $("plan-part").hidden = !plan;
  if (!plan) return;
  $("plan-said").textContent = txt`Made on ${when(plan.at)}. It orders what has no number yet, says what each lesson explains first, and what of the field the course shows.`;
  $("advice").replaceChildren(...plan.warnings.map((text) => element("li", {}, text)));
  $("places").replaceChildren(...plan.places.map((place) => element("tr", {},
    element("td", { className: "figure" }, place.number), element("th", { scope: "row", title: place.reason }, place.title),
    element("td", {}, place.level), element("td", {}, place["new ideas"] || "–"), element("td", {}, place.near || "–"))));
  for (const name of /** @type {("sizes" | "levels")[]} */ (["sizes", "levels"])) {
    const keys = Object.keys(plan[name][0] ?? {});
    $(`${name}-head`).replaceChildren(element("tr", {}, ...keys.map((key) => element("th", { scope: "col" }, key.replaceAll("_", " ")))));
    $(name).replaceChildren(...plan[name].map((row) => element("tr", {}, ...keys.map((key) => element("td", {}, row[key])))));
  }
}

// --- tasks -------------------------------------------------------------------------------------------------------

/** @type {Map<string, ReturnType<typeof taskView>>} */ const views = new Map();
/** @type {Set<string>} */ const open = new Set();
let partsDone = 0;

/** @param {Task[]} tasks */
function show(tasks) {
  const shown = [...tasks.filter(isOpen), ...tasks.filter((task) => task.state === "interrupted")];
  const ended = tasks.filter((task) => !shown.includes(task));
  for (const [id, view] of views) if (!tasks.some((task) => task.id === id)) { view.root.remove(); views.delete(id); }
  lay($("queue"), shown);
  lay($("ended-list"), ended);
  $("ended").hidden = !ended.length;
  let isOver = false;
  for (const task of tasks) {
    if (isOpen(task)) open.add(task.id);
    else if (open.delete(task.id)) { isOver = true; tell(task.message); }
  }
  const done = tasks.flatMap((task) => task.parts).filter((part) => part.state === "done" || part.state === "failed").length;
  if (isOver || done !== partsDone) look();
  partsDone = done;
}

/** Put views in order without taking those that stand rightly out of the page, so that the focus stays. @param {HTMLElement} place @param {Task[]} tasks */
function lay(place, tasks) {
  tasks.forEach((task, index) => {
    let view = views.get(task.id);
    if (!view) views.set(task.id, view = taskView(titled));
    view.update(task);
    if (place.children[index] !== view.root) place.insertBefore(view.root, place.children[index] ?? null);
  });
  while (place.children.length > tasks.length) place.lastChild?.remove();
}

/** @param {Element | null} button @param {string} kind @param {string} [slug] */
const begins = (button, kind, slug = "") => button?.addEventListener("click", async () => {
  const made = await asked(() => start(kind, slug));
  if (made) open.add(made.id);
});
for (const button of /** @type {NodeListOf<HTMLButtonElement>} */ (document.querySelectorAll("[data-kind]"))) begins(button, button.dataset.kind ?? "");
for (const [slug, row] of rows) begins(row.querySelector(".go button"), "package", slug);
$("folder").addEventListener("click", async () => {
  const shown = await asked(() => ask("POST", "/api/course/folder"));
  if (shown) tell(shown.opened ? txt("The folder is opened beside the browser.") : txt("The folder cannot be opened from here; its place stands above."));
});
look();
follow(show, (answers) => { $("lost").hidden = answers; if (answers) look(); });
