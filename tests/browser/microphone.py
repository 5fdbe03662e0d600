"""What the browser's microphone hears in tests: a line, spoken by another voice of the synthesiser in a quiet room."""

from __future__ import annotations

from pathlib import Path

import numpy as np

from gamutwright.render.audiofile import write_audio
from gamutwright.render.espeak import EspeakVoice
from gamutwright.render.signal import Signal

__all__ = ["BEFORE_S", "LINE", "microphone_file"]

LINE = "It has seven tones."
BEFORE_S, AFTER_S = 1.0, 2.0
PEAK = 0.5


def microphone_file(path: Path) -> Path:
    """Write a second of the room, the line, and two seconds of the room; a browser begins again at its end."""
    said = EspeakVoice("en", 1.1, 70).speak(LINE).samples
    before, after = (round(48_000 * seconds) for seconds in (BEFORE_S, AFTER_S))
    room = np.random.default_rng(5).standard_normal(before + len(said) + after).astype(np.float32) * 2e-4
    room[before : before + len(said)] += PEAK * said / np.abs(said).max()
    write_audio(path, Signal.of_samples(room))
    return path
