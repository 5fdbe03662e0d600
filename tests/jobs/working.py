"""Work for tests of the pool: functions that another process can find."""

from __future__ import annotations

import multiprocessing
import os
import signal
import time
from pathlib import Path

from gamutwright.errors import DomainError
from gamutwright.jobs.run import cores
from gamutwright.jobs.store import Parcel
from gamutwright.jobs.telling import tell


def square(number: int) -> Parcel:
    return Parcel(number * number)


def mark(place: Path) -> Parcel:
    """Leave a trace of every time it is run."""
    with place.open("a") as file:
        file.write("x")
    return Parcel(place.name)


def fail(number: int) -> Parcel:
    raise DomainError(f"number {number}", "it is not liked here", "Take another.")


def die_at_first(place: Path) -> Parcel:
    if not place.exists():
        place.write_text("died once")
        os.kill(os.getpid(), signal.SIGKILL)
    return Parcel("at the second try")


def die(number: int) -> Parcel:
    os.kill(os.getpid(), signal.SIGKILL)
    return Parcel(number)


def sleep(seconds: float) -> Parcel:
    time.sleep(seconds)
    return Parcel(os.getpid())


def hold(seconds: float) -> Parcel:
    """Say where it is done, and take that long."""
    tell(str(os.getpid()), 0, 1)
    return sleep(seconds)


class Unreadable:
    """What can be sent but not read at the other end."""

    def __reduce__(self) -> tuple[object, tuple[int]]:
        return break_down, (0,)


def break_down(number: int) -> Parcel:
    return Parcel(number // 0)


def name_stages(count: int) -> Parcel:
    for number in range(count):
        tell(f"stage {number}", number, count)
    time.sleep(0.01)
    return Parcel(count)


def count_cores(_: None) -> Parcel:
    return Parcel(cores())


def append(place: Path) -> int:
    """Leave a trace, and say how many there are now."""
    with place.open("a") as file:
        file.write("x")
    return len(place.read_text())


def wait_at_first(place: Path) -> Parcel:
    """Take long at the first time, saying where it is done; be quick at the second."""
    times = append(place)
    if times == 1:
        tell(str(os.getpid()), 0, 1)
        time.sleep(12)
    return Parcel(times)


def wait_for(places: tuple[Path, Path]) -> Parcel:
    """Work until there is a file, for a minute at most."""
    trace, signal_file = places
    times = append(trace)
    deadline = time.monotonic() + 60
    while not signal_file.exists() and time.monotonic() < deadline:
        time.sleep(0.05)
    return Parcel(times)


def snapshot_by_process() -> dict[str, str]:
    """An environment that is another one in worker processes."""
    return {"Python": "3.11", "av": "17.0" if multiprocessing.parent_process() else "18.1"}


def sees_nothing(folder: str, name: str, token: str) -> bool:
    return False
