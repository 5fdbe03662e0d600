"""What the last cards of a film say: what was shown, where it is published, who and what made it, what comes next.

Names of supporters come from a text file beside the script, one on a line; lines that begin with `#` are remarks. A
name in letters that the films' typefaces lack is refused with its line, since nobody's name should appear as dots;
pictographs and control signs are left out.

Conventions: front matter keys are `course`, `lesson`, `next`, `speaker` and `supporters`; all may be missing.
Recordings that are heard are the teacher's where no `speaker` is named.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from gamutwright.errors import FileError, InputError
from gamutwright.facts.model import Dtype, Fact
from gamutwright.ir.cards import Entry, legible, paged
from gamutwright.ir.metrics import is_drawable
from gamutwright.languages import language_of
from gamutwright.lessons.script import Front, Script
from gamutwright.phrasing.card_words import CardWords
from gamutwright.phrasing.engine import wording_for
from gamutwright.phrasing.numbers import count_to_words, find_quantities

__all__ = ["MOST_SUPPORTERS", "Credits", "EndCard", "credits_of", "end_cards", "read_supporters"]

MOST_SUPPORTERS = 2000
_PROGRAM = ("Gamutwright", "Apache License 2.0")
_TYPE = ("Source Sans, Source Serif", "SIL Open Font License 1.1")
_NOTES = ("Bravura", "SIL Open Font License 1.1")


@dataclass(frozen=True, slots=True)
class Credits:
    """Who made a film, as far as the script does not say it.

    Parameters
    ----------
    voice : str
        What the voice is called, with its licence where it has one; "" where the teacher speaks or nothing is known.
    is_recorded : bool
        Whether recordings are heard.
    supporters : tuple of str
        Names to thank.
    """

    voice: str = ""
    is_recorded: bool = False
    supporters: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class EndCard:
    """One card at the end.

    Parameters
    ----------
    heading : str
        What it is about.
    entries : tuple of Entry
        What it lists; () for a card of a heading and one sentence.
    columns : int
        In how many columns a wide frame shows them.
    sentence : str
        What a card without entries says.
    """

    heading: str
    entries: tuple[Entry, ...] = ()
    columns: int = 1
    sentence: str = ""


def read_supporters(path: Path) -> tuple[str, ...]:
    r"""Read names to thank from a file.

    Parameters
    ----------
    path : Path
        A text file in UTF-8, one name on a line; empty lines and lines that begin with `#` are left out.

    Returns
    -------
    tuple of str
        The names, fit to be drawn, in their order.

    Raises
    ------
    FileError
        If the file cannot be read.
    InputError
        If it is no text in UTF-8, has too many names, or a name in letters that cannot be drawn.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     path = Path(folder, "supporters.txt")
    ...     _ = path.write_text("# the choir\nNguyễn Hà\n\nJonas  Ebb\n", encoding="utf-8")
    ...     read_supporters(path)
    ('Nguyễn Hà', 'Jonas Ebb')
    """
    try:
        text = path.read_bytes().decode("utf-8-sig")
    except OSError as error:
        raise FileError(
            str(path),
            f"the list of supporters cannot be read ({error.strerror or error})",
            "Put the file there, or take the line supporters: out of the front matter.",
        ) from error
    except UnicodeDecodeError as error:
        raise InputError(
            f"{path}, byte {error.start}", "a list of supporters is text in UTF-8", "Save it as UTF-8."
        ) from error
    names = []
    # Only real line ends count: other separators inside a name must not make two of it.
    for number, line in enumerate(text.replace("\r\n", "\n").replace("\r", "\n").split("\n"), 1):
        if line.lstrip().startswith("#") or not legible(line):
            continue
        missing = next((letter for letter in line if letter.isalpha() and not _is_written(letter)), "")
        if missing:
            raise InputError(
                f"{path}:{number}: {missing!r} (U+{ord(missing):04X})",
                "the typefaces of the films do not have this letter",
                "Write the name in Latin, Greek or Cyrillic letters.",
            )
        names.append(legible(line))
    if len(names) > MOST_SUPPORTERS:
        raise InputError(
            f"{path}: {len(names)} names", f"a film thanks at most {MOST_SUPPORTERS} people", "Thank them in parts."
        )
    return tuple(names)


def _is_written(letter: str) -> bool:
    return is_drawable(letter) or "·" not in legible(letter)


def credits_of(script: Script, folder: Path, voice: str = "", *, is_recorded: bool = False) -> Credits:
    """Gather what the end cards need besides the script.

    Parameters
    ----------
    script : Script
        The script; its front matter may name a file of supporters.
    folder : Path
        The folder that file is looked for in: the script's own.
    voice : str
        What the voice is called.
    is_recorded : bool
        Whether recordings are heard.

    Returns
    -------
    Credits
        The credits.

    Raises
    ------
    FileError, InputError
        As `read_supporters`.
    """
    named = dict(script.front.others).get("supporters", "").strip()
    return Credits(voice, is_recorded, read_supporters(folder / named) if named else ())


def _made_by(front: Front, made: Credits, words: CardWords) -> list[Entry]:
    others = dict(front.others)
    lesson = others.get("lesson", "")
    course = " · ".join(
        part for part in (others.get("course", ""), words.say("lesson", number=lesson) if lesson else "") if part
    )
    voices = [legible(others.get("speaker", "")) or words.say("voice-recorded")] if made.is_recorded else []
    voices += [made.voice] if made.voice else []
    licensed = {"type": _TYPE, "notes": _NOTES, "program": _PROGRAM}
    return [
        *([Entry(words.say("course"), course)] if course else []),
        *([Entry(words.say("voice"), "; ".join(voices))] if voices else []),
        *(
            Entry(words.say(key), words.say("licence", name=name, licence=licence))
            for key, (name, licence) in licensed.items()
        ),
    ]


def end_cards(front: Front, told: Iterable[tuple[Fact, str]], made: Credits, words: CardWords) -> tuple[EndCard, ...]:
    """Plan the cards at the end of a film.

    Parameters
    ----------
    front : Front
        The front matter of the script.
    told : iterable of (Fact, str)
        The facts that were told, with their values in the words of their claims.
    made : Credits
        Who and what made the film.
    words : CardWords
        The words of its language.

    Returns
    -------
    tuple of EndCard
        In order; a list that is too long for one card goes on on the next.
    """
    facts = dict(told)
    cited = dict.fromkeys(
        f"{citation.source.author} ({citation.source.year}), {citation.source.title}"
        for fact in facts
        for citation in fact.sources[:1]
        if citation.source.author
    )
    lists = [
        ("shown", [Entry(words.title(fact), _entry(fact, value, words)) for fact, value in facts.items() if value], 1),
        ("sources", [Entry(source) for source in cited], 1),
        ("credits", _made_by(front, made, words), 1),
        ("supporters", [Entry(name) for name in made.supporters], 2),
    ]
    cards = [
        EndCard(words.say(key), page, columns) for key, entries, columns in lists for page in paged(entries, columns)
    ]
    following = legible(dict(front.others).get("next", ""))
    return (*cards, EndCard(words.say("next"), sentence=following)) if following else tuple(cards)


def _entry(fact: Fact, said: str, words: CardWords) -> str:
    """Write the words of a claim as a dictionary has them, since they leave their sentence ("einen Tritonus": eins)."""
    if fact.dtype is Dtype.INT:
        found = find_quantities(said, words.language, is_bound=True)
        if len(found) == 1 and found[0].kind == "count" and not found[0].is_about:
            is_written = found[0].text[0].isdigit()
            return found[0].text if is_written else count_to_words(int(found[0].value), words.language)
    endings = language_of(words.language).claims.adjective_endings
    for word in wording_for(words.language).words_of(fact).values() if fact.dtype is Dtype.TEXT else ():
        if re.fullmatch(rf"{re.escape(word)}(?:{endings})?", said, re.IGNORECASE):
            return word
    return said
