"""The pool: every result once, dead workers survived, nothing left running."""

from __future__ import annotations

import multiprocessing
import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from gamutwright.errors import DomainError, JobError
from gamutwright.jobs.job import Job, sources_digest
from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Parcel, Store
from jobs.working import die, die_at_first, fail, mark, sleep, square

LONG = 10.0
"""A cost at which processes are started."""


def key(number: int) -> str:
    return f"{number:064x}"


def test_each_job_is_run_once(tmp_path: Path):
    jobs = [Job(key(n % 5), mark, tmp_path / f"mark{n % 5}", LONG) for n in range(20)]
    told: list[tuple[int, int]] = []
    with LocalPool(Store(tmp_path / "store"), workers=2) as pool:
        assert pool.finish(jobs, lambda done, total: told.append((done, total))) == 5
        assert pool.finish(jobs) == 0
    assert [(tmp_path / f"mark{n}").read_text() for n in range(5)] == ["x"] * 5
    assert told == [(done, 5) for done in range(6)]


def test_a_lost_or_damaged_result_is_made_again(tmp_path: Path):
    store = Store(tmp_path)
    jobs = [Job(key(n), square, n) for n in range(3)]
    with LocalPool(store) as pool:
        pool.finish(jobs)
        store.path_of(key(1)).unlink()
        store.path_of(key(2)).write_bytes(b"rubbish")
        assert [pool.result(job).data for job in jobs] == [0, 1, 4]
        assert store.get(key(2)) == Parcel(4)


def test_an_error_of_a_job_is_told_as_it_is(tmp_path: Path):
    with pytest.raises(DomainError, match="not liked"), LocalPool(Store(tmp_path), workers=2) as pool:
        pool.finish([Job(key(n), fail, n, LONG) for n in range(2)])


def test_a_dead_worker_costs_no_result(tmp_path: Path):
    jobs = [Job(key(n), square, n, LONG) for n in range(12)]
    jobs.insert(3, Job(key(99), die_at_first, tmp_path / "trace", LONG))
    with LocalPool(Store(tmp_path / "store"), workers=2) as pool:
        pool.finish(jobs)
        assert pool.result(jobs[3]).data == "at the second try"
        assert [pool.result(job).data for job in jobs if job.work is square] == [n * n for n in range(12)]


def test_a_job_that_kills_its_workers_is_named_and_the_others_are_kept(tmp_path: Path):
    store = Store(tmp_path)
    jobs = [Job(key(n), square, n, LONG + 1) for n in range(4)]
    with pytest.raises(JobError, match=r"working\.die: 3 processes"), LocalPool(store, workers=2) as pool:
        pool.finish([*jobs, Job(key(99), die, 0, LONG)])
    assert all(store.has(job.key) for job in jobs)


def test_an_interrupt_ends_the_workers_at_once(tmp_path: Path):
    def stop(done: int, total: int) -> None:
        if done:
            raise KeyboardInterrupt

    jobs = [Job(key(0), square, 0, 99.0), *(Job(key(n), sleep, 60.0, LONG) for n in range(1, 6))]
    with pytest.raises(KeyboardInterrupt), LocalPool(Store(tmp_path), workers=2) as pool:
        pool.finish(jobs, stop)
    deadline = time.monotonic() + 20
    while multiprocessing.active_children() and time.monotonic() < deadline:
        time.sleep(0.05)
    assert not multiprocessing.active_children()


def test_workers_end_when_their_program_is_killed(tmp_path: Path):
    program = (
        "import sys; sys.path.insert(0, sys.argv[2])\n"
        "from pathlib import Path\n"
        "from gamutwright.jobs.job import Job\n"
        "from gamutwright.jobs.run import LocalPool\n"
        "from gamutwright.jobs.store import Store\n"
        "from jobs.working import sleep\n"
        "if __name__ == '__main__':\n"
        "    with LocalPool(Store(Path(sys.argv[1])), workers=2) as pool:\n"
        "        pool.finish([Job(f'{n:064x}', sleep, 0.2 if n < 2 else 300.0, 99.0 - n) for n in range(6)])\n"
    )
    script = tmp_path / "program.py"
    script.write_text(program)
    tests = str(Path(__file__).parents[1])
    process = subprocess.Popen(  # noqa: S603 - our own program
        [sys.executable, str(script), str(tmp_path / "store"), tests], env={**os.environ, "PYTHONPATH": tests}
    )
    store = Store(tmp_path / "store")
    deadline = time.monotonic() + 60
    while not all(store.has(key(n)) for n in range(2)):
        assert time.monotonic() < deadline, "the workers never began"
        time.sleep(0.05)
    workers = {store.get(key(n)).data for n in range(2)}
    process.send_signal(signal.SIGKILL)
    process.wait()
    while any(is_running(worker) for worker in workers):
        assert time.monotonic() < deadline, "a worker goes on without its program"
        time.sleep(0.05)


def is_running(process: int) -> bool:
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    stat = Path(f"/proc/{process}/stat")
    return not stat.exists() or stat.read_text().split()[2] != "Z"


def test_sources_settle_their_digest():
    assert len(sources_digest("render")) == 64
    assert sources_digest("render") != sources_digest("render", "ir") != sources_digest()
