"""From a script to everything a lesson is published with, in one folder and one zip.

Everything is made beside its final place and moved there when all of it is there (`jobs.outfolder`). The ledger comes
last of what is made, since it holds every number that page, handout and quiz print; the list of digests comes after it.

Conventions: the folder is named like the lesson; file names are small letters, figures and hyphens. The date of
publication is the front matter's `date`; without it, that of the folder that is there where its content is the same,
else today's.
"""

from __future__ import annotations

import datetime as dt
import io
import json
import re
import time
import zipfile
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from gamutwright.errors import DomainError, FileError
from gamutwright.files import replace_file, write_bytes, write_text
from gamutwright.jobs.outfolder import CRATE, bundle_place, listed_files, making, published_on
from gamutwright.jobs.record import content_digest
from gamutwright.jobs.store import Store
from gamutwright.languages import language_of
from gamutwright.lessons.example_sounds import sound_cues
from gamutwright.lessons.script import Script
from gamutwright.music.asking import asked as asked_of
from gamutwright.music.performance import Performance
from gamutwright.music.pieces import PIECES, piece_of
from gamutwright.music.sounding import piece_sound
from gamutwright.publish.book import with_lesson
from gamutwright.publish.bundle import stable_zip, write_zip
from gamutwright.publish.description import publish_page
from gamutwright.publish.handout.chord_sheet import chord_sheet
from gamutwright.publish.handout.sheets import handout
from gamutwright.publish.metadata import json_ld, ro_crate
from gamutwright.publish.page.document import Media, page
from gamutwright.publish.quiz.cartridge import cartridge
from gamutwright.publish.quiz.qti import qti_files
from gamutwright.publish.quiz.selection import Quiz, printed_quiz, quiz
from gamutwright.publish.score.midi_writing import write_midi
from gamutwright.publish.score.musicxml_score import score
from gamutwright.publish.score.piece_score import piece_score
from gamutwright.publish.told_lesson import Lesson, Sibling, lesson_of
from gamutwright.render.audiofile import write_audio
from gamutwright.render.mix import mastered
from gamutwright.render.soundfont import Players
from gamutwright.stages import FILM_FILES, Choices, Progress, film_into

__all__ = ["TEXTS", "Package", "make_package", "unpack_package"]

QUESTIONS = 10
ALONG = "play-along"
"""What the files to play along with are called."""
STEPS = 6
"""What is told of the progress beside the film."""
TEXTS: dict[str, Callable[[Lesson], str]] = {
    "score.musicxml": score,
    "publish.md": publish_page,
    "metadata.jsonld": lambda lesson: json_ld(lesson) + "\n",
    "script.md": lambda lesson: lesson.script.source,
}
"""Files that a lesson writes by itself: name to what gives the text."""
_EXPECTED = (
    "film.mp4", *FILM_FILES, "index.html", "handout.pdf", "answers.pdf", "quiz.imscc", "quiz-qti3.zip", CRATE,
)  # fmt: skip


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
    kept : tuple of Path
        Folders that what was replaced can be had from.
    """

    folder: Path
    bundle: Path
    files: tuple[str, ...]
    lesson: Lesson
    seconds: float
    kept: tuple[Path, ...] = ()


def make_package(  # noqa: PLR0913 - where it goes, how it is made, and what a course knows of it
    script: Script,
    folder: Path,
    choices: Choices | None = None,
    *,
    progress: Progress | None = None,
    store: Store | None = None,
    workers: int | None = None,
    siblings: Sequence[Sibling] = (),
    address: str = "",
) -> Package:
    """Make everything a lesson is published with.

    Parameters
    ----------
    script : Script
        The script; every statement must be proved.
    folder : Path
        Where the package goes; its name becomes that of the lesson. It may be empty or have been made here.
    choices : Choices, optional
        How the film looks, who speaks, and whether the folder may hold other things.
    progress, store, workers
        As for `make_film`.
    siblings : sequence of Sibling, optional
        Other lessons of the course to point to.
    address : str
        Where the package is going to be on the web; "" where that is not known.

    Returns
    -------
    Package
        The files.

    Raises
    ------
    UnprovedError
        If a claim of the script is not proved.
    FileError
        If a file cannot be read or written, or one that is there was not made here.
    """
    begun = time.monotonic()
    chosen = choices or Choices()
    bundle = bundle_place(folder)
    _refuse_foreign(bundle)
    with making(folder, (*_EXPECTED, *TEXTS), adds=chosen.adds, is_whole=True, aside=chosen.aside) as parcel:
        place = parcel.place
        made = film_into(place, script, chosen, progress=progress, store=store, workers=workers)
        staged, style = made.staged, chosen.style
        lesson = replace(
            lesson_of(
                _slug(bundle.stem), staged.timeline.title, staged.report, staged.registry, staged.timeline,
                staged.sounds, staged.made_by,
            ),
            siblings=tuple(siblings),
        )  # fmt: skip
        told = _telling(progress)
        asked = quiz(lesson, QUESTIONS)
        heard = _sounds(place, lesson, asked, chosen.players)
        along = _play_along(place, lesson, chosen.players) if chosen.play_along else ()
        told(1)
        for name, text_of in TEXTS.items():
            write_text(place / name, text_of(lesson))
        _quiz_files(place, lesson, asked)
        told(2)
        sheets = handout(lesson, asked.questions, written_for=chosen.written_for)
        write_bytes(place / "handout.pdf", sheets.sheet)
        write_bytes(place / "answers.pdf", sheets.answers)
        told(3)
        media = Media(
            "film.mp4",
            "poster.png",
            "",
            "captions.vtt",
            style.width,
            style.height,
            _links(lesson, heard, has_along=bool(along)),
            address,
        )
        written = page(lesson, asked.questions, media=media, sounds=asked.sounds, json_ld=json_ld(lesson))
        write_text(place / "index.html", written.html)
        told(4)
        printed = (*written.printed, *sheets.printed, *along, *printed_quiz(asked))
        book = with_lesson(json.loads((place / "ledger.json").read_text(encoding="utf-8")), lesson, printed)
        write_text(place / "ledger.json", json.dumps(book, ensure_ascii=False, indent=1) + "\n")
        files = _digests(place)
        write_text(place / CRATE, ro_crate(lesson, files, _date(lesson, folder, files)) + "\n")
        told(5)
        names = tuple(sorted([*files, CRATE]))
    replace_file(bundle, lambda file: write_zip(file, folder, names, lesson.slug))
    told(STEPS)
    return Package(folder, bundle, names, lesson, time.monotonic() - begun, parcel.kept)


def unpack_package(content: bytes, folder: Path, aside: Path | None = None) -> tuple[str, ...]:
    """Put a package that was made elsewhere into its place, as if it had been made here.

    Parameters
    ----------
    content : bytes
        The zip that `make_package` wrote.
    folder : Path
        Where the package goes.
    aside : Path, optional
        The folder that what is replaced goes to; one beside the package without it.

    Returns
    -------
    tuple of str
        Names of its files. A package that is there with the same content keeps its date.

    Raises
    ------
    FileError
        If it is no package, or cannot be written.
    """
    try:
        bundle = zipfile.ZipFile(io.BytesIO(content))
    except zipfile.BadZipFile as error:
        raise _foreign(folder, str(error)) from error
    names = {entry.filename.partition("/")[2]: entry for entry in bundle.infolist()}
    if any(name.startswith("/") or ".." in name.split("/") or not name for name in names):
        raise _foreign(folder, "a name leads out of its folder")
    _refuse_foreign(bundle_place(folder))
    with making(folder, names, is_whole=True, aside=aside) as parcel:
        for name, entry in names.items():
            (parcel.place / name).parent.mkdir(parents=True, exist_ok=True)
            write_bytes(parcel.place / name, bundle.read(entry))
        if listed_files(parcel.place) == listed_files(folder):
            write_bytes(parcel.place / CRATE, (folder / CRATE).read_bytes())
    replace_file(bundle_place(folder), lambda file: write_zip(file, folder, names, _slug(folder.name)))
    return tuple(sorted(names))


def _refuse_foreign(bundle: Path) -> None:
    """Refuse to replace a zip that is no package."""
    if not bundle.exists():
        return
    try:
        with zipfile.ZipFile(bundle) as there:
            is_package = any(name.endswith(f"/{CRATE}") for name in there.namelist())
    except (OSError, ValueError, zipfile.BadZipFile):
        is_package = False
    if not is_package:
        raise FileError(
            str(bundle),
            "the zip of the package goes there, and what is there is none",
            "Move it away, or choose another folder.",
        )


def _foreign(folder: Path, why: str) -> FileError:
    return FileError(str(folder), f"what came is no package ({why})", "Build the lesson again.")


def _telling(progress: Progress | None) -> Callable[[int], None]:
    return (lambda done: progress("package", done, STEPS)) if progress else lambda _done: None


def _slug(name: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", name.casefold()).strip("-") or "lesson"


def _sounds(place: Path, lesson: Lesson, asked: Quiz, players: Players) -> dict[str, Path]:
    """Write what the film plays, as sound and as events, as a score where it has bars; and what the quiz plays."""
    (place / "sounds").mkdir(exist_ok=True)
    written: dict[str, Path] = {}
    for key, sound in lesson.sounds.items():
        path = place / "sounds" / f"{_slug(key)}.flac"
        write_audio(path, mastered(players.signal(sound)))
        write_midi(path.with_suffix(".mid"), sound)
        written[key] = path
    for cue in sound_cues(lesson.script):
        if cue.kind in PIECES:
            wish, performance = asked_of(cue.options)
            piece = piece_of(cue.kind, lesson.scale, wish)
            scored = piece_score(piece, lesson.language, performance.tempo)
            write_text(place / "sounds" / f"{_slug(cue.id)}.musicxml", scored)
    for key, sound in asked.sounds.items():
        write_audio(place / "sounds" / f"{key}.m4a", mastered(players.signal(sound)))
    return written


def _quiz_files(place: Path, lesson: Lesson, asked: Quiz) -> None:
    sounds = {f"{key}.m4a": (place / "sounds" / f"{key}.m4a").read_bytes() for key in asked.sounds}
    write_bytes(place / "quiz.imscc", cartridge(asked, lesson, sounds))
    write_bytes(place / "quiz-qti3.zip", stable_zip(qti_files(asked, lesson, sounds)))


def _play_along(place: Path, lesson: Lesson, players: Players) -> tuple[tuple[str, str], ...]:
    """Write what a learner plays along with, as sound, as events and as a sheet of chords; give what that prints."""
    try:
        piece = piece_of("play-along", lesson.scale)
    except DomainError:
        # Two tones, or a set without its root, have no chords to go between.
        return ()
    sound = piece_sound(piece, Performance())
    write_audio(place / f"{ALONG}.m4a", mastered(players.signal(sound)))
    write_midi(place / f"{ALONG}.mid", sound)
    sheet, printed = chord_sheet(lesson, piece)
    write_bytes(place / f"{ALONG}.pdf", sheet)
    return printed


def _links(lesson: Lesson, heard: Mapping[str, Path], *, has_along: bool) -> tuple[tuple[str, str], ...]:
    """Name the files that a reader may want to take along."""
    words = language_of(lesson.language).table("page")["taken"]
    files = [(f"{words['handout']} (PDF)", "handout.pdf"), (f"{words['score']} (MusicXML)", "score.musicxml")]
    if has_along:
        files += [(f"{words['along']} (M4A)", f"{ALONG}.m4a"), (f"{words['along']} (MIDI)", f"{ALONG}.mid")]
        files += [(f"{words['along-chords']} (PDF)", f"{ALONG}.pdf")]
    sounds = enumerate(heard.values(), 1)
    files += [(f"{words['sound']} {index} (FLAC)", f"sounds/{path.name}") for index, path in sounds]
    return tuple(files)


def _digests(place: Path) -> dict[str, tuple[int, str]]:
    found = {}
    for path in sorted(place.rglob("*")):
        if path.is_file():
            found[path.relative_to(place).as_posix()] = (path.stat().st_size, content_digest(path))
    return found


def _date(lesson: Lesson, folder: Path, files: Mapping[str, tuple[int, str]]) -> str:
    named = lesson.others.get("date", "")
    if re.fullmatch(r"\d{4}-\d{2}-\d{2}", named):
        return named
    if listed_files(folder) == {name: digest for name, (_, digest) in files.items()}:
        return published_on(folder)
    return dt.datetime.now(tz=dt.UTC).date().isoformat()
