"""What of a published package no longer holds: its script checked again with today's facts and definitions.

Conventions: a package is a folder with `script.md` and `ledger.json`; times are those of its film. A statement that was
confirmed when the package was made and is not today is a correction; a definition that changed while the value stayed
is told as well.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from gamutwright import __version__
from gamutwright.codec import plain_from_json, unlike
from gamutwright.errors import FileError
from gamutwright.facts.registry import Registry
from gamutwright.ir.timeline import TICKS_PER_SECOND
from gamutwright.languages import language_of
from gamutwright.lessons.claims import Claim, Verdict, check
from gamutwright.lessons.parse import parse
from gamutwright.phrasing.card_words import card_words
from gamutwright.phrasing.slots import filled
from gamutwright.publish.book import definition_digest
from gamutwright.publish.description import plain_text
from gamutwright.publish.told_lesson import clock_time

__all__ = ["Correction", "Errata", "Redefined", "errata", "errata_page"]


@dataclass(frozen=True, slots=True)
class Correction:
    """A statement that no longer holds.

    Parameters
    ----------
    fact_id : str
        The fact.
    line_id : str
        The line.
    start_ms, end_ms : int
        When the line is spoken in the film.
    said, now : str
        The words that were said, and those that hold today; "" where nothing can be said.
    reason : str
        Why.
    caption, corrected : str
        The line as it was read along, and as it should be.
    """

    fact_id: str
    line_id: str
    start_ms: int
    end_ms: int
    said: str
    now: str
    reason: str
    caption: str
    corrected: str


@dataclass(frozen=True, slots=True)
class Redefined:
    """A definition that changed, or whose source did, while the value stayed.

    Parameters
    ----------
    fact_id, title : str
        The fact.
    starts_ms : tuple of int
        When the lines that explain or tell it begin in the film.
    """

    fact_id: str
    title: str
    starts_ms: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Errata:
    """What became of a published lesson.

    Parameters
    ----------
    title, language : str
        Of the lesson.
    published_with : str
        Version of the program that made it.
    corrections : tuple of Correction
        By time.
    redefined : tuple of Redefined
        Facts whose definition or source changed while the value stayed.
    """

    title: str
    language: str
    published_with: str
    corrections: tuple[Correction, ...]
    redefined: tuple[Redefined, ...]


def errata(folder: Path, registry: Registry) -> Errata:
    """Check a published package again.

    Parameters
    ----------
    folder : Path
        The package.
    registry : Registry
        The facts as they are today.

    Returns
    -------
    Errata
        What changed.

    Raises
    ------
    FileError
        If it is not a package, or cannot be read.
    """
    book, source = _read(folder)
    report = check(parse(source, str(folder / "script.md")), registry)
    lines = {line["id"]: line for line in book["lesson"]["lines"]}
    was_confirmed = {
        (claim["line_id"], claim["words"]) for claim in book["claims"] if claim["verdict"] == Verdict.CONFIRMED.value
    }
    corrections = [
        _correction(claim, lines[claim.line_id])
        for claim in report.faults
        if claim.line_id in lines and (claim.line_id, claim.words) in was_confirmed
    ]
    changed = {correction.fact_id for correction in corrections}
    words = card_words(report.script.front.language)
    redefined = [
        Redefined(fact["id"], words.title(registry.facts[fact["id"]]), _starts(book, lines, fact["id"]))
        for fact in book["lesson"]["facts"]
        if fact["id"] in registry.facts
        and fact["id"] not in changed
        and definition_digest(registry.facts[fact["id"]]) != fact["definition"]
    ]
    return Errata(
        book["lesson"]["title"],
        report.script.front.language,
        book["tool"]["version"],
        tuple(sorted(corrections, key=lambda correction: correction.start_ms)),
        tuple(redefined),
    )


def _starts(book: Mapping[str, Any], lines: Mapping[str, Any], fact_id: str) -> tuple[int, ...]:
    ids = {claim["line_id"] for claim in book["claims"] if claim["fact"] == fact_id}
    return tuple(sorted(int(line["start_ms"]) for line_id, line in lines.items() if line_id in ids))


_BOOK = {
    "tool": {"version": str},
    "lesson": {
        "title": str,
        "lines": [{"id": str, "start_ms": int, "end_ms": int, "text": str}],
        "facts": [{"id": str, "definition": str}],
    },
    "claims": [{"line_id": str, "words": str, "verdict": str, "fact": object}],
}
"""What is read of a ledger."""


def _read(folder: Path) -> tuple[Mapping[str, Any], str]:
    try:
        book: Any = plain_from_json((folder / "ledger.json").read_bytes())
        source = (folder / "script.md").read_text(encoding="utf-8")
        wrong = unlike(book, _BOOK)
    except (OSError, ValueError) as error:
        book, source, wrong = {}, "", str(getattr(error, "strerror", None) or error)
    if wrong:
        raise FileError(
            str(folder),
            f"it is no published package: script.md and a ledger with its lesson belong to one ({wrong})",
            "Name the folder that `gamutwright package` made.",
        )
    return book, source


def _correction(claim: Claim, line: Mapping[str, Any]) -> Correction:
    corrected = line["text"].replace(claim.words, claim.expected, 1) if claim.expected else ""
    return Correction(
        claim.fact_id,
        claim.line_id,
        int(line["start_ms"]),
        int(line["end_ms"]),
        claim.words,
        claim.expected,
        claim.reason,
        str(line["text"]),
        corrected,
    )


def errata_page(found: Errata) -> str:
    """Write a correction note, as Markdown.

    Parameters
    ----------
    found : Errata
        What changed.

    Returns
    -------
    str
        For each correction: when, what was said, what holds, the caption as it should be, and a note to pin.
    """
    words = language_of(found.language).table("description")["errata"]
    parts = [f"# {filled(words['heading'], title=plain_text(found.title))}"]
    parts.append(filled(words["intro"], tool="Gamutwright", version=__version__, old=found.published_with))
    if not found.corrections and not found.redefined:
        parts.append(words["none"])
    for one in found.corrections:
        time = clock_time(one.start_ms * TICKS_PER_SECOND // 1000)
        rows = [f"## {time}", f"- {words['was']}: {plain_text(one.said)}"]
        rows += [f"- {words['is']}: {plain_text(one.now)}"] if one.now else [f"- {plain_text(one.reason)}"]
        if one.corrected:
            rows.append(f"- {words['caption']}: {plain_text(one.corrected)}")
            note = filled(words["note"], time=time, was=plain_text(one.said), now=plain_text(one.now))
            rows.append(f"\n> {note}")
        parts.append("\n".join(rows))
    for changed in found.redefined:
        times = ", ".join(clock_time(start_ms * TICKS_PER_SECOND // 1000) for start_ms in changed.starts_ms)
        note = filled(words["definition"], title=changed.title)
        parts.append(f"{note} ({times})" if times else note)
    return "\n\n".join(parts) + "\n"
