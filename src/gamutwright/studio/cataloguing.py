"""The catalogues of the studio: built in a process of its own, asked one question at a time.

A catalogue that is missing is never built by the process that answers the screens. Those whose building takes seconds
are begun as soon as somebody looks at a scale of their division; larger ones when they are asked for. Whoever builds
tells how far it is, can be ended at any moment, and ends with the studio; what was half-made is cleared away.

Conventions: one catalogue is built at a time; another one waits until somebody asks for it again. Times are seconds.
"""

from __future__ import annotations

import contextlib
import json
import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import IO, TYPE_CHECKING, Any, Final

from fastapi import APIRouter, Request
from starlette.exceptions import HTTPException

from gamutwright.catalogue.shares import LARGEST_AT_ONCE, Shares, is_at_hand, shares_of
from gamutwright.errors import CatalogueError, DomainError, JobError, told
from gamutwright.studio.scalecards import MOST_DIVISIONS
from gamutwright.studio.taskrun import GRACE_S

if TYPE_CHECKING:
    from gamutwright.catalogue.query import Catalogue

__all__ = ["Catalogues", "build", "catalogues_of", "router"]

router = APIRouter()

LEAST_DIVISIONS: Final = 2
WAIT_S: Final = 20.0
"""How long a question waits for the one before it."""
ENDED: Final = 5.0
"""How long whoever cancels waits for the end."""
CANCELLED: Final = "It was cancelled, and what was half-made is cleared away."


@dataclass(slots=True)
class _Building:
    """What is known of the building of a catalogue."""

    divisions: int
    process: subprocess.Popen[bytes]
    begun_s: float = field(default_factory=time.monotonic)
    done: int = 0
    total: int = 0
    is_cancelled: bool = False
    error: str = ""


class Catalogues:
    """Builds catalogues and keeps the last one open.

    Examples
    --------
    >>> Catalogues().state(24)["state"] in {"missing", "ready"}
    True
    """

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._questions = threading.Lock()
        self._building: _Building | None = None
        self._failed: dict[int, str] = {}
        self._ready: set[int] = set()
        self._open: tuple[int, Catalogue] | None = None
        self._is_closing = False

    def state(self, divisions: int) -> dict[str, Any]:
        """Tell how a catalogue is.

        Parameters
        ----------
        divisions : int in [2, 24]
            Equal divisions of the octave.

        Returns
        -------
        dict
            `state`: ready, building, waiting (another one is built), missing or failed; `share` of the building, `left`
            in seconds (None where it cannot be told yet), why it failed, and whether it takes seconds only.
        """
        told: dict[str, Any] = {
            "divisions": divisions, "state": "missing", "share": 0.0, "left": None, "message": "",
            "is_quick": divisions <= LARGEST_AT_ONCE,
        }  # fmt: skip
        if self._is_ready(divisions):
            return told | {"state": "ready", "share": 1.0}
        with self._lock:
            building = self._building
            if building is not None and building.divisions == divisions:
                share = building.done / building.total if building.total else 0.0
                took = time.monotonic() - building.begun_s
                left = round(took * (1 - share) / share, 1) if share else None
                return told | {"state": "building", "share": round(share, 3), "left": left}
            if divisions in self._failed:
                return told | {"state": "failed", "message": self._failed[divisions]}
        return told | ({"state": "waiting"} if building is not None and divisions <= LARGEST_AT_ONCE else {})

    def ensure(self, divisions: int) -> str:
        """Begin to build what takes seconds only, where it is missing and nothing else is built.

        Parameters
        ----------
        divisions : int in [2, 24]
            Equal divisions of the octave.

        Returns
        -------
        str
            Its state then.
        """
        if divisions <= LARGEST_AT_ONCE and self.state(divisions)["state"] == "missing":
            with contextlib.suppress(JobError):
                self.begin(divisions)
        return str(self.state(divisions)["state"])

    def begin(self, divisions: int) -> None:
        """Begin to build a catalogue; one that is there or is being built stays as it is.

        Parameters
        ----------
        divisions : int in [2, 24]
            Equal divisions of the octave.

        Raises
        ------
        JobError
            If another one is being built, or no process can be started.
        """
        if self._is_ready(divisions):
            return
        with self._lock:
            if self._is_closing or (self._building is not None and self._building.divisions != divisions):
                raise JobError(
                    told("the catalogue of {divisions} divisions", divisions=divisions),
                    told("another one is being built"),
                    told("Wait for it, or cancel it."),
                )
            if self._building is not None:
                return
            self._failed.pop(divisions, None)
            try:
                process = _process(divisions)
            except OSError as error:
                rule = told("its process cannot be started ({error})", error=error)
                raise JobError(told("the catalogue"), rule, told("Close other programs.")) from error
            self._building = _Building(divisions, process)
            threading.Thread(target=self._attend, args=(self._building,), daemon=True).start()

    def cancel(self, divisions: int) -> None:
        """End the building of a catalogue; what was half-made is gone when this returns.

        Parameters
        ----------
        divisions : int in [2, 24]
            Equal divisions of the octave.
        """
        with self._lock:
            building = self._building
        if building is not None and building.divisions == divisions:
            self._end(building)

    def end(self) -> None:
        """End what is being built, and close what is open."""
        with self._lock:
            self._is_closing = True
            building = self._building
        if building is not None:
            self._end(building)
        # Whoever is still at a question ends with the process.
        if self._questions.acquire(timeout=GRACE_S):
            self._close()
            self._questions.release()

    def shares(self, divisions: int) -> Shares | None:
        """Give the shares of a division, where no catalogue has to be built for them.

        Parameters
        ----------
        divisions : int in [2, 24]
            Equal divisions of the octave.

        Returns
        -------
        Shares or None
            None where it would have to be built first, and for divisions that are not counted.
        """
        counted = divisions <= LARGEST_AT_ONCE and (is_at_hand(divisions) or self._is_ready(divisions))
        return shares_of(divisions) if counted else None

    @contextlib.contextmanager
    def opened(self, divisions: int) -> Iterator[Catalogue]:
        """Open a catalogue for a question; questions come one after another.

        Parameters
        ----------
        divisions : int in [2, 24]
            Equal divisions of the octave.

        Yields
        ------
        Catalogue
            The catalogue.

        Raises
        ------
        CatalogueError
            If it is not there, or the question before takes too long.
        """
        what = f"the catalogue of {divisions} divisions"
        if not self._is_ready(divisions):
            raise CatalogueError(what, told("it has to be built first"), told("Build it; that is done once."))
        if not self._questions.acquire(timeout=WAIT_S):
            raise CatalogueError(what, told("it is still at an earlier question"), told("Ask again in a moment."))
        try:
            if self._open is None or self._open[0] != divisions:
                from gamutwright.catalogue.query import Catalogue  # noqa: PLC0415 - the database, for those who search

                self._close()
                self._open = (divisions, Catalogue(divisions))
            yield self._open[1]
        except CatalogueError:
            # Whatever is wrong with it, the next question looks anew.
            self._close()
            self._ready.discard(divisions)
            raise
        finally:
            self._questions.release()

    def _close(self) -> None:
        if self._open is not None:
            self._open[1].close()
            self._open = None

    def _is_ready(self, divisions: int) -> bool:
        if divisions not in self._ready:
            from gamutwright.catalogue.build import is_built  # noqa: PLC0415 - as above

            if not is_built(divisions):
                return False
            self._ready.add(divisions)
        return True

    def _attend(self, building: _Building) -> None:
        """Hear the process that builds, to its end."""
        assert building.process.stdout is not None  # noqa: S101 - it is a pipe
        for line in building.process.stdout:
            with contextlib.suppress(ValueError, KeyError, TypeError, AttributeError):
                _take_in(building, json.loads(line))
        code = building.process.wait()
        _kill(building.process)  # whatever it has started ends with it
        for pipe in (building.process.stdin, building.process.stdout):
            _shut(pipe)
        with self._lock:
            if code and building.is_cancelled:
                self._failed[building.divisions] = CANCELLED
            elif code:
                rule = told("its process ended with exit code {code} before it was done", code=code)
                error = JobError(told("the catalogue"), rule, told("Close other programs and build it again."))
                self._failed[building.divisions] = building.error or str(error)
            self._building = None

    def _end(self, building: _Building) -> None:
        building.is_cancelled = True
        _signal(building.process, signal.SIGTERM)
        try:
            building.process.wait(GRACE_S)
        except subprocess.TimeoutExpired:
            _kill(building.process)
        deadline = time.monotonic() + ENDED
        while self._building is building and time.monotonic() < deadline:
            time.sleep(0.01)


def _process(divisions: int) -> subprocess.Popen[bytes]:
    process = subprocess.Popen(
        [sys.executable, "-P", "-m", "gamutwright.studio.taskrun"],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        start_new_session=True,
    )
    payload = {"kind": "catalogue", "work": "gamutwright.studio.cataloguing:build", "divisions": divisions}
    assert process.stdin is not None  # noqa: S101 - it is a pipe
    with contextlib.suppress(OSError):  # it is gone already, which is told when it is heard
        process.stdin.write((json.dumps(payload) + "\n").encode())
        process.stdin.flush()
    return process


def _take_in(building: _Building, said: Mapping[str, Any]) -> None:
    if "stage" in said:
        building.done, building.total = int(said["done"]), int(said["total"])
    elif "error" in said:
        building.error = str(said["error"])


def _signal(process: subprocess.Popen[bytes], which: int) -> None:
    with contextlib.suppress(OSError):
        if hasattr(os, "killpg"):
            os.killpg(process.pid, which)
        elif process.poll() is None:
            process.terminate()


def _kill(process: subprocess.Popen[bytes]) -> None:
    _signal(process, getattr(signal, "SIGKILL", signal.SIGTERM))


def _shut(pipe: IO[bytes] | None) -> None:
    with contextlib.suppress(OSError):
        if pipe is not None:
            pipe.close()


def build(payload: Mapping[str, Any], tell: Any) -> dict[str, Any]:  # noqa: ANN401 - a `taskrun.Tell`, or a test's
    """Build a catalogue, and count its shares where they are counted; the work of the process.

    Parameters
    ----------
    payload : mapping
        `divisions`.
    tell : callable
        Told the stage, how much of it is done, and how much there is.

    Returns
    -------
    dict
        `message`.
    """
    from gamutwright.catalogue.build import ensure  # noqa: PLC0415 - it loads the database

    divisions = int(payload["divisions"])
    ensure(divisions, progress=lambda done, total: tell("catalogue", done, total))
    shares_of(divisions)
    return {"message": f"The catalogue of {divisions} divisions is there."}


def catalogues_of(request: Request) -> Catalogues:
    """Give the catalogues of this studio, made when they are first asked for and ended with it.

    Parameters
    ----------
    request : Request
        What was asked.

    Returns
    -------
    Catalogues
        The same each time.
    """
    state = request.app.state
    with _MAKING:
        if not hasattr(state, "catalogues"):
            state.catalogues = Catalogues()
            state.at_end.callback(state.catalogues.end)
    found: Catalogues = state.catalogues
    return found


_MAKING = threading.Lock()


def _checked(divisions: int) -> int:
    if not LEAST_DIVISIONS <= divisions <= MOST_DIVISIONS:
        raise DomainError(
            told("{divisions} divisions", divisions=divisions),
            told(
                "the studio looks at {least_divisions} to {most_divisions}",
                least_divisions=LEAST_DIVISIONS,
                most_divisions=MOST_DIVISIONS,
            ),
            told("Use the command line."),
        )
    return divisions


@router.get("/api/catalogue/{divisions}")
def tell_state(request: Request, divisions: int) -> dict[str, Any]:
    """Tell how a catalogue is; one that takes seconds is begun."""
    kept = catalogues_of(request)
    kept.ensure(_checked(divisions))
    return kept.state(divisions)


@router.post("/api/catalogue/{divisions}/{verb}")
def act(request: Request, divisions: int, verb: str) -> dict[str, Any]:
    """Build a catalogue, or cancel that."""
    kept = catalogues_of(request)
    verbs = {"build": kept.begin, "cancel": kept.cancel}
    if verb not in verbs:
        raise HTTPException(404)
    verbs[verb](_checked(divisions))
    return kept.state(divisions)
