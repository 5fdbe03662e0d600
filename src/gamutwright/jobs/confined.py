"""Work on files that others made, done in a process of its own that may die of them.

The idea: large decoders are written in C, and a file can crash them, fill the memory or keep them busy for ever. So
they run in a child process with limits; whatever kills it is an error like any other here. A child that is done waits
for the next file for a while, so that many files cost one start.

What holds the child, where the system offers it: limits of memory and of processor time, no files written, no network
(a name space without any, on Linux where it may be made); everywhere: a limit of the time in which nothing is heard of
it. Nothing that it sends is run: answers are JSON and bytes.

Conventions: a call is `module:function`. The function takes `tell` and plain arguments, may tell how far it is, and
gives plain data and bytes.
"""

from __future__ import annotations

import atexit
import contextlib
import ctypes
import importlib
import json
import os
import select
import signal
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import IO, Any

from gamutwright import errors
from gamutwright.codec import Plain
from gamutwright.errors import FileError, GamutwrightError

__all__ = ["Limits", "confined", "serve"]

Tell = Callable[..., None]

_IDLE_SECONDS = 20.0
_LONGEST_LINE = 1 << 26
_START = "import sys, json; sys.path[:] = json.loads(sys.argv[1]); from gamutwright.jobs.confined import serve; serve()"
_NEW_USER, _NEW_NETWORK = 0x10000000, 0x40000000


@dataclass(frozen=True, slots=True)
class Limits:
    """What a file may cost.

    Parameters
    ----------
    memory_bytes : int
        Memory, as addresses; much of it is reserved and never used.
    processor_seconds : int
        Processor time, of all cores together.
    silent_seconds : float
        Time without a word of how far it is.
    """

    memory_bytes: int
    processor_seconds: int
    silent_seconds: float


class _Child:
    """A process that does one call at a time."""

    def __init__(self) -> None:
        self.fell_silent = False
        path = json.dumps([place for place in sys.path if place])
        self._process = subprocess.Popen(  # noqa: S603 - this very program
            [sys.executable, "-P", "-B", "-c", _START, path],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            # Ctrl-C is this process's business, which ends the child.
            start_new_session=True,
            env=os.environ | {"OPENBLAS_NUM_THREADS": "1", "MALLOC_ARENA_MAX": "2"},
        )

    @property
    def is_there(self) -> bool:
        return self._process.poll() is None

    @property
    def _lines(self) -> tuple[IO[bytes], IO[bytes]]:
        to, out = self._process.stdin, self._process.stdout
        if to is None or out is None:  # pragma: no cover - both are pipes
            raise BrokenPipeError
        return to, out

    def ask(self, asked: dict[str, Plain], limits: Limits) -> Iterator[tuple[dict[str, Any], bytes]]:
        """Give everything that is said until the answer; nothing more where the child dies or falls silent."""
        to, out = self._lines
        with contextlib.suppress(OSError):
            to.write(json.dumps(asked).encode() + b"\n")
            to.flush()
        while True:
            watch = threading.Timer(limits.silent_seconds, self._fall_silent)
            watch.daemon = True
            watch.start()
            try:
                head = out.readline(_LONGEST_LINE)
                said = json.loads(head) if head.endswith(b"\n") else {}
                data = out.read(said["bytes"]) if said.get("bytes") else b""
            finally:
                watch.cancel()
            if not said or len(data) != said.get("bytes", 0):
                return
            yield said, data
            if "told" not in said:
                return

    def _fall_silent(self) -> None:
        self.fell_silent = True
        self._process.kill()

    def end(self) -> int:
        """End it at once and say its exit code, which is the signal with a minus where one ended it."""
        to, out = self._lines
        with contextlib.suppress(OSError):
            to.close()
        # One that died by itself keeps the code it died with.
        with contextlib.suppress(subprocess.TimeoutExpired):
            self._process.wait(0.2)
        self._process.kill()
        out.close()
        return self._process.wait()


_idle: list[_Child] = []
_lock = threading.Lock()


def _taken() -> _Child:
    with _lock:
        while _idle:
            child = _idle.pop()
            if child.is_there:
                return child
            child.end()
    return _Child()


def _kept(child: _Child) -> int:
    """Keep one child for the next call and end the others."""
    with _lock:
        if not _idle:
            _idle.append(child)
            return 0
    return child.end()


@atexit.register
def _end_idle() -> None:
    with _lock:
        while _idle:
            _idle.pop().end()


def _forget_idle() -> None:
    # After a fork the children belong to the process that started them.
    _idle.clear()


if hasattr(os, "register_at_fork"):
    os.register_at_fork(after_in_child=_forget_idle)


def confined(
    call: str, arguments: Sequence[Plain], limits: Limits, about: tuple[str, str], hear: Tell | None = None
) -> tuple[Any, bytes]:
    """Do something with a file in a process that may die of it.

    Parameters
    ----------
    call : str
        `module:function`.
    arguments : sequence of plain data
        What the function is given.
    limits : Limits
        What it may cost.
    about : tuple of (str, str)
        What an error is about, as the user would recognise it, and what to do where the process dies of it.
    hear : callable, optional
        Told what the function tells.

    Returns
    -------
    tuple of (plain data, bytes)
        What the function gives. It comes from a process that read a file of others: look at it before it is used.

    Raises
    ------
    GamutwrightError
        What the function raises.
    FileError
        If the process dies, or goes beyond a limit.

    Examples
    --------
    >>> confined("gamutwright.jobs.confined:_echo", ["G"], Limits(1 << 31, 10, 60), ("'G'", "Try again."))
    (['G'], b'G')
    """
    asked: dict[str, Plain] = {
        "call": call,
        "arguments": list(arguments),
        "memory": limits.memory_bytes,
        "seconds": limits.processor_seconds,
    }
    for _ in range(2):
        child, answer = _taken(), None
        try:
            for said, data in child.ask(asked, limits):
                if "told" not in said:
                    answer = said, data
                elif hear:
                    hear(*said["told"])
        finally:
            code = _kept(child) if answer else child.end()
        if answer:
            return _result(answer[0], about), answer[1]
        if code:
            break
        # One that had waited long enough was just leaving when it was asked.
    raise FileError(about[0], _how(child, code, limits), about[1])


def _result(said: dict[str, Any], about: tuple[str, str]) -> Any:  # noqa: ANN401 - as in `confined`
    if "result" in said:
        return said["result"]
    if "failed" in said:
        raise FileError(about[0], f"it cannot be decoded ({said['failed']})", about[1])
    kind = getattr(errors, str(said["kind"]), FileError)
    raise kind(*map(str, said["says"]))


def _how(child: _Child, code: int, limits: Limits) -> str:
    if child.fell_silent:
        return f"nothing came of it for {limits.silent_seconds:g} s"
    if -code == getattr(signal, "SIGXCPU", None):
        return f"it takes more than {limits.processor_seconds} s of processor time"
    if -code == getattr(signal, "SIGKILL", None):
        return "the system ended the decoder, most likely for want of memory"
    how = f"signal {-code}" if code < 0 else f"exit code {code}"
    return f"the decoder crashed on it ({how}), in a process of its own; nothing else is lost"


# --- the child ---


def serve() -> None:
    """Be the child: do what is asked on standard input, until it is closed or nothing is asked for a while."""
    answers = os.fdopen(os.dup(1), "wb")
    # What libraries print goes nowhere.
    os.dup2(2, 1)
    _cut_off()
    while True:
        if os.name == "posix" and not select.select([sys.stdin], [], [], _IDLE_SECONDS)[0]:
            return
        line = sys.stdin.buffer.readline()
        if not line:
            return
        said, data = _answer(json.loads(line), answers)
        answers.write(json.dumps(said | {"bytes": len(data)}).encode() + b"\n" + data)
        answers.flush()


def _answer(asked: dict[str, Any], answers: IO[bytes]) -> tuple[dict[str, Any], bytes]:
    def tell(*told: Plain) -> None:
        answers.write(json.dumps({"told": told}).encode() + b"\n")
        answers.flush()

    _limit(asked["memory"], asked["seconds"])
    module, _, function = asked["call"].partition(":")
    try:
        result, data = getattr(importlib.import_module(module), function)(tell, *asked["arguments"])
    except GamutwrightError as error:
        return {"kind": type(error).__name__, "says": [error.value, error.rule, error.next_step]}, b""
    except MemoryError:
        return {"failed": f"it needs more than {asked['memory'] >> 20} MiB of memory"}, b""
    except Exception as error:  # noqa: BLE001 - nobody knows what a library raises on a broken file
        return {"failed": f"{type(error).__name__}: {str(error)[:200]}"}, b""
    return {"result": result}, data


def _echo(_tell: Tell, *arguments: str) -> tuple[list[str], bytes]:
    return list(arguments), "".join(arguments).encode()


def _cut_off() -> None:
    """Give up what a decoder needs nothing of: Ctrl-C, dumps of memory, written files, and the network."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _bound("RLIMIT_CORE", 0)
    _bound("RLIMIT_FSIZE", 0)
    if sys.platform == "linux":
        # Whoever may do everything needs no name space of users, and would lose the right to read others' files in it.
        flags = _NEW_NETWORK if os.geteuid() == 0 else _NEW_USER | _NEW_NETWORK
        with contextlib.suppress(OSError, AttributeError):
            ctypes.CDLL(None).unshare(flags)


def _limit(memory_bytes: int, seconds: int) -> None:
    _bound("RLIMIT_AS", memory_bytes)
    _bound("RLIMIT_CPU", int(sum(os.times()[:2])) + 1 + seconds)


def _bound(name: str, most: int) -> None:
    try:
        import resource  # noqa: PLC0415 - Windows has none
    except ImportError:  # pragma: no cover - as above
        return
    kind = getattr(resource, name, None)
    if kind is None:  # pragma: no cover - a system without this limit
        return
    hard = resource.getrlimit(kind)[1]
    with contextlib.suppress(ValueError, OSError):
        resource.setrlimit(kind, (most if hard == resource.RLIM_INFINITY else min(most, hard), hard))
