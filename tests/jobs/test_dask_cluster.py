"""The runner of a cluster, on real schedulers and workers: what is killed costs no more than what was in its hands.

How often a job was run is counted by a file that each execution appends to, so the count is the operating system's.
"""

from __future__ import annotations

import gc
import logging
import os
import signal
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import psutil
import pytest
from distributed import LocalCluster

from deadlines import before_long
from gamutwright.errors import JobError, MissingPartError
from gamutwright.jobs import dask_client, dask_members
from gamutwright.jobs.dask_cluster import ClusterPool
from gamutwright.jobs.job import Job
from gamutwright.jobs.outcome import Event
from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Parcel, Store
from jobs.test_outcomes import LONG, by_key, check_outcomes, key
from jobs.working import (
    die,
    mark,
    sees_nothing,
    snapshot_by_process,
    square,
    wait_at_first,
    wait_for,
)

# Dask's client connects again by itself while it is being closed, and leaves that socket to the collector of garbage.
pytestmark = pytest.mark.filterwarnings("ignore:unclosed <socket:ResourceWarning")
TESTS = str(Path(__file__).parents[1])
ENVIRONMENT = {**os.environ, "PYTHONPATH": TESTS}
# Port 0: any free one, since several of these may run at once.
LOCAL = {"host": "127.0.0.1", "dashboard_address": "127.0.0.1:0", "silence_logs": logging.CRITICAL}


@pytest.fixture(scope="module")
def cluster() -> Iterator[LocalCluster]:
    with LocalCluster(n_workers=2, threads_per_worker=1, **LOCAL) as made:
        yield made


@pytest.fixture
def pool(cluster: LocalCluster, tmp_path: Path) -> Iterator[ClusterPool]:
    cluster.wait_for_workers(2, timeout=20)
    with ClusterPool(cluster.scheduler_address, Store(tmp_path / "store")) as made:
        yield made


def free_port() -> int:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        return int(free.getsockname()[1])


class Machines:
    """A scheduler and a worker as programs of their own."""

    def __init__(self, logs: Path) -> None:
        self._port, self._logs = free_port(), logs
        self.address = f"tcp://127.0.0.1:{self._port}"
        self._running: list[subprocess.Popen[bytes]] = []

    def start(self) -> None:
        scheduler = ["distributed.cli.dask_scheduler", "--host", "127.0.0.1", "--port", str(self._port)]
        worker = ["distributed.cli.dask_worker", self.address, "--host", "127.0.0.1", "--nthreads", "1", "--no-nanny"]
        with (self._logs / "log.txt").open("ab") as log:
            for program in (scheduler, worker):
                command = [sys.executable, "-m", *program, "--dashboard-address", "127.0.0.1:0"]
                started = subprocess.Popen(command, env=ENVIRONMENT, stdout=log, stderr=log, cwd=self._logs)  # noqa: S603 - our own programs
                self._running.append(started)

    def kill_scheduler(self) -> None:
        self._running[-2].kill()
        self._running[-2].wait()

    def end(self) -> None:
        for process in self._running:
            process.kill()
            process.wait()


@pytest.fixture
def machines(tmp_path: Path) -> Iterator[Machines]:
    made = Machines(tmp_path)
    yield made
    made.end()
    # Here and now, where the filter above holds, and not in the middle of somebody else's test.
    gc.collect()


def wait_until(is_so, what: str, seconds: float = 30) -> None:  # noqa: ANN001 - a function without parameters
    deadline = time.monotonic() + seconds
    while not is_so():
        assert time.monotonic() < deadline, what
        time.sleep(0.02)


def test_what_every_runner_does(pool: ClusterPool, tmp_path: Path):
    assert pool.is_shared
    assert pool.workers == 2
    check_outcomes(pool, tmp_path)


def test_a_cluster_makes_what_one_machine_makes(pool: ClusterPool, tmp_path: Path):
    jobs = [Job(key(n), square, n, LONG - n) for n in range(6)]
    with LocalPool(Store(tmp_path / "other"), workers=2) as local:
        here = {number: outcome.parcel for number, outcome in by_key(list(local.outcomes(jobs))).items()}
    assert {number: outcome.parcel for number, outcome in by_key(list(pool.outcomes(jobs))).items()} == here


def test_workers_that_do_not_see_the_store_send_their_results(
    cluster: LocalCluster, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setattr(dask_members, "is_writable_here", sees_nothing)
    store = Store(tmp_path / "store")
    with ClusterPool(cluster.scheduler_address, store) as pool:
        assert not pool.is_shared
        check_outcomes(pool, tmp_path)
    assert sorted(path.name for path in store.folder.iterdir() if len(path.name) != 2) == []


@pytest.mark.parametrize("is_all", [False, True], ids=["the process that works", "the worker of Dask"])
def test_a_worker_that_is_killed_costs_only_what_it_had_in_hand(pool: ClusterPool, tmp_path: Path, is_all: bool):
    jobs = [Job(key(n), mark, tmp_path / f"mark{n}", LONG - n) for n in range(8)]
    jobs.append(Job(key(50), wait_at_first, tmp_path / "long", LONG + 1))
    lost: list[Event] = []

    def kill(event: Event) -> None:
        if event.kind == "stage":
            process = psutil.Process(int(event.detail))
            (process.parent() if is_all else process).kill()
        elif event.kind == "lost":
            lost.append(event)

    ended = by_key(list(pool.outcomes(jobs, kill)))
    assert all(outcome.error is None for outcome in ended.values())
    assert ended[50].parcel == Parcel(2)
    assert [event.key for event in lost] == [key(50)]
    assert [(tmp_path / f"mark{n}").read_text() for n in range(8)] == ["x"] * 8


def test_a_job_that_kills_its_workers_fails_alone(pool: ClusterPool):
    jobs = [Job(key(n), square, n, LONG) for n in range(4)]
    ended = by_key(list(pool.outcomes([Job(key(99), die, 0, LONG + 1), *jobs])))
    assert isinstance(ended[99].error, JobError)
    assert "3 processes" in ended[99].error.rule
    assert [ended[n].parcel for n in range(4)] == [Parcel(n * n) for n in range(4)]


def test_a_late_job_is_begun_by_a_second_worker(cluster: LocalCluster, tmp_path: Path):
    cluster.wait_for_workers(2, timeout=20)
    events: list[Event] = []
    # The first to begin works for longer than is waited here.
    with before_long(50), ClusterPool(cluster.scheduler_address, Store(tmp_path / "store"), late_after_s=0.5) as pool:
        jobs = [Job(key(0), wait_at_first, tmp_path / "long", LONG), Job(key(1), square, 3, 1.0)]
        ended = by_key(list(pool.outcomes(jobs, events.append)))
    assert ended[0].parcel == Parcel(2)
    begun = [(event.kind, event.worker) for event in events if event.key == key(0) and event.kind in {"begun", "again"}]
    assert [kind for kind, _ in begun] == ["begun", "again"]
    assert begun[0][1] != begun[1][1] == ended[0].worker


def test_a_scheduler_that_comes_back_is_found_again(machines: Machines, tmp_path: Path):
    machines.start()
    place = tmp_path / "long"
    jobs = [Job(key(n), mark, tmp_path / f"mark{n}", LONG + 1) for n in range(3)]
    jobs += [Job(key(50), wait_for, (place, tmp_path / "go"), LONG), Job(key(51), mark, tmp_path / "last", 1.0)]
    kinds: list[str] = []

    def tell(event: Event) -> None:
        kinds.append(event.kind)
        if event.kind == "begun" and event.key == key(50) and not kinds.count("waiting"):
            wait_until(place.exists, "the job never began")
            machines.kill_scheduler()
        elif event.kind == "waiting" and kinds.count("waiting") == 1:
            (tmp_path / "go").touch()
            machines.start()

    with ClusterPool(machines.address, Store(tmp_path / "store"), patience_s=30) as pool:
        ended = by_key(list(pool.outcomes(jobs, tell)))
    assert set(ended) == {0, 1, 2, 50, 51}
    assert all(outcome.error is None for outcome in ended.values())
    assert "waiting" in kinds
    assert [(tmp_path / f"mark{n}").read_text() for n in range(3)] == ["x"] * 3, "what was finished is run again"
    assert len(place.read_text()) <= 2
    assert (tmp_path / "last").read_text() == "x"


def test_a_scheduler_that_went_between_two_runs_is_found_again(machines: Machines, tmp_path: Path):
    machines.start()
    with ClusterPool(machines.address, Store(tmp_path / "store"), patience_s=30) as pool:
        assert [outcome.parcel for outcome in pool.outcomes([Job(key(0), square, 3, LONG)])] == [Parcel(9)]
        machines.kill_scheduler()
        machines.start()
        assert [outcome.parcel for outcome in pool.outcomes([Job(key(1), square, 4, LONG)])] == [Parcel(16)]


def test_what_cannot_be_sent_fails_alone(pool: ClusterPool):
    jobs = [Job(key(0), square, threading.Lock(), LONG), Job(key(1), square, 4, LONG)]
    ended = by_key(list(pool.outcomes(jobs)))
    assert "pickle" in ended[0].error.rule
    assert ended[1].parcel == Parcel(16)


def test_a_client_that_is_killed_loses_nothing_that_was_stored(cluster: LocalCluster, tmp_path: Path):
    cluster.wait_for_workers(2, timeout=20)
    program = tmp_path / "program.py"
    program.write_text(
        "import sys\n"
        "from pathlib import Path\n"
        "from gamutwright.jobs.dask_cluster import ClusterPool\n"
        "from gamutwright.jobs.job import Job\n"
        "from gamutwright.jobs.store import Store\n"
        "from jobs.working import mark, wait_for\n"
        "folder = Path(sys.argv[1])\n"
        "jobs = [Job(f'{n:064x}', mark, folder / f'mark{n}', 9.0) for n in range(4)]\n"
        "jobs.append(Job(f'{9:064x}', wait_for, (folder / 'long', folder / 'go'), 1.0))\n"
        "with ClusterPool(sys.argv[2], Store(folder / 'store')) as pool:\n"
        "    todo = [job for job in jobs if not pool.store.has(job.key)]\n"
        "    print(len([outcome for outcome in pool.outcomes(todo) if outcome.error is None]))\n"
    )
    command = [sys.executable, str(program), str(tmp_path), cluster.scheduler_address]
    store, place = Store(tmp_path / "store"), tmp_path / "long"
    with subprocess.Popen(command, env=ENVIRONMENT) as first:  # noqa: S603 - our own program
        wait_until(lambda: all(store.has(key(n)) for n in range(4)) and place.exists(), "the jobs never ended")
        first.kill()
    (tmp_path / "go").touch()
    again = subprocess.run(command, env=ENVIRONMENT, capture_output=True, text=True, check=True, timeout=60)  # noqa: S603 - as above
    assert int(again.stdout) <= 1
    assert again.stderr == ""
    assert [(tmp_path / f"mark{n}").read_text() for n in range(4)] == ["x"] * 4
    assert store.get(key(9)) is not None


def test_another_environment_is_refused_at_once(cluster: LocalCluster, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(dask_members, "snapshot", snapshot_by_process)
    with (
        pytest.raises(JobError, match=r"worker tcp://127\.0\.0\.1:\d+: av 17\.0 there, 18\.1 here; worker tcp"),
        ClusterPool(cluster.scheduler_address, Store(tmp_path)),
    ):
        pass


def test_another_environment_is_refused_by_the_job_too(pool: ClusterPool, monkeypatch: pytest.MonkeyPatch):
    """As where a worker's libraries are exchanged while it is known already."""
    pool.patience_s = 1.0
    monkeypatch.setattr(dask_client, "snapshot", lambda: {**dask_members.snapshot(), "verovio": "0.1"})
    events: list[Event] = []
    with pytest.raises(JobError, match=r"verovio \S+ there, 0\.1 here"):
        list(pool.outcomes([Job(key(0), square, 3, LONG)], events.append))
    assert any(event.kind == "workers" and "not used: verovio" in event.detail for event in events)


def test_nobody_at_the_address(tmp_path: Path):
    address = f"tcp://127.0.0.1:{free_port()}"
    with pytest.raises(JobError, match="dask scheduler"), ClusterPool(address, Store(tmp_path), patience_s=0.5):
        pass
    with pytest.raises(JobError, match="no address"), ClusterPool("no address:::", Store(tmp_path), patience_s=0.5):
        pass


def test_a_scheduler_without_workers(tmp_path: Path):
    events: list[Event] = []
    with (
        LocalCluster(n_workers=0, processes=True, **LOCAL) as empty,
        pytest.raises(JobError, match=r"dask worker tcp.* --nthreads 1"),
        ClusterPool(empty.scheduler_address, Store(tmp_path), patience_s=1.0, told=events.append),
    ):
        pass
    assert [event.kind for event in events] == ["waiting"]


def test_a_scheduler_that_does_not_come_back(machines: Machines, tmp_path: Path):
    machines.start()
    store = Store(tmp_path / "store")

    def tell(event: Event) -> None:
        if event.kind == "stage":
            machines.kill_scheduler()

    jobs = [Job(key(0), square, 3, LONG), Job(key(1), wait_at_first, tmp_path / "long", 1.0)]
    with ClusterPool(machines.address, store, patience_s=20) as pool:
        pool.patience_s = 2.0
        with pytest.raises(JobError, match="has not come back for 2 s"):
            list(pool.outcomes(jobs, tell))
    assert store.get(key(0)) == Parcel(9)


def test_dask_is_an_optional_part(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setitem(sys.modules, "distributed", None)
    with (
        pytest.raises(MissingPartError, match=r"gamutwright\[cluster\]"),
        ClusterPool("tcp://127.0.0.1:1", Store(tmp_path)),
    ):
        pass


def test_a_run_that_is_left_leaves_nothing_waiting(pool: ClusterPool, tmp_path: Path):
    run = pool.outcomes([Job(key(n), mark, tmp_path / f"mark{n}", LONG) for n in range(40)])
    assert next(run).error is None
    run.close()
    done = len(list(tmp_path.glob("mark*")))
    time.sleep(0.5)
    assert done <= len(list(tmp_path.glob("mark*"))) <= done + 2
    assert [outcome.parcel for outcome in pool.outcomes([Job(key(90), square, 4, LONG)])] == [Parcel(16)]


def test_what_a_worker_stored_before_it_was_lost_is_not_made_again(pool: ClusterPool, tmp_path: Path):
    """As where the worker ends between putting the result into the store and telling of it."""
    place = tmp_path / "long"

    def kill(event: Event) -> None:
        if event.kind == "stage":
            pool.store.put(key(5), Parcel("stored"))
            os.kill(int(event.detail), signal.SIGKILL)

    (outcome,) = pool.outcomes([Job(key(5), wait_at_first, place, LONG)], kill)
    assert outcome.parcel == Parcel("stored")
    assert place.read_text() == "x"
