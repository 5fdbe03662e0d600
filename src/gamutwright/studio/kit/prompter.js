// @ts-check
// The line to be read: how large, how fast, how long, and how much is left.

import { txt } from "./words.js";

/** @typedef {{number: number, seconds: number, words_per_minute: number, loudness_lufs: number, peak_dbtp: number, noise_dbfs: number, faults: {name: string, advice: string}[], is_stale: boolean, said: string}} Take */
/** @typedef {{id: string, number: number, text: string, source: string, words: number, state: string, chosen: number | null, earlier: number | null, takes: Take[], discarded: Take[], unproved: string[], chapter: string}} Line */

const SIZES = [1.1, 1.35, 1.7, 2.1, 2.6, 3.2, 4, 5], FEWEST_WORDS = 12, SLOWEST = 60, FASTEST = 240;

/** @param {string} key @param {string} [value] @returns {string} what this browser keeps under a key */
export function kept(key, value) {
  try {
    if (value !== undefined) localStorage.setItem(key, value);
    return localStorage.getItem(key) ?? "";
  } catch { return value ?? ""; }
}

/** @param {HTMLElement} place where the words stand */
export function sizes(place) {
  let size = Number(kept("speak size") || 3);
  const show = () => place.style.setProperty("--words", `${SIZES[size]}rem`);
  show();
  return (/** @type {number} */ by) => {
    size = Math.max(0, Math.min(SIZES.length - 1, size + by));
    kept("speak size", String(size));
    show();
  };
}

/** @param {number} seconds @returns {string} */
export function spell(seconds) {
  const whole = Math.round(seconds);
  if (seconds < 9.95) return `${seconds.toFixed(1)} s`;
  return whole < 60 ? `${whole} s` : `${Math.floor(whole / 60)} min ${String(whole % 60).padStart(2, "0")} s`;
}

/** @param {Line} line @returns {Take | undefined} the take that is heard, or would be if it were not stale */
export const chosen = (line) => line.takes.find((take) => take.number === line.chosen);

/**
 * Words a minute, from the teacher's own takes once they have a dozen words.
 * @param {Line[]} lines @param {number} usual
 * @returns {{rate: number, isOwn: boolean}}
 */
export function paceOf(lines, usual) {
  let words = 0, seconds = 0;
  for (const line of lines) {
    const take = line.state === "recorded" && chosen(line);
    if (take) { words += line.words; seconds += take.seconds; }
  }
  // A take of other words than the line's would make a pace that nobody speaks.
  const own = Math.max(SLOWEST, Math.min(FASTEST, (60 * words) / seconds));
  return words >= FEWEST_WORDS ? { rate: own, isOwn: true } : { rate: usual, isOwn: false };
}

/**
 * What is said below a line of its length, and of what is left.
 * @param {Line} line @param {Line[]} lines @param {number} usual
 */
export function paceInWords(line, lines, usual) {
  const { rate, isOwn } = paceOf(lines, usual), left = lines.filter((one) => one.state !== "recorded");
  const words = left.reduce((sum, one) => sum + one.words, 0);
  const here = txt`${line.words === 1 ? txt("One word") : txt`${line.words} words`}, about ${spell((60 * line.words) / rate)} at ${Math.round(rate)} words a minute${isOwn ? txt(", your pace so far") : ""}.`;
  if (!left.length) return txt`${here} Every line is recorded.`;
  return txt`${here} Still to record: ${left.length === 1 ? txt("one line") : txt`${left.length} lines`}, about ${spell((60 * words) / rate)}.`;
}

/** @param {Line[]} lines */
export function totalsInWords(lines) {
  const done = lines.filter((line) => line.state === "recorded"), stale = lines.filter((line) => line.state === "stale").length;
  const seconds = done.reduce((sum, line) => sum + (chosen(line)?.seconds ?? 0), 0);
  return txt`${done.length} of ${lines.length} lines recorded${done.length ? `, ${spell(seconds)}` : ""}${stale ? txt`; ${stale} stale` : ""}.`;
}
