"""`gamutwright render` and `gamutwright package`: a checked script becomes a film, or all that a lesson consists of."""

from __future__ import annotations

import gc
import time
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import typer
from rich.console import Console
from rich.progress import BarColumn, Progress, TaskID, TextColumn, TimeElapsedColumn, TimeRemainingColumn

from gamutwright.codec import Plain, digest
from gamutwright.jobs.model import sources_digest
from gamutwright.jobs.packs import installed_packs
from gamutwright.jobs.record import recall, remember
from gamutwright.jobs.store import Store, store_for

if TYPE_CHECKING:
    from gamutwright.render.voice import Voice

__all__ = ["SIZES", "STOPPED", "Wanted", "run"]

SIZES = {"1080p": (1920, 1080), "2160p": (3840, 2160), "720p": (1280, 720), "vertical": (1080, 1920)}
STAGES = {
    "voice": "speaking",
    "making": "drawing, sounding, encoding",
    "level": "levelling",
    "film": "joining",
    "package": "page, handout, quiz, score",
}
STOPPED = 130
"""Exit code after Ctrl-C, as shells give it."""


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is asked for on the command line.

    Parameters
    ----------
    script : Path
        The script.
    output : Path or None
        Folder of the files; `out/<name>` without it.
    size : str
        A key of `SIZES`.
    theme : str
        Name of the theme.
    is_draft : bool
        Whether a script with unproved statements is rendered, with a mark on every frame.
    store : Path or None
        Folder of intermediate results.
    workers : int or None
        How many processes.
    rate : float
        Speed of the voice.
    pitch : int
        Height of the built-in voice.
    piper : Path or None
        A Piper voice, instead of the built-in one.
    words : Path or None
        A lexicon of one's own.
    is_package : bool
        Whether everything that belongs to the lesson is made, not only the film.
    """

    script: Path
    output: Path | None = None
    size: str = "1080p"
    theme: str = "night"
    is_draft: bool = False
    store: Path | None = None
    workers: int | None = None
    rate: float = 1.0
    pitch: int = 50
    piper: Path | None = None
    words: Path | None = None
    is_package: bool = False

    @property
    def folder(self) -> Path:
        """Where the files go."""
        name = self.script.parent.name if self.script.stem == "script" else self.script.stem
        return self.output or Path("out") / (name or "film")

    @property
    def inputs(self) -> tuple[Path, ...]:
        """The script, what lies beside it and may be drawn upon, and the files of the voice."""
        beside = self.script.parent
        voice = [self.piper, self.piper.with_name(f"{self.piper.name}.json")] if self.piper else []
        return (
            self.script,
            beside / "takes",
            *sorted(beside.glob("*.txt")),
            *voice,
            *([self.words] if self.words else []),
        )

    @property
    def key(self) -> str:
        """Digest of everything but the inputs: where, how, and by which program."""
        how = [str(self.script.resolve()), str(self.folder.resolve()), self.size, self.theme, self.is_draft]
        voice = [self.rate, self.pitch, *(str(path.resolve()) if path else "" for path in (self.piper, self.words))]
        return digest(["package" if self.is_package else "film", sources_digest(), installed_packs(), how, voice])

    def voice(self, language: str) -> Voice:
        """Give the voice that speaks what is not recorded."""
        from gamutwright.render.espeak import EspeakVoice
        from gamutwright.render.piper import PiperVoice

        if self.piper:
            return PiperVoice(self.piper, language, self.rate, own_words=self.words)
        return EspeakVoice(language, self.rate, self.pitch, own_words=self.words)


def run(wanted: Wanted) -> None:
    """Render a script.

    Parameters
    ----------
    wanted : Wanted
        What is asked for.

    Raises
    ------
    typer.Exit
        With code 130 if it is stopped.
    """
    begun = time.monotonic()
    console = Console(highlight=False)
    store = Store(wanted.store) if wanted.store else store_for(wanted.script)
    told = recall(store, wanted.key)
    if isinstance(told, dict):
        _print_made(console, told, time.monotonic() - begun, is_new=False)
        return
    try:
        told = _make(wanted, store)
    except KeyboardInterrupt:
        Console(stderr=True).print("Stopped. What was finished is kept; the same command goes on from there.")
        raise typer.Exit(STOPPED) from None
    _print_made(console, told, time.monotonic() - begun, is_new=True)


def _make(wanted: Wanted, store: Store) -> dict[str, Plain]:
    # Nothing of this is needed where nothing has changed.
    from gamutwright.cli.speaking import takes_folder
    from gamutwright.lesson.parse import load
    from gamutwright.render.pictures import FilmStyle
    from gamutwright.stages import Choices, make_film

    # A lesson is many small records that all stay; looking through them for rubbish takes a tenth of a short run.
    gc.set_threshold(100_000)
    inputs = wanted.inputs
    width, height = SIZES[wanted.size]
    script = load(wanted.script)
    choices = Choices(
        FilmStyle(width, height, wanted.theme),
        wanted.voice(script.front.language),
        wanted.script.parent,
        takes_folder(wanted.script),
        wanted.is_draft,
    )
    with _progress() as tell:
        if wanted.is_package:
            from gamutwright.packaging import make_package

            package = make_package(script, wanted.folder, choices, progress=tell, store=store, workers=wanted.workers)
            line = package.lesson.timeline
            files = (*(package.folder / name for name in package.files), package.bundle)
        else:
            made = make_film(script, wanted.folder, choices, progress=tell, store=store, workers=wanted.workers)
            line, files = made.timeline, made.files
    told: dict[str, Plain] = {
        "files": [str(file) for file in files],
        "seconds": line.ticks / 48_000,
        "lines": len(line.lines),
        "captions": len(line.captions),
        "chapters": len(line.chapters),
    }
    remember(store, wanted.key, inputs, files, told)
    return told


class _Teller:
    """Draws a bar for each stage as it is told of."""

    def __init__(self, bar: Progress) -> None:
        self._bar = bar
        self._tasks: dict[str, TaskID] = {}

    def __call__(self, stage: str, done: int, total: int) -> None:
        if stage not in self._tasks:
            self._tasks[stage] = self._bar.add_task(STAGES[stage], total=total)
        self._bar.update(self._tasks[stage], completed=done)


@contextmanager
def _progress() -> Iterator[_Teller]:
    bar = Progress(
        TextColumn("{task.description}", justify="left"),
        BarColumn(),
        TextColumn("{task.completed}/{task.total}"),
        TimeElapsedColumn(),
        TextColumn("left"),
        TimeRemainingColumn(),
        console=Console(stderr=True),
    )
    with bar:
        yield _Teller(bar)


def _print_made(console: Console, told: dict[str, Plain], seconds: float, *, is_new: bool) -> None:
    files, length = told["files"], told["seconds"]
    for file in files if isinstance(files, Iterable) else ():
        console.print(f"{file}  {Path(str(file)).stat().st_size / 1e6:.2f} MB")
    heard = float(length) if isinstance(length, int | float) else 0.0
    how = f"{heard / seconds:.1f} times as fast as it plays" if is_new else "nothing has changed since it was made"
    console.print(
        f"{int(heard) // 60} min {int(heard) % 60:02d} s of film in {seconds:.1f} s, {how}; {told['lines']} lines, "
        f"{told['captions']} captions, {told['chapters']} chapters"
    )
    console.print("Listen at a moderate level: a file cannot know how loud it is played.", style="dim")
