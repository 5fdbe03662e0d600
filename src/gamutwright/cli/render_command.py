"""`gamutwright render` and `gamutwright package`: a checked script becomes a film, or all that a lesson consists of."""

from __future__ import annotations

import gc
import time
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import Any

import typer
from rich.console import Console

from gamutwright.cli.progress import stage_bars
from gamutwright.codec import Plain, digest
from gamutwright.jobs.job import sources_digest
from gamutwright.jobs.packs import installed_packs
from gamutwright.jobs.record import recall, remember
from gamutwright.jobs.store import Store, store_for
from gamutwright.series.stagewords import STAGE_WORDS
from gamutwright.settings import Settings

__all__ = ["STOPPED", "Wanted", "run"]

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
    settings : Settings
        Look and voice.
    is_draft : bool
        Whether a script with unproved statements is rendered, with a mark on every frame.
    store : Path or None
        Folder of intermediate results.
    workers : int or None
        How many processes.
    is_package : bool
        Whether everything that belongs to the lesson is made, not only the film.
    adds : bool
        Whether the folder may hold other things, which stay as they are.
    """

    script: Path
    output: Path | None = None
    settings: Settings = field(default_factory=Settings)
    is_draft: bool = False
    store: Path | None = None
    workers: int | None = None
    is_package: bool = False
    adds: bool = False

    @property
    def folder(self) -> Path:
        """Where the files go."""
        name = self.script.parent.name if self.script.stem == "script" else self.script.stem
        return self.output or Path("out") / (name or "film")

    @property
    def key(self) -> str:
        """Digest of everything but the inputs: where, how, and by which program."""
        look = self.settings
        how = [str(self.script.resolve()), str(self.folder.resolve()), look.size, look.theme, self.is_draft]
        files = (look.piper, look.lexicon, look.soundfont)
        voice = [look.rate, look.pitch, *(str(path.resolve()) if path else "" for path in files), *look.instruments]
        voice += ["for", *look.written_for, str(look.play_along)]
        return digest(["package" if self.is_package else "film", sources_digest(), installed_packs(), how, voice])


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
    from gamutwright.lessons.parse import load
    from gamutwright.stages import choices_of, make_film

    # A lesson is many small records that all stay; looking through them for rubbish takes a tenth of a short run.
    gc.set_threshold(100_000)
    inputs = wanted.settings.inputs(wanted.script)
    script = load(wanted.script)
    choices = choices_of(wanted.settings, script, wanted.script)
    choices = replace(choices, is_draft=wanted.is_draft, adds=wanted.adds)
    with stage_bars(STAGE_WORDS) as tell:
        if wanted.is_package:
            from gamutwright.packaging import make_package

            package = make_package(script, wanted.folder, choices, progress=tell, store=store, workers=wanted.workers)
            line, kept = package.lesson.timeline, package.kept
            files = (*(package.folder / name for name in package.files), package.bundle)
        else:
            made = make_film(script, wanted.folder, choices, progress=tell, store=store, workers=wanted.workers)
            line, kept, files = made.timeline, made.kept, made.files
    told: dict[str, Plain] = {
        "files": [str(file) for file in files],
        "seconds": line.ticks / 48_000,
        "lines": len(line.lines),
        "captions": len(line.captions),
        "chapters": len(line.chapters),
    }
    remember(store, wanted.key, inputs, files, told)
    return told | {"kept": [str(folder) for folder in kept]}


def _print_made(console: Console, told: dict[str, Any], seconds: float, *, is_new: bool) -> None:
    files, length = told["files"], told["seconds"]
    for file in files if isinstance(files, Iterable) else ():
        console.print(f"{file}  {Path(str(file)).stat().st_size / 1e6:.2f} MB")
    heard = float(length) if isinstance(length, int | float) else 0.0
    how = f"{heard / seconds:.1f} times as fast as it plays" if is_new else "nothing has changed since it was made"
    console.print(
        f"{int(heard) // 60} min {int(heard) % 60:02d} s of film in {seconds:.1f} s, {how}; {told['lines']} lines, "
        f"{told['captions']} captions, {told['chapters']} chapters"
    )
    for folder in told.get("kept", ()):
        console.print(f"What was replaced is in {folder}; copy it back from there to have it again.")
    console.print("Listen at a moderate level: a file cannot know how loud it is played.", style="dim")
