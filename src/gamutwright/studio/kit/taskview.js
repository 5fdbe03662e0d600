// @ts-check
// How a task looks while it waits or runs, and when it has ended: stages with bars, time left, what can be done with it.

import { again, cancel, duration, first, isOpen, WORDS } from "./tasks.js";
import { Refused } from "./asking.js";
import { LANG, txt } from "./words.js";

/** @typedef {import("./tasks.js").Task} Task */
/** @typedef {import("./tasks.js").Stage} Stage */

/**
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} name
 * @param {Record<string, any>} [traits] properties of the element
 * @param {...(Node | string)} inside
 * @returns {HTMLElementTagNameMap[K]}
 */
export function element(name, traits = {}, ...inside) {
  const made = Object.assign(document.createElement(name), traits);
  made.append(...inside);
  return made;
}

const ENDED = { done: txt("Done"), failed: txt("Failed"), cancelled: txt("Cancelled"), interrupted: txt("Interrupted") };

/** @param {Task} task @param {(slug: string) => string} titled @returns {string} */
export const nameOf = (task, titled = (slug) => slug) =>
  [WORDS[task.kind] ?? task.kind, task.lesson && titled(task.lesson)].filter(Boolean).join(": ");

/** @param {Task} task @returns {string} how it stands, in a few words */
export function standing(task) {
  if (task.state === "waiting") return task.place === 1 ? txt("waits, next in turn") : txt`waits, ${task.place} in turn`;
  if (task.state !== "running") return ENDED[task.state] + (task.seconds ? txt` after ${duration(task.seconds)}` : "");
  if (task.left === null) return txt`${duration(task.seconds)} so far`;
  return task.left < 1 ? txt("a moment left") : txt`about ${duration(task.left)} left`;
}

/** @param {Stage} stage @returns {string} */
const amount = (stage) => (stage.is_over ? txt("done") : stage.total > 1 && stage.done ? txt`${stage.done.toLocaleString(LANG)} of ${stage.total.toLocaleString(LANG)}` : "");

/**
 * A view of one task that stays while the task goes on, so that a button keeps the focus.
 * @param {(slug: string) => string} [titled] slug of a lesson to its title
 */
export function taskView(titled = (slug) => slug) {
  const name = element("strong"), how = element("span", { className: "how" }), message = element("p", { className: "message" });
  const bar = element("progress", { max: 1 }), stages = element("ol", { className: "stages" });
  const acts = element("p", { className: "row acts" }), said = element("p", { className: "said", role: "status", hidden: true });
  const root = element("div", { className: "task" }, element("p", { className: "over" }, name, how), bar, stages, message, acts, said);
  /** @type {Task} */ let task;

  /** @param {string} label @param {(id: string) => Promise<any>} deed */
  const button = (label, deed) => {
    const made = element("button", { type: "button", className: "quiet", textContent: label });
    made.setAttribute("aria-label", `${label}: ${nameOf(task, titled)}`);
    made.addEventListener("click", async () => {
      made.disabled = true;
      try { await deed(task.id); } catch (error) {
        if (!(error instanceof Refused)) throw error;
        said.hidden = false;
        said.textContent = error.message;
        made.disabled = false;
      }
    });
    return made;
  };

  let drawn = "";
  /** @param {Task} now */
  const update = (now) => {
    task = now;
    name.textContent = nameOf(task, titled);
    how.textContent = standing(task);
    bar.hidden = task.state !== "running";
    bar.value = task.share;
    bar.setAttribute("aria-label", txt`${nameOf(task, titled)}, whole`);
    message.textContent = task.message;
    message.hidden = !task.message;
    drawStages();
    // Buttons are drawn anew only when others are offered.
    const wanted = task.state + (task.state === "waiting" && task.place > 1);
    if (wanted === drawn) return;
    drawn = wanted;
    root.className = `task ${task.state}`;
    const offered = [];
    if (isOpen(task)) offered.push(button(txt("Cancel"), cancel));
    if (task.state === "waiting" && task.place > 1) offered.push(button(txt("To the front"), first));
    if (["interrupted", "failed", "cancelled"].includes(task.state)) offered.push(button(task.state === "failed" ? txt("Try again") : txt("Go on"), again));
    acts.replaceChildren(...offered);
    acts.hidden = !offered.length;
  };

  const drawStages = () => {
    const rows = task.state === "running" ? task.stages.filter((stage) => stage.is_over || stage.total || !task.parts.length) : [];
    stages.hidden = !rows.length && !task.parts.length;
    while (stages.children.length > rows.length + task.parts.length) stages.lastChild?.remove();
    [...rows.map((stage) => [stage.words, amount(stage), stage.is_over ? 1 : stage.share, stage.is_over ? "over" : stage.words === task.stage ? "now" : "later"]),
      ...task.parts.map((part) => [titled(part.name), part.words || part.state, null, part.state])].forEach((row, index) => {
      const item = stages.children[index] ?? stages.appendChild(element("li", {}, element("span"), element("progress", { max: 1 }), element("span", { className: "much" })));
      const [words, bar, much] = item.children;
      item.className = String(row[3]);
      words.textContent = String(row[0]);
      much.textContent = String(row[1]);
      /** @type {HTMLProgressElement} */ (bar).hidden = row[2] === null;
      /** @type {HTMLProgressElement} */ (bar).value = Number(row[2] ?? 0);
      bar.setAttribute("aria-label", String(row[0]));
    });
  };
  return { root, update };
}
