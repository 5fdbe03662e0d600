// @ts-check
// A new lesson: a scale goes in, a draft comes out.

import { ask, Refused } from "./asking.js";

const form = /** @type {HTMLFormElement} */ (document.getElementById("new"));
const said = /** @type {HTMLElement} */ (document.getElementById("new-said"));

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const fields = new FormData(form);
  const button = /** @type {HTMLButtonElement} */ (form.querySelector("button"));
  button.disabled = true;
  said.textContent = "Drafting …";
  try {
    const made = await ask("POST", "/api/lessons", {
      scale: String(fields.get("scale")), language: String(fields.get("language")), minutes: Number(fields.get("minutes")),
    });
    location.assign(`/lesson/${encodeURIComponent(made.slug)}`);
  } catch (error) {
    said.textContent = error instanceof Refused ? error.message : String(error);
    button.disabled = false;
    /** @type {HTMLInputElement} */ (form.elements.namedItem("scale")).focus();
  }
});
