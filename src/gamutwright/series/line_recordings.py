"""What is recorded of a lesson: its spoken lines, each with its takes and what became of them.

A line may have a take whose words it no longer has; that take is stale, and not heard until the words are recorded
again. A line that is recorded gets its id written into the script, or its takes would lose it with the next word that
changes.

Conventions: numbers count the lines that are spoken, from 1.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from pathlib import Path

from gamutwright.errors import InputError
from gamutwright.lessons.script import Line, Script
from gamutwright.phrasing.spoken_names import note_places
from gamutwright.render.takes import Take, add_take, chosen_take, line_folders, list_takes

__all__ = [
    "LineState",
    "Recorded",
    "add_recording",
    "find_line",
    "lost_lines",
    "state_of",
    "states_of_lines",
    "with_id",
]


class Recorded(StrEnum):
    """What became of a line."""

    NONE = "none"
    STALE = "stale"
    RECORDED = "recorded"


@dataclass(frozen=True, slots=True)
class LineState:
    """A spoken line and its takes.

    Parameters
    ----------
    number : int
        Among the spoken lines, from 1.
    line : Line
        The line.
    state : Recorded
        Whether it is heard in the teacher's voice.
    chosen : Take or None
        The take that was chosen; None for a line without takes.
    takes : tuple of Take
        All of its takes, by number.
    """

    number: int
    line: Line
    state: Recorded
    chosen: Take | None
    takes: tuple[Take, ...]


def _spoken(script: Script) -> list[tuple[int, Line]]:
    return list(enumerate((line for line in script.lines if line.text), start=1))


def state_of(takes: Path, number: int, line: Line) -> LineState:
    """Say what became of a line.

    Parameters
    ----------
    takes : Path
        The folder of takes.
    number : int
        Its number.
    line : Line
        The line.

    Returns
    -------
    LineState
        Its state.
    """
    take = chosen_take(takes, line.id)
    if take is None:
        return LineState(number, line, Recorded.NONE, None, ())
    state = Recorded.STALE if take.is_stale(line.text) else Recorded.RECORDED
    return LineState(number, line, state, take, list_takes(takes, line.id))


def states_of_lines(script: Script, takes: Path) -> tuple[LineState, ...]:
    """Say what became of every spoken line.

    Parameters
    ----------
    script : Script
        The script.
    takes : Path
        The folder of takes.

    Returns
    -------
    tuple of LineState
        In the order of the script.
    """
    return tuple(state_of(takes, number, line) for number, line in _spoken(script))


def lost_lines(script: Script, takes: Path) -> tuple[str, ...]:
    """List lines that have takes and are no longer in the script.

    Parameters
    ----------
    script : Script
        The script.
    takes : Path
        The folder of takes.

    Returns
    -------
    tuple of str
        Ids.
    """
    ids = {line.id for line in script.lines}
    return tuple(line_id for line_id in line_folders(takes) if line_id not in ids and list_takes(takes, line_id))


def find_line(script: Script, name: str) -> tuple[int, Line]:
    """Find a spoken line.

    Parameters
    ----------
    script : Script
        The script.
    name : str
        Its id, or its number.

    Returns
    -------
    tuple of (int, Line)
        Number and line.

    Raises
    ------
    InputError
        If the script has no such line.
    """
    lines = _spoken(script)
    # An id comes first: one may be written with figures alone.
    for wanted in ({line.id: (number, line) for number, line in lines}, {str(pair[0]): pair for pair in lines}):
        if name in wanted:
            return wanted[name]
    raise InputError(
        f"line {name[:64]!r}",
        f"the script has no such line (it has {len(lines)})",
        "List them: gamutwright takes SCRIPT.",
    )


def add_recording(script: Script, line: Line, takes: Path, recording: Path, source: str = "", said: str = "") -> Take:
    """Take a recording in for a line.

    Parameters
    ----------
    script : Script
        The script, for its language.
    line : Line
        A line of it.
    takes : Path
        The folder of takes.
    recording : Path
        The recording.
    source : str
        What it is called; by the name of its file without it.
    said : str
        The words that are said in it; those of the line without them.

    Returns
    -------
    Take
        The new take.
    """
    language, words = script.front.language, said or line.text
    return add_take(takes, line.id, words, recording, language, note_places(words, language), source)


def with_id(script: Script, line: Line) -> str:
    r"""Write the id of a line behind it, so that it keeps its takes when its words change.

    Parameters
    ----------
    script : Script
        The script.
    line : Line
        A line of it.

    Returns
    -------
    str
        The source; as it is where the id is written already.

    Examples
    --------
    >>> from gamutwright.lessons.parse import parse
    >>> script = parse("---\nscale: C major\n---\nListen. Now sing. {#k3f}")
    >>> first, second = script.lines
    >>> with_id(script, first).splitlines()[-1] == f"Listen. {{#{first.id}}} Now sing. {{#k3f}}"
    True
    >>> with_id(script, second) == script.source
    True
    """
    end = line.span[1]
    return script.source if line.has_own_id else f"{script.source[:end]} {{#{line.id}}}{script.source[end:]}"
