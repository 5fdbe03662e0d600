"""What every runner does: one outcome for each job, whatever the others do, with what was told meanwhile.

`check_outcomes` and what it uses are also called for the runner of a cluster.
"""

from __future__ import annotations

import multiprocessing
import pickle
from collections import Counter
from pathlib import Path

import pytest

from deadlines import before_long
from gamutwright.errors import DomainError, JobError
from gamutwright.jobs.job import Job
from gamutwright.jobs.outcome import Event, Outcome, Runner, report_of
from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Parcel, Store
from jobs.working import Unreadable, break_down, count_cores, die, fail, mark, name_stages, sleep, square

LONG = 10.0
"""A cost at which processes are started."""


def key(number: int) -> str:
    return f"{number:064x}"


def by_key(outcomes: list[Outcome]) -> dict[int, Outcome]:
    assert len({outcome.job.key for outcome in outcomes}) == len(outcomes), "one outcome for each key"
    return {int(outcome.job.key, 16): outcome for outcome in outcomes}


def check_outcomes(runner: Runner, folder: Path) -> None:
    """Check what any runner promises."""
    marks = folder / "marks"
    marks.mkdir()
    jobs = [Job(key(n), square, n, LONG) for n in range(4)]
    jobs += [Job(key(10), fail, 10, LONG), Job(key(11), break_down, 11, LONG), Job(key(12), name_stages, 3, LONG)]
    jobs += [Job(key(20 + n % 2), mark, marks / str(n % 2), LONG) for n in range(4)]
    # Here it is no number; elsewhere it cannot even be read.
    jobs += [Job(key(30), square, Unreadable(), LONG)]
    runner.store.put(key(0), Parcel(7))
    events: list[Event] = []
    ended = by_key(list(runner.outcomes(jobs, events.append)))
    assert set(ended) == {0, 1, 2, 3, 10, 11, 12, 20, 21, 30}
    for number in range(4):
        assert ended[number].parcel == runner.store.get(key(number)) == Parcel(number * number)
    assert {place.name: place.read_text() for place in marks.iterdir()} == {"0": "x", "1": "x"}
    assert isinstance(ended[10].error, DomainError)
    assert ended[10].trace == ""
    assert isinstance(ended[11].error, JobError)
    assert ended[11].error.value.endswith("working.break_down")
    assert "ZeroDivisionError" in ended[11].error.rule
    assert "in break_down" in ended[11].trace
    assert isinstance(ended[30].error, JobError)
    assert all((outcome.parcel is None) == (outcome.error is not None) for outcome in ended.values())
    assert ended[12].seconds > 0
    assert ended[12].worker
    stages = [(event.detail, event.done, event.total) for event in events if event.kind == "stage"]
    assert stages == [(f"stage {n}", n, 3) for n in range(3)]
    assert {event.key for event in events if event.kind == "stage"} == {key(12)}
    assert Counter(event.key for event in events if event.kind == "begun") >= Counter(key(n) for n in range(4))
    assert all(event.total == len(ended) for event in events if event.kind == "begun")
    assert list(runner.outcomes([])) == []


@pytest.mark.parametrize("workers", [1, 2])
def test_what_every_runner_does(workers: int, tmp_path: Path):
    with LocalPool(Store(tmp_path / "store"), workers=workers) as pool:
        check_outcomes(pool, tmp_path)


def test_a_job_that_kills_its_workers_fails_alone(tmp_path: Path):
    events: list[Event] = []
    jobs = [Job(key(n), square, n, LONG) for n in range(6)]
    with LocalPool(Store(tmp_path), workers=2) as pool:
        ended = by_key(list(pool.outcomes([Job(key(99), die, 0, LONG + 1), *jobs], events.append)))
        again = by_key(list(pool.outcomes(jobs[:2])))
    assert isinstance(ended[99].error, JobError)
    assert "3 processes" in ended[99].error.rule
    assert [ended[n].parcel.data for n in range(6)] == [n * n for n in range(6)]
    assert [(event.key, event.detail) for event in events if event.kind == "lost"] == [
        (key(99), "it was ended by signal 9")
    ] * 2
    assert [again[n].parcel.data for n in range(2)] == [0, 1]


def test_a_run_that_is_left_ends_what_is_under_way(tmp_path: Path):
    jobs = [Job(key(0), square, 3, 99.0), *(Job(key(n), sleep, 60.0, LONG) for n in range(1, 4))]
    with before_long(50), LocalPool(Store(tmp_path), workers=2) as pool:
        run = pool.outcomes(jobs)
        assert next(run).parcel.data == 9
        with pytest.raises(JobError, match="already running"):
            next(pool.outcomes(jobs))
        run.close()
        assert [outcome.parcel.data for outcome in pool.outcomes([Job(key(9), square, 4, LONG)])] == [16]
    assert not multiprocessing.active_children()


def test_a_worker_that_cannot_start_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(multiprocessing.spawn, "get_executable", lambda: b"/bin/false")
    with (
        pytest.raises(JobError, match="before they are ready"),
        LocalPool(Store(tmp_path), workers=2) as pool,
    ):
        list(pool.outcomes([Job(key(0), square, 3, LONG)]))


def test_a_worker_starts_no_workers_of_its_own(tmp_path: Path):
    with LocalPool(Store(tmp_path), workers=2) as pool:
        (outcome,) = pool.outcomes([Job(key(0), count_cores, None, LONG)])
    assert outcome.parcel.data == 1


def test_an_error_that_cannot_travel_is_told_in_words():
    class ClosedError(DomainError):
        def __init__(self) -> None:
            super().__init__("the harbour", "it is closed", "Come back.")

    report = pickle.loads(pickle.dumps(report_of("course.film", ClosedError())))  # noqa: S301 - our own bytes
    assert str(report.error) == "the harbour: it is closed. Come back."
