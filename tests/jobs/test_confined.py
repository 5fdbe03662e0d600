"""Whatever kills the process that reads a file of others, this one tells it as an error and goes on."""

from __future__ import annotations

import ctypes
import os
import signal
import socket
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from gamutwright.errors import DomainError, FileError
from gamutwright.jobs import confined as kit
from gamutwright.jobs.confined import Limits, confined

WIDE = Limits(1 << 31, 60, 120)
ABOUT = ("the file", "Give another.")
HERE = "jobs.test_confined"


@pytest.fixture(autouse=True)
def _no_child_before_or_after() -> Iterator[None]:
    kit._end_idle()
    yield
    kit._end_idle()


# What is done in the child: each takes what `confined` gives it.


def die(_tell: object, number: int) -> None:
    os.kill(os.getpid(), number)


def leave(_tell: object, code: int) -> None:
    os._exit(code)


def crash(_tell: object) -> None:
    ctypes.string_at(0)


def fill(_tell: object) -> tuple[int, bytes]:
    return len(bytearray(1 << 32)), b""


def spin(_tell: object) -> None:
    while True:
        pass


def sleep(tell: Callable[..., None], times: int, pause_s: float) -> tuple[int, bytes]:
    for number in range(times):
        tell("asleep", number, times)
        time.sleep(pause_s)
    return times, b"\0" * 100_000


def refuse(_tell: object, value: str) -> None:
    raise DomainError(value, "it is wrong", "Write another.")


def fail(_tell: object) -> None:
    raise KeyError("no such thing")


def write(_tell: object, place: str) -> tuple[int, bytes]:
    try:
        return Path(place).write_text("mine", encoding="utf-8"), b""
    except OSError as error:
        return -(error.errno or 0), b""


def call_home(_tell: object, port: int) -> tuple[str, bytes]:
    try:
        socket.create_connection(("127.0.0.1", port), 5).close()
    except OSError as error:
        return str(error), b""
    return "", b""


def chatter(_tell: object) -> tuple[int, bytes]:
    sys.stdout.write("a library says something\n")
    os.write(1, b"and so does C\n")
    return os.getpid(), b""


def number(_tell: object) -> tuple[int, bytes]:
    return os.getpid(), b""


def test_what_is_told_and_given_comes_through():
    heard: list[tuple[object, ...]] = []
    assert confined(f"{HERE}:sleep", [3, 0.0], WIDE, ABOUT, lambda *told: heard.append(told)) == (3, b"\0" * 100_000)
    assert heard == [("asleep", 0, 3), ("asleep", 1, 3), ("asleep", 2, 3)]


@pytest.mark.parametrize("ended_by", [signal.SIGSEGV, signal.SIGABRT, signal.SIGFPE, signal.SIGKILL, signal.SIGTERM])
def test_a_signal_in_the_child_is_an_error_here(ended_by: int):
    with pytest.raises(FileError, match=r"the file: .*\. Give another") as told:
        confined(f"{HERE}:die", [int(ended_by)], WIDE, ABOUT)
    assert ended_by == signal.SIGKILL or f"signal {int(ended_by)}" in told.value.rule


def test_a_crash_in_c_is_an_error_here_and_the_next_file_is_read():
    with pytest.raises(FileError, match="crashed on it"):
        confined(f"{HERE}:crash", [], WIDE, ABOUT)
    assert confined(f"{HERE}:sleep", [1, 0.0], WIDE, ABOUT)[0] == 1


@pytest.mark.parametrize("code", [0, 1, 3])
def test_a_child_that_leaves_without_an_answer_is_an_error(code: int):
    with pytest.raises(FileError, match="crashed on it"):
        confined(f"{HERE}:leave", [code], WIDE, ABOUT)


def test_memory_is_limited():
    with pytest.raises(FileError, match="it needs more than 1024 MiB of memory"):
        confined(f"{HERE}:fill", [], Limits(1 << 30, 60, 120), ABOUT)


def test_processor_time_is_limited():
    with pytest.raises(FileError, match="it takes more than 1 s of processor time"):
        confined(f"{HERE}:spin", [], Limits(1 << 31, 1, 600), ABOUT)


def test_silence_is_limited_and_every_word_breaks_it():
    with pytest.raises(FileError, match=r"nothing came of it for 0\.5 s"):
        confined(f"{HERE}:sleep", [1, 600.0], Limits(1 << 31, 60, 0.5), ABOUT)
    confined(f"{HERE}:number", [], WIDE, ABOUT)  # so that one is there already
    assert confined(f"{HERE}:sleep", [7, 1.0], Limits(1 << 31, 60, 5), ABOUT)[0] == 7


def test_errors_keep_their_story():
    with pytest.raises(DomainError) as told:
        confined(f"{HERE}:refuse", ["x"], WIDE, ABOUT)
    assert (told.value.value, told.value.rule, told.value.next_step) == ("x", "it is wrong", "Write another.")
    with pytest.raises(FileError, match=r"cannot be decoded \(KeyError: 'no such thing'\)"):
        confined(f"{HERE}:fail", [], WIDE, ABOUT)


def test_a_child_is_used_again_until_it_dies_and_what_libraries_print_goes_nowhere():
    first = confined(f"{HERE}:chatter", [], WIDE, ABOUT)[0]
    assert first != os.getpid()
    assert confined(f"{HERE}:number", [], WIDE, ABOUT)[0] == first
    os.kill(first, signal.SIGKILL)
    while kit._idle[0].is_there:
        time.sleep(0.01)
    assert confined(f"{HERE}:number", [], WIDE, ABOUT)[0] != first


def test_a_child_that_was_just_leaving_is_no_error(monkeypatch: pytest.MonkeyPatch):
    confined(f"{HERE}:number", [], WIDE, ABOUT)
    child = kit._idle[0]
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, child._lines[0].fileno())
    os.close(nowhere)
    assert child._process.wait(60) == 0, "nothing more can be asked of it"
    monkeypatch.setattr(kit._Child, "is_there", True)
    assert confined(f"{HERE}:number", [], WIDE, ABOUT)[0] > 0


@pytest.mark.skipif(os.name != "posix", reason="Windows has no limits of resources")
def test_no_file_is_written(tmp_path: Path):
    assert confined(f"{HERE}:write", [str(tmp_path / "new.txt")], WIDE, ABOUT)[0] != 4
    assert not (tmp_path / "new.txt").exists() or not (tmp_path / "new.txt").stat().st_size


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux has name spaces")
def test_there_is_no_network_where_name_spaces_may_be_made():
    may = os.system("unshare -n true 2>/dev/null || unshare -rn true 2>/dev/null") == 0  # noqa: S605, S607
    with socket.create_server(("127.0.0.1", 0)) as server:
        said = confined(f"{HERE}:call_home", [server.getsockname()[1]], WIDE, ABOUT)[0]
    assert bool(said) == may
