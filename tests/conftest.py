"""What all tests share: a cache of their own, so that they neither find nor leave anything in the user's; and ears.

Tests that drive programs of others in real time (a browser, a cluster) are tried a second time where they fail: on a
busy machine those programs stop for seconds at a time, and run into time limits of their own. What fails twice fails,
and a second try is told at the end of the run.
"""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

from gamutwright.files import CACHE_VARIABLE
from gamutwright.jobs import run

# Nothing is said of how long an example takes: two cores with as many tests on them are slow at times.
settings.register_profile("suite", settings.default, deadline=None, suppress_health_check=[HealthCheck.too_slow])
settings.load_profile("suite")

TESTS = Path(__file__).parent
DRIVING = ("browser/", "jobs/test_dask_")
"""Where the tests are that drive a browser or a cluster."""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if item.path.is_relative_to(TESTS) and item.path.relative_to(TESTS).as_posix().startswith(DRIVING):
            item.add_marker(pytest.mark.flaky(reruns=1))


@pytest.fixture(scope="session", autouse=True)
def _own_cache(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """One cache for all processes of a run."""
    base = tmp_path_factory.getbasetemp()
    folder = (base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "cache"
    with pytest.MonkeyPatch.context() as patch:
        if CACHE_VARIABLE not in os.environ:
            patch.setenv(CACHE_VARIABLE, str(folder))
        yield


@pytest.fixture(scope="session", autouse=True)
def _one_core() -> Iterator[None]:
    """Do work in the test's own process, as on a machine of one core, where a test does not ask for further ones.

    Each worker takes a second to start, and the tests themselves use all cores. That workers do their work is shown
    where they are asked for: by the tests of jobs, of killed builds and of programs started as a teacher starts them.
    """
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(run, "cores", lambda: 1)
        yield


@pytest.fixture(scope="session", autouse=True)
def _heard_interrupts() -> Iterator[None]:
    """Hear Ctrl-C: a shell has what it runs in the background ignore it, and what is started from there too."""
    before = signal.getsignal(signal.SIGINT)
    if before is signal.SIG_IGN:
        signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    if before is signal.SIG_IGN:
        signal.signal(signal.SIGINT, before)
