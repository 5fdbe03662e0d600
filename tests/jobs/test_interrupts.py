"""Ctrl-C at the moments at which it is easily lost: it is heard once, afterwards, and nothing is half done."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from gamutwright.errors import DomainError
from gamutwright.jobs.interrupts import held_interrupts

STARTING = """
import os, signal, sys
from multiprocessing import active_children
from multiprocessing.process import BaseProcess
from pathlib import Path
from gamutwright.jobs.job import Job
from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Store
from jobs.working import square

if __name__ == "__main__":
    signal.signal(signal.SIGINT, signal.default_int_handler)
    start = BaseProcess.start

    def interrupted(process):
        start(process)
        os.killpg(os.getpgrp(), signal.SIGINT)

    BaseProcess.start = interrupted
    jobs = [Job(f"{n:064x}", square, n, 10.0) for n in range(8)]
    with LocalPool(Store(Path(sys.argv[1])), workers=2) as pool:
        try:
            pool.warm(["json"])
            print("lost")
        except KeyboardInterrupt:
            print("heard")
        BaseProcess.start = start
        workers = {process.pid for process in active_children()}
        print(pool.finish(jobs), len(workers), {process.pid for process in active_children()} == workers)
"""


def test_an_interrupt_while_processes_start_is_heard_here_and_not_there(tmp_path: Path):
    """All processes of the group are interrupted, as a terminal does it, the new ones in their first moment."""
    program = tmp_path / "program.py"
    program.write_text(STARTING)
    tests = str(Path(__file__).parents[1])
    done = subprocess.run(  # noqa: S603 - our own program
        [sys.executable, str(program), str(tmp_path / "store")], env={**os.environ, "PYTHONPATH": tests},
        capture_output=True, text=True, check=False, start_new_session=True, timeout=120,
    )  # fmt: skip
    assert (done.returncode, done.stdout.split(), done.stderr) == (0, ["heard", "8", "2", "True"], "")


def test_work_goes_on_to_its_end_and_its_own_error_is_not_lost():
    done = []

    def work() -> None:
        with held_interrupts():
            signal.raise_signal(signal.SIGINT)
            signal.raise_signal(signal.SIGINT)
            done.append("the work")
            raise DomainError("x", "a rule", "Do something else.")

    with pytest.raises(KeyboardInterrupt) as raised:
        work()
    assert done == ["the work"]
    assert isinstance(raised.value.__context__, DomainError)
    assert signal.getsignal(signal.SIGINT) is signal.default_int_handler


def test_a_program_that_ignores_interrupts_goes_on_doing_so():
    before = signal.signal(signal.SIGINT, signal.SIG_IGN)
    try:
        with held_interrupts():
            signal.raise_signal(signal.SIGINT)
        assert signal.getsignal(signal.SIGINT) is signal.SIG_IGN
    finally:
        signal.signal(signal.SIGINT, before)


def test_other_threads_leave_the_handler_alone():
    found = []

    def look() -> None:
        with held_interrupts():
            found.append(signal.getsignal(signal.SIGINT))

    thread = threading.Thread(target=look)
    thread.start()
    thread.join()
    assert found == [signal.getsignal(signal.SIGINT)]
