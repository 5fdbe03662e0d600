// @ts-check
// A course begins with a title.

import { ask, Refused } from "./asking.js";
import { txt } from "./words.js";

const form = /** @type {HTMLFormElement} */ (document.getElementById("begin"));
const said = /** @type {HTMLElement} */ (document.getElementById("begin-said"));

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  const fields = new FormData(form), title = /** @type {HTMLInputElement} */ (form.elements.namedItem("title"));
  if (!title.value.trim()) {
    said.textContent = txt("A course has a title. Write one.");
    title.focus();
    return;
  }
  try {
    await ask("POST", "/api/course", { title: title.value, language: fields.get("language"), level: fields.get("level") });
    location.reload();
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    said.textContent = error.message;
    title.focus();
  }
});
