"""A single mistake in a clean script is found: 300 drafted scripts, ten mutations each, none may pass.

The mutations are made from the spoken text alone (a number, an ordinal, a note, a chord changed; a "not" put in; a
pointing word added or dropped; the scale of the front matter changed), without a look at how claims are read.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable

import pytest

from gamutwright.catalogue.shares import shares_of
from gamutwright.errors import GamutwrightError
from gamutwright.facts.model import Level
from gamutwright.lessons.claims import check
from gamutwright.lessons.draft import draft
from gamutwright.lessons.parse import parse
from gamutwright.lessons.plan import Wish
from gamutwright.lessons.script import Line, Script
from gamutwright.phrasing.numbers import count_to_words, find_quantities, ordinal_to_words
from gamutwright.phrasing.spoken_names import find_chords, find_notes
from gamutwright.theory.scale import Scale
from thinning import usually

Edit = tuple[int, int, str]
Mutation = Callable[[Line, str, random.Random], Edit | None]

LETTERS = {"en": "CDEFGAB", "de": "CDEFGAH"}
VERBS = {"en": r"\b(?:is|are|has)\b", "de": r"\b(?:ist|sind|hat)\b"}
NOT = {"en": " not", "de": " nicht"}
HERE = {"en": " and here", "de": " und hier"}
JOINS = {"en": r", | and ", "de": r", | und "}
QUALITIES = {
    "en": {" major": " minor", " minor": " major", " diminished": " augmented", " augmented": " diminished"},
    "de": {"-Dur": "-Moll", "-Moll": "-Dur"},
}
SCRIPTS = 300
PARTS = 40


def cased(like: str, words: str) -> str:
    return words[0].upper() + words[1:] if like[:1].isupper() else words


def number(line: Line, language: str, source: random.Random) -> Edit | None:
    found = [quantity for quantity in find_quantities(line.text, language) if quantity.kind == "count"]
    if not found:
        return None
    one = source.choice(found)
    words = count_to_words(int(one.value) + source.choice((1, 2, 3)), language)
    return (*line.source_span(one.start, one.end), cased(one.text, words))


def ordinal(line: Line, language: str, source: random.Random) -> Edit | None:
    found = [quantity for quantity in find_quantities(line.text, language) if quantity.kind == "ordinal"]
    if not found:
        return None
    one = source.choice(found)
    return (*line.source_span(one.start, one.end), ordinal_to_words(int(one.value) % 7 + 1, language))


def note(line: Line, language: str, source: random.Random) -> Edit | None:
    found = find_notes(line.text, language)
    if not found:
        return None
    one = source.choice(found)
    letter = source.choice([letter for letter in LETTERS[language] if letter != one.text[0]])
    if language == "de" and len(one.text) > 1:
        return (*line.source_span(one.start, one.end), letter)
    return (*line.source_span(one.start, one.start + 1), letter)


def chord(line: Line, language: str, source: random.Random) -> Edit | None:
    for found in source.sample(find_chords(line.text, language), len(find_chords(line.text, language))):
        for ending, other in QUALITIES[language].items():
            if found.text.endswith(ending):
                return (*line.source_span(found.end - len(ending), found.end), other)
    return None


def negation(line: Line, language: str, source: random.Random) -> Edit | None:
    claims = [mark for mark in line.marks if mark.get("fact")]
    verbs = list(re.finditer(VERBS[language], line.text)) if claims else []
    if not verbs:
        return None
    _, end = line.source_span(*source.choice(verbs).span())
    return (end, end, NOT[language])


def pointing(line: Line, language: str, source: random.Random) -> Edit | None:
    marks = [mark for mark in line.marks if mark.get("each") and not mark.get("at")]
    if not marks:
        return None
    mark = source.choice(marks)
    words = line.text[slice(*mark.words)]
    parts = re.split(JOINS[language], words)
    if len(parts) > 1 and source.random() < 0.5:
        return (*mark.span, JOINS[language].split("|")[1].join(parts[:-1]))
    return (*mark.span, words + HERE[language])


MUTATIONS: tuple[Mutation, ...] = (
    number, note, negation, pointing, number, chord, note, ordinal, negation, number, note,
)  # fmt: skip


def mutated(script: Script, kind: Mutation, source: random.Random) -> str | None:
    lines = [line for line in script.lines if line.text]
    for line in source.sample(lines, len(lines)):
        edit = kind(line, script.front.language, source)
        if edit:
            start, end, words = edit
            return script.source[:start] + words + script.source[end:]
    return None


def is_found(text: str) -> bool:
    try:
        return bool(check(parse(text)).faults)
    except GamutwrightError:
        return True


@pytest.mark.parametrize("part", usually(range(PARTS), 0))
def test_every_single_mistake_is_found(part: int) -> None:
    source = random.Random(part)  # noqa: S311 - repeatable mistakes
    made = 0
    for index in range(part, SCRIPTS, PARTS):
        language = ("en", "de")[index % 2]
        scale = Scale(source.getrandbits(12) | 0b10010001, 12, source.randrange(12))
        wish = Wish(level=source.choice(list(Level)), minutes=5.0, seed=index)
        script = parse(draft(scale, wish, language, shares=shares_of(12)).source)
        assert not check(script).faults
        for kind in MUTATIONS:
            text = mutated(script, kind, source)
            if text is not None:
                made += 1
                assert is_found(text), (kind.__name__, set(text.splitlines()) - set(script.source.splitlines()))
        changed = re.sub(r"(?m)^scale: .*$", "scale: C D E F G A B", script.source)
        if changed != script.source:
            made += 1
            assert is_found(changed)
    assert made >= SCRIPTS // PARTS * 10
