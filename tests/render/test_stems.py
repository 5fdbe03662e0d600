"""Stems: one file for each part, which together are the whole."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from gamutwright.errors import FileError, InputError
from gamutwright.ir.playing import Drum, Part, Stroke
from gamutwright.ir.sound import Note, Sound
from gamutwright.render.audiofile import audio_signal
from gamutwright.render.signal import Signal
from gamutwright.render.soundfont import Players
from gamutwright.render.stems import STEM_LUFS, write_stems
from render.hearing import RATE, cents, pitch_hz, slow_lufs

SOUND = Sound(
    3 * RATE,
    (Note(0, RATE, 110.0, part=Part.BASS), Note(RATE, RATE, 440.0), Note(RATE, RATE, 220.0, 0.4, part=Part.CHORD)),
    strokes=(Stroke(RATE // 2, Drum.BRUSH),),
)


@pytest.mark.parametrize("ending", [".flac", ".m4a", ".wav"])
def test_stems_are_the_parts_and_together_the_whole(tmp_path: Path, ending: str):
    stems = write_stems(tmp_path / "stems", SOUND, Players(), Path(f"vamp{ending}"), 1)
    names = [f"vamp-{part}{ending}" for part in ("tune", "chord", "bass", "drum")]
    assert [stem.path.name for stem in stems] == names
    assert sorted(path.name for path in (tmp_path / "stems").iterdir()) == sorted(names)
    heard = {stem.path.stem: audio_signal(stem.path).samples()[: SOUND.ticks] for stem in stems}
    for name, freq_hz, begin in (("tune", 440.0, RATE), ("chord", 220.0, RATE), ("bass", 110.0, 0)):
        samples = heard[f"vamp-{name}"]
        assert abs(cents(pitch_hz(samples[begin + 9_600 : begin + 40_000], freq_hz), freq_hz)) < 0.5
        assert np.abs(samples[:begin]).max(initial=0.0) < 1e-3
    together = sum(heard.values())
    whole = Signal.of_sound(SOUND).in_channels(1).samples()
    gain = float(np.dot(whole, together) / np.dot(whole, whole))
    assert np.abs(together - gain * whole).max() < (1e-3 if ending != ".m4a" else 0.03)
    assert slow_lufs([together]) == pytest.approx(STEM_LUFS, abs=0.3)
    assert all(stem.loudness.true_peak_dbtp <= -1 for stem in stems)


def test_other_endings_and_places_say_what_to_do(tmp_path: Path):
    with pytest.raises(InputError, match=r"\.flac, \.m4a, \.wav"):
        write_stems(tmp_path, SOUND, Players(), Path("vamp.mp3"))
    (tmp_path / "file").write_text("x")
    with pytest.raises(FileError, match="another folder"):
        write_stems(tmp_path / "file", SOUND, Players(), Path("vamp.flac"))
