"""The stages from a script to a film, and the only place that knows all of them.

Conventions: each stage is a function of plain records; samples are float32 at 48,000 a second. A script with a
contradicted, unbound or inapplicable claim gives no film; `is_draft` renders it all the same, marked on every frame.
"""

from __future__ import annotations

import json
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from gamutwright.errors import UnprovedError
from gamutwright.facts.registry import Registry, default_registry
from gamutwright.files import write_bytes, write_text
from gamutwright.ir.evidence import with_film
from gamutwright.ir.sound import Sound
from gamutwright.ir.timeline import FRAME_TICKS, Timeline
from gamutwright.jobs.job import Job
from gamutwright.jobs.outfolder import making
from gamutwright.jobs.run import LocalPool
from gamutwright.jobs.store import Store, store_for
from gamutwright.lessons.assemble import assemble
from gamutwright.lessons.claims import Report, check
from gamutwright.lessons.credits import Credits, credits_of
from gamutwright.lessons.example_sounds import SoundKey, sound_cues, sound_of
from gamutwright.lessons.ledger import ledger
from gamutwright.lessons.script import Script
from gamutwright.lessons.stories.scale_names import spoken_name
from gamutwright.phrasing.engine import wording_for
from gamutwright.phrasing.spoken_names import note_places
from gamutwright.render.caption_files import chapters_to_webvtt, to_srt, to_webvtt
from gamutwright.render.espeak import EspeakVoice
from gamutwright.render.expected import film_evidence
from gamutwright.render.pictures import FilmStyle, laid_out, picture_jobs, poster_job
from gamutwright.render.piper import PiperVoice
from gamutwright.render.soundfont import Players, players_of
from gamutwright.render.soundtrack import Piece, correction_db, packets_of, pieces_of, sound_job
from gamutwright.render.speech import is_recording, parcel_to_speech, speech_job
from gamutwright.render.video import write_film
from gamutwright.render.voice import Voice
from gamutwright.settings import SIZES, Settings, takes_folder
from gamutwright.theory.scale import Scale

__all__ = [
    "FILM_FILES",
    "Choices",
    "Made",
    "Progress",
    "Staged",
    "choices_of",
    "film_into",
    "make_film",
    "sounds_of",
    "speeches_of",
    "stage",
]

Progress = Callable[[str, int, int], None]
"""Told the stage, how much of it is done, and how much there is."""
FEW = 8
"""With more new lines than this, processes are started while they are spoken."""
LEVELLINGS = 3
FILM_FILES = ("poster.png", "captions.vtt", "captions.srt", "chapters.vtt", "ledger.json")
"""What is made beside a film."""
DRAFT_STAMP = "DRAFT: NOT EVERY STATEMENT IS PROVED"


@dataclass(frozen=True, slots=True, eq=False)
class Choices:
    """What a teacher may choose when a script becomes a film.

    Parameters
    ----------
    style : FilmStyle
        Size, theme and quality.
    voice : Voice, optional
        Who speaks; the built-in voice without it.
    home : Path, optional
        The folder of the script, in which the files that it names lie.
    takes : Path, optional
        The folder of the teacher's recordings, which are heard where they fit the words.
    is_draft : bool
        Whether a script with faults is rendered all the same.
    adds : bool
        Whether the folder of the files may hold other things, which are not touched.
    aside : Path, optional
        The folder that what is replaced goes to; one beside the folder of the files without it.
    players : Players
        Who plays the examples.
    written_for : tuple of str
        Keys of transposing instruments that the handout is written for too.
    play_along : bool
        Whether the package has a minute or two to play along with.
    """

    style: FilmStyle = field(default_factory=FilmStyle)
    voice: Voice | None = None
    home: Path | None = None
    takes: Path | None = None
    is_draft: bool = False
    adds: bool = False
    aside: Path | None = None
    players: Players = field(default_factory=Players)
    written_for: tuple[str, ...] = ()
    play_along: bool = True


@dataclass(frozen=True, slots=True, eq=False)
class Staged:
    """A script laid out in time, before anything is drawn or mixed.

    Parameters
    ----------
    report : Report
        Its claims.
    registry : Registry
        The facts on offer.
    timeline : Timeline
        What is in the film.
    lines : mapping of str to Job
        What speaks each line, by its id.
    sounds : mapping of str to Sound
        The examples it plays, by the keys of their clips.
    made_by : Credits
        Who speaks, and whom it thanks.
    """

    report: Report
    registry: Registry
    timeline: Timeline
    lines: Mapping[str, Job]
    sounds: Mapping[str, Sound]
    made_by: Credits


@dataclass(frozen=True, slots=True, eq=False)
class Made:
    """What was made.

    Parameters
    ----------
    files : tuple of Path
        Every file, the film first.
    staged : Staged
        What is in the film.
    seconds : float
        How long the making took.
    kept : tuple of Path
        Folders that what was replaced can be had from.
    """

    files: tuple[Path, ...]
    staged: Staged
    seconds: float
    kept: tuple[Path, ...] = ()

    @property
    def timeline(self) -> Timeline:
        """What is in the film."""
        return self.staged.timeline


def choices_of(settings: Settings, script: Script, path: Path) -> Choices:
    """Turn settings into what a film is made with.

    Parameters
    ----------
    settings : Settings
        Look, voice and instruments.
    script : Script
        The script, for its language.
    path : Path
        Where it lies; recordings and the files that it names are beside it.

    Returns
    -------
    Choices
        For `make_film`.
    """
    width, height = SIZES[settings.size]
    language = script.front.language
    voice: Voice = (
        PiperVoice(settings.piper, language, settings.rate, own_words=settings.lexicon)
        if settings.piper
        else EspeakVoice(language, settings.rate, settings.pitch, own_words=settings.lexicon)
    )
    players = players_of(settings.soundfont, settings.instruments)
    return Choices(
        FilmStyle(width, height, settings.theme), voice, path.parent, takes_folder(path), players=players,
        written_for=settings.written_for, play_along=settings.play_along,
    )  # fmt: skip


def speeches_of(script: Script, voice: Voice, takes: Path | None = None) -> dict[str, Job]:
    """Say how every line of a script comes to be heard: in the teacher's own voice where it is recorded.

    Parameters
    ----------
    script : Script
        The script.
    voice : Voice
        Who speaks what is not recorded, or was recorded with other words.
    takes : Path, optional
        The folder of recordings.

    Returns
    -------
    dict of str to Job
        By line id; silent lines are left out.
    """
    return {
        line.id: speech_job(line.id, line.text, voice, note_places(line.text, script.front.language), takes)
        for line in script.lines
        if line.text
    }


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
    return {key: sound_of(key, scale, registry) for key in sound_cues(script)}


def stage(report: Report, pool: LocalPool, choices: Choices, progress: Progress | None = None) -> Staged:
    """Speak the lines of a script, and lay it out in time.

    Parameters
    ----------
    report : Report
        The checked script.
    pool : LocalPool
        Runs the jobs and keeps their results.
    choices : Choices
        Who speaks, and from where.
    progress : callable, optional
        Told how far it is.

    Returns
    -------
    Staged
        Everything that is drawn and mixed.

    Raises
    ------
    FileError
        If a file that it names, or a recording, cannot be read.
    """
    registry, script = report.registry, report.script
    voice = choices.voice or EspeakVoice(script.front.language)
    lines = speeches_of(script, voice, choices.takes)
    recorded = sum(is_recording(job) for job in lines.values())
    made_by = credits_of(
        script, choices.home or Path(), voice.credit if recorded < len(lines) else "", is_recorded=recorded > 0
    )
    if sum(not pool.store.has(job.key) for job in lines.values()) > FEW:
        pool.warm(("gamutwright.render.video", "skia"))
    pool.finish(lines.values(), _telling(progress, "voice"))
    sounds = sounds_of(script, report.scale, registry)
    timeline = assemble(
        script, report.scale, registry,
        {line_id: parcel_to_speech(pool.result(job)) for line_id, job in lines.items()}, sounds,
        title=spoken_name(report.scale, wording_for(script.front.language)), credits=made_by,
    )  # fmt: skip
    by_key = {key.id: sound for key, sound in sounds.items()}
    return Staged(report, registry, timeline, lines, by_key, made_by)


def make_film(
    script: Script,
    folder: Path,
    choices: Choices | None = None,
    *,
    progress: Progress | None = None,
    store: Store | None = None,
    workers: int | None = None,
) -> Made:
    """Make a film, its captions, chapters and ledger from a script.

    Parameters
    ----------
    script : Script
        The script.
    folder : Path
        Where the files go; it is made where it is missing, and may otherwise be empty or have been made here.
    choices : Choices, optional
        How it looks, who speaks, and whether a draft is made.
    progress : callable, optional
        Told how far each stage is.
    store : Store, optional
        Where intermediate results are kept, so that only what changed is made again; the user's own without it.
    workers : int, optional
        How many processes; as many as there are cores without it.

    Returns
    -------
    Made
        The files, and what is in the film.

    Raises
    ------
    UnprovedError
        If a claim of the script is not proved, and it is not rendered as a draft.
    FileError
        If a file cannot be read or written, or one that is there was not made here.
    """
    chosen = choices or Choices()
    names = FILM_FILES if chosen.is_draft else ("film.mp4", *FILM_FILES)
    with making(folder, names, adds=chosen.adds, aside=chosen.aside) as parcel:
        made = film_into(parcel.place, script, chosen, progress=progress, store=store, workers=workers)
    files = tuple(folder / file.relative_to(parcel.place) for file in made.files)
    return replace(made, files=files, kept=parcel.kept)


def film_into(
    place: Path,
    script: Script,
    choices: Choices,
    *,
    progress: Progress | None = None,
    store: Store | None = None,
    workers: int | None = None,
) -> Made:
    """Make a film and what belongs to it in a folder of ours, whatever is in it.

    Parameters
    ----------
    place : Path
        Where the files go.
    script, choices, progress, store, workers
        As for `make_film`.

    Returns
    -------
    Made
        The files, and what is in the film.
    """
    begun = time.monotonic()
    report = check(script, default_registry())
    stamp = _stamp(report, is_draft=choices.is_draft)
    style = replace(choices.style, stamp=stamp)
    film = place / ("film-draft.mp4" if stamp else "film.mp4")
    with LocalPool(store or store_for(), workers) as pool:
        staged = stage(report, pool, choices, progress)
        timeline = staged.timeline
        shots, poster = picture_jobs(timeline, style), poster_job(timeline, style)
        pieces = pieces_of(timeline, staged.lines, staged.sounds)
        others = [*(job for job, _ in shots), poster]
        parts = _sounding(pool, pieces, choices.players, others, progress)
        told = _telling(progress, "film")
        told(0, timeline.ticks // FRAME_TICKS)
        write_film(timeline, _packets(pool, shots, told), _heard(pool, parts), film)
        write_bytes(place / "poster.png", pool.result(poster).blobs[0])
        pool.store.prune()
    promised = film_evidence(timeline, staged.sounds, style.width, style.height, style.theme, pool.store)
    book = with_film(ledger(staged.report, staged.registry), promised)
    texts = {
        "captions.vtt": to_webvtt(timeline.captions),
        "captions.srt": to_srt(timeline.captions),
        "chapters.vtt": chapters_to_webvtt(timeline.chapter_spans),
        "ledger.json": json.dumps(book, ensure_ascii=False, indent=1) + "\n",
    }
    for name, text in texts.items():
        write_text(place / name, text)
    files = (film, *(place / name for name in FILM_FILES))
    return Made(files, staged, time.monotonic() - begun)


def _sounding(
    pool: LocalPool, pieces: Sequence[Piece], players: Players, others: list[Job], progress: Progress | None
) -> list[Job]:
    """Make pictures and sound, and the sound again while the whole misses its loudness; give the jobs of the sound."""
    parts = [sound_job(piece, pool.store, players=players) for piece in pieces]
    pool.finish([*others, *parts], _telling(progress, "making"))
    gain_db = 0.0
    for _ in range(LEVELLINGS):
        missing = correction_db(pool.result(part) for part in parts)
        if not missing:
            break
        gain_db = round(gain_db + missing, 1)
        parts = [sound_job(piece, pool.store, gain_db, players) for piece in pieces]
        pool.finish(parts, _telling(progress, "level"))
    return parts


def _packets(pool: LocalPool, shots: Sequence[tuple[Job, int]], told: Callable[[int, int], None]) -> Iterator[bytes]:
    frames, done = sum(count for _, count in shots), 0
    for job, count in shots:
        yield from laid_out(pool.result(job), count)
        done += count
        told(done, frames)


def _heard(pool: LocalPool, parts: Sequence[Job]) -> Iterator[bytes]:
    for part in parts:
        yield from packets_of(pool.result(part))


def _telling(progress: Progress | None, stage: str) -> Callable[[int, int], None]:
    return (lambda done, total: progress(stage, done, total)) if progress else lambda _done, _total: None


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
