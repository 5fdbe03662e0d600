// @ts-check
// Dark or light: the system's choice until the teacher makes another, kept in this browser.

import { txt } from "./words.js";

const button = /** @type {HTMLButtonElement} */ (document.getElementById("shade"));
const root = document.documentElement;

/** @returns {boolean} whether the page is dark now */
const dark = () => (root.dataset.shade || (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light")) === "dark";

const show = () => {
  button.textContent = dark() ? txt("Light") : txt("Dark");
  button.setAttribute("aria-label", dark() ? txt("Light page") : txt("Dark page"));
};

try {
  const kept = localStorage.getItem("shade");
  if (kept === "dark" || kept === "light") root.dataset.shade = kept;
} catch { /* a browser that keeps nothing has the system's shade */ }
show();
matchMedia("(prefers-color-scheme: dark)").addEventListener("change", show);
button.addEventListener("click", () => {
  root.dataset.shade = dark() ? "light" : "dark";
  try { localStorage.setItem("shade", root.dataset.shade); } catch { /* as above */ }
  show();
});
