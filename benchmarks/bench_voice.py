"""Voice as multiples of real time: speaking, taking a recording in, laying it along its words; and how exact that is.

The recordings whose word times are known are those of the tests: other voices, speeds, pauses, a room, noise.
"""

from __future__ import annotations

import importlib
import sys
from collections.abc import Iterator
from pathlib import Path

import numpy as np
from bench_sound import times
from measure import Row, median_seconds

from gamutwright.render.align import align, reference_lines
from gamutwright.render.espeak import EspeakVoice
from gamutwright.render.recording import Recording, prepare

LINES = {
    "en": "There are two semitones between neighbours: C sharp to D, and E to F.",
    "de": "Es gibt zwei Halbtonschritte zwischen Nachbarn: von cis nach d und von e nach f.",
}


MEDIAN_MS, PERCENTILE_95_MS = 40, 120


def rows() -> Iterator[Row]:
    for language, line in LINES.items():
        voice = EspeakVoice(language)
        spoken = voice.speak(line)
        yield times(f"a line spoken, {language}", spoken.seconds, lambda v=voice, t=line: v.speak(t))
        other = EspeakVoice(language, 0.9, 70).speak(line)
        room = other.samples + np.random.default_rng(1).standard_normal(len(other.samples)).astype(np.float32) * 1e-3
        yield times(
            f"a recording trimmed and levelled, {language}",
            other.seconds,
            lambda s=room, t=line: prepare(Recording(s, 48_000, 1), t),
        )
        references = reference_lines(line, language)
        yield times(f"laid along its words, {language}", other.seconds, lambda s=room, r=references: align(s, r))
        yield Row(
            f"references of a line, {language}",
            f"{median_seconds(lambda t=line, g=language: reference_lines(t, g), 3) * 1000:.0f} ms",
        )
    for language in LINES:
        errors_ms = alignment_errors_ms(language)
        for what, error, most in (
            ("median", float(np.median(errors_ms)), MEDIAN_MS),
            ("95th percentile", float(np.percentile(errors_ms, 95)), PERCENTILE_95_MS),
            ("worst", max(errors_ms), None),
        ):
            name = f"error of {len(errors_ms)} word beginnings, {what}, {language}"
            target = f"≤ {most} ms" if most else ""
            yield Row(name, f"{error:.0f} ms", target, is_missed=bool(most and error > most))


def alignment_errors_ms(language: str) -> list[float]:
    """Lay every line by every speaker along its words and compare with the true beginnings."""
    sys.path.append(str(Path(__file__).parents[1] / "tests"))
    made = importlib.import_module("render.recordings")
    random = np.random.default_rng(20)
    errors_ms: list[float] = []
    for number, line in enumerate(made.LINES[language]):
        references = reference_lines(line, language)
        for place, speaker in enumerate(made.SPEAKERS):
            noise_db = made.NOISES_DB[(number + place) % len(made.NOISES_DB)]
            recording, true = made.recorded(made.spoken_by(speaker, line, language), random, noise_db)
            found = np.array([word.start_tick for word in align(recording, references)])
            errors_ms += (np.abs(found - true) / 48).tolist()
    return errors_ms
