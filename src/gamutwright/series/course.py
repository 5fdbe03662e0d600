"""A course as its teacher writes it down: `series.toml` beside a folder of lessons.

    course/  series.toml  lessons/<slug>/script.md  lessons/<slug>/takes/  out/<slug>/  .gamutwright/

The file says what holds for every lesson (title, language, levels, length, look, voice, tuning) and which scales there
are lessons about: a list, a question to the catalogue, or both. A lesson's script stays the place of everything that is
said in it; a folder with a script belongs to the course whether it is listed or not.

Conventions: keys are read strictly, so that a slip of the pen is told and not passed over; paths are relative to the
course's folder. Once it is there, nothing is written into `series.toml` but what
`course_settings` may.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass, field
from pathlib import Path
from typing import Annotated, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, StringConstraints, ValidationError, field_validator

from gamutwright.errors import FileError, InputError
from gamutwright.files import is_device, make_folder, write_text
from gamutwright.languages import known_languages
from gamutwright.lessons.front import MOST_MINUTES

__all__ = [
    "FILE_NAME",
    "SLUG",
    "Course",
    "Film",
    "LessonWish",
    "Music",
    "Scales",
    "Voicing",
    "begin_course",
    "is_slug",
    "read_course",
]

FILE_NAME = "series.toml"
SLUG = r"[a-z0-9]+(-[a-z0-9]+)*"
"""Names of lessons: small letters, figures and single hyphens, since they become folders and addresses."""
LONGEST_SLUG = 64
_LARGEST_WHOLE = 1_000_000
"""Of any length or speed; what is larger is refused as it is written."""

Level = Literal["foundation", "further", "research"]


def _known(tag: str) -> str:
    """Take the tag of a language that lessons can be worded in."""
    if tag not in known_languages():
        message = f"it is one of the languages {', '.join(known_languages())}"
        raise ValueError(message)
    return tag


def _no_device(slug: str) -> str:
    if is_device(slug):
        message = "it is a name that Windows keeps for a device, so no folder can have it there"
        raise ValueError(message)
    return slug


def _is_text(value: object) -> bool:
    return isinstance(value, str)


Language = Annotated[str, AfterValidator(_known)]
Minutes = Annotated[float, Field(gt=0, le=MOST_MINUTES)]
Divisions = Annotated[int, Field(ge=2, le=72)]
OneLine = Annotated[str, StringConstraints(max_length=200, pattern=r"^[^\x00-\x1f]*$", strip_whitespace=True)]


class _Part(BaseModel):
    model_config = ConfigDict(extra="forbid", frozen=True, strict=True)


class Film(_Part):
    """How films look.

    Parameters
    ----------
    size : str
        Size of the frame.
    theme : str
        Colours.
    """

    size: Literal["1080p", "2160p", "720p", "vertical"] = "1080p"
    theme: Literal["night", "light"] = "night"


class Voicing(_Part):
    """Who speaks what is not recorded.

    Parameters
    ----------
    rate : float in [0.7, 3]
        Speed.
    pitch : int in [0, 99]
        Height of the built-in voice.
    piper, lexicon : str
        Files: a Piper voice instead of the built-in one, and a lexicon of one's own; "" for none.
    """

    rate: Annotated[float, Field(ge=0.7, le=3)] = 1.0
    pitch: Annotated[int, Field(ge=0, le=99)] = 50
    piper: str = ""
    lexicon: str = ""


class Sounding(_Part):
    """On what examples are played.

    Parameters
    ----------
    soundfont : str
        A SoundFont instead of the built-in instruments; "" for none.
    instruments : tuple of str
        Its instruments for the parts, such as `tune=flute`.
    """

    soundfont: str = ""
    instruments: Annotated[tuple[OneLine, ...], Field(max_length=16)] = ()

    @field_validator("instruments", mode="before")
    @classmethod
    def _listed(cls, value: object) -> object:
        return tuple(value) if isinstance(value, list) else value


class Music(_Part):
    """What packages hold for players.

    Parameters
    ----------
    written_for : tuple of str
        Keys of transposing instruments that get a page of music of their own in the handout.
    play_along : bool
        Whether each package has a minute or two of its chords to play along with.
    """

    written_for: Annotated[tuple[Literal["Bb", "Eb", "F"], ...], Field(max_length=3)] = ()
    play_along: bool = True

    @field_validator("written_for", mode="before")
    @classmethod
    def _listed(cls, value: object) -> object:
        return tuple(dict.fromkeys(value)) if isinstance(value, list) and all(map(_is_text, value)) else value


class Scales(_Part):
    """Scales by a question to the catalogue.

    Parameters
    ----------
    query : str
        A condition over the catalogue's columns, as `gamutwright find` takes it; "" for none.
    sort : tuple of str
        Columns to sort by, with a minus sign in front for the largest first.
    most : int
        How many scales at most.
    root : str
        The root of all of them.
    """

    query: str = ""
    sort: tuple[str, ...] = ()
    most: Annotated[int, Field(ge=1, le=100_000)] = 40
    root: str = "C"

    @field_validator("sort", mode="before")
    @classmethod
    def _listed(cls, value: object) -> object:
        return tuple(value) if isinstance(value, list) else value


class LessonWish(_Part):
    """A lesson that the course asks for.

    Parameters
    ----------
    scale : str
        The scale, in any input form.
    slug : str
        Its folder below `lessons`; made from the scale where it is "".
    language, level : str
        Where they differ from the course's; "" otherwise.
    minutes, divisions : float, int
        Where they differ from the course's; 0 otherwise.
    """

    scale: OneLine
    slug: Annotated[
        str, StringConstraints(max_length=LONGEST_SLUG, pattern=rf"^({SLUG})?$"), AfterValidator(_no_device)
    ] = ""
    language: Language | Literal[""] = ""
    level: Level | Literal[""] = ""
    minutes: Annotated[float, Field(ge=0, le=MOST_MINUTES)] = 0.0
    divisions: Annotated[int, Field(ge=0, le=72)] = 0


class _File(_Part):
    title: Annotated[OneLine, Field(min_length=1)]
    imprint: OneLine = ""
    address: Annotated[str, StringConstraints(max_length=300, pattern=r"^(https?://[^\s<>\"']+)?$")] = ""
    language: Language = "en"
    level: Level | tuple[Level, ...] = "further"
    minutes: Minutes = 6.0
    divisions: Divisions = 12
    order: Literal["listed", "planned"] = "planned"
    film: Film = Film()
    voice: Voicing = Voicing()
    sound: Sounding = Sounding()
    music: Music = Music()
    scales: Scales = Scales()
    lesson: tuple[LessonWish, ...] = ()

    @field_validator("level", "lesson", mode="before")
    @classmethod
    def _listed(cls, value: object) -> object:
        return tuple(value) if isinstance(value, list) else value

    @field_validator("level")
    @classmethod
    def _some(cls, value: Level | tuple[Level, ...]) -> Level | tuple[Level, ...]:
        if not value:
            raise ValueError("a path of levels has one level at least")
        return value


@dataclass(frozen=True, slots=True)
class Course:
    """A course.

    Parameters
    ----------
    folder : Path
        Where it lies.
    title, imprint : str
        What it is called, and who gives it, as the cards of a film say it.
    address : str
        Where its site is going to be; "" where that is not known.
    language : str
        Language of lessons that do not say another.
    levels : tuple of str
        The levels, spread evenly over the lessons in their order.
    minutes : float
        Length that drafts aim at.
    divisions : int
        Equal divisions of the octave of lessons that do not say another.
    is_listed : bool
        Whether new lessons keep the order in which they are written down.
    film : Film
        How films look.
    voice : Voicing
        Who speaks.
    sound : Sounding
        On what examples are played.
    music : Music
        What packages hold for players.
    scales : Scales
        Scales asked of the catalogue.
    wishes : tuple of LessonWish
        Lessons written down one by one.
    """

    folder: Path
    title: str
    imprint: str = ""
    address: str = ""
    language: str = "en"
    levels: tuple[str, ...] = ("further",)
    minutes: float = 6.0
    divisions: int = 12
    is_listed: bool = False
    film: Film = field(default_factory=Film)
    voice: Voicing = field(default_factory=Voicing)
    sound: Sounding = field(default_factory=Sounding)
    music: Music = field(default_factory=Music)
    scales: Scales = field(default_factory=Scales)
    wishes: tuple[LessonWish, ...] = ()

    @property
    def lessons(self) -> Path:
        """The folder of the scripts."""
        return self.folder / "lessons"

    @property
    def out(self) -> Path:
        """The folder of what is published."""
        return self.folder / "out"

    @property
    def kept(self) -> Path:
        """The folder of what is kept so that nothing is made twice; it can be deleted."""
        return self.folder / ".gamutwright"

    def replaced(self, what: str) -> Path:
        """Give the folder of what was replaced of a lesson's package, or of the site; it need not exist."""
        return self.folder / "replaced" / what

    def script_of(self, slug: str) -> Path:
        """Give the place of a lesson's script; it need not exist."""
        return self.lessons / slug / "script.md"


def is_slug(name: str) -> bool:
    """Whether a folder of this name can be a lesson's.

    Parameters
    ----------
    name : str
        The name.

    Returns
    -------
    bool
        True for small letters, figures and single hyphens, 64 at most, but for names that Windows keeps for devices.

    Examples
    --------
    >>> is_slug("g-acoustic"), is_slug("../g-acoustic"), is_slug("con")
    (True, False, False)
    """
    return len(name) <= LONGEST_SLUG and re.fullmatch(SLUG, name) is not None and not is_device(name)


def read_course(place: Path) -> Course:
    """Read a course.

    Parameters
    ----------
    place : Path
        Its folder, its `series.toml`, or anything inside it.

    Returns
    -------
    Course
        What is written.

    Raises
    ------
    FileError
        If there is no course.
    InputError
        If its file cannot be understood; the message names the key.
    """
    path = _file_of(place)
    try:
        table = tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except OSError as error:
        raise FileError(str(path), f"it cannot be read ({error.strerror})", "Check the file.") from error
    except (tomllib.TOMLDecodeError, UnicodeDecodeError, RecursionError) as error:
        raise InputError(str(path), f"it is no TOML ({error})", "Mend that place; text stands in quotes.") from error
    try:
        # Strings are all that TOML's dates are not, and numbers may be written without a point.
        file = _File.model_validate(_with_floats(table))
    except ValidationError as error:
        raise _refusal(path, error) from error
    levels = (file.level,) if isinstance(file.level, str) else file.level
    return Course(
        path.parent, file.title, file.imprint, file.address, file.language, levels, file.minutes, file.divisions,
        file.order == "listed", file.film, file.voice, file.sound, file.music, file.scales, file.lesson,
    )  # fmt: skip


def _file_of(place: Path) -> Path:
    start = place.resolve()
    for folder in (start, *start.parents):
        if (folder / FILE_NAME).is_file():
            return folder / FILE_NAME
    raise FileError(
        str(place),
        f"there is no {FILE_NAME} there, nor above it",
        "Begin a course with: gamutwright series init FOLDER",
    )


def _with_floats(table: dict[str, object]) -> dict[str, object]:
    """Take whole numbers for the keys that are lengths and speeds; a switch is no number."""

    def mended(record: object, keys: tuple[str, ...]) -> object:
        if not isinstance(record, dict):
            return record
        return {
            key: float(value) if key in keys and type(value) is int and abs(value) < _LARGEST_WHOLE else value
            for key, value in record.items()
        }

    found = mended(table, ("minutes",))
    if not isinstance(found, dict):
        return table
    if "voice" in found:
        found["voice"] = mended(found["voice"], ("rate",))
    if isinstance(found.get("lesson"), list):
        found["lesson"] = [mended(record, ("minutes",)) for record in found["lesson"]]
    return found


def _refusal(path: Path, error: ValidationError) -> InputError:
    """Turn the first of pydantic's complaints into value, rule and next step."""
    problems = error.errors(include_url=False)
    first = problems[0]
    parts = [str(part + 1) if isinstance(part, int) else str(part) for part in first["loc"]]
    key = " ".join(part for part in parts if not part.startswith(("literal[", "tuple[", "constrained-")))
    more = f" (and {len(problems) - 1} more)" if len(problems) > 1 else ""
    if first["type"] == "extra_forbidden":
        return InputError(f"{path}: {key}", f"there is no such key{more}", "Keys are listed in docs/series.md.")
    if first["type"] == "missing":
        return InputError(f"{path}: {key}", f"it is missing{more}", f'Write a line such as {parts[-1]} = "...".')
    met = repr(first["input"])
    told = first["msg"].removeprefix("Value error, ")
    rule = told[:1].lower() + told[1:]
    return InputError(f"{path}: {key} {met[:60]}", f"{rule}{more}", "Keys and values are listed in docs/series.md.")


_BEGINNING = """\
# A course of lessons about scales. Every key is described in docs/series.md.
title = {title}
imprint = ""            # who gives the course; printed on the cards of its films
address = ""            # where its site is going to be, such as "https://school.example/scales/"
language = "{language}"
level = "{level}"       # or a path over the course: ["foundation", "foundation", "further"]
minutes = 6
divisions = 12          # equal divisions of the octave
order = "planned"       # or "listed": in the order written below

[film]
size = "1080p"          # 1080p, 2160p, 720p or vertical
theme = "night"         # night or light

[voice]
rate = 1.0
pitch = 50

# Examples on the instruments of a SoundFont instead of the built-in ones:
# [sound]
# soundfont = "harbour.sf2"
# instruments = ["tune=flute", "bass=acoustic bass"]

# Pages of music in the handout for transposing instruments too:
# [music]
# written_for = ["Bb", "Eb", "F"]
# play_along = false

# Scales by a question to the catalogue (try it with: gamutwright find "..."):
# [scales]
# query = "cardinality = 7 and semitone_steps = 2"
# most = 12
# root = "D"

[[lesson]]
scale = "D dorian"

[[lesson]]
scale = "G acoustic"
"""


def begin_course(folder: Path, title: str, language: str = "en", level: str = "further") -> Path:
    """Begin a course: a `series.toml` to fill in, and what version control leaves out.

    Parameters
    ----------
    folder : Path
        Where; it is made where it is missing.
    title : str
        What the course is called.
    language, level : str
        What its lessons are in, and for whom.

    Returns
    -------
    Path
        The new `series.toml`.

    Raises
    ------
    FileError
        If there is a course already, or it cannot be written.
    InputError
        If the title says nothing.

    Examples
    --------
    >>> import tempfile
    >>> with tempfile.TemporaryDirectory() as folder:
    ...     place = begin_course(Path(folder, "evening"), 'Scales "by ear"')
    ...     course = read_course(place)
    ...     course.title, course.levels, [wish.scale for wish in course.wishes]
    ('Scales "by ear"', ('further',), ['D dorian', 'G acoustic'])
    """
    path = folder / FILE_NAME
    if path.exists():
        raise FileError(
            str(path), "there is a course already", f"Open it in an editor, or see: gamutwright series status {folder}"
        )
    plain = " ".join("".join(c if c.isprintable() else " " for c in title).split())
    if not plain:
        raise InputError(repr(title), "a course has a title", "Write one with --title.")
    make_folder(folder / "lessons")
    quoted = '"' + "".join(f"\\{c}" if c in '"\\' else c for c in plain) + '"'
    write_text(path, _BEGINNING.format(title=quoted, language=language, level=level))
    if not (folder / ".gitignore").exists():
        write_text(folder / ".gitignore", "/.gamutwright/\n/out/\n/replaced/\n")
    return path
