"""The stages from a script to a film, and the only place that knows all of them.

Conventions: each stage is a function of plain records; samples are float32 at 48,000 a second. A script with a
contradicted, unbound or inapplicable claim gives no film; `is_draft` renders it all the same, marked on every frame.
"""

from __future__ import annotations

import json
import time
from collections.abc import Callable
from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from gamutwright.diagrams.phrases import phrase
from gamutwright.errors import FileError, UnprovedError
from gamutwright.facts.picturing import place_of
from gamutwright.facts.registry import Registry, default_registry
from gamutwright.files import write_bytes, write_text
from gamutwright.inputs.text import read_scale
from gamutwright.ir.sound import Sound
from gamutwright.ir.timeline import ClipKind, Timeline
from gamutwright.lesson.assemble import SoundKey, assemble, sound_cues
from gamutwright.lesson.claims import Report, check
from gamutwright.lesson.draft import spoken_name
from gamutwright.lesson.ledger import ledger
from gamutwright.lesson.script import Script
from gamutwright.lesson.wording.engine import wording_for
from gamutwright.lesson.wording.names import note_places
from gamutwright.render.captions import chapters_to_webvtt, to_srt, to_webvtt
from gamutwright.render.espeak import EspeakVoice
from gamutwright.render.frames import FramePainter, Run
from gamutwright.render.mix import Clip, mastered, programme
from gamutwright.render.raster import frame_to_png
from gamutwright.render.signal import Signal
from gamutwright.render.takes import play_or_speak
from gamutwright.render.video import FilmStyle, encode_film
from gamutwright.render.voice import SpokenLine, Voice
from gamutwright.theory.scale import Scale

__all__ = ["Made", "Progress", "make_film", "sounds_of", "speeches_of"]

Progress = Callable[[str, int, int], None]
"""Told the stage, how much of it is done, and how much there is."""
DRAFT_STAMP = "DRAFT: NOT EVERY STATEMENT IS PROVED"


@dataclass(frozen=True, slots=True)
class Made:
    """What was made.

    Parameters
    ----------
    files : tuple of Path
        Every file, the film first.
    timeline : Timeline
        What is in the film.
    seconds : float
        How long the making took.
    """

    files: tuple[Path, ...]
    timeline: Timeline
    seconds: float


def speeches_of(
    script: Script, voice: Voice, takes: Path | None = None, progress: Progress | None = None
) -> dict[str, SpokenLine]:
    """Speak every line of a script, in the teacher's own voice where it is recorded.

    Parameters
    ----------
    script : Script
        The script.
    voice : Voice
        Who speaks what is not recorded, or was recorded with other words.
    takes : Path, optional
        The folder of recordings.
    progress : callable, optional
        Told how far it is.

    Returns
    -------
    dict of str to SpokenLine
        By line id; silent lines are left out.
    """
    lines = [line for line in script.lines if line.text]
    spoken = {}
    for done, line in enumerate(lines, 1):
        notes = note_places(line.text, script.front.language)
        if takes is None:
            spoken[line.id] = voice.speak(line.text, notes)
        else:
            spoken[line.id], _ = play_or_speak(takes, line.id, line.text, voice, notes)
        if progress:
            progress("voice", done, len(lines))
    return spoken


def sounds_of(script: Script, scale: Scale, registry: Registry) -> dict[SoundKey, Sound]:
    """Write every sound that a script plays.

    Parameters
    ----------
    script : Script
        The script.
    scale : Scale
        Its scale.
    registry : Registry
        The facts whose places are played.

    Returns
    -------
    dict of SoundKey to Sound
        The sounds of `sound_cues`.
    """
    sounds = {}
    for key in sound_cues(script):
        kind, fact_id, other = key
        fact = registry.facts.get(fact_id)
        places = tuple(place_of(witness) for witness in fact.places(scale)) if fact else ()
        beside = read_scale(other, divisions=scale.divisions).scale if other else None
        sounds[key] = phrase(kind, scale, places, beside)
    return sounds


def _mixed(timeline: Timeline, spoken: dict[str, SpokenLine], sounds: dict[SoundKey, Sound]) -> NDArray[np.float32]:
    """Mix voice and examples and bring them to their loudness, in stereo."""
    by_key = {":".join(key): sound for key, sound in sounds.items()}
    voices = [
        Clip(clip.start_tick, Signal.of_samples(spoken[clip.key].samples))
        for clip in timeline.clips
        if clip.kind is ClipKind.VOICE
    ]
    examples = [
        Clip(clip.start_tick, Signal.of_sound(by_key[clip.key]), 0)
        for clip in timeline.clips
        if clip.kind is ClipKind.SOUND
    ]
    signal = mastered(programme(voices, examples, timeline.ticks), channels=2)
    mono = signal.samples().astype(np.float32)
    return np.stack([mono, mono], axis=1)


def make_film(
    script: Script,
    folder: Path,
    *,
    style: FilmStyle | None = None,
    voice: Voice | None = None,
    takes: Path | None = None,
    is_draft: bool = False,
    progress: Progress | None = None,
) -> Made:
    """Make a film, its captions, chapters and ledger from a script.

    Parameters
    ----------
    script : Script
        The script.
    folder : Path
        Where the files go; it is made where it is missing.
    style : FilmStyle, optional
        Size, theme and quality.
    voice : Voice, optional
        Who speaks; the built-in voice without it.
    takes : Path, optional
        The folder of the teacher's recordings, which are heard where they fit the words.
    is_draft : bool
        Whether a script with faults is rendered all the same.
    progress : callable, optional
        Told how far each stage is.

    Returns
    -------
    Made
        The files and the timeline.

    Raises
    ------
    UnprovedError
        If a claim of the script is not proved, and it is not rendered as a draft.
    FileError
        If a file cannot be written.
    """
    begun = time.monotonic()
    registry = default_registry()
    report = check(script, registry)
    stamp = _stamp(report, is_draft=is_draft)
    scale = report.scale
    wording = wording_for(script.front.language)
    spoken = speeches_of(script, voice or EspeakVoice(script.front.language), takes, progress)
    sounds = sounds_of(script, scale, registry)
    timeline = assemble(
        script, scale, registry, {line_id: line.speech for line_id, line in spoken.items()}, sounds,
        title=spoken_name(scale, wording),
    )  # fmt: skip
    samples = _mixed(timeline, spoken, sounds)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FileError(str(folder), f"it cannot be made ({error.strerror})", "Choose another place.") from error
    film = folder / ("film-draft.mp4" if stamp else "film.mp4")
    told = (lambda done, total: progress("film", done, total)) if progress else None
    styled = replace(style or FilmStyle(), stamp=stamp)
    encode_film(timeline, samples, film, styled, told)
    painter = FramePainter(timeline, styled.width, styled.height, styled.theme, styled.stamp)
    write_bytes(folder / "poster.png", frame_to_png(painter.paint(Run(1, timeline.shots[0]))))
    texts = {
        "captions.vtt": to_webvtt(timeline.captions),
        "captions.srt": to_srt(timeline.captions),
        "chapters.vtt": chapters_to_webvtt(timeline.chapters, timeline.ticks),
        "ledger.json": json.dumps(ledger(report, registry), ensure_ascii=False, indent=1) + "\n",
    }
    for name, text in texts.items():
        write_text(folder / name, text)
    return Made((film, folder / "poster.png", *(folder / name for name in texts)), timeline, time.monotonic() - begun)


def _stamp(report: Report, *, is_draft: bool) -> str:
    """Refuse a script with faults, or give the words that mark it as a draft."""
    if not report.faults:
        return ""
    if is_draft:
        return DRAFT_STAMP
    first = report.faults[0]
    line, column = report.script.locate(first.span[0])
    raise UnprovedError(
        f"{report.script.name}:{line}:{column}: '{first.words}'",
        f"{len(report.faults)} statement{'s are' if len(report.faults) > 1 else ' is'} not proved ({first.reason})",
        f"See all with: gamutwright check {report.script.name}; or render a marked draft with --draft.",
    )
