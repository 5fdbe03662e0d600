"""Who works on what: the decisions of a runner, without processes, network or clock.

What happens goes in (a worker joined or left, a job ended, time passed); what to do comes out (begin this there, give
that up). Both runners obey the same roster, so what is decided can be tested without either.

- The costliest job is begun first; a job whose worker died comes after all that nothing has happened to yet, so that
  one that takes its workers down does not hold up the others.
- A worker that dies is blamed on the jobs it was working on. A job is given up when `ATTEMPTS` workers died of it.
- Where nothing waits, a worker has nothing to do, and a job takes longer than `late_after_s` and three times the
  longest of its kind that has ended, another worker begins it too. The first result counts. Nothing can be taken out
  of the hands of the slower one, so it counts as busy until it ends, and what it makes is ignored.

Conventions: a worker has as many hands as jobs it can work on at once. Times in seconds, from any origin.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterable
from dataclasses import dataclass, field

__all__ = ["ATTEMPTS", "Assignment", "Begin", "GiveUp", "Instruction", "Lost", "Roster", "Task"]

ATTEMPTS = 3
LATE_TIMES = 3.0
"""How many times as long as the longest of its kind a job may take before another worker begins it too."""


@dataclass(frozen=True, slots=True)
class Task:
    """What the roster knows of a job.

    Parameters
    ----------
    key : str
        Its key.
    cost_s : float
        About how long it takes.
    kind : str
        Jobs of one kind take times that can be compared.
    """

    key: str
    cost_s: float
    kind: str = ""


@dataclass(frozen=True, slots=True)
class Assignment:
    """A job in somebody's hands.

    Parameters
    ----------
    key : str
        The job's key.
    attempt : int
        Which time of its being begun this is, counted from 1.
    worker : str
        By whom.
    """

    key: str
    attempt: int
    worker: str


@dataclass(frozen=True, slots=True)
class Begin:
    """Begin a job; `late_s` is for how long another worker has been at it, 0 where none is."""

    what: Assignment
    late_s: float = 0.0


@dataclass(frozen=True, slots=True)
class Lost:
    """A job went with its worker; it is begun again, unless it `is_elsewhere` too."""

    what: Assignment
    is_elsewhere: bool


@dataclass(frozen=True, slots=True)
class GiveUp:
    """A job is not tried again, since `deaths` workers died of it; the last was `worker`."""

    key: str
    worker: str
    deaths: int


Instruction = Begin | Lost | GiveUp


@dataclass(slots=True)
class _State:
    task: Task
    attempts: int = 0
    deaths: int = 0
    is_over: bool = False
    held: list[Assignment] = field(default_factory=list)


class Roster:
    """Who works on what.

    Parameters
    ----------
    tasks : iterable of Task
        What is to be done; keys differ.
    late_after_s : float, optional
        No job is late before; without it none ever is.

    Examples
    --------
    >>> roster = Roster([Task("short", 1.0), Task("long", 9.0)])
    >>> (begin,) = roster.joined("here", 1, now_s=0.0)
    >>> begin.what
    Assignment(key='long', attempt=1, worker='here')
    >>> roster.ended(begin.what, now_s=8.0)
    (True, [Begin(what=Assignment(key='short', attempt=1, worker='here'), late_s=0.0)])
    """

    def __init__(self, tasks: Iterable[Task], late_after_s: float | None = None) -> None:
        self._states = {task.key: _State(task) for task in tasks}
        self._waiting: list[tuple[int, float, int, str]] = []
        self._late_after_s = late_after_s
        self._free: dict[str, int] = {}
        self._begun_s: dict[Assignment, float] = {}
        self._longest_s: dict[str, float] = {}
        self.done = 0
        for state in self._states.values():
            self._wait(state)

    @property
    def total(self) -> int:
        """How many jobs there are."""
        return len(self._states)

    @property
    def is_over(self) -> bool:
        """Whether every job has ended or was given up."""
        return self.done == len(self._states)

    @property
    def under_way(self) -> list[Assignment]:
        """What is in somebody's hands, ignored work among it."""
        return list(self._begun_s)

    def joined(self, worker: str, hands: int, now_s: float) -> list[Instruction]:
        """Take in a worker.

        Parameters
        ----------
        worker : str
            Its name, not in use.
        hands : int
            How many jobs it works on at once.
        now_s : float
            The time.

        Returns
        -------
        list of Instruction
            What to do.
        """
        self._free[worker] = hands
        return self._deal(now_s)

    def left(self, *workers: str, now_s: float, is_blamed: bool = True) -> list[Instruction]:
        """Strike out workers, with what they had in hand.

        Parameters
        ----------
        *workers : str
            Their names.
        now_s : float
            The time.
        is_blamed : bool
            Whether their death counts against the jobs they had in hand.

        Returns
        -------
        list of Instruction
            What was lost, what is given up, what to begin.
        """
        for worker in workers:
            self._free.pop(worker, None)
        lost = [what for what in self._begun_s if what.worker in workers]
        return self._loses(lost, is_blamed=is_blamed) + self._deal(now_s)

    def dropped(self, what: Assignment, now_s: float) -> list[Instruction]:
        """Take in that one job was lost while its worker lives on, or that its result cannot be read.

        Parameters
        ----------
        what : Assignment
            What was begun.
        now_s : float
            The time.

        Returns
        -------
        list of Instruction
            As for `left`.
        """
        lost = [what] if what in self._begun_s else []
        return self._loses(lost, is_blamed=True) + self._deal(now_s)

    def ended(self, what: Assignment, now_s: float) -> tuple[bool, list[Instruction]]:
        """Take in that a job ended, well or not.

        Parameters
        ----------
        what : Assignment
            What was begun.
        now_s : float
            The time.

        Returns
        -------
        bool
            Whether its result counts: it is the first.
        list of Instruction
            What to do.
        """
        state = self._states[what.key]
        begun_s = self._put_down(what)
        counts = begun_s is not None and not state.is_over
        if begun_s is not None and counts:
            self._end(state)
            kind = state.task.kind
            self._longest_s[kind] = max(self._longest_s.get(kind, 0.0), now_s - begun_s)
        return counts, self._deal(now_s)

    def passed(self, now_s: float) -> list[Instruction]:
        """Take in that time passed.

        Parameters
        ----------
        now_s : float
            The time.

        Returns
        -------
        list of Instruction
            What to do.
        """
        return self._deal(now_s)

    def _wait(self, state: _State) -> None:
        # The attempts keep entries of one key apart; the key settles the order of equals.
        heapq.heappush(self._waiting, (state.deaths, -state.task.cost_s, state.attempts, state.task.key))

    def _end(self, state: _State) -> None:
        state.is_over = True
        self.done += 1

    def _put_down(self, what: Assignment) -> float | None:
        """Take a job out of a worker's hands; give when it was begun, None where it is not in them."""
        begun_s = self._begun_s.pop(what, None)
        if begun_s is not None:
            self._states[what.key].held.remove(what)
            if what.worker in self._free:
                self._free[what.worker] += 1
        return begun_s

    def _loses(self, lost: list[Assignment], *, is_blamed: bool) -> list[Instruction]:
        out: list[Instruction] = []
        for what in lost:
            self._put_down(what)
            self._states[what.key].deaths += is_blamed
        # Two workers that had the same job may have gone together: it waits once.
        for key, last in {what.key: what for what in lost}.items():
            state = self._states[key]
            if state.is_over:
                continue
            if not state.held and state.deaths >= ATTEMPTS:
                self._end(state)
                out.append(GiveUp(key, last.worker, state.deaths))
                continue
            out += [Lost(what, is_elsewhere=bool(state.held)) for what in lost if what.key == key]
            if not state.held:
                self._wait(state)
        return out

    def _deal(self, now_s: float) -> list[Instruction]:
        out: list[Instruction] = []
        while self._waiting:
            worker = self._freest()
            if worker is None:
                return out
            *_, key = heapq.heappop(self._waiting)
            out.append(Begin(self._begin(self._states[key], worker, now_s)))
        if self._late_after_s is not None:
            out += self._deal_late(self._late_after_s, now_s)
        return out

    def _freest(self, but: str = "") -> str | None:
        """Give the worker with the most free hands: work spreads over machines before it doubles up on one."""
        others = [name for name, hands in self._free.items() if hands > 0 and name != but]
        return max(others, key=lambda name: self._free[name], default=None)

    def _deal_late(self, late_after_s: float, now_s: float) -> list[Instruction]:
        out: list[Instruction] = []
        for what, begun_s in list(self._begun_s.items()):
            state = self._states[what.key]
            # Without one of its kind to compare with, late_after_s alone decides.
            limit_s = max(late_after_s, LATE_TIMES * self._longest_s.get(state.task.kind, 0.0))
            if not state.is_over and len(state.held) == 1 and now_s - begun_s > limit_s:
                worker = self._freest(but=what.worker)
                if worker is not None:
                    out.append(Begin(self._begin(state, worker, now_s), now_s - begun_s))
        return out

    def _begin(self, state: _State, worker: str, now_s: float) -> Assignment:
        state.attempts += 1
        what = Assignment(state.task.key, state.attempts, worker)
        state.held.append(what)
        self._begun_s[what] = now_s
        self._free[worker] -= 1
        return what
