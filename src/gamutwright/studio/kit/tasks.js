// @ts-check
// The tasks of the course, for every screen that begins one or tells of them.
//
// `follow` keeps a list of them up to date: one stream of events for a page, closed while the page is hidden, opened
// again when it is shown, and tried again while the studio does not answer.

import { ask } from "./asking.js";
import { txt } from "./words.js";

/**
 * @typedef {{name: string, words: string, done: number, total: number, share: number, is_over: boolean}} Stage
 * @typedef {{name: string, state: string, words: string}} Part
 * @typedef {{
 *   id: string, kind: string, lesson: string, place: number,
 *   state: "waiting" | "running" | "done" | "failed" | "cancelled" | "interrupted",
 *   made_at: string, begun_at: string, ended_at: string, message: string, result: any,
 *   seconds: number, left: number | null, share: number, stage: string, done: number, total: number,
 *   stages: Stage[], parts: Part[],
 * }} Task times in ISO 8601, durations in seconds, shares from 0 to 1; stages and parts while it runs
 */

/** What kinds of tasks are called. @type {Record<string, string>} */
export const WORDS = {
  package: txt("Package"), preview: txt("Preview"), verify: txt("Reading the film back"), course: txt("Whole course"), check: txt("Check of the course"),
  report: txt("Report"), plan: txt("Plan"), draft: txt("Drafts of what is missing"),
};
const AGAIN_MS = 2000;

/** @param {Task} task @returns {boolean} whether it waits or runs */
export const isOpen = (task) => task.state === "waiting" || task.state === "running";

/** @param {string} kind @param {string} [lesson] @returns {Promise<{id: string}>} */
export const start = (kind, lesson = "") => ask("POST", "/api/tasks", { kind, lesson });

/** @param {string} id */
export const cancel = (id) => ask("POST", `/api/tasks/${encodeURIComponent(id)}/cancel`);

/** Put one that waits at the front. @param {string} id */
export const first = (id) => ask("POST", `/api/tasks/${encodeURIComponent(id)}/first`);

/** Go on with one that was interrupted, cancelled or failed. @param {string} id */
export const again = (id) => ask("POST", `/api/tasks/${encodeURIComponent(id)}/again`);

/**
 * Hear of the tasks: what runs first, then what waits in its order, then what has ended, the last first.
 * @param {(tasks: Task[], changed: Task[]) => void} told told of all, and of those that changed
 * @param {(answers: boolean) => void} [reached] told when the studio stops answering, and when it answers again
 */
export function follow(told, reached = () => {}) {
  /** @type {Map<string, Task>} */ let tasks = new Map();
  /** @type {EventSource | undefined} */ let line;
  let answers = true, timer = 0;
  const rank = (/** @type {Task} */ task) => (task.state === "running" ? 0 : task.state === "waiting" ? 1 : 2);
  const sorted = () => [...tasks.values()].sort((a, b) =>
    rank(a) - rank(b) || a.place - b.place || b.ended_at.localeCompare(a.ended_at));
  const say = (/** @type {boolean} */ does) => { if (does !== answers) { answers = does; reached(does); } };

  const open = () => {
    clearTimeout(timer);
    if (line || document.hidden) return;
    line = new EventSource("/api/tasks/events");
    line.addEventListener("all", (event) => {
      say(true);
      const now = JSON.parse(event.data).tasks;
      tasks = new Map(now.map((/** @type {Task} */ task) => [task.id, task]));
      told(sorted(), now);
    });
    line.addEventListener("changed", (event) => {
      const changed = JSON.parse(event.data).tasks;
      for (const task of changed) tasks.set(task.id, task);
      told(sorted(), changed);
    });
    line.addEventListener("gone", (event) => {
      for (const id of JSON.parse(event.data).ids) tasks.delete(id);
      told(sorted(), []);
    });
    line.addEventListener("error", () => {
      // A browser gives up on a refusal, and a studio that was started anew refuses until its door was used.
      close();
      say(false);
      timer = setTimeout(open, AGAIN_MS);
    });
  };
  const close = () => { clearTimeout(timer); line?.close(); line = undefined; };
  document.addEventListener("visibilitychange", () => (document.hidden ? close() : open()));
  addEventListener("pagehide", close);
  addEventListener("pageshow", open);
  open();
}

/** @param {number} seconds @returns {string} a length of time as people say it */
export function duration(seconds) {
  const whole = Math.max(0, Math.round(seconds));
  if (whole >= 3600) return `${Math.floor(whole / 3600)} h ${String(Math.floor(whole / 60) % 60).padStart(2, "0")} min`;
  return whole >= 60 ? `${Math.floor(whole / 60)} min ${String(whole % 60).padStart(2, "0")} s` : `${whole} s`;
}
