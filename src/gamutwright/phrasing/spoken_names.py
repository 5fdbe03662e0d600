"""Names of notes, chords and degrees: said, and found again in a text.

Letters are also words: a capital A that opens a sentence is the article unless what follows shows the note, German *Es*
and *Des* there are a pronoun and an article. In a claim's own words (`is_bound`) they are notes.

Conventions: names inside the program are ASCII (`Eb`, `Bm7b5`); offsets are half-open and count code points. Kinds of
chords are those of `theory.harmony`. Degrees and intervals have modules of their own and are offered here too.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from gamutwright.errors import DomainError
from gamutwright.languages import language_of
from gamutwright.phrasing.degree_words import (
    Mention,
    find_degrees,
    find_numerals,
    find_ratios,
    find_steps,
    spoken_degree,
    spoken_numeral,
    spoken_ordinal_degree,
    spoken_ratio,
)
from gamutwright.phrasing.interval_words import IntervalMention, find_intervals, spoken_interval
from gamutwright.theory.harmony import CHORDS

__all__ = [
    "ChordMention",
    "IntervalMention",
    "Mention",
    "NoteMention",
    "find_chords",
    "find_degrees",
    "find_intervals",
    "find_notes",
    "find_numerals",
    "find_ratios",
    "find_steps",
    "note_places",
    "spoken_chord",
    "spoken_degree",
    "spoken_interval",
    "spoken_note",
    "spoken_numeral",
    "spoken_ordinal_degree",
    "spoken_ratio",
]

_CHORD_NAME = re.compile(r"([A-G](?:bb|b|##|#)?)(.*)")
_SYMBOL = {"maj7": "(?:maj7|Maj7|M7|Δ7?)", "m7b5": "(?:m7[b♭]5|ø7?)", "mM7": r"(?:mM7|m\(maj7\)|mmaj7)"}
_SYMBOL |= {"7#5": "7[#♯]5", "7b5": "7[b♭]5", "m6": "m6", "6": "6", "5": "5"}
_SYMBOL |= {"dim7": "(?:dim7|°7)", "+M7": r"(?:\+M7|augM7|augmaj7)", "m7": "m7", "7": "7"}
_SYMBOL |= {"dim": "(?:dim|°)", "aug": r"(?:aug|\+)", "m": "m(?!aj)"}


@dataclass(frozen=True, slots=True)
class NoteMention(Mention):
    """A note named in a text; `name` is its ASCII name."""


@dataclass(frozen=True, slots=True)
class ChordMention(Mention):
    """A chord named in a text; `name` is `root` and `suffix` together.

    Parameters
    ----------
    root : str
        ASCII name of its root.
    suffix : str
        Its kind, a key of `theory.harmony.CHORDS`.
    """

    root: str
    suffix: str


def spoken_note(name: str, language: str) -> str:
    """Say a note.

    Parameters
    ----------
    name : str
        ASCII note name.
    language : str
        Language tag.

    Returns
    -------
    str
        Its name in the language.

    Examples
    --------
    >>> spoken_note("Eb", "en"), spoken_note("Eb", "de"), spoken_note("B", "de")
    ('E flat', 'Es', 'H')
    """
    return language_of(language).names.speak_note(name)


def spoken_chord(name: str, language: str) -> str:
    """Say a chord.

    Parameters
    ----------
    name : str
        ASCII chord name, such as `C`, `Bm7b5`, `F#dim`.
    language : str
        Language tag.

    Returns
    -------
    str
        The chord in the language.

    Raises
    ------
    DomainError
        If it is none of the chords that scales are searched for.

    Examples
    --------
    >>> spoken_chord("Bm7b5", "en"), spoken_chord("Ebm", "de"), spoken_chord("C", "en")
    ('B half-diminished seventh', 'es-Moll', 'C major')
    """
    found = _CHORD_NAME.fullmatch(name)
    if not found or found[2] not in CHORDS:
        raise DomainError(f"chord '{name}'", "it is none of the triads and seventh chords named here", "Say its tones.")
    return language_of(language).names.speak_chord(found[1], found[2])


@lru_cache(maxsize=16)
def _notes(language: str) -> re.Pattern[str]:
    return re.compile(rf"(?<![\w♯♭#])(?:{language_of(language).names.note_pattern})")


def find_notes(text: str, language: str, *, is_bound: bool = False) -> tuple[NoteMention, ...]:
    """Find every note a text names, in order; the roots of chords are among them.

    Parameters
    ----------
    text : str
        Free text, or the words of a claim.
    language : str
        Language tag.
    is_bound : bool
        Whether these are a claim's own words, so that *A* or *Es* at their beginning is a note.

    Returns
    -------
    tuple of NoteMention
        The notes.

    Examples
    --------
    >>> [found.name for found in find_notes("A scale runs from E flat to B♭ and A. A to C♯.", "en")]
    ['Eb', 'Bb', 'A', 'A', 'C#']
    >>> [found.name for found in find_notes("Es gibt H, Es und B.", "de")]
    ['B', 'Eb', 'Bb']
    """
    names = language_of(language).names
    found = []
    for match in _notes(language).finditer(text):
        if names.is_no_note(text, match.start(), match.end(), is_bound):
            continue
        name = names.read_note(match[0])
        if name is not None:
            found.append(NoteMention(match.start(), match.end(), match[0], name))
    return tuple(found)


def note_places(text: str, language: str) -> tuple[tuple[int, int], ...]:
    """Find the notes a line names, for a voice.

    Parameters
    ----------
    text : str
        The line.
    language : str
        Language tag.

    Returns
    -------
    tuple of (int, int)
        Start and end of each.

    Examples
    --------
    >>> note_places("From A to E flat.", "en")
    ((5, 6), (10, 16))
    """
    return tuple((note.start, note.end) for note in find_notes(text, language))


@lru_cache(maxsize=16)
def _chords(language: str) -> re.Pattern[str]:
    names = language_of(language).names
    spoken = "|".join(f"(?P<w{index}>(?i:{words}))" for index, (_, words) in enumerate(names.chord_words.values()))
    symbols = "|".join(f"(?P<s{index}>{pattern})" for index, pattern in enumerate(_SYMBOL.values()))
    kinds = "|".join(f"(?P<o{index}>(?i:{words}))" for index, (_, words) in enumerate(names.chord_words.values()))
    sign = r"(?:♭♭|𝄫|bb|♯♯|𝄪|##|♭|♯|#|b)?"
    return re.compile(
        rf"(?<![\w♯♭#])(?P<root>{names.chord_root})(?:{spoken})(?!\w)"
        rf"|(?<![\w♯♭#])(?P<letter>[A-H]{sign})(?:{symbols})(?![\w#♯])"
        rf"|\b(?:{kinds}){names.chords_on}(?P<on>{names.note_pattern})",
    )


def _chord(match: re.Match[str], language: str) -> tuple[str | None, str]:
    names = language_of(language).names
    group = next(key for key, words in match.groupdict().items() if words and re.fullmatch(r"[wso]\d+", key))
    suffixes = list(_SYMBOL) if group[0] == "s" else list(names.chord_words)
    root = (match["root"] or match["letter"] or match["on"]).rstrip(" -")
    # Letters before a symbol are read as the language writes notes, where capitals are not needed.
    return names.read_note(root[0].upper() + root[1:]), suffixes[int(group[1:])]


def find_chords(text: str, language: str, *, is_bound: bool = False) -> tuple[ChordMention, ...]:
    """Find every chord a text names by root and kind, in order.

    Parameters
    ----------
    text : str
        Free text, or the words of a claim.
    language : str
        Language tag.
    is_bound : bool
        Whether these are a claim's own words: then a bare note is a major triad, as in chord symbols.

    Returns
    -------
    tuple of ChordMention
        The chords; a kind that names a key or scale ("C major scale") is none.

    Examples
    --------
    >>> [found.name for found in find_chords("From A minor to Bm7♭5, then E flat dominant seventh.", "en")]
    ['Am', 'Bm7b5', 'Eb7']
    >>> [found.name for found in find_chords("C, d-Moll und H vermindert", "de", is_bound=True)]
    ['C', 'Dm', 'Bdim']
    """
    names = language_of(language).names
    found = []
    place = 0
    while match := _chords(language).search(text, place):
        root_end = match.start() + len((match["root"] or match["letter"] or "").rstrip(" -"))
        if match["on"] is None and names.is_no_note(text, match.start(), root_end, is_bound):
            place = root_end
            continue
        place = match.end()
        if re.match(names.not_chord_before, text[match.end() :]):
            continue
        root, suffix = _chord(match, language)
        if root is not None:
            found.append(ChordMention(match.start(), match.end(), match[0], root + suffix, root, suffix))
    if is_bound:
        taken = [(chord.start, chord.end) for chord in found]
        found += [
            ChordMention(note.start, note.end, note.text, note.name, note.name, "")
            for note in find_notes(text, language, is_bound=True)
            if not any(start <= note.start < end for start, end in taken)
        ]
    return tuple(sorted(found, key=lambda chord: chord.start))
