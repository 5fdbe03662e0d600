"""What all tests share: a cache of their own, so that they neither find nor leave anything in the user's; and ears."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator

import pytest

from gamutwright.files import CACHE_VARIABLE


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
def _heard_interrupts() -> Iterator[None]:
    """Hear Ctrl-C: a shell has what it runs in the background ignore it, and what is started from there too."""
    before = signal.getsignal(signal.SIGINT)
    if before is signal.SIG_IGN:
        signal.signal(signal.SIGINT, signal.default_int_handler)
    yield
    if before is signal.SIG_IGN:
        signal.signal(signal.SIGINT, before)
