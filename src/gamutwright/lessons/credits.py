"""What the last cards of a film say: who and what made it, whom it thanks, what comes next.

Names of supporters come from a text file beside the script, one on a line; lines that begin with `#` are remarks. A
name in letters that the films' typefaces lack is refused with its line, since nobody's name should appear as dots;
pictographs and control signs are left out.

Conventions: front matter keys are `course`, `lesson`, `next`, `speaker` and `supporters`; all may be missing.
Recordings that are heard are the teacher's where no `speaker` is named.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from gamutwright.errors import FileError, InputError
from gamutwright.ir.cards import Entry, legible, paged
from gamutwright.ir.metrics import is_drawable
from gamutwright.ir.sound import TICKS_PER_SECOND
from gamutwright.lessons.script import Front, Script
from gamutwright.phrasing.card_words import CardWords

__all__ = [
    "CREDITS_TICKS",
    "MOST_SUPPORTERS",
    "NEXT_TICKS",
    "Credits",
    "EndCard",
    "credits_of",
    "end_cards",
    "read_supporters",
]

MOST_SUPPORTERS = 2000
_PROGRAM = "Gamutwright"
CREDITS_TICKS = 6 * TICKS_PER_SECOND
NEXT_TICKS = 4 * TICKS_PER_SECOND


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
    hold_ticks : int
        How long it stands; 0 for as long as it takes to read.
    """

    heading: str
    entries: tuple[Entry, ...] = ()
    columns: int = 1
    sentence: str = ""
    hold_ticks: int = 0


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
    return [
        *([Entry(words.say("course"), course)] if course else []),
        *([Entry(words.say("voice"), "; ".join(voices))] if voices else []),
        Entry(words.say("program"), _PROGRAM),
    ]


def end_cards(front: Front, made: Credits, words: CardWords) -> tuple[EndCard, ...]:
    """Plan the cards at the end of a film: ten seconds together at most, and names of supporters as long as they need.

    Sources and licences stand on the page and in the description, where there is time to read them.

    Parameters
    ----------
    front : Front
        The front matter of the script.
    made : Credits
        Who and what made the film.
    words : CardWords
        The words of its language.

    Returns
    -------
    tuple of EndCard
        In order; a list that is too long for one card goes on on the next.
    """
    thanks = [Entry(name) for name in made.supporters]
    cards = [
        EndCard(words.say("credits"), page, hold_ticks=CREDITS_TICKS) for page in paged(_made_by(front, made, words), 1)
    ]
    cards += [EndCard(words.say("supporters"), page, 2) for page in paged(thanks, 2)]
    following = legible(dict(front.others).get("next", ""))
    if following:
        cards.append(EndCard(words.say("next"), sentence=following, hold_ticks=NEXT_TICKS))
    return tuple(cards)
