"""Sentences, words and syllables of a language, read from one small table for each language.

The idea: a line of a script is a sentence, so that the end of a sentence has to be found without being misled by
"e.g.", "z. B.", "No. 5", "3. Stufe" or 0.81. What is special to a language stands in the language's
`prose.toml`.

**Conventions.** A sentence ends with `.`, `!`, `?` or `…` and any closing marks, before a blank, unless a small letter
follows. A single stop does not end it

- after a listed abbreviation, or after one of those that precede figures where a figure follows;
- after an initial: a single capital that names neither a note (A to H) nor a numeral (I, V, X), or one of several
  capitals with stops in a row ("C. P. E. Bach");
- where the language writes ordinals with a stop, after figures or a Roman numeral, unless the next word is one that
  opens sentences.

Words are runs of letters and figures, with apostrophes, hyphens, and points or commas inside figures; an accidental or
a percent sign is a word. Syllables are counted by spelling, and figures and signs as one syllable each, which is how
R. Flesch counts them (How to Write Plain English, 1979, chapter 2, step 2).
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from gamutwright.languages import language_of

__all__ = ["Prose", "prose", "sentence_spans", "syllables", "word_spans"]

_END = re.compile(r"([.!?…؟۔]+)([\"'”’»«“‘)\]]*)")
_WORD = re.compile(r"[^\W_]+(?:['’.,/‑-][^\W_]+)*|[♯♭♮%]")
_OPENING = "\"'“‘„‚«»([{¿¡*_"
_NOT_INITIALS = frozenset("ABCDEFGHIVX")
_ROMAN = re.compile(r"[IVX]+\Z")
_FIGURES = re.compile(r"\d{1,4}\Z")


@dataclass(frozen=True, slots=True)
class Prose:
    """What is special to the prose of a language.

    Parameters
    ----------
    language : str
        Its tag.
    going_on : re.Pattern of str
        Abbreviations whose stops end no sentence.
    ordinals_have_stops : bool
        Whether "3." is read as an ordinal.
    openers : frozenset of str
        Words that open a sentence after such a stop all the same.
    closing_marks : str
        Quotation marks and brackets that close after a stop.
    reading : mapping
        The formula of reading ease: `formula`, `source`, `constant`, and the two factors.
    speaking : mapping
        Seconds that the quick voice takes for a `word`, a `character`, a `pause` and a `sentence`; empty where nobody
        has measured them.
    vowels : re.Pattern of str
        Runs of vowels.
    apart, apart_only_before, together : mapping or frozenset
        Which vowels in a run sound apart or as one.
    silent_ending : re.Pattern of str or None
        Endings whose vowel is silent, where it is not the only one.
    """

    language: str
    going_on: re.Pattern[str]
    ordinals_have_stops: bool
    openers: frozenset[str]
    closing_marks: str
    reading: Mapping[str, str | float]
    speaking: Mapping[str, float]
    vowels: re.Pattern[str]
    apart: Mapping[str, str]
    apart_only_before: Mapping[str, str]
    together: frozenset[str]
    silent_ending: re.Pattern[str] | None


def _abbreviations(table: Mapping[str, list[str]]) -> re.Pattern[str]:
    def spaced(word: str) -> str:
        return r"\.[ ]?".join(re.escape(part) for part in word.removesuffix(".").split(".")) + r"\."

    longest_first = sorted(table["going_on"], key=len, reverse=True)
    always = "|".join(map(spaced, longest_first))
    figured = "|".join(map(spaced, table["before_figure"]))
    return re.compile(rf"(?<![\w.])(?:{always}|(?:{figured})(?=[ ]?\d))", re.IGNORECASE)


@lru_cache(maxsize=16)
def prose(language: str) -> Prose:
    """Read the table of a language.

    Parameters
    ----------
    language : str
        One of `known_languages()`.

    Returns
    -------
    Prose
        The table.

    Raises
    ------
    DomainError
        For a language without a table.
    """
    table = language_of(language).table("prose")
    sentences, sounds = table["sentences"], table["syllables"]
    return Prose(
        language,
        _abbreviations(sentences),
        sentences["ordinals_have_stops"],
        frozenset(sentences["openers"]),
        sentences["closing_marks"],
        table["reading"],
        table.get("speaking", {}),
        re.compile(f"[{sounds['vowels']}]+"),
        sounds.get("apart", {}),
        sounds.get("apart_only_before", {}),
        frozenset(sounds.get("together", ())),
        re.compile(sounds["silent_ending"]) if "silent_ending" in sounds else None,
    )


def _ends_after_word(text: str, stop: int, following: str, table: Prose) -> bool:
    """Whether a single stop after the word before it ends the sentence, abbreviations apart."""
    word = text[text.rfind(" ", 0, stop) + 1 : stop].lstrip(_OPENING)
    if table.ordinals_have_stops and (_FIGURES.match(word) or _ROMAN.match(word)):
        return following.rstrip(",;:!?") in table.openers
    if len(word) == 1 and word.isupper():
        before = text[max(0, stop - 4) : stop - 1]
        in_row = (
            re.fullmatch(r"[^\W\d_]\.", following) is not None or re.search(r"(?<!\w)[^\W\d_]\. $", before) is not None
        )
        return word in _NOT_INITIALS and not in_row
    return True


def sentence_spans(text: str, language: str) -> tuple[tuple[int, int], ...]:
    """Cut a text into sentences.

    Parameters
    ----------
    text : str
        Spoken text in which every blank is one space.
    language : str
        One of `known_languages()`.

    Returns
    -------
    tuple of (int, int)
        Start and end of each sentence, the blanks between them left out.

    Examples
    --------
    >>> text = "It has 0.81 of it, e.g. No. 5. No. It rests on C. Then it climbs!"
    >>> [text[start:end] for start, end in sentence_spans(text, "en")]
    ['It has 0.81 of it, e.g. No. 5.', 'No.', 'It rests on C.', 'Then it climbs!']
    >>> text = "Die 3. Stufe, z. B. E, ist die V. Stufe von A. Sie klingt."
    >>> [text[start:end] for start, end in sentence_spans(text, "de")]
    ['Die 3. Stufe, z. B. E, ist die V. Stufe von A.', 'Sie klingt.']
    """
    table = prose(language)
    inside = {match.start() + i for match in table.going_on.finditer(text) for i, c in enumerate(match[0]) if c == "."}
    spans = []
    begin = len(text) - len(text.lstrip(" "))
    for match in _END.finditer(text):
        closed = match.end(1) + len(match[2]) - len(match[2].lstrip(table.closing_marks))
        if closed >= len(text) or text[closed] != " ":
            continue
        after = closed + 1
        while after < len(text) and text[after] in _OPENING:
            after += 1
        if after < len(text) and text[after].islower():
            continue
        if match[1] == ".":
            space = text.find(" ", after)
            following = text[after:] if space < 0 else text[after:space]
            if match.start() in inside or not _ends_after_word(text, match.start(), following, table):
                continue
        spans.append((begin, closed))
        begin = closed + 1
    end = len(text.rstrip(" "))
    if begin < end:
        spans.append((begin, end))
    return tuple(spans)


def word_spans(text: str) -> tuple[tuple[int, int], ...]:
    """Find the words of a text.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    tuple of (int, int)
        Start and end of each word.

    Examples
    --------
    >>> text = "It’s about 0.81, a half-step below E♭."
    >>> [text[start:end] for start, end in word_spans(text)]
    ['It’s', 'about', '0.81', 'a', 'half-step', 'below', 'E', '♭']
    """
    return tuple(match.span() for match in _WORD.finditer(text))


@lru_cache(maxsize=1 << 14)
def syllables(word: str, language: str) -> int:
    """Count the syllables of a word by its spelling.

    Parameters
    ----------
    word : str
        One word.
    language : str
        One of `known_languages()`.

    Returns
    -------
    int
        At least 1. Runs of vowels count one, more where the language's table says that they sound apart, and none
        where it says that the ending is silent. Figures and signs count one.

    Examples
    --------
    >>> [syllables(word, "en") for word in ("scales", "semitone", "triangle", "diatonic", "0.81")]
    [1, 3, 3, 4, 1]
    >>> [syllables(word, "de") for word in ("Quinte", "Tonleiter", "diatonisch")]
    [2, 3, 4]
    """
    table = prose(language)
    if word[:1].isdigit():
        return 1
    return max(1, sum(_syllables_of_part(part, table) for part in re.split(r"[^\w]+", word.casefold()) if part))


def _syllables_of_part(part: str, table: Prose) -> int:
    part = part.replace("qu", "q")
    count = sum(_sounds(match, part, table) for match in table.vowels.finditer(part))
    if table.silent_ending is None or count < 2:
        return max(1, count)
    return count - (table.silent_ending.search(part) is not None)


def _sounds(match: re.Match[str], part: str, table: Prose) -> int:
    """Count the vowels that sound in a run of them."""
    run, start = match[0], match.start()
    if table.together:
        count, i = 0, 0
        while i < len(run):
            i += 2 if run[i : i + 2] in table.together else 1
            count += 1
        return count
    count = 1
    for i in range(len(run) - 1):
        pair = run[i : i + 2]
        before = part[start + i - 1 : start + i]
        after = part[start + i + 2 :]
        if pair in table.apart and (not before or before not in table.apart[pair]):
            count += after.startswith(table.apart_only_before.get(pair, ""))
    return count
