// @ts-check
// A script line by line: one field for each sentence, its cues as chips, what is wrong with it beside it.
//
// The text as a whole stays the one truth; a row is a piece of it, and writes what is typed into its piece at once. Where
// sentences begin and end is told by the check. While somebody is in a row the rows stay as they are; only when they leave
// it are rows joined or parted as the text has it now.
//
// What is said stands out: the words are drawn by the layer behind a field, where brackets and braces can be fainter. A
// browser that cannot do that draws everything alike, in the field itself.

import { txt } from "./words.js";

/** @typedef {{kind: string, value: string, words: string, start: number, end: number}} Chip */
/** @typedef {{id: string, start: number, end: number, text: string, chips: Chip[], passage: number}} Line */
/** @typedef {{title: string, start: number, end: number}} Heading */
/** @typedef {import("./script.js").Mark} Mark */
/** @typedef {{lines: Line[], headings: Heading[], marks: Mark[]}} Found */
/**
 * @typedef {{
 *   kind: "front" | "heading" | "line", start: number, end: number, lead: string, element: HTMLElement,
 *   field: HTMLTextAreaElement | HTMLInputElement, under: HTMLElement | null, chips: HTMLElement, wrong: HTMLElement,
 *   told: HTMLElement, id: string, tail: number, faint: Range[],
 * }} Row `lead` is what is written before the first letter of a row that is new; `tail` is the length of the lasting id
 *   behind a line, which ties recordings to it and is nobody's business while writing
 */
/**
 * @typedef {{
 *   text: () => string, replace: (start: number, end: number, text: string) => void, check: () => void,
 *   preview: (id: string) => void, mend: (mark: Mark) => void, undo: () => void, redo: () => void,
 * }} Desk
 */

const CUES = /** @type {Record<string, string>} */ ({ show: txt("shows"), play: txt("plays"), mark: txt("lights"), each: txt("points at"), pause: txt("rests") });
const SECONDS_A_WORD = 60 / 140;
/** Brackets of words that are bound, and braces with what they hold. */
const MARKUP = /\[(?=[^[\]]*\]\{)|\]?\{[^{}]*\}/g;
const registry = /** @type {any} */ (CSS).highlights, faint = registry ? new Highlight() : null;
registry?.set("markup", faint);
const LASTING_ID = /\s*\{#[\w-]+\}\s*$/;
let count = 0;

export class Lines {
  /** @param {HTMLElement} root @param {Desk} desk */
  constructor(root, desk) {
    this.root = root;
    this.desk = desk;
    /** @type {Row[]} */ this.rows = [];
    /** @type {Found | null} */ this.found = null;
    /** @type {Row | null} */ this.last = null;
    /** The row that is being written in. @type {Row | null} */ this.written = null;
    this.wanted = -1;
    root.classList.toggle("layered", Boolean(faint));
    root.addEventListener("focusin", (event) => {
      const row = this.rowOf(event.target);
      if (row) this.last = row;
    });
    // What is pressed next should still be there when the rows are laid anew, so that waits for its turn.
    root.addEventListener("focusout", () => setTimeout(() => this.settle(), 150));
    root.addEventListener("keydown", (event) => this.key(event));
  }

  /** @param {EventTarget | null} target @returns {Row | undefined} */
  rowOf(target) { return this.rows.find((row) => row.field === target); }

  /** The row that somebody is in. */
  get here() { return this.rowOf(document.activeElement); }

  /** Take in what the check says of the text as it is. @param {Found} found */
  take(found) {
    this.found = found;
    if (this.wanted < 0 && this.here && (this.here === this.written || this.here.lead)) this.tell();
    else this.lay();
  }

  /** Once a row was left, ask how the text falls into lines now. */
  settle() {
    const left = this.written ?? this.rows.find((row) => row.lead);
    if (this.root.hidden || !left || this.here === left || !this.found) return;
    this.written = null;
    this.desk.check();
  }

  /** Draw every row anew; fields whose text is the same are kept, and so is the place of the one who writes. */
  lay() {
    const found = /** @type {Found} */ (this.found), text = this.desk.text(), before = this.here;
    const caret = this.wanted >= 0 ? this.wanted : before && !before.lead ? before.start + (before.field.selectionStart ?? 0) : -1;
    this.wanted = -1;
    const front = /^---\n[\s\S]*?\n---\n/.exec(text)?.[0].length ?? 0;
    /** @type {{kind: Row["kind"], start: number, end: number, id: string, passage: number}[]} */ const pieces = [
      ...found.headings.map((one) => ({ kind: /** @type {const} */ ("heading"), ...one, id: "", passage: -1 })),
      ...found.lines.map((one) => ({ kind: /** @type {const} */ ("line"), start: one.start, end: one.end, id: one.id, passage: one.passage })),
    ].sort((a, b) => a.start - b.start);
    if (front) pieces.unshift({ kind: "front", start: 4, end: front - 5, id: "", passage: -1 });
    const was = this.rows, old = [...was];
    let passage = -1;
    this.rows = pieces.map((piece) => {
      const whole = text.slice(piece.start, piece.end), words = piece.kind === "line" ? whole.replace(LASTING_ID, "") : whole;
      const at = old.findIndex((row) => row.kind === piece.kind && row.field.value === words && !row.lead);
      const row = at >= 0 ? old.splice(0, at + 1)[at] : this.make(piece.kind);
      Object.assign(row, { start: piece.start, end: piece.start + words.length, id: piece.id, lead: "", tail: whole.length - words.length });
      if (row.field.value !== words) row.field.value = words;
      row.element.classList.toggle("opens", piece.kind === "line" && piece.passage !== passage);
      if (piece.kind === "line") passage = piece.passage;
      return row;
    });
    for (const row of was) if (!this.rows.includes(row)) this.brighten(row);
    const elements = this.rows.map((row) => row.element);
    // Elements that stay where they are keep their focus; only what differs is touched.
    elements.forEach((element, index) => { if (this.root.children[index] !== element) this.root.insertBefore(element, this.root.children[index] ?? null); });
    while (this.root.children.length > elements.length) this.root.lastElementChild?.remove();
    this.tell();
    if (caret >= 0) this.go(caret, caret);
  }

  /** @param {Row["kind"]} kind @returns {Row} */
  make(kind) {
    const element = document.createElement("div"), cell = document.createElement("div");
    const chips = document.createElement("div"), wrong = document.createElement("ul"), told = document.createElement("span");
    element.className = `piece ${kind}`;
    cell.className = "cell";
    wrong.className = "wrong";
    wrong.id = `wrong-${++count}`;
    chips.className = "chips";
    told.className = "told";
    /** @type {Row["field"]} */ let field;
    /** @type {HTMLElement | null} */ let under = null;
    if (kind === "heading") {
      field = document.createElement("input");
      field.setAttribute("aria-label", txt("Title of the chapter"));
      cell.append(field);
    } else {
      field = document.createElement("textarea");
      field.rows = 1;
      under = document.createElement("pre");
      under.className = "under";
      under.setAttribute("aria-hidden", "true");
      cell.append(under, field);
      field.setAttribute("aria-label", kind === "front" ? txt("About the lesson") : txt("Line"));
      field.setAttribute("aria-describedby", wrong.id);
    }
    field.autocomplete = "off";
    field.spellcheck = kind !== "front";
    field.lang = this.root.lang;
    if (kind === "front") {
      const box = document.createElement("details"), head = document.createElement("summary");
      head.textContent = txt("About the lesson: scale, title, level, language");
      box.append(head, cell);
      element.append(box, wrong);
    } else element.append(cell, chips, wrong);
    /** @type {Row} */ const row = { kind, start: 0, end: 0, lead: "", element, field, under, chips, wrong, told, id: "", tail: 0, faint: [] };
    field.addEventListener("input", () => this.typed(row));
    return row;
  }

  /** @param {Row} row */
  typed(row) {
    const words = row.field.value, lead = row.lead && words ? row.lead : "";
    if (row.lead && !words) return;
    this.written = row;
    if (lead) row.lead = "";
    // A line without words needs no id, and an id without a line would be a fault.
    const gone = words.trim() ? 0 : row.tail;
    row.tail -= gone;
    const start = row.start + lead.length, delta = lead.length + words.length - (row.end - row.start) - gone;
    this.desk.replace(row.start, row.end + gone, lead + words);
    row.start = start;
    row.end = start + words.length;
    for (const other of this.rows.slice(this.rows.indexOf(row) + 1)) { other.start += delta; other.end += delta; }
    this.draw(row);
  }

  /** Say of every row what the check has found in it. */
  tell() {
    const found = /** @type {Found} */ (this.found);
    let number = 0;
    for (const row of this.rows) {
      this.draw(row);
      const inside = (/** @type {{start: number, end: number}} */ one) => one.start >= row.start && one.start <= row.end && !row.lead;
      const wrong = found.marks.filter((mark) => (mark.kind === "fault" || mark.kind === "problem") && inside(mark));
      row.element.classList.toggle("faulty", wrong.length > 0);
      row.wrong.replaceChildren(...wrong.map((mark) => this.explain(mark)));
      if (row.kind !== "line") continue;
      number += 1;
      row.field.setAttribute("aria-label", txt`Line ${number}`);
      const line = found.lines.find((one) => one.start === row.start);
      if (line && !line.id && row.chips.childElementCount) {
        // Cues of a text that cannot be read are not known; those known before stay where they are.
        this.length(row, line);
        continue;
      }
      if (line) row.id = line.id;
      const cues = found.lines.flatMap((one) => one.chips).filter(inside);
      row.chips.replaceChildren(this.length(row, line), ...cues.map((chip) => this.chip(row, chip)));
    }
  }

  /** @param {Row} row @param {Line | undefined} line */
  length(row, line) {
    const words = (line?.text.match(/\S+/g) ?? []).length;
    row.told.textContent = words ? txt`${words === 1 ? txt("one word") : txt`${words} words`}, about ${Math.max(1, Math.round(words * SECONDS_A_WORD))} s` : line ? txt("Nothing is said.") : "";
    return row.told;
  }

  /** @param {Mark} mark */
  explain(mark) {
    const item = document.createElement("li");
    const reason = mark.message[0].toUpperCase() + mark.message.slice(1);
    item.append(`${mark.words ? `“${mark.words}”: ` : ""}${reason}${/[.!?]$/.test(reason) ? "" : "."} ${mark.mend ? "" : mark.next_step} `);
    if (mark.mend) {
      const mend = document.createElement("button");
      mend.type = "button";
      mend.className = "small";
      mend.textContent = txt`Write: ${mark.mend}`;
      mend.addEventListener("click", () => this.desk.mend(mark));
      item.append(mend);
    }
    return item;
  }

  /** @param {Row} row @param {Chip} chip */
  chip(row, chip) {
    const button = document.createElement("button");
    button.type = "button";
    button.className = "chip";
    const value = chip.kind === "pause" ? `${chip.value} s` : chip.value.replaceAll("_", " ");
    button.textContent = `${CUES[chip.kind]} ${value}`;
    button.title = chip.words ? txt`At “${chip.words}”. Press to see and hear the line.` : txt("Press to see and hear the line.");
    button.addEventListener("click", () => this.desk.preview(row.id));
    return button;
  }

  /** Draw what lies under a field: its text, which gives it its height and carries the marks. @param {Row} row */
  draw(row) {
    if (!row.under) return;
    row.under.textContent = `${row.field.value}\u200b`;
    if (!faint || row.kind !== "line") return;
    this.brighten(row);
    const node = /** @type {Node} */ (row.under.firstChild);
    row.faint = [...row.field.value.matchAll(MARKUP)].map((found) => {
      const range = new Range();
      range.setStart(node, found.index);
      range.setEnd(node, found.index + found[0].length);
      faint.add(range);
      return range;
    });
  }

  /** Forget which parts of a row are faint. @param {Row} row */
  brighten(row) { for (const range of row.faint.splice(0)) faint?.delete(range); }

  /** Where the marks of a kind stand in the rows. @param {string} kind @returns {Range[]} */
  ranges(kind) {
    /** @type {Range[]} */ const made = [];
    for (const mark of this.found?.marks ?? []) {
      if (mark.kind !== kind || mark.end <= mark.start) continue;
      const row = this.rows.find((one) => one.under && !one.lead && mark.start >= one.start && mark.end <= one.end);
      const node = row?.under?.firstChild;
      if (!row || !node) continue;
      const range = new Range();
      range.setStart(node, mark.start - row.start);
      range.setEnd(node, Math.min(mark.end - row.start, row.field.value.length));
      made.push(range);
    }
    return made;
  }

  /** Go to a place of the text. @param {number} start @param {number} end */
  go(start, end) {
    const row = this.rows.findLast((one) => one.start <= start && start <= one.end) ?? this.rows.find((one) => one.start >= start);
    if (!row) return;
    const box = row.element.querySelector("details");
    if (box) box.open = true;
    row.field.focus();
    row.field.setSelectionRange(Math.max(0, start - row.start), Math.min(end - row.start, row.field.value.length));
    row.element.scrollIntoView({ block: "nearest" });
  }

  /** Open an empty row behind another. @param {Row} row @param {string} lead */
  open(row, lead) {
    const made = this.make("line");
    const at = this.rows.indexOf(row) + 1;
    Object.assign(made, { start: row.end + row.tail, end: row.end + row.tail, lead });
    if (row.kind === "front") made.start = made.end = row.end + 5;
    made.element.classList.toggle("opens", lead.includes("\n\n"));
    this.rows.splice(at, 0, made);
    row.element.after(made.element);
    this.draw(made);
    made.field.focus();
  }

  /** Put sentences behind the row that was written in last, or at the end. @param {string} words */
  say(words) {
    const row = this.last && this.rows.includes(this.last) && this.last.kind !== "front" ? this.last : this.rows.at(-1);
    if (!row) return;
    const lead = row.kind === "line" ? "\n" : "\n\n", end = row.end + row.tail;
    this.wanted = end + lead.length;
    this.desk.replace(end, end, lead + words);
    this.desk.check();
  }

  /** Put a cue where the caret was. @param {string} cue */
  cue(cue) {
    const row = this.last && this.rows.includes(this.last) && this.last.kind === "line" ? this.last : this.rows.findLast((one) => one.kind === "line");
    if (!row) return;
    const at = row.field.selectionStart ?? row.field.value.length;
    row.field.focus();
    row.field.setRangeText(cue, at, row.field.selectionEnd ?? at, "end");
    this.typed(row);
  }

  /** @param {KeyboardEvent} event */
  key(event) {
    const row = this.rowOf(event.target);
    if (!row || event.isComposing) return;
    const at = this.rows.indexOf(row), value = row.field.value;
    const begin = row.field.selectionStart === 0 && row.field.selectionEnd === 0, end = row.field.selectionStart === value.length;
    const command = event.ctrlKey || event.metaKey;
    if (command && event.key.toLowerCase() === "z") { if (event.shiftKey) this.desk.redo(); else this.desk.undo(); }
    else if (command && event.key.toLowerCase() === "y") this.desk.redo();
    else if (event.key === "Enter" && row.kind !== "front") this.enter(row, command);
    else if (event.key === "Backspace" && !value && row.kind === "line" && at > 0) this.drop(row, at);
    else if (event.key === "ArrowUp" && (event.altKey || begin) && at > 0) this.step(at - 1, true);
    else if (event.key === "ArrowDown" && (event.altKey || end) && at + 1 < this.rows.length) this.step(at + 1, false);
    else return;
    event.preventDefault();
  }

  /** A new line; once more, and it begins a passage. @param {Row} row @param {boolean} command */
  enter(row, command) {
    if (row.lead) {
      row.lead = "\n\n";
      row.element.classList.add("opens");
    } else this.open(row, command || row.kind === "heading" ? "\n\n" : "\n");
  }

  /** @param {number} at @param {boolean} atEnd */
  step(at, atEnd) {
    const row = this.rows[at], box = row.element.querySelector("details");
    if (box && !box.open) return;
    row.field.focus();
    const place = atEnd ? row.field.value.length : 0;
    row.field.setSelectionRange(place, place);
  }

  /** Take an empty row away, with the line end before it. @param {Row} row @param {number} at */
  drop(row, at) {
    const text = this.desk.text(), blank = row.lead ? row.start : row.start - (/\s*$/.exec(text.slice(this.rows[at - 1].end + this.rows[at - 1].tail, row.start))?.[0].length ?? 0);
    const isNew = Boolean(row.lead);
    this.rows.splice(at, 1);
    this.brighten(row);
    row.element.remove();
    this.step(at - 1, true);
    if (isNew) return;
    this.desk.replace(blank, row.start, "");
    for (const other of this.rows.slice(at)) { other.start -= row.start - blank; other.end -= row.start - blank; }
    this.wanted = blank;
    this.desk.check();
  }
}
