"""Bars on standard error, one for each stage of a long piece of work, with the time that is left."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager

from rich.console import Console
from rich.progress import BarColumn, Progress, TaskID, TextColumn, TimeElapsedColumn, TimeRemainingColumn

__all__ = ["Tell", "stage_bars"]

Tell = Callable[[str, int, int], None]
"""Told the stage, how much of it is done, and how much there is."""


@contextmanager
def stage_bars(words: Mapping[str, str] | None = None, *, is_transient: bool = False) -> Iterator[Tell]:
    """Draw a bar for each stage as it is told of.

    Parameters
    ----------
    words : mapping of str to str, optional
        What stages are called; their own names without it.
    is_transient : bool
        Whether the bars vanish at the end.

    Yields
    ------
    callable
        Told the stage, what of it is done, and what there is.
    """
    bar = Progress(
        TextColumn("{task.description}", justify="left"),
        BarColumn(),
        TextColumn("{task.completed}/{task.total}"),
        TimeElapsedColumn(),
        TextColumn("left"),
        TimeRemainingColumn(),
        console=Console(stderr=True),
        transient=is_transient,
    )
    tasks: dict[str, TaskID] = {}

    def tell(stage: str, done: int, total: int) -> None:
        if stage not in tasks:
            tasks[stage] = bar.add_task((words or {}).get(stage, stage), total=total)
        bar.update(tasks[stage], completed=done, total=total)

    with bar:
        yield tell
