"""Voice as multiples of real time: speaking, taking a recording in, laying it along its words; the line again warm."""

from __future__ import annotations

from collections.abc import Iterator

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
