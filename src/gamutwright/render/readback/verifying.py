"""A finished film against its ledger: everything that can be read back, by means apart from those that made it.

The film is read twice, once for what is heard and once for what is seen; nothing else is needed but the ledger.

Conventions: checks come in the order of `report.Group`.
"""

from __future__ import annotations

import os
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import partial
from pathlib import Path
from statistics import median
from typing import Any

from gamutwright.codec import Plain, to_plain
from gamutwright.errors import InputError
from gamutwright.ir.evidence import Evidence
from gamutwright.ir.timeline import FRAME_TICKS, TICKS_PER_SECOND
from gamutwright.jobs.confined import Limits, confined
from gamutwright.render.readback.boxes import read_boxes, tracks_of
from gamutwright.render.readback.container import Streams, box_checks, read_streams, stream_checks
from gamutwright.render.readback.film_report import (
    RENDER_AGAIN,
    Check,
    Group,
    Report,
    Verdict,
    broken,
    clock,
    held,
    nothing,
)
from gamutwright.render.readback.flashes import MOST_FLASHES, RED_STEP, FlashMeter
from gamutwright.render.readback.heard_music import MARGIN_TICKS, Playing, music_checks, onsets_of
from gamutwright.render.readback.heard_pitches import (
    CHORD_CENTS,
    SINGLE_CENTS,
    Finding,
    Moment,
    moments_of,
    read_moment,
)
from gamutwright.render.readback.hearing import Heard, Stretch, listen
from gamutwright.render.readback.picture_checks import colours_of, place_checks
from gamutwright.render.readback.promises import read_ledger
from gamutwright.render.readback.stepping import AROUND_TICKS, Changes, Late, first_onsets, onset_late_ticks
from gamutwright.render.readback.text_checks import caption_checks, chapter_checks
from gamutwright.render.readback.watching import Group as Frames
from gamutwright.render.readback.watching import Seen, watch
from gamutwright.render.synth import Samples

__all__ = ["verify"]

Progress = Callable[[str, int, int], None]
MOST_TOLD = 6
_MEMORY_BYTES = (4 << 30) + (os.cpu_count() or 1) * (256 << 20)
_SILENT_SECONDS = 120.0
CODER_TICKS = 3 * 1024
"""A coder begins before the sound and fills up the last of its blocks of 1,024 samples."""


@dataclass(slots=True)
class _Ears:
    """What was heard of the examples."""

    wrong: list[tuple[Moment, Finding]] = field(default_factory=list)
    worst: dict[bool, float] = field(default_factory=lambda: {True: 0.0, False: 0.0})
    late: list[Late] = field(default_factory=list)
    played: list[Playing] = field(default_factory=list)

    def hear_moment(self, moment: Moment, playing: Playing | None, samples: Samples) -> None:
        wrong, worst = read_moment(samples, moment)
        if playing is not None:
            playing.measured |= set(moment.tones)
            playing.missed |= {finding.tone for finding in wrong if finding.tone is not None}
        self.wrong += [(moment, finding) for finding in wrong]
        is_single = len(moment.tones) == 1
        self.worst[is_single] = max(self.worst[is_single], worst)

    def hear_onset(self, tick: int, samples: Samples) -> None:
        late = onset_late_ticks(samples)
        if late is not None:
            self.late.append(Late(tick, late))


class _Eyes:
    """What was seen of the frames."""

    def __init__(self, film: Evidence) -> None:
        self.general, self.red = FlashMeter(), FlashMeter(RED_STEP, float("inf"))
        self.changes = Changes(film.picture.frames)
        self.spots: dict[int, tuple[float, ...]] = {}

    def see(self, group: Frames) -> None:
        self.general.add(group.luminance)
        self.red.add(group.red)
        self.changes.see(group)
        self.spots.update(group.spots)


def verify(film_file: Path, ledger_file: Path, progress: Progress | None = None) -> Report:
    """Compare a finished film with its ledger.

    Parameters
    ----------
    film_file : Path
        The film.
    ledger_file : Path
        The ledger that was written beside it.
    progress : callable, optional
        Told the stage, how much of it is done, and how much there is.

    Returns
    -------
    Report
        Every check.

    Raises
    ------
    InputError
        If the ledger cannot be read, says nothing of a film, or is that of another film.
    FileError
        If the film cannot be read.
    """
    size_mb = _size_bytes(film_file) >> 20
    limits = Limits(_MEMORY_BYTES, 300 + 60 * size_mb, _SILENT_SECONDS)
    # The process may have been started in another folder.
    asked: list[Plain] = [str(film_file), str(ledger_file), str(Path.cwd())]
    told, _ = confined(
        "gamutwright.render.readback.verifying:_verified", asked, limits, (str(film_file), RENDER_AGAIN), progress
    )
    return _report(told)


def _size_bytes(film_file: Path) -> int:
    try:
        return film_file.stat().st_size
    except OSError:
        return 0  # what is not there is told by who opens it


def _report(told: dict[str, Any]) -> Report:
    """Make a report of what the process says that read the film."""
    checks = (
        Check(
            Group(check["group"]),
            str(check["name"]),
            Verdict(check["verdict"]),
            str(check["expected"]),
            str(check["found"]),
            None if check["tick"] is None else int(check["tick"]),
            str(check["next_step"]),
        )
        for check in told["checks"]
    )
    film, ledger, title = (str(told[name]) for name in ("film", "ledger", "title"))
    return Report(film, ledger, title, int(told["ticks"]), tuple(checks), float(told["seconds"]))


def _verified(
    tell: Callable[[str, int, int], None], film_name: str, ledger_name: str, folder: str
) -> tuple[Plain, bytes]:
    """Compare a film with its ledger, in the process that may die of it."""
    os.chdir(folder)
    film_file, ledger_file = Path(film_name), Path(ledger_name)
    begun = time.monotonic()
    film, ledger_check = read_ledger(ledger_file)
    file = read_boxes(film_file)
    tracks = tracks_of(file)
    streams = read_streams(film_file)
    _refuse_another(ledger_file, streams, film)
    checks = [
        ledger_check,
        *box_checks(file, tracks),
        *stream_checks(streams, film),
        *chapter_checks(film_file, file, tracks, film),
        *caption_checks(film_file, tracks, film),
    ]
    ears, moments, unmeasured = _ears(film)
    heard = listen(film_file, [stretch for _, stretch in moments], film.ticks, partial(tell, "hearing"))
    eyes = _Eyes(film)
    views = {view.frame: tuple(film.places[number] for number in (*view.lit, *view.dark)) for view in film.views}
    seen = watch(film_file, views, *colours_of(film), eyes.see, partial(tell, "seeing"))
    checks += _length_checks(film, heard, seen)
    checks += _picture_checks(film, eyes)
    checks += _sound_checks(film, ears, heard, unmeasured)
    checks += _step_checks(ears.late, eyes.changes.late(film.changes))
    order = list(Group)
    checks.sort(key=lambda check: order.index(check.group))
    seconds = time.monotonic() - begun
    return to_plain(Report(film_file.name, ledger_file.name, film.title, film.ticks, tuple(checks), seconds)), b""


def _refuse_another(ledger_file: Path, streams: Streams, film: Evidence) -> None:
    """Stop where neither name nor length fit: every check would only say the same."""
    if streams.title == film.title or abs(streams.seconds - film.ticks / TICKS_PER_SECOND) <= 1:
        return
    raise InputError(
        f"file '{ledger_file}'",
        f"it is the ledger of another film: of '{film.title}', {clock(film.ticks)} long, while this one is called "
        f"'{streams.title}' and has {clock(round(streams.seconds * TICKS_PER_SECOND))}",
        "Give the ledger.json that was written beside this film.",
    )


def _ears(film: Evidence) -> tuple[_Ears, list[tuple[Moment | None, Stretch]], int]:
    """Say which stretches are listened to, and for what."""
    ears, unmeasured = _Ears(), 0
    wanted: list[tuple[Moment | None, Stretch]] = []
    for example in film.examples:
        moments, short = moments_of(example)
        unmeasured += short
        playing = Playing(example) if example.belongings else None
        wanted += [
            (moment, Stretch(moment.start_tick, moment.end_tick, partial(ears.hear_moment, moment, playing)))
            for moment in moments
        ]
        if playing is not None:
            ears.played.append(playing)
            wanted += [
                (None, Stretch(onset.tick - MARGIN_TICKS, onset.tick + MARGIN_TICKS, partial(playing.hear, onset)))
                for onset in onsets_of(example)
            ]
    onsets = [
        (None, Stretch(tick - AROUND_TICKS, tick + AROUND_TICKS, partial(ears.hear_onset, tick)))
        for tick in first_onsets(film.examples)
        if tick >= AROUND_TICKS
    ]
    return ears, [*wanted, *onsets], unmeasured


def _length_checks(film: Evidence, heard: Heard, seen: Seen) -> Iterator[Check]:
    expected = f"{film.picture.frames} frames, each as long as the others"
    if seen.frames == film.picture.frames and seen.is_even:
        yield held(Group.FILE, "length of the picture", expected, clock(film.ticks))
    else:
        found = f"{seen.frames} frames" + ("" if seen.is_even else ", some too early or too late")
        yield broken(Group.FILE, "length of the picture", expected, found, RENDER_AGAIN)
    expected = f"the sound is as long as the picture, {clock(film.ticks)}"
    if 0 <= heard.ticks - film.ticks <= CODER_TICKS:
        yield held(Group.FILE, "length of the sound", expected, "it is")
    else:
        yield broken(Group.FILE, "length of the sound", expected, clock(heard.ticks), RENDER_AGAIN)


def _picture_checks(film: Evidence, eyes: _Eyes) -> Iterator[Check]:
    yield from place_checks(film, eyes.spots)
    for name, meter in (("flashes", eyes.general), ("red flashes", eyes.red)):
        expected = f"at most {MOST_FLASHES} {name} in any second (WCAG 2.2, 2.3.1)"
        worst = meter.result()
        if worst.most <= MOST_FLASHES:
            yield held(Group.PICTURE, name, expected, f"at most {worst.most}")
        else:
            step = "Do not show this film to anybody: flashing pictures can cause seizures. Render it again."
            yield broken(Group.PICTURE, name, expected, str(worst.most), step, worst.frame * FRAME_TICKS)


def _sound_checks(film: Evidence, ears: _Ears, heard: Heard, unmeasured: int) -> Iterator[Check]:
    counts = {True: 0, False: 0}
    for example in film.examples:
        for moment in moments_of(example)[0]:
            counts[len(moment.tones) == 1] += 1
    kinds = (("tones", True, SINGLE_CENTS), ("chords", False, CHORD_CENTS))
    for name, is_single, cents in kinds:
        expected = f"every tone within {cents:g} cents, and nothing louder that is none of them"
        wrong = [(moment, finding) for moment, finding in ears.wrong if (len(moment.tones) == 1) == is_single]
        if not counts[is_single]:
            yield nothing(Group.SOUND, name, expected)
        for moment, finding in wrong[:MOST_TOLD]:
            yield _tone_check(name, moment, finding)
        if len(wrong) > MOST_TOLD:
            yield broken(Group.SOUND, name, expected, f"{len(wrong) - MOST_TOLD} more are wrong", RENDER_AGAIN)
        if counts[is_single] and not wrong:
            short = f"; {unmeasured} tones are too short to be measured" if unmeasured else ""
            worst = f"{counts[is_single]} {name}, the worst {ears.worst[is_single]:.2f} cents off{short}"
            yield held(Group.SOUND, name, expected, worst)
    yield from music_checks(ears.played)
    yield from _level_checks(film, heard)


def _tone_check(name: str, moment: Moment, finding: Finding) -> Check:
    step = "Render the film again; somebody changed its sound, or the sound is not what the ledger says."
    if finding.tone is None:
        label = " ".join(tone.label or f"{tone.freq_hz:.1f} Hz" for tone in moment.tones)
        return broken(
            Group.SOUND, name, f"nothing but {label}", f"a louder tone of {finding.freq_hz:.1f} Hz", step,
            moment.start_tick,
        )  # fmt: skip
    tone = finding.tone
    heard = f"{finding.freq_hz:.2f} Hz, {finding.cents:+.1f} cents" if finding.freq_hz else "it is not heard"
    expected = f"{tone.label} of {tone.freq_hz:.2f} Hz".removeprefix(" of ")
    return broken(Group.SOUND, name, expected, heard, step, tone.start_tick)


def _level_checks(film: Evidence, heard: Heard) -> Iterator[Check]:
    level, wanted = heard.loudness, film.loudness
    expected = f"{wanted.target_lufs:g} LUFS, to {wanted.tolerance_lu:g} LU"
    found = f"{level.integrated_lufs:.1f} LUFS"
    if abs(level.integrated_lufs - wanted.target_lufs) <= wanted.tolerance_lu + 0.05:
        yield held(Group.SOUND, "loudness", expected, found)
    else:
        step = "Render the film again; listen at a moderate level until then."
        yield broken(Group.SOUND, "loudness", expected, found, step)
    expected = f"no true peak above {wanted.ceiling_dbtp:g} dBTP"
    found = f"{level.true_peak_dbtp:.1f} dBTP"
    if level.true_peak_dbtp <= wanted.ceiling_dbtp:
        yield held(Group.SOUND, "true peak", expected, found)
    else:
        yield broken(Group.SOUND, "true peak", expected, found, "Render the film again: players would distort it.")


def _step_checks(sound: list[Late], picture: list[Late]) -> Iterator[Check]:
    late = {}
    for name, found, what in (("sound in step", sound, "examples begin"), ("picture in step", picture, "cuts come")):
        expected = f"{what} when the ledger says, to a frame"
        if not found:
            yield nothing(Group.STEP, name, expected)
            continue
        late[name] = median(item.ticks for item in found)
        worst = max(found, key=lambda item: abs(item.ticks))
        if abs(worst.ticks) <= FRAME_TICKS:
            yield held(Group.STEP, name, expected, f"{len(found)} of them, {_late(late[name])}")
        else:
            yield broken(Group.STEP, name, expected, _late(worst.ticks), RENDER_AGAIN, worst.tick)
    if len(late) == 2:
        apart = late["sound in step"] - late["picture in step"]
        expected = "sound and picture are not apart by more than a frame"
        if abs(apart) <= FRAME_TICKS:
            yield held(Group.STEP, "ear and eye", expected, f"the sound is {_late(apart)}")
        else:
            yield broken(Group.STEP, "ear and eye", expected, f"the sound is {_late(apart)}", RENDER_AGAIN)


def _late(ticks: float) -> str:
    if round(ticks / 48) == 0:
        return "on time"
    return f"{abs(ticks) / 48:.0f} ms {'late' if ticks > 0 else 'early'}"
