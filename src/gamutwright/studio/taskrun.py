"""A task in a process of its own: which kinds there are, and what the process does.

The process stands in a session of its own, so that it can be ended with everything it has started. One line of JSON
tells it what to do; it answers with lines of JSON: how far it is, and at the end what it gave or why it failed. Its
line in stays open as long as the studio lives: when it closes, whatever has ended the studio, the task ends too.

Conventions: a polite signal is taken like Ctrl-C, so that what is half-made is cleared away on the way out; who takes
longer than `GRACE_S` is killed. Nothing but the lines of this module goes to the studio; what libraries print goes to
the terminal.
"""

from __future__ import annotations

import gc
import importlib
import json
import os
import signal
import sys
import threading
import time
import traceback
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from gamutwright.errors import GamutwrightError, JobError, told
from gamutwright.studio.tongue import speak_as, tongue

__all__ = ["GRACE_S", "KINDS", "STOPPED", "Kind", "Tell", "main"]

GRACE_S: Final = 0.5
"""How long a task may take to clear away what it was at."""
STOPPED: Final = 130
EACH_S: Final = 0.1
"""A stage tells no more often than this."""
LARGEST: Final = 20_000
"""Characters of a result; what is larger belongs into a file, and the result names it."""


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of task.

    Parameters
    ----------
    work : str
        `module:function`. The function takes the payload and a `Tell`, and gives plain data, `message` among them for
        what is told at the end. The payload has `course` (its folder), `lesson` (its slug, or ""), `paces` (seconds
        that stages took for each minute of film) and `scratch` (a folder for files in the making, which need not
        exist, and is removed at the end).
    is_of_lesson : bool
        Whether it is about one lesson, or about the course.
    """

    work: str
    is_of_lesson: bool = False


# To add a kind of task, add a line here, and words for it to WORDS in kit/tasks.js.
KINDS: Final[Mapping[str, Kind]] = {
    "package": Kind("gamutwright.studio.lessonwork:make", is_of_lesson=True),
    "verify": Kind("gamutwright.studio.lessonwork:read_back", is_of_lesson=True),
    "preview": Kind("gamutwright.studio.previewwork:make_small_film", is_of_lesson=True),
    "course": Kind("gamutwright.studio.coursework:make_all"),
    "check": Kind("gamutwright.studio.coursework:check"),
    "report": Kind("gamutwright.studio.coursework:report"),
    "plan": Kind("gamutwright.studio.coursework:plan"),
    "draft": Kind("gamutwright.studio.coursework:draft"),
}


class Tell:
    """Tells the studio how far a task is.

    Parameters
    ----------
    channel : int
        The file that the studio reads.
    """

    def __init__(self, channel: int) -> None:
        self._channel = channel
        self._one_by_one = threading.Lock()
        self._told: dict[str, float] = {}
        self._stage = ""

    def __call__(self, stage: str, done: int, total: int, share: float | None = None) -> None:
        """Tell how far a stage is; the stages before it have ended.

        Parameters
        ----------
        stage : str
            Its name; what it is called stands in `series.stagewords`.
        done, total : int
            How much of it is done, and how much there is.
        share : float, optional
            How much of its time that is, where the parts are of different sizes.
        """
        now = time.monotonic()
        is_over = total > 0 and done >= total
        if stage == self._stage and not is_over and now - self._told.get(stage, 0.0) < EACH_S:
            return
        self._stage, self._told[stage] = stage, now
        self.say({"stage": stage, "done": done, "total": total, "share": share})

    def expect(self, seconds: Mapping[str, float], minutes: float = 0.0) -> None:
        """Tell which stages are to come, in their order, and how long each should take.

        Parameters
        ----------
        seconds : mapping of str to float
            By the names of the stages.
        minutes : float
            The length of what is made, so that the next one can be reckoned from this one.
        """
        self.say({"expects": {name: round(one, 3) for name, one in seconds.items()}, "minutes": minutes})

    def part(self, name: str, state: str, words: str = "") -> None:
        """Tell what becomes of a part, such as a lesson of the course.

        Parameters
        ----------
        name : str
            Its name.
        state : str
            waiting, running, done or failed.
        words : str
            What is done with it now, or why it failed.
        """
        self.say({"part": name, "state": state, "words": words})

    def say(self, line: Mapping[str, object]) -> None:
        """Write a line for the studio.

        Parameters
        ----------
        line : mapping
            Plain data.
        """
        content = (json.dumps(line, ensure_ascii=False) + "\n").encode()
        with self._one_by_one:
            while content:
                content = content[os.write(self._channel, content) :]


def main() -> int:
    """Do the task that the first line asks for.

    Returns
    -------
    int
        0 where it gave something, 1 where it failed, 130 where it was stopped.
    """
    signal.signal(signal.SIGINT, signal.default_int_handler)
    # Taken like Ctrl-C, which waits for the end of what must not be cut through.
    signal.signal(signal.SIGTERM, lambda _number, _frame: signal.raise_signal(signal.SIGINT))
    tell, gone = Tell(_own_channel()), threading.Event()
    try:
        payload = json.loads(_first_line())
        threading.Thread(target=_end_with_studio, args=(gone,), daemon=True).start()
        # What is read stays; looking through it for rubbish takes a tenth of a short run.
        gc.set_threshold(100_000)
        return _work(payload, tell)
    except KeyboardInterrupt:
        return STOPPED
    except BrokenPipeError:
        gone.set()
        return STOPPED
    finally:
        if gone.is_set():
            _end_group()  # there is nobody left who would


def _work(payload: dict[str, Any], tell: Tell) -> int:
    try:
        tell.say({"result": _result(payload, tell)})
    except GamutwrightError as error:
        error.retell(tongue().retold)
        trace = "\n".join(getattr(error, "__notes__", ()))
        tell.say({"error": str(error), "trace": trace})
        return 1
    except Exception as error:  # noqa: BLE001 - whatever it is, it is told in words and with its story
        what = f"{type(error).__name__} ({error})" if str(error) else type(error).__name__
        said = JobError(
            told("this task"),
            told("it ended with {what}", what=what),
            told("Please report this; what was finished is kept."),
        )
        said.retell(tongue().retold)
        tell.say({"error": str(said), "trace": traceback.format_exc()})
        return 1
    return 0


def _result(payload: dict[str, Any], tell: Tell) -> Any:  # noqa: ANN401 - plain data
    if "course" in payload:
        speak_as(Path(payload["course"]))
    module, _, name = str(payload["work"]).partition(":")
    result = getattr(importlib.import_module(module), name)(payload, tell)
    if len(json.dumps(result)) > LARGEST:
        raise JobError(
            payload["kind"],
            told("its result has more than {largest} characters", largest=LARGEST),
            told("Please report this."),
        )
    return result


def _own_channel() -> int:
    """Take standard output for our lines alone, out of the reach of processes that are started from here."""
    channel = os.dup(1)
    os.dup2(2, 1)
    return channel


def _first_line() -> bytes:
    """Read the first line byte by byte: what comes after it is for the watch over the studio."""
    line = bytearray()
    while (byte := os.read(0, 1)) and byte != b"\n":
        line += byte
    return bytes(line)


def _end_with_studio(gone: threading.Event) -> None:
    """Wait until the studio is gone, then end: politely, so that nothing half-made is left; then in any case."""
    # Not by sys.stdin, whose lock a waiting thread would keep beyond the end of the program.
    with suppress(OSError):
        while os.read(0, 4096):
            pass
    gone.set()
    os.kill(os.getpid(), signal.SIGTERM)
    time.sleep(GRACE_S)
    _end_group()
    os._exit(STOPPED)


def _end_group() -> None:
    """End this process and all it has started, at once."""
    if hasattr(os, "killpg") and os.getpgrp() == os.getpid():
        os.killpg(0, signal.SIGKILL)


if __name__ == "__main__":
    sys.exit(main())
