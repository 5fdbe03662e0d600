"""Files read back by other means: the standard library for WAV, FFmpeg's decoders and a slow meter for the others."""

from __future__ import annotations

import itertools
import wave
from collections.abc import Iterator
from pathlib import Path

import av
import numpy as np
import pytest

from gamutwright.diagrams.phrases import phrase
from gamutwright.errors import DomainError, FileError
from gamutwright.ir.sound import Note, Sound, Timbre
from gamutwright.music.performance import Performance
from gamutwright.render import audiofile
from gamutwright.render.audiofile import FORMATS, audio_signal, export, write_audio
from gamutwright.render.loudness import measured
from gamutwright.render.signal import Signal
from gamutwright.theory.scale import Scale
from render.hearing import RATE, cents, onsets, pitch_hz, slow_lufs
from thinning import thinned

SCALE = Scale.of(7, 9, 11, 1, 2, 4, 5)


@pytest.mark.parametrize(("ending", "timbre"), thinned(itertools.product(FORMATS, Timbre), 0.34))
def test_loudness_and_peak_hold_in_what_is_decoded(tmp_path: Path, ending: str, timbre: Timbre):
    """-16 LUFS within 0.5 LU and a true peak of at most -1 dBTP, after coding."""
    sound = phrase("chords", SCALE, performance=Performance(timbre, 120))
    written = export(tmp_path / f"chords{ending}", Signal.of_sound(sound), channels=1)
    back = audio_signal(written.path)
    samples = back.samples()
    assert slow_lufs([samples]) == pytest.approx(-16.0, abs=0.5)
    assert measured(back).true_peak_dbtp <= -1.0
    assert written.loudness.integrated_lufs == pytest.approx(slow_lufs([samples]), abs=0.2)
    assert not list(tmp_path.glob(".*"))


@pytest.mark.parametrize("ending", list(FORMATS))
def test_pitch_and_onsets_survive(tmp_path: Path, ending: str):
    """Within 1 cent and 1 ms; the lossy coders smear a little before an onset, so it is sought nearer the peak."""
    notes = tuple(Note(9_600 + 36_000 * k, 24_000, 261.6255653 * 2 ** (k / 7)) for k in range(4))
    sound = Sound(160_000, notes)
    path = tmp_path / f"tones{ending}"
    export(path, Signal.of_sound(sound), channels=1)
    samples = audio_signal(path).samples()
    for note in notes:
        heard = samples[note.start_tick + 9_600 : note.end_tick]
        assert abs(cents(pitch_hz(heard, note.freq_hz), note.freq_hz)) < 0.5
    loud = np.where(np.abs(samples) > 0.05 * np.abs(samples).max(), samples, 0)
    reference = Signal.of_sound(sound).in_channels(1).samples()
    expected = onsets(np.where(np.abs(reference) > 0.05 * np.abs(reference).max(), reference, 0), 4_000)
    found = onsets(loud, 4_000)
    assert len(found) == 4
    assert all(abs(a - b) < 48 for a, b in zip(found, expected, strict=True))


def test_wav_holds_16_bits_and_the_samples(tmp_path: Path):
    """Read with the standard library's wave module; the dither is a step either way, and silence has none."""
    samples = np.r_[np.zeros(50), 0.5, -0.5, 1.0, -1.0, 2.0, -2.0]
    write_audio(tmp_path / "x.wav", Signal.of_samples(samples).in_channels(2))
    with wave.open(str(tmp_path / "x.wav")) as file:
        assert (file.getnchannels(), file.getsampwidth(), file.getframerate(), file.getnframes()) == (2, 2, RATE, 56)
        found = np.frombuffer(file.readframes(56), "<i2").reshape(-1, 2)
    assert np.array_equal(found[:, 0], found[:, 1])
    assert not found[:50].any()
    top = 1 << 15
    expected = [top // 2, -top // 2, top - 1, -top, top - 1, -top]
    assert np.abs(found[50:, 0] - np.array(expected)).max() <= 1


def test_dither_keeps_what_is_softer_than_a_step(tmp_path: Path):
    """A sine of 0.4 steps would be rounded to nothing; with dither its pitch is still there."""
    soft = 0.4 / (1 << 15) * np.sin(2 * np.pi * 440 * np.arange(RATE) / RATE + 0.3)
    write_audio(tmp_path / "x.wav", Signal.of_samples(soft))
    spectrum = np.abs(np.fft.rfft(audio_signal(tmp_path / "x.wav").samples()))
    assert np.argmax(spectrum) == 440


def test_flac_is_lossless(tmp_path: Path):
    signal = Signal.of_sound(phrase("up", SCALE)).amplified(0.1).in_channels(1)
    write_audio(tmp_path / "x.flac", signal)
    back = audio_signal(tmp_path / "x.flac").samples()
    assert np.abs(back - signal.samples()).max() <= 0.51 / (1 << 23)


def test_left_and_right_stay_apart(tmp_path: Path):
    """Read with the standard library's wave module: a tone at the left, half as loud at the right."""
    left = 0.5 * np.sin(2 * np.pi * 440 * np.arange(RATE) / RATE)
    written = write_audio(tmp_path / "x.wav", Signal.of_samples(np.stack([left, left / 2], axis=1)))
    with wave.open(str(tmp_path / "x.wav")) as file:
        found = np.frombuffer(file.readframes(RATE), "<i2").reshape(-1, 2) / (1 << 15)
    assert np.abs(found - np.stack([left, left / 2], axis=1)).max() < 1e-4
    assert written.loudness.integrated_lufs == pytest.approx(slow_lufs([left, left / 2]), abs=0.1)


def test_files_say_what_they_are(tmp_path: Path):
    signal = Signal.of_sound(phrase("up", SCALE))
    for ending, codec in ((".wav", "pcm_s16le"), (".flac", "flac"), (".m4a", "aac"), (".mp3", "mp3")):
        export(tmp_path / f"x{ending}", signal, channels=2)
        with av.open(str(tmp_path / f"x{ending}")) as file:
            stream = file.streams.audio[0]
            assert stream.codec_context.name.removesuffix("float") == codec
            assert (stream.rate, stream.channels) == (RATE, 2)


def test_a_peaky_programme_is_limited_until_its_coded_peak_is_low_enough(tmp_path: Path):
    """Noise bursts are what a coder changes most."""
    rng = np.random.default_rng(11)
    noise = rng.standard_normal(4 * RATE) * np.repeat(rng.random(400) ** 6, 480)
    written = export(tmp_path / "noise.m4a", Signal.of_samples(noise), target_lufs=-14.0)
    assert written.loudness.true_peak_dbtp <= -1.0
    assert measured(audio_signal(written.path)).true_peak_dbtp <= -1.0


def test_long_sounds_stay_in_little_memory(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """Four minutes of two notes; no block that passes is longer than a second and a half."""
    longest = 0
    encode = audiofile._frame

    def watched(block: np.ndarray, form: object) -> av.AudioFrame:
        nonlocal longest
        longest = max(longest, len(block))
        return encode(block, form)

    monkeypatch.setattr(audiofile, "_frame", watched)
    sound = Sound(240 * RATE, (Note(0, RATE, 440.0), Note(230 * RATE, RATE, 330.0)))
    write_audio(tmp_path / "long.flac", Signal.of_sound(sound).amplified(0.1))
    assert 0 < longest <= 1.5 * RATE


@pytest.mark.parametrize("name", ["x.ogg", "x", "x.mid"])
def test_unknown_endings_are_refused(tmp_path: Path, name: str):
    with pytest.raises(DomainError, match=r"\.wav, \.flac, \.m4a, \.mp3"):
        export(tmp_path / name, Signal.of_samples(np.zeros(10)))
    assert not list(tmp_path.iterdir())


def test_nothing_to_write_is_refused(tmp_path: Path):
    with pytest.raises(DomainError, match="1 or 2 channels"):
        export(tmp_path / "x.wav", Signal.of_samples(np.zeros(0)))
    with pytest.raises(DomainError, match="1 or 2 channels"):
        export(tmp_path / "x.wav", Signal.of_samples(np.ones(10)), channels=6)


def test_a_missing_folder_and_a_file_that_is_no_audio(tmp_path: Path):
    with pytest.raises(FileError, match="Choose another place"):
        export(tmp_path / "nowhere" / "x.wav", Signal.of_sound(phrase("up", SCALE)))
    (tmp_path / "x.wav").write_text("harbour")
    with pytest.raises(FileError, match="cannot be read as audio"):
        audio_signal(tmp_path / "x.wav")
    with pytest.raises(FileError, match="cannot be read as audio"):
        audio_signal(tmp_path / "none.flac")


def test_a_failed_export_keeps_what_was_there(tmp_path: Path):
    path = tmp_path / "x.wav"
    path.write_bytes(b"before")

    def broken() -> Iterator[np.ndarray]:
        yield np.zeros(100)
        raise OSError(28, "No space left on device")

    with pytest.raises(OSError, match="No space"):
        write_audio(path, Signal(200, broken))
    assert path.read_bytes() == b"before"
    assert [file.name for file in tmp_path.iterdir()] == ["x.wav"]
