"""Note names: letters and accidentals on the line of fifths, and what they are called in three languages.

A name is a place on the line of fifths ... Eb Bb F C G D A E B F# C# ..., with C at 0, G at 1, F at -1; seven places
further adds a sharp (Longuet-Higgins 1987; Temperley 2001, chapter 5). Its pitch class is seven times the place,
modulo 12.

Conventions: inside the program names are ASCII with a capital letter and up to two accidentals, `C`, `Eb`, `F##`.
Symbols (♯ ♭ 𝄪 𝄫) and the names of other languages appear only where text enters or leaves. German B is Bb and H is B;
fixed-do syllables are do re mi fa sol la si.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from dataclasses import dataclass

from gamutwright.errors import DomainError

__all__ = [
    "LANGUAGES",
    "LETTERS",
    "NoteNames",
    "accidental",
    "fifths_to_name",
    "name_to_fifths",
    "names_in",
    "note_name_to_pitch_class",
    "to_ascii",
    "to_symbols",
]

LETTERS = "CDEFGAB"
LANGUAGES = ("english", "german", "solfege")
_BY_FIFTHS = "FCGDAEB"
_SYLLABLES = {"do": "C", "re": "D", "mi": "E", "fa": "F", "sol": "G", "la": "A", "si": "B"}
_SIGNS = {-2: "bb", -1: "b", 0: "", 1: "#", 2: "##"}
_SYMBOLS = {"bb": "𝄫", "b": "♭", "": "", "#": "♯", "##": "𝄪"}
_TO_ASCII = str.maketrans({"♯": "#", "♭": "b", "𝄪": "##", "𝄫": "bb", "♮": "", "–": "-", "‑": "-", "−": "-"})
_NAME = re.compile(r"([A-G])(bb|b|##|#|)")
_WORDS = (
    (r"double[ -]?(?:flat|bemol)|flat[ -]?flat", "bb"),
    (r"double[ -]?(?:sharp|diese)|sharp[ -]?sharp", "##"),
    (r"flat|bemol", "b"),
    (r"sharp|diese", "#"),
    (r"natural", ""),
)


def fifths_to_name(fifths: int) -> str:
    """Name a place on the line of fifths.

    Parameters
    ----------
    fifths : int in [-15, 19]
        Fifths above C; negative below.

    Returns
    -------
    str
        ASCII note name.

    Raises
    ------
    DomainError
        If the name would need more than two accidentals.

    Examples
    --------
    >>> [fifths_to_name(k) for k in (-3, -1, 0, 6, 13)]
    ['Eb', 'F', 'C', 'F#', 'F##']
    """
    sign = _SIGNS.get((fifths + 1) // 7)
    if sign is None:
        raise DomainError(
            f"{fifths} fifths from C", "a note name has at most two accidentals", "Choose an enharmonic equivalent."
        )
    return _BY_FIFTHS[(fifths + 1) % 7] + sign


def name_to_fifths(name: str) -> int:
    """Find a note name on the line of fifths.

    Parameters
    ----------
    name : str
        English note name, in letters or symbols.

    Returns
    -------
    int in [-15, 19]
        Fifths above C.

    Raises
    ------
    DomainError
        If it is no note name.

    Examples
    --------
    >>> name_to_fifths("Eb"), name_to_fifths("F♯")
    (-3, 6)
    """
    found = _NAME.fullmatch(to_ascii(name))
    if not found:
        raise DomainError(
            f"'{name}'",
            "a note name is a capital letter A to G with up to two sharps or flats",
            "Write it like C, Eb, F# or B♭.",
        )
    return _BY_FIFTHS.index(found[1]) - 1 + 7 * accidental(found[0])


def accidental(name: str) -> int:
    """Count the sharps of an ASCII note name, flats as negative.

    Parameters
    ----------
    name : str
        ASCII note name.

    Returns
    -------
    int in [-2, 2]
        Sharps; negative for flats.

    Examples
    --------
    >>> accidental("Ebb"), accidental("F#")
    (-2, 1)
    """
    return name[1:].count("#") - name[1:].count("b")


def note_name_to_pitch_class(name: str) -> int:
    """Give the pitch class of a note name.

    Parameters
    ----------
    name : str
        English note name, in letters or symbols.

    Returns
    -------
    int in [0, 11]
        Pitch class; C is 0.

    Raises
    ------
    DomainError
        If it is no note name.

    Examples
    --------
    >>> note_name_to_pitch_class("Cb"), note_name_to_pitch_class("F##")
    (11, 7)
    """
    return 7 * name_to_fifths(name) % 12


def to_ascii(text: str) -> str:
    """Turn ♯ ♭ 𝄪 𝄫, and dashes, into ASCII; a natural sign is left out.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        The text with `#`, `b` and `-`; other characters stay as they are.

    Examples
    --------
    >>> to_ascii("E♭–F𝄪–B♮")
    'Eb-F##-B'
    """
    return text.translate(_TO_ASCII)


_CHORD = r"(?:maj|min|dim|aug|sus|add|m|M|ø|°|o|\+|Δ|[b#]?(?:1[0-9]|[2-9]))*"
_NOTE_IN_TEXT = re.compile(
    rf"(?<![\w♯♭𝄪𝄫#])([A-G])(bb|b|##|#|)({_CHORD})(?![\w#♯♭'’])",
)
_DEGREE_IN_TEXT = re.compile(r"(?<![\w#♯♭&/.-])(bb|b|##|#)([1-7])(?![\w#.])")


def to_symbols(text: str) -> str:
    """Turn ASCII accidentals of note names, chord names and degrees into ♯ ♭ 𝄪 𝄫.

    Ordinary words stay as they are: only a capital A to G with its accidentals standing alone, or followed by a chord
    suffix, is a name. The word Ebb in front of a small letter ("Ebb and flow") is read as a word.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        The text with symbols.

    Examples
    --------
    >>> to_symbols("Eb F## Bbb, Bbm7b5 and dorian #4 at the Abbey")
    'E♭ F𝄪 B𝄫, B♭m7♭5 and dorian ♯4 at the Abbey'
    """

    def note(found: re.Match[str]) -> str:
        letter, signs, chord = found.groups()
        if found[0] == "Ebb" and re.match(r" [a-z]{2}", text[found.end() :]):
            return "Ebb"
        return letter + _SYMBOLS[signs] + re.sub(r"[b#](?=\d)", lambda sign: _SYMBOLS[sign[0]], chord)

    text = _NOTE_IN_TEXT.sub(note, text)
    return _DEGREE_IN_TEXT.sub(lambda found: _SYMBOLS[found[1]] + found[2], text)


@dataclass(frozen=True, slots=True)
class NoteNames:
    """The note names of a language.

    Parameters
    ----------
    language : str
        One of `LANGUAGES`.
    write : callable
        ASCII name to the language's name.
    read : callable
        The language's name to the ASCII name, or None where it is none; capitals do not matter.

    Examples
    --------
    >>> german = names_in("german")
    >>> [german.write(name) for name in ("B", "Bb", "Eb", "F##", "Abb")]
    ['H', 'B', 'Es', 'Fisis', 'Ases']
    >>> german.read("heses"), names_in("solfege").read("mi bémol"), names_in("english").read("E flat")
    ('Bbb', 'Eb', 'Eb')
    """

    language: str
    write: Callable[[str], str]
    read: Callable[[str], str | None]


def _plain(text: str) -> str:
    """Lower case without accents, symbols as ASCII, accidental words as signs."""
    text = to_ascii(text).strip().lower()
    text = "".join(c for c in unicodedata.normalize("NFD", text) if not unicodedata.combining(c))
    for words, signs in _WORDS:
        text = re.sub(rf"[ -]?(?:{words})$", signs, text)
    return text.replace("x", "##") if re.fullmatch(r"[a-z]+x", text) else text


def _read_english(text: str) -> str | None:
    found = re.fullmatch(r"([a-g])(bb|b|##|#|)", _plain(text))
    return found[1].upper() + found[2] if found else None


def _write_english(name: str) -> str:
    return name


def _read_solfege(text: str) -> str | None:
    found = re.fullmatch(r"(do|ut|re|mi|fa|sol|la|si)(bb|b|##|#|)", _plain(text))
    return _SYLLABLES["do" if found[1] == "ut" else found[1]] + found[2] if found else None


def _write_solfege(name: str) -> str:
    syllable = next(syllable for syllable, letter in _SYLLABLES.items() if letter == name[0])
    return syllable + name[1:]


def _write_german(name: str) -> str:
    letter, signs = name[0], accidental(name)
    if letter == "B":
        return {0: "H", 1: "His", 2: "Hisis", -1: "B", -2: "Heses"}[signs]
    if signs >= 0:
        return letter + "is" * signs
    return letter + ("s" + "es" * (-signs - 1) if letter in "AE" else "es" * -signs)


_GERMAN = {_write_german(fifths_to_name(fifths)).lower(): fifths_to_name(fifths) for fifths in range(-15, 20)}
_GERMAN["asas"] = "Abb"


def _read_german(text: str) -> str | None:
    plain = to_ascii(text).strip().lower()
    signed = re.fullmatch(r"([ac-h])(bb|b|##|#)", plain)
    if signed:
        return ("B" if signed[1] == "h" else signed[1].upper()) + signed[2]
    return _GERMAN.get(plain)


_NAMES = {
    "english": NoteNames("english", _write_english, _read_english),
    "german": NoteNames("german", _write_german, _read_german),
    "solfege": NoteNames("solfege", _write_solfege, _read_solfege),
}


def names_in(language: str) -> NoteNames:
    """Give the conversions between our names and those of a language.

    Parameters
    ----------
    language : str
        One of `english`, `german`, `solfege`.

    Returns
    -------
    NoteNames
        How to write and read them.

    Raises
    ------
    DomainError
        If the language is none of these.

    Examples
    --------
    >>> names_in("solfege").write("F#")
    'fa#'
    """
    if language not in _NAMES:
        raise DomainError(
            f"note names in '{language}'", f"they are known in {', '.join(LANGUAGES)}", "Choose one of these."
        )
    return _NAMES[language]
