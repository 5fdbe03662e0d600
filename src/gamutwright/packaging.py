"""From a script to everything a lesson is published with, in one folder and one zip.

The folder is made beside its final place and moved there in one step, so that nobody meets half of one; what a teacher
has put into the old folder goes along. The ledger comes last of what is made, since it holds every number that page,
handout and quiz print; the list of digests comes after it.

Conventions: the folder is named like the lesson; file names are small letters, figures and hyphens. The date of
publication is the front matter's `date`; without it, that of the folder that is there where its content is the same,
else today's.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import hashlib
import json
import os
import re
import shutil
import time
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from gamutwright.errors import FileError
from gamutwright.files import is_running, replace_file, write_bytes, write_text
from gamutwright.jobs.store import Store
from gamutwright.lesson.script import Script
from gamutwright.publish.book import with_lesson
from gamutwright.publish.bundle import stable_zip, write_zip
from gamutwright.publish.cartridge import cartridge
from gamutwright.publish.description import publish_page
from gamutwright.publish.handout import handout, printed_handout
from gamutwright.publish.lesson import Lesson, lesson_of
from gamutwright.publish.metadata import json_ld, ro_crate
from gamutwright.publish.midi import write_midi
from gamutwright.publish.page import Media, page, printed_page
from gamutwright.publish.qti import qti_files
from gamutwright.publish.quiz import Quiz, printed_quiz, quiz
from gamutwright.publish.score import score
from gamutwright.render.audiofile import write_audio
from gamutwright.render.mix import mastered
from gamutwright.render.signal import Signal
from gamutwright.stages import Choices, Progress, make_film

__all__ = ["Package", "make_package"]

CRATE = "ro-crate-metadata.json"
QUESTIONS = 10
STEPS = 6
"""What is told of the progress beside the film."""


@dataclass(frozen=True, slots=True, eq=False)
class Package:
    """What was made.

    Parameters
    ----------
    folder, bundle : Path
        The folder, and the zip beside it.
    files : tuple of str
        Names of all files in the folder.
    lesson : Lesson
        What it was made from.
    seconds : float
        How long the making took.
    """

    folder: Path
    bundle: Path
    files: tuple[str, ...]
    lesson: Lesson
    seconds: float


def make_package(
    script: Script,
    folder: Path,
    choices: Choices | None = None,
    *,
    progress: Progress | None = None,
    store: Store | None = None,
    workers: int | None = None,
) -> Package:
    """Make everything a lesson is published with.

    Parameters
    ----------
    script : Script
        The script; every statement must be proved.
    folder : Path
        Where the package goes; its name becomes that of the lesson.
    choices : Choices, optional
        How the film looks and who speaks.
    progress, store, workers
        As for `make_film`.

    Returns
    -------
    Package
        The files.

    Raises
    ------
    UnprovedError
        If a claim of the script is not proved.
    FileError
        If a file cannot be read or written.
    """
    begun = time.monotonic()
    chosen = choices or Choices()
    with _workplace(folder) as place:
        made = make_film(script, place, chosen, progress=progress, store=store, workers=workers)
        staged, style = made.staged, chosen.style
        lesson = lesson_of(
            _slug(folder.name), staged.timeline.title, staged.report, staged.registry, staged.timeline, staged.sounds,
            staged.made_by,
        )  # fmt: skip
        told = _telling(progress)
        asked = quiz(lesson, QUESTIONS)
        heard = _sounds(place, lesson, asked)
        told(1)
        write_text(place / "score.musicxml", score(lesson))
        _quiz_files(place, lesson, asked)
        told(2)
        sheets = handout(lesson, asked.questions)
        write_bytes(place / "handout.pdf", sheets.sheet)
        write_bytes(place / "answers.pdf", sheets.answers)
        told(3)
        media = Media("film.mp4", "poster.png", "", "captions.vtt", style.width, style.height, _links(lesson, heard))
        described = json_ld(lesson)
        write_text(
            place / "index.html", page(lesson, asked.questions, media=media, sounds=asked.sounds, json_ld=described)
        )
        write_text(place / "metadata.jsonld", described + "\n")
        write_text(place / "publish.md", publish_page(lesson))
        write_text(place / "script.md", script.source)
        told(4)
        printed = (
            *printed_page(lesson, asked.questions, media=media, sounds=asked.sounds),
            *printed_handout(lesson, asked.questions),
            *printed_quiz(asked),
        )
        book = with_lesson(json.loads((place / "ledger.json").read_text(encoding="utf-8")), lesson, printed)
        write_text(place / "ledger.json", json.dumps(book, ensure_ascii=False, indent=1) + "\n")
        files = _digests(place)
        write_text(place / CRATE, ro_crate(lesson, files, _date(lesson, folder, files)) + "\n")
        told(5)
        names = tuple(sorted([*files, CRATE]))
    bundle = folder.with_name(f"{folder.name}.zip")
    replace_file(bundle, lambda file: write_zip(file, folder, names, lesson.slug))
    told(STEPS)
    return Package(folder, bundle, names, lesson, time.monotonic() - begun)


def _telling(progress: Progress | None) -> Callable[[int], None]:
    return (lambda done: progress("package", done, STEPS)) if progress else lambda _done: None


def _slug(name: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", name.casefold()).strip("-") or "lesson"


def _sounds(place: Path, lesson: Lesson, asked: Quiz) -> dict[str, Path]:
    """Write what the film plays, as sound and as events, and what the quiz asks to listen to."""
    (place / "sounds").mkdir(exist_ok=True)
    written: dict[str, Path] = {}
    for key, sound in lesson.sounds.items():
        path = place / "sounds" / f"{_slug(key)}.flac"
        write_audio(path, mastered(Signal.of_sound(sound)))
        write_midi(path.with_suffix(".mid"), sound)
        written[key] = path
    for key, sound in asked.sounds.items():
        write_audio(place / "sounds" / f"{key}.m4a", mastered(Signal.of_sound(sound)))
    return written


def _quiz_files(place: Path, lesson: Lesson, asked: Quiz) -> None:
    sounds = {f"{key}.m4a": (place / "sounds" / f"{key}.m4a").read_bytes() for key in asked.sounds}
    write_bytes(place / "quiz.imscc", cartridge(asked, lesson, sounds))
    write_bytes(place / "quiz-qti3.zip", stable_zip(qti_files(asked, lesson, sounds)))


def _links(lesson: Lesson, heard: Mapping[str, Path]) -> tuple[tuple[str, str], ...]:
    """Name the files that a reader may want to take along."""
    names = {"en": ("Handout", "Score", "Sound"), "de": ("Arbeitsblatt", "Noten", "Klang")}
    sheet, notes, sound = names.get(lesson.language, names["en"])
    files = [(f"{sheet} (PDF)", "handout.pdf"), (f"{notes} (MusicXML)", "score.musicxml")]
    files += [(f"{sound} {index} (FLAC)", f"sounds/{path.name}") for index, path in enumerate(heard.values(), 1)]
    return tuple(files)


def _digests(place: Path) -> dict[str, tuple[int, str]]:
    found = {}
    for path in sorted(place.rglob("*")):
        if path.is_file():
            with path.open("rb") as file:
                digest = hashlib.file_digest(file, "sha256").hexdigest()
            found[path.relative_to(place).as_posix()] = (path.stat().st_size, digest)
    return found


def _listed(folder: Path) -> dict[str, str]:
    """Give the names and digests of the files of a package that is there; {} where none is."""
    try:
        graph = json.loads((folder / CRATE).read_text(encoding="utf-8"))["@graph"]
        return {entry["@id"]: entry["sha256"] for entry in graph if entry.get("@type") == "File"}
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return {}


def _date(lesson: Lesson, folder: Path, files: Mapping[str, tuple[int, str]]) -> str:
    named = lesson.others.get("date", "")
    if re.fullmatch(r"\d{4}-\d{2}-\d{2}", named):
        return named
    if _listed(folder) == {name: digest for name, (_, digest) in files.items()}:
        graph = json.loads((folder / CRATE).read_text(encoding="utf-8"))["@graph"]
        return str(next(entry["datePublished"] for entry in graph if entry["@id"] == "./"))
    return dt.datetime.now(tz=dt.UTC).date().isoformat()


@contextlib.contextmanager
def _workplace(folder: Path) -> Iterator[Path]:
    """Give a folder beside the final place; move it there in one step when all went well."""
    try:
        folder.parent.mkdir(parents=True, exist_ok=True)
        _recover(folder)
        place = folder.with_name(f".{folder.name}-{os.getpid()}-new")
        shutil.rmtree(place, ignore_errors=True)
        place.mkdir()
    except OSError as error:
        raise FileError(
            str(folder), f"it cannot be made ({error.strerror or error})", "Choose another place, or make room."
        ) from error
    try:
        yield place
        _move(place, folder)
    finally:
        shutil.rmtree(place, ignore_errors=True)


def _move(place: Path, folder: Path) -> None:
    """Put the new folder where the old one was; files that were not made here are carried over."""
    old = folder.with_name(f".{folder.name}-{os.getpid()}-old")
    try:
        if folder.is_dir():
            made = {*_listed(folder), CRATE} if _listed(folder) else set()
            for path in sorted(folder.rglob("*")):
                name = path.relative_to(folder)
                if path.is_file() and name.as_posix() not in made and not (place / name).exists():
                    (place / name).parent.mkdir(parents=True, exist_ok=True)
                    shutil.copy2(path, place / name)
            folder.rename(old)
        place.rename(folder)
    except OSError as error:
        if old.is_dir() and not folder.exists():
            old.rename(folder)
        raise FileError(
            str(folder), f"it cannot be written ({error.strerror or error})", "Choose another place, or make room."
        ) from error
    shutil.rmtree(old, ignore_errors=True)


def _recover(folder: Path) -> None:
    """Clear away what a killed program left, and put back a folder that it had just moved aside."""
    for left in sorted(folder.parent.glob(f".{folder.name}-*-*")):
        number, _, kind = left.name.removeprefix(f".{folder.name}-").partition("-")
        if not number.isdigit() or kind not in {"new", "old"} or is_running(int(number)):
            continue
        if kind == "old" and not folder.exists():
            left.rename(folder)
        else:
            shutil.rmtree(left, ignore_errors=True)
