// @ts-check
// Parts of a screen of which one is shown: arrow keys go from tab to tab, and the address remembers which it was.

/**
 * @param {HTMLElement} list
 * @param {(name: string) => void} onShown told which part is shown, and at once which it is now
 * @returns {() => string} which part is shown
 */
export function tabs(list, onShown) {
  const every = /** @type {HTMLElement[]} */ ([...list.querySelectorAll("[role=tab]")]);
  const nameOf = (/** @type {HTMLElement} */ tab) => tab.id.replace("-tab", "");
  let chosen = every.find((tab) => `#${nameOf(tab)}` === location.hash) ?? every[0];
  const choose = (/** @type {HTMLElement} */ tab) => {
    chosen = tab;
    for (const one of every) {
      const is = one === tab, panel = document.getElementById(one.getAttribute("aria-controls") ?? "");
      one.setAttribute("aria-selected", String(is));
      one.tabIndex = is ? 0 : -1;
      if (panel) panel.hidden = !is;
    }
    onShown(nameOf(tab));
  };
  list.addEventListener("click", (event) => {
    const tab = every.find((one) => one.contains(/** @type {Node} */ (event.target)));
    if (tab) choose(tab);
  });
  list.addEventListener("keydown", (event) => {
    const at = every.indexOf(chosen), last = every.length - 1;
    /** @type {Record<string, number>} */
    const to = { ArrowRight: at === last ? 0 : at + 1, ArrowLeft: at ? at - 1 : last, Home: 0, End: last };
    if (!(event.key in to)) return;
    event.preventDefault();
    choose(every[to[event.key]]);
    chosen.focus();
  });
  choose(chosen);
  return () => nameOf(chosen);
}
