// @ts-check
// The steps of the work on a scale are those of the browser's history: Back takes one back, also after a reload.

/** @typedef {{bits: string, root: number, place: number}} Entry */

const $ = (/** @type {string} */ id) => /** @type {any} */ (document.getElementById(id));
const NEWEST = "explore newest step";
let place = Number(history.state?.place ?? 0), newest = place;

/** @returns {Entry | null} the step at which the page was loaded again */
export const loaded = () => (typeof history.state?.bits === "string" ? history.state : null);

/** @param {(entry: Entry) => void} restore */
export function begin(restore) {
  try { if (loaded()) newest = Math.max(place, Number(sessionStorage.getItem(NEWEST)) || 0); } catch { /* then there is nothing to go forward to */ }
  addEventListener("popstate", (event) => {
    if (typeof event.state?.bits !== "string") return;
    place = event.state.place;
    show();
    restore(event.state);
  });
  $("undo").addEventListener("click", back);
  $("redo").addEventListener("click", forward);
  addEventListener("keydown", (event) => {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || (event.target instanceof Element && event.target.closest("input:not([type=checkbox]), select, textarea"))) return;
    const key = event.key.toLowerCase();
    if (key === "z" && !event.shiftKey) back();
    else if (key === "y" || key === "z") forward();
    else return;
    event.preventDefault();
  });
  show();
}

const back = () => { if (place > 0) history.back(); };
const forward = () => { if (place < newest) history.forward(); };

function show() {
  $("undo").setAttribute("aria-disabled", String(place <= 0));
  $("redo").setAttribute("aria-disabled", String(place >= newest));
}

/** @param {{bits: string, root: number}} entry a further step; what lay ahead is gone */
export function step(entry) {
  const { bits, root } = entry;
  // A browser refuses hundreds of steps in half a minute; the work goes on without them.
  try { history.pushState({ bits, root, place: place + 1 }, ""); } catch { return; }
  newest = ++place;
  try { sessionStorage.setItem(NEWEST, String(newest)); } catch { /* as above */ }
  show();
}

/** @param {{bits: string, root: number}} entry @param {string} address of the step that is looked at */
export function settle({ bits, root }, address) {
  try { history.replaceState({ bits, root, place }, "", address); } catch { /* as above */ }
}
