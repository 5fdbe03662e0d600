"""Choices and options that several commands share."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import Annotated, TypeVar

import typer

from gamutwright.errors import InputError

__all__ = [
    "PORTRAIT_MINUTES",
    "USUAL_MINUTES",
    "AsJson",
    "CatalogueDivisions",
    "Divisions",
    "FormName",
    "FrameSize",
    "FrameTheme",
    "Instruments",
    "Into",
    "KeyName",
    "LevelName",
    "Lexicon",
    "Names",
    "Nearness",
    "NoteNames",
    "OutFolder",
    "Piper",
    "Pitch",
    "PitchingName",
    "PlayAlong",
    "Rate",
    "Root",
    "ScaleWords",
    "ScriptFile",
    "SizeName",
    "SoundFont",
    "StoreFolder",
    "TellName",
    "ThemeName",
    "TimbreName",
    "WordsAs",
    "Workers",
    "WrittenFor",
    "is_a_file",
    "or_printed",
]

Place = TypeVar("Place", Path | None, str | None)
STANDARD_OUTPUT = "-"
"""The usual sign for it where a file is asked for."""


def or_printed(path: Path | None) -> Path | None:
    """Take the sign of standard output for no file at all: the text is printed."""
    return None if path == Path(STANDARD_OUTPUT) else path


def is_a_file(param: typer.CallbackParam, place: Place) -> Place:
    """Refuse the sign of standard output where what is written is no text, or goes into several files."""
    if place is not None and str(place) == STANDARD_OUTPUT:
        raise InputError(
            f"{param.opts[0]} {STANDARD_OUTPUT}", "this cannot go to standard output", "Give it a name on the disk."
        )
    return place


class NoteNames(StrEnum):
    """In which language note names are read."""

    ENGLISH = "english"
    GERMAN = "german"
    SOLFEGE = "solfege"


USUAL_MINUTES = 6.0
PORTRAIT_MINUTES = 12.0


class TellName(StrEnum):
    """How much a draft tells, where it is more than fits a story."""

    ALL = "all"


class LevelName(StrEnum):
    """How far a profile goes."""

    FOUNDATION = "foundation"
    FURTHER = "further"
    RESEARCH = "research"


class ThemeName(StrEnum):
    """In which colours a picture is drawn."""

    LIGHT = "light"
    NIGHT = "night"
    PRINT = "print"


class WordsAs(StrEnum):
    """How the words of an SVG are written."""

    OUTLINES = "outlines"
    LIVE = "live"


class SizeName(StrEnum):
    """How large a film is."""

    P1080 = "1080p"
    P2160 = "2160p"
    P720 = "720p"
    VERTICAL = "vertical"


class FormName(StrEnum):
    """What kind of file a lesson is."""

    AUTO = "auto"
    TEXT = "text"
    SRT = "srt"
    VTT = "vtt"


class TimbreName(StrEnum):
    """How a phrase sounds."""

    PLUCKED = "plucked"
    STRUCK = "struck"
    SUSTAINED = "sustained"


class KeyName(StrEnum):
    """In which key a transposing instrument stands."""

    B_FLAT = "Bb"
    E_FLAT = "Eb"
    F = "F"


class PitchingName(StrEnum):
    """How a MIDI file tells pitches that are not on the keyboard."""

    AUTO = "auto"
    PLAIN = "plain"
    TUNED = "tuned"
    BENT = "bent"


class Nearness(StrEnum):
    """What nearness means."""

    VOICE_LEADING = "voice-leading"
    COMMON_TONES = "common-tones"
    INTERVAL_CONTENT = "interval-content"
    ONE_STEP_MOVES = "one-step moves"


ScaleWords = Annotated[
    list[str], typer.Argument(metavar="SCALE...", help="The scale, in any form: notes, numbers, steps, a name, a file.")
]
Divisions = Annotated[
    int, typer.Option("--divisions", "-n", min=2, max=72, metavar="N", help="Equal divisions of the octave, 2 to 72.")
]
CatalogueDivisions = Annotated[
    int, typer.Option("--divisions", "-n", min=2, max=36, metavar="N", help="Equal divisions of the octave, 2 to 36.")
]
Names = Annotated[NoteNames, typer.Option("--names", help="Language of note names.")]
Root = Annotated[str | None, typer.Option("--root", "-r", help="Root, where the form does not give one.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON instead of text.")]

Rate = Annotated[float, typer.Option("--rate", min=0.7, max=3, help="Speed of the voice; 1 is the usual.")]
Pitch = Annotated[int, typer.Option("--pitch", min=0, max=99, help="Height of the built-in voice.")]
Piper = Annotated[Path | None, typer.Option("--piper", metavar="MODEL", help="A Piper voice on your disk.")]
Lexicon = Annotated[Path | None, typer.Option("--lexicon", metavar="FILE", help="How your own words are said.")]
SoundFont = Annotated[
    Path | None,
    typer.Option("--soundfont", metavar="FILE", help="Play the instruments of a SoundFont, with FluidSynth."),
]
Instruments = Annotated[
    list[str] | None,
    typer.Option(
        "--instrument",
        metavar="PART=NAME",
        help="Which of them plays a part (tune, chord, drone, bass, drum): a name of General MIDI, its number, or "
        "built-in. May be repeated.",
    ),
]

WrittenFor = Annotated[
    list[KeyName] | None,
    typer.Option(
        "--for",
        metavar="KEY",
        case_sensitive=False,
        help="Add a page of music to the handout, written for instruments in Bb, Eb or F. May be repeated.",
    ),
]

PlayAlong = Annotated[
    bool,
    typer.Option(
        "--play-along/--no-play-along", help="A minute or two of its chords as files of their own, to play along with."
    ),
]

ScriptFile = Annotated[Path, typer.Argument(metavar="SCRIPT", help="A script that checks clean.")]
OutFolder = Annotated[
    Path | None,
    typer.Option("--output", "-o", metavar="FOLDER", callback=is_a_file, help="Where the files go."),
]
Into = Annotated[
    bool, typer.Option("--into", help="Put the files into a folder that holds other things, which stay as they are.")
]
FrameSize = Annotated[SizeName, typer.Option("--size", help="Size of the frame.")]
FrameTheme = Annotated[ThemeName, typer.Option("--theme", help="Colours.")]
StoreFolder = Annotated[
    Path | None, typer.Option("--store", metavar="FOLDER", help="Where intermediate results are kept.")
]
Workers = Annotated[int | None, typer.Option("--workers", min=1, help="How many processes; one for each core.")]
