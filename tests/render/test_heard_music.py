"""Pieces as they sound, measured: whole ones pass, and a late, a silent or a foreign note is told.

What must be told follows from what was changed; pitches are measured on the samples, against twelve equal semitones
above ISO 16.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import cycle, product

import numpy as np
import pytest

from gamutwright.diagrams.phrases import phrase
from gamutwright.inputs.text import read_scale
from gamutwright.ir.evidence import Belonging, Example, Knock, Tone
from gamutwright.ir.playing import Part
from gamutwright.ir.sound import Sound, Timbre
from gamutwright.music.performance import Performance
from gamutwright.music.pieces import PIECES
from gamutwright.render.readback.film_report import Verdict
from gamutwright.render.readback.heard_music import (
    MARGIN_TICKS,
    MOST_LATE_TICKS,
    Playing,
    music_checks,
    onsets_of,
    strangers_in,
)
from gamutwright.render.readback.heard_pitches import moments_of, read_moment
from gamutwright.render.synth import Samples, render
from thinning import usually

QUIET = 24_000
NAMES = [name for name in PIECES if name != "play-along"]
TEXTS = ("D dorian", "G acoustic")


def example_of(sound: Sound) -> Example:
    """The promise of a sound that begins half a second into a film."""
    return Example(
        "piece",
        QUIET,
        sound.ticks,
        tuple(
            Tone(QUIET + note.start_tick, note.duration_ticks, note.freq_hz, note.label, note.part.value)
            for note in sound.notes
        ),
        tuple(Knock(QUIET + stroke.start_tick, stroke.drum.value) for stroke in sound.strokes),
        tuple(Belonging(QUIET + gamut.tick, gamut.freqs_hz) for gamut in sound.gamuts),
    )


def film_sound(sound: Sound) -> Samples:
    samples = render(sound)
    silence = np.zeros(QUIET)
    return np.concatenate([silence, samples.mean(axis=tuple(range(1, samples.ndim))), silence])


def heard(promised: Sound, played: Sound) -> tuple[Playing, int]:
    """Listen to one sound for another; say also how many tones are wrong."""
    example, samples = example_of(promised), film_sound(played)
    playing, wrong = Playing(example), 0
    for moment in moments_of(example)[0]:
        findings, _ = read_moment(samples[moment.start_tick : moment.end_tick], moment)
        playing.measured |= set(moment.tones)
        playing.missed |= {finding.tone for finding in findings if finding.tone is not None}
        wrong += len(findings)
    for onset in onsets_of(example):
        playing.hear(onset, samples[onset.tick - MARGIN_TICKS : onset.tick + MARGIN_TICKS])
    return playing, wrong


def verdicts(playing: Playing) -> dict[str, Verdict]:
    return {check.name: check.verdict for check in music_checks([playing])}


@pytest.mark.parametrize(("name", "text"), usually(product(NAMES, TEXTS), *zip(NAMES, cycle(TEXTS), strict=False)))
def test_every_piece_is_heard_as_it_is_written(name: str, text: str):
    sound = phrase(name, read_scale(text).scale)
    playing, wrong = heard(sound, sound)
    assert wrong == 0
    assert playing.parts == tuple(part.value for part in sound.parts)
    assert set(verdicts(playing).values()) <= {Verdict.HELD, Verdict.NOTHING}


@pytest.mark.long
@pytest.mark.parametrize("timbre", list(Timbre))
@pytest.mark.parametrize("tempo", [70.0, 112.0])
@pytest.mark.parametrize("text", ["E phrygian", "C whole tone", "A minor pentatonic", "C chromatic"])
def test_every_timbre_and_tempo(timbre: Timbre, tempo: float, text: str):
    for name in ("tune", "tune-over-vamp", "tune-over-drone", "vamp"):
        sound = phrase(name, read_scale(text).scale, performance=Performance(timbre, tempo))
        playing, wrong = heard(sound, sound)
        assert wrong == 0, name
        assert set(verdicts(playing).values()) <= {Verdict.HELD, Verdict.NOTHING}, name


def test_other_divisions_are_heard():
    scale = read_scale("0 3 6 8 11 14 17", divisions=19).scale
    for name in ("tune", "tune-over-vamp"):
        sound = phrase(name, scale)
        playing, wrong = heard(sound, sound)
        assert wrong == 0
        assert verdicts(playing)["belonging"] is Verdict.HELD


VAMP = phrase("tune-over-vamp", read_scale("D dorian").scale)


def test_a_note_that_comes_late_is_told():
    number = next(k for k, note in enumerate(VAMP.notes) if note.part is Part.BASS and note.start_tick > QUIET)
    moved = list(VAMP.notes)
    late = 80 * 48
    moved[number] = replace(moved[number], start_tick=moved[number].start_tick + late)
    moved.sort(key=lambda note: note.start_tick)
    playing, _ = heard(VAMP, replace(VAMP, notes=tuple(moved)))
    assert verdicts(playing)["onsets"] is Verdict.BROKEN
    worst = max(ticks for _, ticks in playing.late)
    assert worst == pytest.approx(late, abs=20 * 48)
    assert worst > MOST_LATE_TICKS


@pytest.mark.parametrize("part", [Part.TUNE, Part.CHORD, Part.BASS])
def test_a_part_that_is_silent_is_told(part: Part):
    without = replace(VAMP, notes=tuple(note for note in VAMP.notes if note.part is not part))
    playing, wrong = heard(VAMP, without)
    assert part.value not in playing.parts
    assert len(playing.parts) == 3
    assert verdicts(playing)["parts"] is Verdict.BROKEN
    assert wrong


@pytest.mark.parametrize("name", ["tune-over-vamp", "call-and-answer", "vamp"])
def test_drums_that_are_silent_are_told(name: str):
    sound = phrase(name, read_scale("D dorian").scale)
    playing, _ = heard(sound, replace(sound, strokes=()))
    assert "drum" not in playing.parts
    assert verdicts(playing)["parts"] is Verdict.BROKEN


def test_a_note_outside_the_scale_is_a_fault_unless_it_is_the_relatives():
    """D dorian has no B flat; natural minor, its nearest relative, has."""
    two = phrase("tune-changed", read_scale("D dorian").scale)
    assert strangers_in(example_of(two)) == ()
    changed = [note for note in two.notes if note.label == "B♭"]
    assert changed
    assert all(note.start_tick >= two.gamuts[1].tick for note in changed)
    first = two.notes[3]
    moved = replace(first, freq_hz=changed[0].freq_hz, label="B♭")
    assert first.start_tick < two.gamuts[1].tick
    foreign = replace(two, notes=(*two.notes[:3], moved, *two.notes[4:]))
    assert [tone.label for tone in strangers_in(example_of(foreign))] == ["B♭"]
    playing, wrong = heard(foreign, foreign)
    assert (wrong, verdicts(playing)["belonging"]) == (0, Verdict.BROKEN)
    # And what is heard instead of what was promised is told as well.
    assert heard(two, foreign)[1] > 0


def test_chains_of_single_tones_promise_nothing():
    sound = phrase("scale", read_scale("D dorian").scale)
    assert onsets_of(example_of(sound)) == ()
    assert {check.verdict for check in music_checks([])} == {Verdict.NOTHING}
