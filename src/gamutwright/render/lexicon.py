"""How a line is written out for a voice: note names, numerals, symbols, and the field's words.

The idea: a voice reads letters. It says the note A as the article, B𝄫 as B, a Forte label with a dash in it. So each
word of the line is put as the voice has to see it, in plain letters or in phonemes, and the place of every word in what
is spoken is kept, so that the voice's times can be led back to the words as the teacher wrote them.

What is said how stands in the language's file `lexicon.toml`. A course may add its own words.

**Conventions.** Phonemes are eSpeak NG's, written between `[[` and `]]`; offsets are half-open and count code points.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field, replace
from functools import lru_cache
from pathlib import Path
from typing import Any

from gamutwright.codec import digest
from gamutwright.errors import FileError, InputError
from gamutwright.languages import language_of
from gamutwright.render.voice import word_spans

__all__ = ["Lexicon", "Respelling", "load_lexicon", "respell"]

_QUIET = str.maketrans(dict.fromkeys('"“”„‚‘«»‹›*_[]<>{}|^~\\', " ") | {"\n": " ", "\t": " ", "\u00a0": " "})
_PAUSES = {"…": ".", "—": ", ", "–": ", ", "(": ", ", ")": ", ", "→": ", ", ";": "; "}
_LABEL = re.compile(r"\d{1,2}[-‑][zZ]?\d{1,2}(?:[-‑]\d{1,2})*")
_SIBILANTS = ("s", "z", "S", "Z", "tS", "dZ")
_VOICELESS = ("p", "t", "k", "f", "T")


@dataclass(frozen=True, slots=True)
class Lexicon:
    """What a language's file says.

    Parameters
    ----------
    language : str
        Language tag.
    espeak : str
        Name of the built-in voice's language.
    table : mapping
        The file's tables.
    words : mapping of str to str
        Word to phonemes, or to other letters where they are not between `[[` and `]]`.
    """

    language: str
    espeak: str
    table: Mapping[str, Any] = field(repr=False)
    words: Mapping[str, str] = field(repr=False)

    @property
    def identity(self) -> str:
        """Digest of all it says."""
        return digest([self.language, self.espeak, dict(self.table), dict(self.words)])


@dataclass(frozen=True, slots=True)
class Respelling:
    """A line as a voice has to see it.

    Parameters
    ----------
    text : str
        What is given to the voice.
    spans : tuple of (int, int)
        Place in the line of each of its words.
    spoken : tuple of (int, int)
        Place in `text` of each of the same words.
    """

    text: str
    spans: tuple[tuple[int, int], ...]
    spoken: tuple[tuple[int, int], ...]


@lru_cache(maxsize=8)
def _built_in(language: str) -> Lexicon:
    table = language_of(language).table("lexicon")
    return Lexicon(
        language, table["espeak"], table, {word: _entry(word, said) for word, said in table["words"].items()}
    )


def _entry(word: str, said: object) -> str:
    match said:
        case {"phonemes": str(phonemes)} if phonemes and "]" not in phonemes:
            return f"[[{phonemes}]]"
        case {"say": str(letters)} if letters.strip() and "[" not in letters:
            return letters
    raise InputError(
        f"{word} = {said!r}",
        "a word of a lexicon has 'phonemes' or 'say'",
        'Write, for instance: word = { say = "other letters" }.',
    )


def load_lexicon(language: str, own: Path | None = None) -> Lexicon:
    """Read the lexicon of a language.

    Parameters
    ----------
    language : str
        One of `known_languages()`.
    own : Path, optional
        A course's own words: a TOML file with a table `[words]` of the same form; they come before the built-in ones.

    Returns
    -------
    Lexicon
        The lexicon.

    Raises
    ------
    DomainError
        For a language without a lexicon.
    FileError, InputError
        If the course's file cannot be read, or is not of this form.

    Examples
    --------
    >>> load_lexicon("de").words["Cis"]
    "[[ts'Is]]"
    """
    lexicon = _built_in(language)
    if own is None:
        return lexicon
    try:
        table = tomllib.loads(own.read_text(encoding="utf-8"))
    except OSError as error:
        raise FileError(str(own), f"it cannot be read ({error.strerror or error})", "Check the path.") from error
    except (ValueError, RecursionError) as error:
        raise InputError(str(own), f"it is not TOML ({error})", "Mend the line named.") from error
    words = table.get("words")
    if not isinstance(words, dict):
        raise InputError(str(own), "it has no table [words]", 'Begin it with [words], then word = { say = "letters" }.')
    return replace(lexicon, words={**lexicon.words, **{word: _entry(word, said) for word, said in words.items()}})


def respell(line: str, lexicon: Lexicon, notes: Collection[tuple[int, int]] = ()) -> Respelling:
    """Write a line out for a voice.

    Parameters
    ----------
    line : str
        The line.
    lexicon : Lexicon
        How its language says things.
    notes : collection of (int, int)
        Places in the line known to name notes.

    Returns
    -------
    Respelling
        What the voice is given, with every word's place.

    Examples
    --------
    >>> respell("A minor and B𝄫: 3-11.", load_lexicon("en")).text
    "[['eI]] minor and B double flat: 3 11."
    >>> respell("A minor third. F♯ und H, IV. Stufe", load_lexicon("en")).text.split(".")[0]
    'A minor third'
    """
    text, spans, spoken = "", word_spans(line), []
    known = {start for start, _ in notes}
    place = 0
    for index, (start, end) in enumerate(spans):
        text += _gap(line[place:start], lexicon, is_between_figures=_is_between_figures(line, place, start))
        word, place = _word(line, start, end, lexicon, is_note=start in known)
        # A voice tells words apart by blanks; phonemes run into letters otherwise.
        if text and text[-1] != " " and (text.endswith("]]") or word.startswith("[[") or text[-1].isalnum()):
            text += " "
        spoken.append((len(text), len(text) + len(word)))
        text += word
        if word.endswith("]]") and index + 1 < len(spans) and line[place : place + 1].isalnum():
            text += " "
    text += _gap(line[place:], lexicon, is_between_figures=False)
    return Respelling(text.rstrip(), spans, tuple(spoken))


def _is_between_figures(line: str, start: int, end: int) -> bool:
    return line[start:end].strip() in {"–", "‒"} and line[start - 1 : start].isdigit() and line[end : end + 1].isdigit()


def _gap(between: str, lexicon: Lexicon, *, is_between_figures: bool) -> str:
    """Write what stands between words: pauses are kept, what a voice would read aloud is left out."""
    if is_between_figures:
        return f" {lexicon.table['numeral_to']} "
    quiet = "".join(_PAUSES.get(sign, sign) for sign in between.translate(_QUIET))
    kept = "".join(sign if sign in " ,.:;!?-'" else " " for sign in quiet.replace("’", "'"))
    # Of several marks in a row one is kept, the strongest; blanks before it are not.
    marks = re.sub(r"[ ,.:;!?]*[,.:;!?][ ,.:;!?]*", lambda found: _strongest(found[0]), kept)
    return re.sub(r" {2,}", " ", marks)


def _strongest(marks: str) -> str:
    mark = min(marks.replace(" ", ""), key=".!?:;,".index)
    return f"{mark} " if marks[-1] == " " else mark


def _word(line: str, start: int, end: int, lexicon: Lexicon, *, is_note: bool) -> tuple[str, int]:
    """Write a word out; also give where reading goes on, behind a stop that ends nothing."""
    word, behind = line[start:end], end
    if (said := lexicon.table["abbreviations"].get(word)) is not None:
        is_stop = line[end : end + 1] == "." and line[end + 1 :].strip()
        return said, end + 1 if is_stop else end
    if lexicon.table["ordinal_stops"] and re.match(r"\.\s+\w", line[end:]):
        number = _roman_number(word, lexicon) or word
        if (said := lexicon.table["ordinals"].get(number)) is not None:
            return said, end + 1
    if _LABEL.fullmatch(word) or re.fullmatch(r"\d{1,2}(?:[-‑]\d{1,2}){2,}", word):
        return re.sub(r"(?<=[zZ])(?=\d)", " ", re.sub(r"[-‑]", " ", word)), behind
    return _looked_up(word, lexicon) or _note(line, start, end, lexicon, is_note=is_note) or _plain(
        word, lexicon
    ), behind


def _looked_up(word: str, lexicon: Lexicon) -> str | None:
    for candidate in (word, word.lower()):
        if (said := lexicon.words.get(candidate)) is not None:
            return said
    for ending in ("'s", "’s", "s"):
        stem = word.removesuffix(ending)
        if stem != word and (said := lexicon.words.get(stem) or lexicon.words.get(stem.lower())) is not None:
            return _with_ending(said)
    return None


def _with_ending(said: str) -> str:
    """Add the s of a plural or possessive as English and German say it after the last sound."""
    if not said.endswith("]]"):
        return f"{said}s"
    phonemes = said[2:-2]
    if phonemes.endswith(_SIBILANTS):
        return f"[[{phonemes}I2z]]"
    return f"[[{phonemes}{'s' if phonemes.endswith(_VOICELESS) else 'z'}]]"


def _roman_number(word: str, lexicon: Lexicon) -> str | None:
    names = list(lexicon.table["roman"])
    values = {"I": 1, "II": 2, "III": 3, "IV": 4, "V": 5, "VI": 6, "VII": 7, "VIII": 8, "IX": 9, "XI": 11, "XII": 12}
    return str(values[word]) if word in names else None


def _note(line: str, start: int, end: int, lexicon: Lexicon, *, is_note: bool) -> str | None:
    """Write a note or chord in symbols, or a Roman numeral."""
    table, word = lexicon.table, line[start:end]
    roman = re.fullmatch(r"([IVX]+|[ivx]{2,})([°ø]?)", word)
    if (
        roman
        and (said := table["roman"].get(roman[1].upper())) is not None
        and (len(word) > 1 or word != "I" or is_note)
    ):
        return " ".join(filter(None, (said, table["roman_signs"].get(roman[2]))))
    if word in table["signs"] and not word.isascii():
        return str(table["signs"][word])
    signs = "|".join(re.escape(sign) for sign in table["signs"])
    found = re.fullmatch(rf"([{table['note_letters']}])({signs})?(.*)", word)
    if not found or word in table["not_notes"]:
        return None
    letter, sign, rest = found.groups()
    if rest and rest not in table["chords"]:
        return None
    if not sign and not rest and not is_note and _is_a_word(line, start, end, table):
        return None
    whole = table.get("notes", {}).get(f"{letter}{sign or ''}".replace("#", "♯").replace("b", "♭"))
    name = lexicon.words.get(whole, whole) if whole else _letter(letter, table)
    parts = (name, None if whole or not sign else table["signs"][sign], table["chords"][rest] if rest else None)
    return " ".join(part for part in parts if part)


def _letter(letter: str, table: Mapping[str, Any]) -> str:
    phonemes = table["letters"].get(letter)
    return f"[[{phonemes}]]" if phonemes else letter


def _is_a_word(line: str, start: int, end: int, table: Mapping[str, Any]) -> bool:
    """Whether a bare letter at the beginning of a line is a word of the language, not a note."""
    rule = table["letter_is_a_word"].get(line[start:end])
    before = line[:start].rstrip(" \t\"“'‘(*_")
    if rule is None or (before and before[-1] not in ".!?:"):
        return False
    following = re.findall(r"[\w-]+", line[end : end + 60]) if line[end : end + 1].isspace() else []
    if not following:
        return False
    if following[0] in rule["kinds"]:
        is_of_a_pair = following[1:2] in (["and"], ["or"]) and len("".join(following[2:3])) == 1 and following[2] != "a"
        return following[1:2] != [] and following[1] in rule["nouns_after_kinds"] and not is_of_a_pair
    return following[0] not in rule["after_a_note"]


def _plain(word: str, lexicon: Lexicon) -> str:
    """Write a compound part by part, where one of its parts is in the lexicon; else leave the word as it is."""
    parts = re.split(r"[-‑/]", word)
    if len(parts) > 1:
        said = [_looked_up(part, lexicon) or _letter(part, lexicon.table) for part in parts]
        if said != parts:
            return " ".join(said)
    return word.replace("’", "'").replace("‑", "-")
