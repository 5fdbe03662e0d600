"""Sound as multiples of real time: timbres, loudness, mastering, formats; a sine for each partial for a ratio."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path

import numpy as np
from measure import Row, median_seconds, quick

from gamutwright.diagrams.phrases import phrase
from gamutwright.ir.playing import Drum, Part, Stroke
from gamutwright.ir.sound import TICKS_PER_SECOND, Note, Sound, Timbre
from gamutwright.music.performance import Performance
from gamutwright.publish.score.midi_writing import write_midi
from gamutwright.render.audiofile import FORMATS, export
from gamutwright.render.loudness import measured
from gamutwright.render.mix import mastered
from gamutwright.render.signal import Signal
from gamutwright.render.synth import render
from gamutwright.theory.scale import Scale

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)
PARTIALS = 32


def rows() -> Iterator[Row]:
    for timbre in Timbre:
        sound = phrase("scale", MAJOR, performance=Performance(timbre))
        yield times(f"scale, {timbre.value}: samples", sound.seconds, lambda s=sound: render(s), 100)
    sound = band()
    yield times("tune, chords, bass, drone and drums in the room: samples", sound.seconds, lambda: render(sound), 100)
    sound = phrase("chords", MAJOR)
    ours = median_seconds(lambda: render(sound), 5)
    theirs = median_seconds(lambda: with_sines(sound), 3)
    yield Row(
        "chords, plucked: samples",
        f"{sound.seconds / ours:.0f} x real time",
        against=f"numpy, a sine and a decay for each of {PARTIALS} partials: {sound.seconds / theirs:.0f} x real time",
        ratio=f"{theirs / ours:.1f} x faster",
    )
    signal = Signal.of_samples(render(sound))
    yield times("loudness and true peak", sound.seconds, lambda: measured(signal))
    yield times("loudness alone", sound.seconds, lambda: measured(signal, peaks=False))
    yield times("samples and mastering", sound.seconds, lambda: mastered(Signal.of_sound(sound)).samples(), 20)
    with tempfile.TemporaryDirectory() as folder:
        for ending in FORMATS:
            path = Path(folder, f"chords{ending}")
            yield times(
                f"phrase to {ending}, measured after coding",
                sound.seconds,
                lambda p=path: export(p, Signal.of_sound(sound)),
                10,
            )
        yield times("phrase to .mid", sound.seconds, lambda: write_midi(Path(folder, "chords.mid"), sound))


def band() -> Sound:
    """Set eight bars for all parts: a tune in quarters over bass, off-beat chords, two drones, brush and wood block."""
    quarter, hz = TICKS_PER_SECOND * 60 // 92, lambda steps: 220.0 * 2 ** (steps / 12)
    notes = [Note(0, 32 * quarter, hz(steps), 0.25, part=Part.DRONE) for steps in (-7, 0)]
    strokes = []
    for beat in range(32):
        tick = beat * quarter
        notes.append(Note(tick, quarter * 9 // 10, hz((0, 2, 4, 5, 7, 9, 11)[beat * 3 % 7] + 5)))
        if beat % 2 == 0:
            notes.append(Note(tick, quarter * 9 // 5, hz(-19 if beat % 8 < 4 else -14), 0.6, part=Part.BASS))
        else:
            notes += [
                Note(tick, quarter * 4 // 5, hz(s + beat % 8 // 4 * 5), 0.35, part=Part.CHORD) for s in (-7, -3, 0)
            ]
        strokes.append(Stroke(tick, Drum.WOOD_BLOCK if beat % 4 == 0 else Drum.BRUSH, 0.5))
    ordered = tuple(sorted(notes, key=lambda note: note.start_tick))
    return Sound(33 * quarter, ordered, strokes=tuple(strokes))


def times(what: str, heard_s: float, work: Callable[[], object], target: float | None = None) -> Row:
    """Make a row of how many times quicker than it is heard something is done."""
    return quick(what, heard_s / median_seconds(work, 5), "x real time", target)


def with_sines(sound: Sound) -> np.ndarray:
    """Add up notes in the usual way: every partial a sine of its own over all samples of the note."""
    samples = np.zeros(sound.ticks)
    for note in sound.notes:
        length = min(note.duration_ticks + 5_760, sound.ticks - note.start_tick)
        seconds = np.arange(length) / TICKS_PER_SECOND
        tone = np.zeros(length)
        for k in range(1, PARTIALS + 1):
            tone += np.sin(2 * np.pi * k * note.freq_hz * seconds) * np.exp(-k * seconds) / k
        samples[note.start_tick : note.start_tick + length] += tone
    return samples
