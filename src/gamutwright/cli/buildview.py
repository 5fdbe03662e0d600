"""The view of a build while it runs: what is being made by whom, what is done, and how much time is left.

Conventions: on a terminal it is redrawn in place; elsewhere a line is printed as each lesson ends. The time left comes
of the lengths of the lessons that are done and those that are not.
"""

from __future__ import annotations

import time
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import TracebackType
from typing import Self

from rich.console import Console, Group
from rich.live import Live
from rich.table import Table
from rich.text import Text

from gamutwright.jobs.outcome import Event
from gamutwright.series.building import Built, Condition
from gamutwright.series.stagewords import stage_words

__all__ = ["BuildView", "duration"]

_SHOWN = 12
"""Lessons in the making that are listed; further ones are counted."""


def duration(seconds: float) -> str:
    """Write a length of time as people say it.

    Parameters
    ----------
    seconds : float
        The length.

    Returns
    -------
    str
        Hours and minutes, minutes and seconds, or seconds.

    Examples
    --------
    >>> duration(7_260), duration(75), duration(8.4)
    ('2 h 01 min', '1 min 15 s', '8 s')
    """
    whole = round(seconds)
    if whole >= 3600:
        return f"{whole // 3600} h {whole // 60 % 60:02d} min"
    return f"{whole // 60} min {whole % 60:02d} s" if whole >= 60 else f"{whole} s"


@dataclass(slots=True)
class _Running:
    begun_s: float
    worker: str
    stage: str = "begins"
    done: int = 0
    total: int = 0


@dataclass(slots=True)
class BuildView:
    """Shows a build.

    Parameters
    ----------
    console : Console
        Where.
    costs : mapping of str to float
        The lessons that are built, by slug, with a number that grows with the time each takes.
    where : str
        Who builds, in words.
    """

    console: Console
    costs: Mapping[str, float]
    where: str
    _running: dict[str, _Running] = field(default_factory=dict)
    _ended: list[Built] = field(default_factory=list)
    _begun_s: float = field(default_factory=time.monotonic)
    _note: str = ""
    _live: Live | None = None

    def __enter__(self) -> Self:
        if self.console.is_terminal:
            self._live = Live(console=self.console, get_renderable=self._drawn, refresh_per_second=8, transient=True)
            self._live.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._live:
            self._live.stop()

    def told(self, slug: str, event: Event) -> None:
        """Take note of something that happened.

        Parameters
        ----------
        slug : str
            The lesson; "" for none.
        event : Event
            What happened.
        """
        if event.kind == "begun":
            self._running[slug] = _Running(time.monotonic(), event.worker)
        elif event.kind == "stage" and slug in self._running:
            running = self._running[slug]
            running.stage, running.done, running.total = stage_words(event.detail), event.done, event.total
        elif event.kind == "lost":
            self._running.pop(slug, None)
            self._say(
                f"{slug}: its worker died; it is tried again ({event.detail})"
                if event.detail
                else f"{slug}: its worker died"
            )
        elif event.kind == "again":
            self._say(f"{slug}: it takes long, and was given to another worker as well")
        elif event.kind in {"waiting", "workers"}:
            self._say(event.detail)

    def ended(self, one: Built) -> None:
        """Take note of what became of a lesson.

        Parameters
        ----------
        one : Built
            What became of it.
        """
        self._running.pop(one.slug, None)
        self._ended.append(one)
        count = f"{len(self._ended)}/{len(self.costs)}"
        if one.condition is Condition.FAILED:
            self.console.print(Text(f"{count}  {one.slug}: failed: {one.detail}", style="bold red"))
        else:
            self.console.print(Text(f"{count}  {one.slug}: built in {one.seconds:.1f} s"))
        if self._live:
            self._live.refresh()

    def _say(self, text: str) -> None:
        if text and text != self._note:
            self._note = text
            self.console.print(Text(text, style="yellow"))

    def seconds_left(self) -> float | None:
        """Reckon how long it is going to take; None before the first lesson has ended.

        Returns
        -------
        float or None
            Seconds.
        """
        done = sum(self.costs.get(one.slug, 0.0) for one in self._ended)
        if not done:
            return None
        return (sum(self.costs.values()) - done) * (time.monotonic() - self._begun_s) / done

    def _drawn(self) -> Group:
        failed = sum(one.condition is Condition.FAILED for one in self._ended)
        left = self.seconds_left()
        head = Text(f"{len(self._ended)} of {len(self.costs)} lessons", style="bold")
        head.append(f", {failed} failed" if failed else "", style="bold red")
        head.append(f" · {duration(time.monotonic() - self._begun_s)}", style="dim")
        head.append(f" · about {duration(left)} left" if left is not None else "", style="dim")
        head.append(f" · {self.where} · Ctrl-C stops; what is finished is kept", style="dim")
        table = Table.grid(padding=(0, 2))
        for slug, running in list(self._running.items())[:_SHOWN]:
            amount = f"{running.done}/{running.total}" if running.total else ""
            table.add_row(
                Text(slug), Text(running.stage), Text(amount, justify="right"),
                Text(duration(time.monotonic() - running.begun_s), style="dim"), Text(running.worker, style="dim"),
            )  # fmt: skip
        more = len(self._running) - _SHOWN
        return Group(head, table, Text(f"and {more} more", style="dim") if more > 0 else Text())
