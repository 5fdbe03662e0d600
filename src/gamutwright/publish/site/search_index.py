"""What the search of a course's site looks through: the words of every lesson, folded, with its tones as they are said.

A reader types `F sharp`, `F#`, `F♯` or `Fis` and means one tone; capitals, accents and the strokes between words do not
matter. The page's script folds what is typed by the same rules (`site/kit/site.js`), and a test holds the two together.

**Conventions.** Folded text has small letters without accents, ß as ss, words apart by single blanks; a note with an
accidental is one word with its sign (`f♯`), beside the words that say it; points, commas and strokes stay between
digits.
"""

from __future__ import annotations

import re
import unicodedata

from gamutwright.languages import known_languages, language_of
from gamutwright.phrasing.spoken_names import spoken_note
from gamutwright.publish.site.lesson_cards import Card
from gamutwright.theory.notenames import names_in, to_symbols

__all__ = ["folded", "search_words", "tone_words"]

_SIGNS = "♯♭𝄪𝄫"
_WRITTEN = (("##", "𝄪"), ("#", "♯"), ("♯♯", "𝄪"), ("♭♭", "𝄫"))
_SAID = re.compile(r"(?<!\S)([a-h]) (double )?(sharp|flat)(?!\S)")
_SIGN_OF = {("", "sharp"): "♯", ("", "flat"): "♭", ("double ", "sharp"): "𝄪", ("double ", "flat"): "𝄫"}


def folded(text: str) -> str:
    """Fold a text for searching.

    Parameters
    ----------
    text : str
        Any text.

    Returns
    -------
    str
        Its words; notes that are said with an accidental come again at the end, as one word each.

    Examples
    --------
    >>> folded("Äolisch, F# – 0.75"), folded("C sharp to D")
    ('aolisch f♯ 0.75', 'c sharp to d c♯')
    """
    plain = unicodedata.normalize("NFKD", text.lower().replace("ß", "ss"))
    plain = "".join(letter for letter in plain if unicodedata.category(letter) != "Mn")
    for written, sign in _WRITTEN:
        plain = plain.replace(written, sign)
    plain = "".join(letter if letter.isalnum() or letter in _SIGNS + ".,/" else " " for letter in plain)
    plain = re.sub(r"(?<![0-9])[.,/]|[.,/](?![0-9])", " ", plain)
    words = plain.split()
    said = [found[1] + _SIGN_OF[found[2] or "", found[3]] for found in _SAID.finditer(" ".join(words))]
    return " ".join([*words, *said])


def tone_words(tone: str, language: str) -> tuple[str, ...]:
    """Say a printed tone in every way a reader may type it.

    Parameters
    ----------
    tone : str
        As printed.
    language : str
        In which language.

    Returns
    -------
    tuple of str
        The tone itself; with signs, and as English and German say it, where it is the name of a note.

    Examples
    --------
    >>> tone_words("B", "de"), tone_words("step 3", "en")
    (('B', 'B♭', 'B flat'), ('step 3',))
    """
    name = names_in(language_of(language).notes).read(tone)
    if name is None:
        return (tone,)
    said = (tone, to_symbols(name), *(spoken_note(name, known) for known in sorted(known_languages(), reverse=True)))
    return tuple(dict.fromkeys(said))


def search_words(card: Card) -> tuple[str, str]:
    """Gather what a lesson is found by.

    Parameters
    ----------
    card : Card
        The lesson.

    Returns
    -------
    tuple of (str, str)
        What stands on its card at once, and what it tells; folded, with a blank at both ends.
    """
    number = str(card.number) if card.number is not None else ""
    tones = [word for tone in card.tones for word in tone_words(tone, card.language)]
    head = folded(" ".join([number, card.title, *card.names, card.summary])).split()
    # Each tone apart: the end of one and the beginning of the next are no name together.
    head += [word for tone in tones for word in folded(tone).split()]
    told = folded(" ".join(f"{title} · {value}" for title, value in card.facts)).split()
    return f" {' '.join(dict.fromkeys(head))} ", f" {' '.join(dict.fromkeys(told))} "
