"""The kit that examines a language: whoever adds one runs the same checks that English and German pass.

It returns complaints in words, none where all is well::

    from gamutwright.lessons.language_checks import language_complaints
    assert not language_complaints("de")

What is examined: that every file of words is there with every word and every slot; that numbers, ordinals, fractions,
notes, chords and intervals are read back from the words in which they are said; that every fact has its words, and that
every sentence about a scale is proved by the same check that a teacher's script passes; that whole drafts check clean.

Conventions: the language of the program's own texts is the pattern; a complaint begins with what it is about.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from typing import Any

from gamutwright.errors import GamutwrightError
from gamutwright.facts.profile import profile
from gamutwright.facts.registry import default_registry
from gamutwright.inputs.text import read_scale
from gamutwright.languages import Language, language_of, source_language
from gamutwright.lessons.claims import check
from gamutwright.lessons.draft import draft
from gamutwright.lessons.parse import parse
from gamutwright.lessons.plan import Wish
from gamutwright.phrasing.engine import wording_for
from gamutwright.phrasing.messages import Messages, load_messages
from gamutwright.phrasing.numbers import find_quantities
from gamutwright.phrasing.spoken_names import find_chords, find_notes, spoken_chord, spoken_note
from gamutwright.phrasing.spoken_numbers import count_to_words, fraction_to_words, ordinal_to_words
from gamutwright.phrasing.word_checks import word_complaints
from gamutwright.theory.harmony import CHORDS

__all__ = ["SHOWN_WORDS", "language_complaints"]

SHOWN_WORDS = ("cards", "description", "errors", "page", "print", "quiz", "score", "site", "studio")
"""Files whose words are shown or printed: every language has the same keys."""
READERS = ("heard", "lexicon", "prose", "sounds")
"""Files by which texts are read and said: what is in them is the language's own."""
SCALES = ("C major", "G acoustic", "D harmonic minor", "C whole-tone", "F minor pentatonic")
COUNTS = (*range(132), 200, 201, 462, 999, 1000, 1200, 4095, 12_345)
NOTES = tuple(letter + sign for letter in "CDEFGAB" for sign in ("", "#", "b"))
FREE = {"terms", "title"}
"""Attributes of a fact's message that the language of the facts themselves need not have."""
_SLOT = re.compile(r"\{(\w+)\}")
_VARIABLE = re.compile(r"\$(\w+)")


def language_complaints(tag: str) -> tuple[str, ...]:
    """Say what a language lacks, or says so that it cannot be read back.

    Parameters
    ----------
    tag : str
        Tag of an installed language.

    Returns
    -------
    tuple of str
        A sentence for each; none where lessons can be made in it.

    Raises
    ------
    DomainError
        If no such language is installed.
    """
    language = language_of(tag)
    found = [*_missing_words(language), *_unlike_messages(language)]
    if found:  # what is missing would be met again wherever it is said
        return tuple(found)
    words = [line for fact in default_registry().facts.values() for line in word_complaints(fact, tag)]
    return (*_unread_numbers(tag), *_unread_names(tag), *(words or (*_unproved_sentences(tag), *_unproved_drafts(tag))))


def _missing_words(language: Language) -> Iterator[str]:
    source = source_language()
    for name in (*SHOWN_WORDS, *READERS):
        try:
            table = dict(_flat(language.table(name)))
        except GamutwrightError as error:
            yield str(error)
            continue
        for key, text in _flat(source.table(name)) if name in SHOWN_WORDS else ():
            if key not in table:
                yield f"{name}.toml has no {key}"
            elif isinstance(text, str) and _slots(text) != _slots(str(table[key])):
                yield f"{name}.toml: {key} has other slots than '{text}'"


def _slots(text: str) -> set[str]:
    """Name the slots of a text; a note in small letters, as some languages write minor chords, is a note."""
    return {"note" if slot == "small" else slot for slot in _SLOT.findall(text)}


def _flat(table: Mapping[str, Any], before: str = "") -> Iterator[tuple[str, Any]]:
    for key, value in table.items():
        if isinstance(value, Mapping):
            yield from _flat(value, f"{before}{key}.")
        else:
            yield f"{before}{key}", value


def _unlike_messages(language: Language) -> Iterator[str]:
    try:
        own = load_messages(language.tag)
    except GamutwrightError as error:
        yield str(error)
        return
    pattern = load_messages(source_language().tag)
    for message in pattern.ids:
        if message not in own.ids:
            yield f"message {message} is missing"
            continue
        for name in sorted(_named(pattern, message) - own.attributes(message)):
            yield f"message {message} has no .{name}"
        for name in sorted(_variables(own, message) - _variables(pattern, message)):
            yield f"message {message} asks for ${name}, which is not given"


def _named(messages: Messages, message: str) -> frozenset[str]:
    """Attributes with a purpose of their own; statements, of one letter, may be as many as a language likes."""
    return frozenset(name for name in messages.attributes(message) if len(name) > 1) - FREE


def _variables(messages: Messages, message: str) -> set[str]:
    return set(_VARIABLE.findall(messages.written(message))) - {"count", "label", "many"}


def _unread_numbers(tag: str) -> Iterator[str]:
    for number in COUNTS:
        said = count_to_words(number, tag)
        if [(found.value, found.text) for found in find_quantities(said, tag)] != [(number, said)]:
            yield f"number {number} is said '{said}' and not read back from it"
    for number in range(1, 61):
        said = ordinal_to_words(number, tag)
        if [found.value for found in find_quantities(said, tag, is_bound=True)] not in ([number], []):
            yield f"ordinal {number} is said '{said}' and read back as another"
    for below in range(2, 13):
        for above in range(1, below):
            value = Fraction(above, below)
            said = fraction_to_words(value, tag) or ""
            if [found.value for found in find_quantities(said, tag)] != [value]:
                yield f"fraction {value} is said '{said}' and not read back from it"


def _unread_names(tag: str) -> Iterator[str]:
    for name in NOTES:
        said = spoken_note(name, tag)
        if [found.name for found in find_notes(said, tag, is_bound=True)] != [name]:
            yield f"note {name} is said '{said}' and not read back from it"
    for suffix in CHORDS:
        for root in ("C", "F#", "Bb", "B"):
            said = spoken_chord(root + suffix, tag)
            if [found.name for found in find_chords(said, tag, is_bound=True)] != [root + suffix]:
                yield f"chord {root}{suffix} is said '{said}' and not read back from it"


def _unproved_sentences(tag: str) -> Iterator[str]:
    """Say every fact of a few scales in every shape, and let the check of scripts judge it."""
    wording = wording_for(tag)
    for name in SCALES:
        scale = read_scale(name).scale
        lines = []
        for finding in profile(scale).findings:
            if finding.value is not None and wording.speaks_of(finding.fact):
                shapes = range(wording.variants(finding.fact))
                lines += [wording.statement(finding.fact, finding, scale, shape) for shape in shapes]
        yield from _faults(f"---\nscale: {name}\nlanguage: {tag}\n---\n" + "\n\n".join(filter(None, lines)) + "\n")


def _unproved_drafts(tag: str) -> Iterator[str]:
    for name, minutes in (("G acoustic", 2.0), ("D dorian", 9.0)):
        yield from _faults(draft(read_scale(name).scale, Wish(minutes=minutes), tag).source)


def _faults(source: str) -> Iterator[str]:
    try:
        report = check(parse(source))
    except GamutwrightError as error:
        yield str(error)
        return
    text = {line.id: line.text for line in report.script.lines}
    for claim in report.faults:
        yield f"'{text.get(claim.line_id, claim.words)}': {claim.reason}"
