"""How much time is left of long work: what is expected at first, what is measured as soon as something is done.

The stages that are to come count with what they are expected to take; the one under way with a mixture of expectation
and measure, in which the measure has the more weight the more is done. A stage that takes longer than was thought makes
what is left longer, so that the end is never told for minutes to be seconds away.

Conventions: times are seconds on any clock that only goes on; shares are between 0 and 1. What a stage finds done at
its beginning, since it was kept from an earlier run, tells nothing of its speed.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Final

__all__ = ["NEARLY", "Reckoning", "Stage"]

NEARLY: Final = 0.99
"""What is shown at most before the end: the end is told by whoever has looked at the result."""
CERTAIN: Final = 0.5
"""With so much of a stage done, nothing but the measure counts."""
OVERDUE: Final = 0.5
"""A stage that is overdue, and tells nothing, is taken to need this much of the time it has had already."""


@dataclass(slots=True)
class Stage:
    """A stage of some work.

    Parameters
    ----------
    name : str
        What it is told under.
    expected_s : float
        How long it should take.
    begun_s, ended_s : float or None
        When it began and ended; None where it has not.
    found, done, total : float, int, int
        How much of it was done when it began, is done, and there is; `found` is a share.
    share : float
        How much of it is done.
    """

    name: str
    expected_s: float
    begun_s: float | None = None
    ended_s: float | None = None
    found: float = 0.0
    done: int = 0
    total: int = 0
    share: float = 0.0

    @property
    def is_begun(self) -> bool:
        """Whether it has begun."""
        return self.begun_s is not None

    def left_s(self, now_s: float) -> float:
        """Reckon how long it is going to take from now on.

        Parameters
        ----------
        now_s : float
            Now.

        Returns
        -------
        float
            0 where it has ended.
        """
        if self.ended_s is not None:
            return 0.0
        if self.begun_s is None:
            return self.expected_s
        spent = max(0.0, now_s - self.begun_s)
        made = (self.share - self.found) / (1 - self.found) if self.found < 1 else 1.0
        thought = max(self.expected_s * (1 - self.found) - spent, OVERDUE * spent * (1 - made))
        if made <= 0:
            return thought
        weight = min(1.0, made / CERTAIN) if self.expected_s else 1.0
        return (1 - weight) * thought + weight * spent * (1 - made) / made


@dataclass(slots=True)
class Reckoning:
    """Reckons the time that is left of work in stages.

    Parameters
    ----------
    stages : dict of str to Stage
        In the order in which they come.

    Examples
    --------
    >>> reckoning = Reckoning()
    >>> reckoning.expect({"voice": 2.0, "film": 8.0})
    >>> reckoning.tell("voice", 0, 4, 100.0)
    >>> reckoning.left_s(101.0), reckoning.share(101.0)
    (9.0, 0.1)
    >>> reckoning.tell("film", 0, 10, 103.0)
    >>> reckoning.tell("film", 5, 10, 105.0)
    >>> reckoning.left_s(105.0), reckoning.measured(105.0)
    (2.0, {'voice': 3.0})
    """

    stages: dict[str, Stage] = field(default_factory=dict)
    _begun_s: float | None = None
    _shown: float = 0.0

    def expect(self, seconds: Mapping[str, float]) -> None:
        """Take in how long stages should take, in their order; those that have begun keep what they have told.

        What is shown may go back then, since what was expected before was no more than a guess.

        Parameters
        ----------
        seconds : mapping of str to float
            By the names of stages.
        """
        begun = {name: stage for name, stage in self.stages.items() if stage.is_begun}
        self.stages = begun | {name: begun.get(name) or Stage(name, one) for name, one in seconds.items()}
        self._shown = 0.0

    def tell(self, name: str, done: int, total: int, now_s: float, share: float | None = None) -> None:
        """Take note of how far a stage is; those before it have ended with its beginning.

        Parameters
        ----------
        name : str
            The stage.
        done, total : int
            How much of it is done, and how much there is.
        now_s : float
            Now.
        share : float, optional
            How much of its time that is; `done` of `total` without it.
        """
        part = share if share is not None else done / total if total > 0 else 0.0
        part = min(1.0, max(0.0, part))
        self._begun_s = now_s if self._begun_s is None else self._begun_s
        stage = self.stages.setdefault(name, Stage(name, 0.0))
        if stage.begun_s is None:
            stage.begun_s, stage.found = now_s, part
        stage.done, stage.total, stage.share, stage.ended_s = done, total, part, None
        for other in self.stages.values():
            if other is not stage and other.is_begun and other.ended_s is None:
                other.ended_s, other.share, other.done = now_s, 1.0, other.total

    @property
    def current(self) -> Stage | None:
        """The stage under way; None before the first."""
        return next((stage for stage in self.stages.values() if stage.is_begun and stage.ended_s is None), None)

    def left_s(self, now_s: float) -> float | None:
        """Reckon how long all of it is going to take from now on.

        Parameters
        ----------
        now_s : float
            Now.

        Returns
        -------
        float or None
            Seconds; None where nothing is known.
        """
        seen, over = False, False
        left = 0.0
        for stage in self.stages.values():
            # A stage that was passed by without a word is not going to come.
            over = over or stage is self.current
            if over or self._begun_s is None:
                left += stage.left_s(now_s)
                seen = seen or stage.expected_s > 0 or stage.share > stage.found
        return left if seen else None

    def share(self, now_s: float) -> float:
        """Give how much of the whole time has gone by; between expectations it never goes back.

        Parameters
        ----------
        now_s : float
            Now.

        Returns
        -------
        float
            Below 1: the end is told by whoever sees the result.
        """
        left = self.left_s(now_s)
        if left is not None and self._begun_s is not None:
            spent = now_s - self._begun_s
            self._shown = max(self._shown, min(NEARLY, spent / (spent + left) if spent + left > 0 else 0.0))
        return self._shown

    def measured(self, now_s: float) -> dict[str, float]:
        """Give how long the stages took that have ended.

        Parameters
        ----------
        now_s : float
            Now, for the one under way where all of it is done.

        Returns
        -------
        dict of str to float
            Seconds; stages of which much was found done are left out, since they say little of the next time.
        """
        found = {}
        for name, stage in self.stages.items():
            until = stage.ended_s if stage.ended_s is not None else now_s if stage.share >= 1 else None
            if stage.begun_s is not None and until is not None and stage.found < 0.25:
                found[name] = round(until - stage.begun_s, 3)
        return found
