"""The processes of a Dask worker: kept from job to job, outlived by no job, never outliving their worker.

Who runs and who started whom is asked of the operating system.
"""

from __future__ import annotations

import contextlib
import gc
import multiprocessing
import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import distributed
import psutil
import pytest
from distributed import LocalCluster

from gamutwright.jobs import dask_hands
from gamutwright.jobs.asking import Refusal, asked_of
from gamutwright.jobs.dask_cluster import ClusterPool
from gamutwright.jobs.job import Job
from gamutwright.jobs.outcome import Event
from gamutwright.jobs.store import Parcel, Store
from jobs.test_dask_cluster import ENVIRONMENT, LOCAL, free_port, wait_until
from jobs.test_outcomes import LONG, by_key, key
from jobs.working import hold, sleep, square

# As for the runner of a cluster.
pytestmark = pytest.mark.filterwarnings("ignore:unclosed <socket:ResourceWarning")


@pytest.fixture(scope="module")
def cluster() -> Iterator[LocalCluster]:
    with LocalCluster(n_workers=1, threads_per_worker=2, **LOCAL) as made:
        yield made


@pytest.fixture
def pool(cluster: LocalCluster, tmp_path: Path) -> Iterator[ClusterPool]:
    cluster.wait_for_workers(1, timeout=20)
    with ClusterPool(cluster.scheduler_address, Store(tmp_path / "store")) as made:
        yield made


def is_over(process: int) -> bool:
    try:
        return psutil.Process(process).status() == psutil.STATUS_ZOMBIE
    except psutil.NoSuchProcess:
        return True


def workers_of(pool: ClusterPool, first: int, count: int) -> list[int]:
    """Give the processes that some jobs were done by."""
    jobs = [Job(key(first + n), sleep, 0.2, LONG) for n in range(count)]
    return [outcome.parcel.data for outcome in pool.outcomes(jobs)]


def test_a_thread_has_one_process_and_keeps_it(pool: ClusterPool):
    assert pool.workers == 2
    first = workers_of(pool, 0, 6)
    assert len(set(first)) == 2
    (worker,) = {psutil.Process(process).ppid() for process in first}
    assert os.getpid() not in {worker, *first}
    assert set(workers_of(pool, 10, 6)) == set(first)


@pytest.mark.skipif(not Path("/proc/self/environ").exists(), reason="the environment of a process is read on Linux")
def test_memory_is_not_given_back_at_every_turn(pool: ClusterPool):
    """Dask sets this for its workers: `distributed.yaml`, nanny.pre-spawn-environ (read)."""
    process = workers_of(pool, 20, 1)[0]
    worker = psutil.Process(process).parent()
    assert worker.environ()["MALLOC_TRIM_THRESHOLD_"] == "65536"
    assert "MALLOC_TRIM_THRESHOLD_" not in psutil.Process(process).environ()
    assert psutil.Process(process).environ()["OMP_NUM_THREADS"] == "1"


def test_a_process_that_dies_idle_is_nobodys_fault(pool: ClusterPool):
    before = set(workers_of(pool, 30, 6))
    for process in before:
        os.kill(process, signal.SIGKILL)
    for process in before:
        wait_until(lambda process=process: is_over(process), "it was killed")
    events: list[Event] = []
    jobs = [Job(key(40 + n), square, n, LONG) for n in range(4)]
    ended = by_key(list(pool.outcomes(jobs, events.append)))
    assert [ended[40 + n].parcel for n in range(4)] == [Parcel(n * n) for n in range(4)]
    assert not [event for event in events if event.kind == "lost"]


@contextlib.contextmanager
def machine(folder: Path, *options: str) -> Iterator[tuple[str, psutil.Process]]:
    """A scheduler and a worker as programs with a session of their own; the address, and the program of the worker."""
    port = free_port()
    address = f"tcp://127.0.0.1:{port}"
    scheduler = ["distributed.cli.dask_scheduler", "--host", "127.0.0.1", "--port", str(port)]
    worker = ["distributed.cli.dask_worker", address, "--host", "127.0.0.1", "--nthreads", "1", *options]
    with (folder / "log.txt").open("wb") as log:
        programs = [
            subprocess.Popen(  # noqa: S603 - our own programs
                [sys.executable, "-m", *program, "--dashboard-address", "127.0.0.1:0"],
                env=ENVIRONMENT, stdout=log, stderr=log, cwd=folder, start_new_session=True,
            )
            for program in (scheduler, worker)
        ]  # fmt: skip
        try:
            yield address, psutil.Process(programs[1].pid)
        finally:
            for program in programs:
                program.kill()
                program.wait()
    # Here and now, where the filter above holds, and not in the middle of somebody else's test.
    gc.collect()


ALONE, WITH_NANNY = ("--no-nanny",), ()
PATIENCE_S = 60
"""Dask gives what is under way half a minute where a worker is asked to end: Worker.close, timeout (read)."""


class Enough(Exception):  # noqa: N818 - no error
    """Leaves a run."""


def end(how: str, worker: psutil.Process, program: psutil.Process) -> None:
    if how == "Ctrl-C":
        os.killpg(program.pid, signal.SIGINT)
    elif how == "program ended":
        program.terminate()
    else:
        (worker if how == "worker killed" else program).kill()


@pytest.mark.parametrize(
    ("how", "options"),
    [
        ("program killed", ALONE),
        ("worker killed", WITH_NANNY),
        ("program killed", WITH_NANNY),
        pytest.param("program ended", ALONE, marks=pytest.mark.long),
        pytest.param("program ended", WITH_NANNY, marks=pytest.mark.long),
        pytest.param("Ctrl-C", ALONE, marks=pytest.mark.long),
        pytest.param("Ctrl-C", WITH_NANNY, marks=pytest.mark.long),
    ],
)
def test_a_process_ends_with_its_worker_in_the_middle_of_a_job(how: str, options: tuple[str, ...], tmp_path: Path):
    def tell(event: Event) -> None:
        if event.kind == "stage":
            process = psutil.Process(int(event.detail))
            worker = process.parent()
            assert (worker == program) == (options == ALONE)
            end(how, worker, program)
            wait_until(lambda: is_over(process.pid), "the process outlives its worker", PATIENCE_S)
            raise Enough

    with machine(tmp_path, *options) as (address, program), pytest.raises(Enough):  # noqa: SIM117 - the pool ends first
        with ClusterPool(address, Store(tmp_path / "store")) as pool:
            list(pool.outcomes([Job(key(0), hold, 5.0 * PATIENCE_S, LONG)], tell))


@pytest.mark.parametrize("options", [ALONE, WITH_NANNY])
def test_a_process_without_work_does_not_hold_up_its_worker(options: tuple[str, ...], tmp_path: Path):
    with machine(tmp_path, *options) as (address, program):
        with ClusterPool(address, Store(tmp_path / "store")) as pool:
            (process,) = workers_of(pool, 0, 1)
        program.terminate()
        wait_until(lambda: is_over(program.pid), "the worker does not end")
        wait_until(lambda: is_over(process), "the process outlives its worker")


def test_where_no_process_can_be_started_nothing_is_done(monkeypatch: pytest.MonkeyPatch, tmp_path: Path):
    monkeypatch.setattr(multiprocessing.spawn, "get_executable", lambda: b"/bin/false")
    monkeypatch.setattr(distributed, "get_worker", object)
    monkeypatch.setattr(dask_hands, "_idle", [])
    answer = dask_hands.perform(asked_of(Job(key(0), square, 3, LONG), tmp_path), ("", key(0), 1, ""))
    assert isinstance(answer, Refusal)
    assert "(they end before they are ready" in answer.why[0]


def test_a_process_is_ended_where_its_thread_cannot_wait_for_it(monkeypatch: pytest.MonkeyPatch, tmp_path: Path):
    class Closed:
        def log_event(self, topic: str, what: tuple[object, ...]) -> None:
            raise Enough(what[3])

    monkeypatch.setattr(distributed, "get_worker", Closed)
    monkeypatch.setattr(dask_hands, "_idle", [])
    with pytest.raises(Enough) as raised:
        dask_hands.perform(asked_of(Job(key(0), hold, 5.0 * PATIENCE_S, LONG), tmp_path), ("", key(0), 1, ""))
    assert is_over(int(str(raised.value)))
    assert not dask_hands._idle
