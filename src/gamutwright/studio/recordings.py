"""The recordings of a lesson as the studio keeps them: inside the course, beside the script, none of them ever lost.

A recording comes in for a line that the script has; the line gets its id written into the script by the same save that
every other edit goes through, so that versions, history and other tabs are respected. What is thrown away is set aside.

Conventions: lengths are seconds. Files and folders named here lie in the course's folder, whatever links lead out of
it; where one does not, nothing is read or written.
"""

from __future__ import annotations

import contextlib
import re
import threading
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path
from typing import Any, Final

from gamutwright.errors import DomainError, FileError, InputError, ScriptError, told
from gamutwright.lessons.pace import TEACHING_RATE
from gamutwright.lessons.parse import parse
from gamutwright.lessons.script import Line, Script
from gamutwright.render.choosing import choose_take, earlier_choice, undo_choice
from gamutwright.render.discards import discard_take, list_discarded, restore_take
from gamutwright.render.recording import LONGEST_SECONDS
from gamutwright.render.takefile import Take, discarded_folder, line_folder, list_takes
from gamutwright.render.voice import word_spans
from gamutwright.series.course import Course
from gamutwright.series.line_recordings import LineState, add_recording, lost_lines, state_of, with_id
from gamutwright.settings import takes_folder
from gamutwright.studio.documents import Documents
from gamutwright.studio.linewords import absent, find, rewrite_line, save_with, shown_source, unproved_words

__all__ = ["Recordings"]

_OWN_NAME: Final = re.compile(r"studio-[0-9a-z-]{16,64}\.wav")
"""How the studio's own page names a recording; one that is sent twice under the same name is the same one."""
_LOCKS: defaultdict[str, threading.Lock] = defaultdict(threading.Lock)


class Recordings:
    """The recordings of a lesson.

    Parameters
    ----------
    course : Course
        The course.
    slug : str
        A lesson of it.
    """

    def __init__(self, course: Course, slug: str) -> None:
        self._course, self._slug = course, slug
        self._documents = Documents(course)
        self._takes = takes_folder(course.script_of(slug))

    # --- what is there ---

    def listing(self) -> dict[str, Any]:
        """List the lesson's lines by chapter, with all that is recorded of them.

        Returns
        -------
        dict
            Plain data.

        Raises
        ------
        ScriptError
            If the script cannot be read.
        """
        script = self._script()
        unproved = unproved_words(script)
        chapters, number = [], 0
        for chapter in script.chapters:
            rows = []
            for line in chapter.lines:
                if line.text:
                    number += 1
                    self._check(line.id)
                    rows.append(self._row(script, state_of(self._takes, number, line), unproved.get(line.id, [])))
            chapters.append({"title": chapter.title, "lines": rows})
        self._check_inside(self._takes)
        return {
            "language": script.front.language,
            "rate": TEACHING_RATE,
            "longest": LONGEST_SECONDS,
            "chapters": [chapter for chapter in chapters if chapter["lines"]],
            "lost": [self._lost(line_id) for line_id in lost_lines(script, self._takes)],
        }

    def row(self, line_id: str) -> dict[str, Any]:
        """Tell of one line what `listing` tells, but for what the check says of it.

        Parameters
        ----------
        line_id : str
            Id of a line of the script.

        Returns
        -------
        dict
            Plain data.

        Raises
        ------
        FileError
            If the script has no such line.
        """
        script = self._script()
        number, line = find(script, line_id)
        self._check(line_id)
        return self._row(script, state_of(self._takes, number, line))

    def audio(self, line_id: str, number: int) -> Path:
        """Find the recording of a take; of a line that is no longer in the script too.

        Parameters
        ----------
        line_id : str
            Id of a line.
        number : int
            Number of a take.

        Returns
        -------
        Path
            A FLAC file that is there.

        Raises
        ------
        FileError
            If there is no such take.
        """
        with contextlib.suppress(DomainError):
            self._check(line_id)
            for take in list_takes(self._takes, line_id):
                if take.number == number:
                    return take.path
        raise absent(f"take {number} of line {line_id[:64]!r}", "there is no such take")

    def _row(self, script: Script, state: LineState, unproved: list[str] | None = None) -> dict[str, Any]:
        line = state.line
        told: dict[str, Any] = {
            "id": line.id,
            "number": state.number,
            "text": line.text,
            "source": shown_source(script, line),
            "words": len(word_spans(line.text)),
            "state": state.state.value,
            "chosen": state.chosen.number if state.chosen else None,
            "earlier": earlier_choice(self._takes, line.id),
            "takes": [_told(take, line) for take in state.takes],
            "discarded": [_told(take, line) for take in list_discarded(self._takes, line.id)],
        }
        return told if unproved is None else told | {"unproved": unproved}

    def _lost(self, line_id: str) -> dict[str, Any]:
        self._check(line_id)
        takes = list_takes(self._takes, line_id)
        return {"id": line_id, "text": takes[-1].text, "takes": [take.number for take in takes]}

    # --- what is done ---

    def add(self, line_id: str, recording: Path, name: str, said: str = "") -> tuple[dict[str, Any], int]:
        """Take a recording in for a line.

        Parameters
        ----------
        line_id : str
            Id of a line of the script.
        recording : Path
            The recording.
        name : str
            What the browser calls it; it is written down and nothing else.
        said : str
            The words that were shown while it was recorded; those of the line without them. Where the line has other
            words by now, the take is stale from its beginning.

        Returns
        -------
        tuple of (dict, int)
            The line as it is now, and the number of the take.

        Raises
        ------
        FileError
            If the script has no such line, or the take cannot be written.
        InputError
            If the recording is empty, silent, too long or no sound.
        """
        script = self._script()
        number, line = find(script, line_id)
        self._check(line_id)
        if not recording.stat().st_size:
            raise InputError(told("the recording"), told("it is empty"), told("Record the line again."))
        take = self._sent_before(line_id, name) or self._added(script, line, recording, (name, said))
        self._keep_id(line_id)
        return self._row(script, state_of(self._takes, number, line)), take.number

    def _added(self, script: Script, line: Line, recording: Path, origin: tuple[str, str]) -> Take:
        try:
            return add_recording(script, line, self._takes, recording, *origin)
        except FileError as error:
            if error.value != str(recording):
                raise
            # It is the recording that is no good, not a file of the course; where it lay is nobody's business.
            raise InputError(told("the recording"), error.rule, error.next_step) from error

    def _sent_before(self, line_id: str, name: str) -> Take | None:
        """Find the take of a recording that is sent again because its answer was lost on the way."""
        if not _OWN_NAME.fullmatch(name):
            return None
        found = (*list_takes(self._takes, line_id), *list_discarded(self._takes, line_id))
        return next((take for take in found if take.source == name), None)

    def _keep_id(self, line_id: str) -> None:
        """Write the id of a line into the script; it goes with the line where somebody else changed the script."""

        def written(script: Script) -> str:
            for line in script.lines:
                if line.id == line_id:
                    return with_id(script, line)
            return script.source

        # A script that cannot be read any more keeps its takes by the id that they lie under.
        with contextlib.suppress(ScriptError):
            save_with(self._documents, self._slug, written)

    def choose(self, line_id: str, number: int) -> dict[str, Any]:
        """Choose the take of a line that is heard.

        Parameters
        ----------
        line_id : str
            Id of a line of the script.
        number : int
            Number of a take.

        Returns
        -------
        dict
            The line as it is now.
        """
        with self._changing(line_id):
            choose_take(self._takes, line_id, number)
        return self.row(line_id)

    def undo_choice(self, line_id: str) -> dict[str, Any]:
        """Take the last choice of a line back.

        Parameters
        ----------
        line_id : str
            Id of a line of the script.

        Returns
        -------
        dict
            The line as it is now.
        """
        with self._changing(line_id):
            undo_choice(self._takes, line_id)
        return self.row(line_id)

    def discard(self, line_id: str, number: int) -> dict[str, Any]:
        """Throw a take away; it can be taken back.

        Parameters
        ----------
        line_id : str
            Id of a line of the script.
        number : int
            Number of a take.

        Returns
        -------
        dict
            The line as it is now.
        """
        with self._changing(line_id):
            discard_take(self._takes, line_id, number)
        return self.row(line_id)

    def restore(self, line_id: str, number: int) -> dict[str, Any]:
        """Take back a take that was thrown away.

        Parameters
        ----------
        line_id : str
            Id of a line of the script.
        number : int
            Number of a take.

        Returns
        -------
        dict
            The line as it is now.
        """
        with self._changing(line_id):
            restore_take(self._takes, line_id, number)
        return self.row(line_id)

    @contextlib.contextmanager
    def _changing(self, line_id: str) -> Iterator[None]:
        find(self._script(), line_id)
        self._check(line_id)
        with _LOCKS[str(self._takes / line_id)]:
            yield

    def _script(self) -> Script:
        return parse(self._documents.read(self._slug).text, self._slug)

    def rewrite(self, line_id: str, before: str, after: str) -> dict[str, Any]:
        """Write other words for a line, where it still has those that were changed.

        Parameters
        ----------
        line_id : str
            Id of a line of the script.
        before, after : str
            Its markup, as it was shown and as it is to be.

        Returns
        -------
        dict
            What `listing` gives, and `id`: the line's, which is another where none was written and it has no take.

        Raises
        ------
        ChangedMeanwhileError
            If the line has other words already; nothing is written.
        FileError
            If the script has no such line.
        InputError
            If nothing would be spoken, or the words are not those of a line.
        """
        self._check(line_id)
        has_takes = bool(list_takes(self._takes, line_id) or list_discarded(self._takes, line_id))
        found = rewrite_line(self._documents, self._slug, line_id, (before, after), keeps_id=has_takes)
        return self.listing() | {"id": found}

    # --- staying inside ---

    def _check(self, line_id: str) -> None:
        """Refuse a line whose takes lie, or would be written, outside of the course."""
        for folder in (self._takes, discarded_folder(self._takes)):
            place = line_folder(folder, line_id)
            self._check_inside(folder)
            self._check_inside(place)
            if place.is_dir():
                for entry in place.iterdir():
                    if entry.is_symlink():
                        self._check_inside(entry)

    def _check_inside(self, path: Path) -> None:
        try:
            is_inside = path.resolve().is_relative_to(self._course.folder.resolve())
        except (OSError, RuntimeError):
            is_inside = False  # links in a circle
        if not is_inside:
            raise FileError(
                str(path.relative_to(self._course.folder)),
                told("it leads out of the course's folder"),
                told("Put the takes themselves there instead of the link."),
            )


def _told(take: Take, line: Line) -> dict[str, Any]:
    is_stale = take.is_stale(line.text)
    return {
        "number": take.number,
        "seconds": take.seconds,
        "words_per_minute": take.words_per_minute,
        "loudness_lufs": take.loudness_lufs,
        "peak_dbtp": take.peak_dbtp,
        "noise_dbfs": take.noise_dbfs,
        "faults": [{"name": fault.value, "advice": fault.advice} for fault in take.faults],
        "is_stale": is_stale,
        "said": take.text if is_stale else "",
    }
