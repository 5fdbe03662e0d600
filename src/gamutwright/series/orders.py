"""A lesson to be made, as data that any process can take up, and its making: the work of a job.

A process that sees the course's folder makes the package in its place. One that does not is sent the files of the
lesson, makes the package in a folder of its own, and sends back the zip.

Conventions: names of files are those within the course, so that they are the same wherever it lies.
"""

from __future__ import annotations

import tempfile
import time
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from gamutwright.codec import to_plain
from gamutwright.errors import FileError
from gamutwright.jobs.outfolder import CRATE, listed_files
from gamutwright.jobs.store import Parcel, Store, store_for
from gamutwright.jobs.telling import tell
from gamutwright.lessons.script import Script
from gamutwright.publish.told_lesson import Sibling
from gamutwright.settings import Settings

__all__ = ["Order", "input_name", "make_lesson", "packed_inputs"]


@dataclass(frozen=True, slots=True)
class Order:
    """A lesson to be made, so that any process can make it.

    Parameters
    ----------
    slug : str
        Its name.
    script, folder : Path
        Where its script lies and where its package goes.
    store : Path
        Where intermediate results are kept.
    settings : Settings
        Look and voice.
    siblings : tuple of Sibling
        The lessons it points to.
    workers : int or None
        How many processes one lesson may use; those there are without it.
    files : tuple of (str, bytes)
        Everything it is made from, for a process that does not see the places above; () for one that does.
    parts : mapping of str to str
        Digests of what settles its package, by what they are of.
    aside : Path, optional
        Where what is replaced goes.
    address : str
        Where its package is going to be on the web; "" where that is not known.
    """

    slug: str
    script: Path
    folder: Path
    store: Path
    settings: Settings
    siblings: tuple[Sibling, ...]
    workers: int | None = None
    files: tuple[tuple[str, bytes], ...] = ()
    parts: Mapping[str, str] = field(default_factory=dict)
    aside: Path | None = None
    address: str = ""


def input_name(path: Path, home: Path, settings: Settings) -> str:
    """Name a file that a lesson is made from, wherever the course lies.

    Parameters
    ----------
    path : Path
        The file.
    home : Path
        The folder of the lesson.
    settings : Settings
        Which files are those of the voice.

    Returns
    -------
    str
        Its place within the lesson, or below `voice`.

    Examples
    --------
    >>> input_name(Path("lessons/dorian/takes"), Path("lessons/dorian"), Settings())
    'takes'
    """
    folders = (("voice", settings.voice_files), ("instruments", settings.instrument_files))
    name = next((f"{name}/{path.name}" for name, files in folders if path in files), "")
    return name or path.relative_to(home).as_posix()


def packed_inputs(order: Order) -> tuple[tuple[str, bytes], ...]:
    """Read everything that a lesson is made from.

    Parameters
    ----------
    order : Order
        The lesson.

    Returns
    -------
    tuple of (str, bytes)
        Names and contents.

    Raises
    ------
    FileError
        If a file cannot be read.
    """
    home = order.script.parent
    found = []
    try:
        for path in order.settings.inputs(order.script):
            children = sorted(child for child in path.rglob("*") if child.is_file()) if path.is_dir() else [path]
            for child in children:
                if child.is_file():
                    name = input_name(path, home, order.settings)
                    name += "/" + child.relative_to(path).as_posix() if path.is_dir() else ""
                    found.append((name, child.read_bytes()))
    except OSError as error:
        raise FileError(str(home), f"it cannot be read ({error.strerror or error})", "Check its files.") from error
    return tuple(found)


def make_lesson(order: Order) -> Parcel:
    """Make a lesson's package; the work of a job.

    Parameters
    ----------
    order : Order
        What is made.

    Returns
    -------
    Parcel
        Names and digests of its files and the length of its film; where its files were sent along, the zip too.

    Raises
    ------
    GamutwrightError
        If it cannot be made.
    """
    if not order.files:
        return _made(order, Store(order.store))
    with tempfile.TemporaryDirectory() as place:
        home = Path(place, "lessons", order.slug)
        for name, content in order.files:
            path = (Path(place) if name.startswith(("voice/", "instruments/")) else home) / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(content)
        asked = order.settings
        piper, lexicon, soundfont = (
            Path(place, input_name(path, home, asked)) if path is not None else None
            for path in (asked.piper, asked.lexicon, asked.soundfont)
        )
        there = replace(
            order,
            script=home / "script.md",
            folder=Path(place, "out", order.slug),
            settings=replace(asked, piper=piper, lexicon=lexicon, soundfont=soundfont),
            files=(),
            aside=None,
        )
        made = _made(there, store_for())
        return Parcel(made.data, (there.folder.with_name(f"{order.slug}.zip").read_bytes(),))


def _announcing(script: Script, siblings: Sequence[Sibling]) -> Script:
    """Let the last card announce the lesson that follows in the course, where the script announces none."""
    following = [sibling.title for sibling in siblings if sibling.kind == "next"]
    if not following or any(key == "next" for key, _ in script.front.others):
        return script
    return replace(script, front=replace(script.front, others=(*script.front.others, ("next", following[0]))))


def _made(order: Order, store: Store) -> Parcel:
    from gamutwright.lessons.parse import load  # noqa: PLC0415 - a build without changes needs none of these
    from gamutwright.packaging import make_package  # noqa: PLC0415 - as above
    from gamutwright.stages import choices_of  # noqa: PLC0415 - as above

    script = _announcing(load(order.script), order.siblings)
    choices = replace(choices_of(order.settings, script, order.script), aside=order.aside)
    package = make_package(
        script, order.folder, choices, progress=tell, store=store, workers=order.workers, siblings=order.siblings,
        address=order.address,
    )  # fmt: skip
    files = listed_files(order.folder)
    line = package.lesson.timeline
    told = {
        "files": files,
        "crate": CRATE,
        "title": package.lesson.title,
        "film_s": line.ticks / 48_000,
        "lines": len(line.lines),
        "captions": len(line.captions),
        "chapters": len(line.chapters),
        "built_s": time.time(),
        "took_s": round(package.seconds, 2),
        "parts": dict(order.parts),
    }
    return Parcel(to_plain(told))
