"""`gamutwright render`: a checked script becomes a film, with captions, chapters and ledger beside it."""

from __future__ import annotations

from pathlib import Path

from rich.console import Console
from rich.progress import BarColumn, Progress, TaskID, TextColumn, TimeElapsedColumn, TimeRemainingColumn

from gamutwright.cli.speaking import takes_folder
from gamutwright.lesson.parse import load
from gamutwright.render.video import FilmStyle
from gamutwright.stages import Made, make_film

__all__ = ["SIZES", "run"]

SIZES = {"1080p": (1920, 1080), "2160p": (3840, 2160), "720p": (1280, 720), "vertical": (1080, 1920)}
STAGES = {"voice": "speaking", "sound": "mixing", "film": "drawing and encoding"}


def run(path: Path, *, output: Path | None, size: str, theme: str, is_draft: bool) -> None:
    """Render a script.

    Parameters
    ----------
    path : Path
        The script.
    output : Path or None
        Folder of the files; `out/<name>` without it.
    size : str
        A key of `SIZES`.
    theme : str
        Name of the theme.
    is_draft : bool
        Whether a script with unproved statements is rendered, with a mark on every frame.
    """
    script = load(path)
    name = path.parent.name if path.stem == "script" else path.stem
    width, height = SIZES[size]
    bar = Progress(
        TextColumn("{task.description}", justify="left"),
        BarColumn(),
        TextColumn("{task.completed}/{task.total}"),
        TimeElapsedColumn(),
        TextColumn("left"),
        TimeRemainingColumn(),
        console=Console(stderr=True),
    )
    tasks: dict[str, TaskID] = {}

    def tell(stage: str, done: int, total: int) -> None:
        if stage not in tasks:
            tasks[stage] = bar.add_task(STAGES[stage], total=total)
        bar.update(tasks[stage], completed=done)

    with bar:
        made = make_film(
            script,
            output or Path("out") / (name or "film"),
            style=FilmStyle(width, height, theme),
            takes=takes_folder(path),
            is_draft=is_draft,
            progress=tell,
        )
    _print_made(Console(highlight=False), made)


def _print_made(console: Console, made: Made) -> None:
    length = made.timeline.ticks / 48_000
    for file in made.files:
        console.print(f"{file}  {file.stat().st_size / 1e6:.2f} MB")
    console.print(
        f"{int(length) // 60} min {int(length) % 60:02d} s of film in {made.seconds:.1f} s, "
        f"{length / made.seconds:.1f} times as fast as it plays; {len(made.timeline.lines)} lines, "
        f"{len(made.timeline.captions)} captions, {len(made.timeline.chapters)} chapters"
    )
    console.print("Listen at a moderate level: a file cannot know how loud it is played.", style="dim")
