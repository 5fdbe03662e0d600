"""What each fact sounds like in free speech: patterns of the language's `heard.toml`, made ready for use.

The idea: a fact declares nouns that are counted, predicates that are affirmed or denied, words before a list or a
number, and sentences of its own; the frames of the language put nouns and numbers together. Names of scales, notes and
chords are found first and stand in the text as single signs, so that patterns need not spell them.

**Conventions.** In marked text a scale is a run of U+E000, a note of U+E001, a chord of U+E002, each as long as its
words, so that offsets stay. Patterns are tried without regard to capitals.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Literal

from gamutwright.languages import language_of
from gamutwright.phrasing.packwords import heard_records

__all__ = ["CHORD", "NOTE", "SCALE", "Entry", "Frame", "Lexicon", "lexicon_of"]

SCALE, NOTE, CHORD = "\ue000", "\ue001", "\ue002"

Shape = Literal[
    "count", "zero", "some", "compare", "say", "yes", "no", "choice", "list", "measure", "contains", "chords"
]


@dataclass(frozen=True, slots=True)
class Frame:
    """One pattern of a fact.

    Parameters
    ----------
    shape : str
        How a match is read: count, zero, some, compare, say, yes, no, choice, list, measure, contains or chords.
    pattern : re.Pattern of str
        The pattern.
    accepts, refuses : tuple of str
        For a choice: the values of which it is true, or false.
    needs : re.Pattern of str or None
        Words that stand in every match; where they are missing, the pattern need not be tried.
    """

    shape: Shape
    pattern: re.Pattern[str]
    accepts: tuple[str, ...] = ()
    refuses: tuple[str, ...] = ()
    needs: re.Pattern[str] | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Entry:
    """Everything by which one fact is heard.

    Parameters
    ----------
    fact_id : str
        The fact.
    frames : tuple of Frame
        Its patterns.
    topic : re.Pattern of str or None
        What brings the fact up, even in a question.
    kind : str
        What a list holds: notes, steps, numbers, degrees; or the kind of chord.
    entry, size, over : int
        The entry of a list (from 1) or the size of a step that is counted, and the number a yes must exceed.
    not_before, not_after : re.Pattern of str or None
        Words beside a noun that show that something else is counted.
    not_before_unless : re.Pattern of str or None
        Words that overrule `not_before`.
    tables : mapping
        Words for degrees and their alterations.
    """

    fact_id: str
    frames: tuple[Frame, ...]
    topic: re.Pattern[str] | None
    kind: str = ""
    entry: int = 0
    size: int = 0
    over: int = 0
    not_before: re.Pattern[str] | None = None
    not_after: re.Pattern[str] | None = None
    not_before_unless: re.Pattern[str] | None = None
    tables: Mapping[str, Mapping[str, Any]] | None = None


@dataclass(frozen=True, slots=True)
class Lexicon:
    """All that is held for a language.

    Parameters
    ----------
    language : str
        Its tag.
    entries : tuple of Entry
        One for each fact, or part of a fact.
    words : mapping of str to re.Pattern
        Small words by purpose.
    raw : mapping of str to str
        The same, as written.
    frames : mapping of str to tuple of re.Pattern
        Frames that no single fact owns.
    scales : mapping of str to str
        Patterns of further scale names to the names that are held.
    bare, chordlike : frozenset of str
        Names of scales that are also other words, and those that also name chords.
    steps : tuple of (re.Pattern, int)
        Words for steps and their sizes.
    alterations : tuple of (re.Pattern, str)
        How alterations of degrees are written for the reader of scales, to be replaced in order.
    sounds : mapping of str to str
        Terms and their phonemes.
    beside_term : re.Pattern of str
        Words after which a term may have stood before them.
    ordinary : frozenset of str
        Words of everyday speech.
    """

    language: str
    entries: tuple[Entry, ...]
    words: Mapping[str, re.Pattern[str]]
    raw: Mapping[str, str]
    frames: Mapping[str, tuple[re.Pattern[str], ...]]
    scales: Mapping[str, str]
    bare: frozenset[str]
    chordlike: frozenset[str]
    steps: tuple[tuple[re.Pattern[str], int], ...]
    alterations: tuple[tuple[re.Pattern[str], str], ...]
    sounds: Mapping[str, str]
    beside_term: re.Pattern[str]
    ordinary: frozenset[str]

    def clause_start(self, text: str, place: int) -> int:
        """Give the beginning of the clause in which a place stands.

        Parameters
        ----------
        text : str
            A sentence.
        place : int
            Offset in it.

        Returns
        -------
        int
            Offset of the word that opens the clause, or after the mark that ends the one before.
        """
        begin = 0
        for match in self.words["clause"].finditer(text, 0, place):
            begin = match.start() + (not match[0][0].isalpha())
        return begin


class _Slots:
    """Puts patterns into the places of slots."""

    def __init__(self, language: str, table: Mapping[str, Any]) -> None:
        numerals = language_of(language).numerals
        words: dict[str, str] = table["words"]
        phrases = "|".join(sorted(map(re.escape, numerals.phrases), key=len, reverse=True))
        number = rf"(?:\d+|{numerals.cardinal})"
        digit_ordinal = (
            r"\d+\.(?=\s)" if numerals.ordinal_digits.startswith(r"\.") else rf"\d+{numerals.ordinal_digits}"
        )
        step = "|".join([*table["steps"], "[1-6]", numerals.cardinal])
        gap = words["note_gap"]
        between = rf"(?:,? (?:{numerals.and_word} )?| ?[,|/–—-] ?)"
        articles = f"|{words['articles']}" if words.get("articles") else ""
        count = rf"(?:{phrases}|{numerals.zeros}|{number}{articles})"
        hedge = rf"(?:{numerals.hedges} )?"
        self.values = {
            "{count}": rf"(?<![\w-])(?P<count>{hedge}{count})(?![\w])(?!-\w*[a-z])",
            "{ordinal}": rf"(?<![\w-])(?P<ordinal>{numerals.ordinal}|{digit_ordinal})(?!\w)",
            "{num}": number,
            "{bound}": rf"(?:(?P<bound>{words['bound']}) )?",
            "{adj}": words["intermediate"],
            "{comparing}": words["comparing"],
            "{numbers}": rf"(?P<list>(?<![\w-]){number}(?:{between}{number}(?!\w)){{2,}})",
            "{steps}": rf"(?P<list>(?<![\w'-])(?:{step})(?!\w)(?:(?:{between}|,? then )(?:{step})(?!\w)){{3,}})",
            "{step}": rf"(?P<step>{'|'.join(table['steps'])})(?!\w)",
            "{notes}": rf"(?P<list>{NOTE}+(?:{gap}{NOTE}+){{2,}})",
            "{roots}": rf"(?P<list>[{NOTE}{CHORD}]+(?:{gap}[{NOTE}{CHORD}]+)*)",
            "{note}": f"{NOTE}+",
            "{chord}": f"{CHORD}+",
            "{scale}": f"{SCALE}+",
        }

    def fill(self, pattern: str, noun: str = "") -> str:
        for slot, value in self.values.items():
            pattern = pattern.replace(slot, value)
        return pattern.replace("{N}", noun)

    def compiled(self, pattern: str, noun: str = "") -> re.Pattern[str]:
        return re.compile(self.fill(pattern, noun), re.IGNORECASE)


def _nouns(record: Mapping[str, Any]) -> str:
    return rf"(?<![\w-])(?:{'|'.join(record['counts'])})(?![\w])" if record.get("counts") else ""


def _list_frames(record: Mapping[str, Any], slots: _Slots, words: Mapping[str, str]) -> list[Frame]:
    kind = record.get("kind", "")
    slot = {"steps": "{steps}", "notes": "{notes}", "degrees": "{degrees}"}.get(kind, "{numbers}")
    if kind == "degrees":
        slot = words["degree_list"]
    keys = [rf"(?<!\w)(?:{key})(?!\w)" for key in record.get("lists", ())]
    return [Frame("list", slots.compiled(rf"{key}[^.;!?]{{0,45}}?{slot}"), needs=slots.compiled(key)) for key in keys]


def _frames(record: Mapping[str, Any], table: Mapping[str, Any], slots: _Slots) -> list[Frame]:
    frames: list[Frame] = []
    general, words = table["frames"], table["words"]
    noun = _nouns(record)
    if noun:
        needs = slots.compiled(noun)
        for shape in ("count", "zero", "some", "compare"):
            filled_in = (slots.compiled(frame, noun) for frame in general[shape] if "{N}" in frame)
            frames += [Frame(shape, pattern, needs=needs) for pattern in filled_in]
    for say in record.get("says", ()):
        filled = slots.compiled(say)
        frames.append(Frame("compare" if "compare" in filled.groupindex else "say", filled))
    frames += [Frame("yes", slots.compiled(pattern)) for pattern in record.get("yes", ())]
    frames += [Frame("no", slots.compiled(pattern)) for pattern in record.get("no", ())]
    frames += [Frame("contains", slots.compiled(pattern)) for pattern in record.get("contains", ())]
    for choice in record.get("choices", ()):
        accepts, refuses = tuple(choice["accepts"]), tuple(choice.get("refuses", ()))
        frames += [Frame("choice", slots.compiled(pattern), accepts, refuses) for pattern in choice["says"]]
    frames += _list_frames(record, slots, words)
    frames += [
        Frame("measure", slots.compiled(rf"(?<!\w)(?:{pattern})(?!\w)")) for pattern in record.get("measures", ())
    ]
    if record.get("chords"):
        quality = words["quality_" + record["chords"]]
        frames += [Frame("chords", slots.compiled(frame.replace("{Q}", quality))) for frame in general["chord_list"]]
    return frames


def _topic(record: Mapping[str, Any], slots: _Slots) -> re.Pattern[str] | None:
    parts = [*record.get("counts", ()), *record.get("yes", ()), *record.get("measures", ())]
    parts += record.get("topic", ())
    return slots.compiled("|".join(rf"(?<!\w)(?:{part})" for part in parts)) if parts else None


def _entry(record: Mapping[str, Any], table: Mapping[str, Any], slots: _Slots) -> Entry:
    def beside(key: str) -> re.Pattern[str] | None:
        return re.compile(record[key], re.IGNORECASE) if key in record else None

    return Entry(
        record["fact"],
        tuple(_frames(record, table, slots)),
        _topic(record, slots),
        record.get("kind", record.get("chords", "")),
        record.get("entry", 0),
        record.get("size", 0),
        record.get("over", 0),
        beside("not_before"),
        beside("not_after"),
        beside("not_before_unless"),
        {key: record[key] for key in ("degree_words", "quality_words") if key in record},
    )


@lru_cache(maxsize=8)
def lexicon_of(language: str) -> Lexicon:
    """Read what is held for a language.

    Parameters
    ----------
    language : str
        One of `known_languages()`.

    Returns
    -------
    Lexicon
        The patterns, compiled.

    Raises
    ------
    DomainError
        For a language without patterns.

    Examples
    --------
    >>> len({entry.fact_id for entry in lexicon_of("en").entries}) >= 45
    True
    """
    table = language_of(language).table("heard")
    slots = _Slots(language, table)
    raw = {key: value for key, value in table["words"].items() if isinstance(value, str)}
    shared = {key: value for key, value in table["frames"].items() if not any("{N}" in frame for frame in value)}
    shared["compare"] = [frame for frame in table["frames"]["compare"] if "{N}" not in frame]
    shared.pop("chord_list", None)
    return Lexicon(
        language,
        tuple(_entry(record, table, slots) for record in heard_records(language_of(language))),
        {key: slots.compiled(value) for key, value in raw.items()},
        raw,
        {key: tuple(slots.compiled(frame) for frame in value) for key, value in shared.items()},
        table["scales"],
        frozenset(table["bare"]["names"]),
        frozenset(table["bare"]["chordlike"]),
        tuple((re.compile(rf"(?:{words})", re.IGNORECASE), size) for words, size in table["steps"].items()),
        tuple((re.compile(words, re.IGNORECASE), sign) for words, sign in table["alterations"].items()),
        table["sounds"],
        re.compile(table["mishearing"]["after"], re.IGNORECASE),
        frozenset(table["mishearing"]["ordinary"].split()),
    )
