"""A sentence with its names found: scales, notes, chords, and words for the modes of a scale.

The idea: whether "A minor" is a chord or a scale, "a" a note or an article, is decided once, before any pattern is
tried; the names then stand in the text as single signs.

**Conventions.** Offsets are those of the sentence. A scale named without a root stands on the root of the scale under
discussion.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache

from gamutwright.errors import GamutwrightError
from gamutwright.inputs.text import read_scale
from gamutwright.languages import language_of
from gamutwright.lessons.auditing.heard_lexicon import CHORD, NOTE, SCALE, Lexicon, lexicon_of
from gamutwright.phrasing.numbers import find_quantities
from gamutwright.phrasing.spoken_names import ChordMention, NoteMention, find_chords, find_notes
from gamutwright.theory.naming import all_names, scales_called
from gamutwright.theory.scale import Scale

__all__ = ["Marked", "ModeMention", "ScaleMention", "mark", "normal"]

_SHORTEST = 2  # names as short as "in" need a root and a word like "scale"
_FREE = False  # the sentence is free speech, not a claim's own words


@dataclass(frozen=True, slots=True)
class ScaleMention:
    """A scale named in a text.

    Parameters
    ----------
    start, end : int
        Where.
    text : str
        Its words.
    query : str
        What names it for `read_scale`, without a root.
    root : str
        ASCII name of its root; "" where none is named.
    """

    start: int
    end: int
    text: str
    query: str
    root: str

    def scale(self, root: str) -> Scale | None:
        """Give the scale, on a root of its own or the one given; None where the name means several."""
        return _read(self.query, self.root or root)


@dataclass(frozen=True, slots=True)
class ModeMention:
    """A mode named by its number.

    Parameters
    ----------
    start, end : int
        Where.
    number : int
        Which degree it begins on.
    """

    start: int
    end: int
    number: int


@dataclass(frozen=True, slots=True)
class Marked:
    """A sentence whose names are known.

    Parameters
    ----------
    text : str
        Its words, small letters that are notes made capitals.
    signs : str
        The same with a run of one sign for each name.
    scales, notes, chords, modes : tuple
        The names, in order.
    """

    text: str
    signs: str
    scales: tuple[ScaleMention, ...]
    notes: tuple[NoteMention, ...]
    chords: tuple[ChordMention, ...]
    modes: tuple[ModeMention, ...]

    def notes_in(self, start: int, end: int) -> list[str]:
        """Give the notes between two offsets, roots of chords among them, by ASCII name."""
        found = [(note.start, note.name) for note in self.notes] + [(chord.start, chord.root) for chord in self.chords]
        return [name for place, name in sorted(found) if start <= place < end]


@lru_cache(maxsize=2048)
def _read(query: str, root: str) -> Scale | None:
    try:
        return read_scale(f"{root} {query}".strip()).scale
    except GamutwrightError:
        return None


def normal(text: str, language: str) -> str:
    """Make capitals of single small letters that can only be notes, and plain marks of printed ones.

    Parameters
    ----------
    text : str
        A sentence.
    language : str
        Language tag.

    Returns
    -------
    str
        As long as the text.

    Examples
    --------
    >>> normal("between e and f, in c minor to b flat", "en")
    'between E and F, in C minor to B flat'
    """
    text = text.translate(str.maketrans("’‘“”„‑\u00a0\u202f", '\'\'"""-  '))
    return language_of(language).tidy(text)


def _mild(name: str) -> str:
    """Make a pattern of a name that minds neither hyphens nor blanks."""
    return re.sub(r"\\[ -]|[ -]", "[ -]", re.escape(name))


@lru_cache(maxsize=8)
def _scale_pattern(language: str) -> tuple[re.Pattern[str], tuple[tuple[re.Pattern[str], str], ...]]:
    lexicon, names = lexicon_of(language), language_of(language).names
    table: dict[str, str] = dict(lexicon.scales)
    if language_of(language).is_source:
        for record in all_names():
            for name in (record.name, *record.aliases):
                plain = re.sub(r"[- ](?:scale|mode)$", "", name)
                if plain and plain[0].isalpha() and not re.search(r"[()]", plain):
                    table.setdefault(_mild(plain), plain)
    longest_first = sorted(table, key=lambda key: -len(key))
    listed = "|".join(longest_first)
    note, raw = names.note_pattern, lexicon.raw
    before = rf"(?P<before>{raw['tail_before']})(?:(?P<root3>(?-i:{note}))[ -])?"
    pattern = re.compile(
        rf"(?:(?<!\w)(?P<root>(?-i:{note}))(?:[ -]))?(?<!\w)(?:{before})?"
        rf"(?P<name>{listed})(?P<ending>{raw.get('ending', '')})(?!\w)"
        rf"(?P<alter>{raw['alter']}*)(?P<tail>{raw['tail']})?(?:{raw['root_after']}(?P<root2>(?-i:{note})))?",
        re.IGNORECASE,
    )
    return pattern, tuple((re.compile(key, re.IGNORECASE), table[key]) for key in longest_first)


def _is_name(found: re.Match[str], canonical: str, text: str, lexicon: Lexicon) -> bool:
    """Whether words that may name a scale do."""
    has_root = bool(found["root"] or found["root2"] or found["root3"])
    if len(found["name"]) <= _SHORTEST and not (has_root and found["tail"]):
        return False
    if found["tail"] or found["before"] or found["alter"]:
        return True
    if lexicon.raw.get("always") and re.fullmatch(lexicon.raw["always"], found["name"], re.IGNORECASE):
        return True
    if canonical not in lexicon.bare and found["name"].lower() not in lexicon.bare:
        return True
    is_chordlike = canonical in lexicon.chordlike or found["name"].lower() in lexicon.chordlike
    if not has_root or not is_chordlike:
        return has_root
    if re.match(lexicon.raw["chordish"], text[found.end() :], re.IGNORECASE):
        return False
    is_led = re.search(rf"(?<!\w){lexicon.raw['scale_near']}$", text[: found.start()], re.IGNORECASE)
    return is_led is not None or re.match(lexicon.raw["scale_acts"], text[found.end() :], re.IGNORECASE) is not None


def _altered(words: str, lexicon: Lexicon) -> str:
    """Write alterations such as ", sharp four" as read_scale knows them."""
    for pattern, sign in lexicon.alterations:
        words = pattern.sub(sign, words)
    return " " + words.strip(" ,") if words.strip(" ,") else ""


@lru_cache(maxsize=8)
def _embraced(language: str) -> tuple[tuple[re.Pattern[str], str], ...]:
    """Patterns of names that have their root in the middle, such as *harmonisch a-Moll*, with the scales they name."""
    names = language_of(language).names
    found = []
    for name, said in names.rooted_names.items():
        before, after = re.split("{root}", said, maxsplit=1, flags=re.IGNORECASE)
        if before:
            shape = rf"(?<!\w){re.escape(before)}(?P<root>{names.note_pattern}){re.escape(after)}(?!\w)"
            found.append((re.compile(shape, re.IGNORECASE), name))
    return tuple(found)


def _scales(text: str, language: str) -> Iterator[ScaleMention]:
    pattern, names = _scale_pattern(language)
    lexicon, speech = lexicon_of(language), language_of(language).names
    embraced = [(found, name) for said, name in _embraced(language) for found in said.finditer(text)]
    for found, name in embraced:
        root = speech.read_note(found["root"][0].upper() + found["root"][1:])
        yield ScaleMention(*found.span(), found[0], name, root or "")
    for found in pattern.finditer(text):
        if any(found.start() < other.end() and other.start() < found.end() for other, _ in embraced):
            continue
        canonical = next((name for key, name in names if key.fullmatch(found["name"])), found["name"])
        if not _is_name(found, canonical, text, lexicon):
            continue
        written = found["root"] or found["root2"] or found["root3"] or ""
        start = found.start()
        is_joined = found["root"] is not None and text[found.end("root")] == "-"
        if found["root"] and not is_joined and speech.is_no_note(text, found.start("root"), found.end("root"), _FREE):
            written, start = found["root2"] or "", found.start("name")
        root = speech.read_note(written[0].upper() + written[1:]) if written else ""
        query = canonical + _altered(found["alter"], lexicon)
        if query == canonical and len({record.mask for record in scales_called(canonical)}) > 1:
            query = {"octatonic": "octatonic", "hexatonic": "hexatonic"}.get(canonical, canonical)
        yield ScaleMention(start, found.end(), text[start : found.end()], query, root or "")


def _modes(text: str, language: str) -> Iterator[ModeMention]:
    for found in lexicon_of(language).words["mode_words"].finditer(text):
        groups = found.groupdict()
        said = groups.get("ordinal") or groups.get("number") or ""
        quantities = find_quantities(said, language, is_bound=True)
        if len(quantities) == 1 and quantities[0].value.denominator == 1 and quantities[0].value > 0:
            yield ModeMention(*found.span(), int(quantities[0].value))


def _outside(mentions: Iterable[NoteMention | ChordMention | ModeMention], taken: list[tuple[int, int]]) -> list:  # type: ignore[type-arg]
    return [m for m in mentions if not any(start < m.end and m.start < end for start, end in taken)]


def _start(mention: NoteMention) -> int:
    return mention.start


def _lone_letters(text: str, taken: list[tuple[int, int]]) -> Iterator[NoteMention]:
    """Find a capital A that opens a list of notes and not a sentence."""
    for found in re.finditer(r"(?<![\w'])A(?=,? [B-G](?:[\s,.;]|[#b♯♭]|$))", text):
        if not any(start <= found.start() < end for start, end in taken):
            yield NoteMention(found.start(), found.end(), "A", "A")


def mark(text: str, language: str) -> Marked:
    """Find the names in a sentence.

    Parameters
    ----------
    text : str
        A sentence.
    language : str
        Language tag.

    Returns
    -------
    Marked
        The names, and the sentence with signs in their places.

    Examples
    --------
    >>> found = mark("The C major scale has an E, and A minor as a chord.", "en")
    >>> [scale.text for scale in found.scales], [note.name for note in found.notes], [c.name for c in found.chords]
    (['C major scale'], ['E'], ['Am'])
    """
    plain = normal(text, language)
    scales = tuple(sorted(_scales(plain, language), key=lambda scale: scale.start))
    taken = [(scale.start, scale.end) for scale in scales]
    chords = tuple(_outside(find_chords(plain, language), taken))
    in_chords = taken + [(chord.start, chord.end) for chord in chords]
    notes = tuple(_outside(find_notes(plain, language), in_chords))
    notes = tuple(sorted((*notes, *_lone_letters(plain, [*in_chords, *((n.start, n.end) for n in notes)])), key=_start))
    modes = tuple(_outside(_modes(plain, language), taken))
    signs = list(plain)
    for sign, mentions in ((SCALE, scales), (NOTE, notes), (CHORD, chords)):
        for mention in mentions:
            signs[mention.start : mention.end] = sign * (mention.end - mention.start)
    return Marked(plain, "".join(signs), scales, notes, chords, modes)
