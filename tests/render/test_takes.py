"""A teacher's recordings: taken in, levelled, laid along their words, stale when the words change, faults said.

Recordings are made with another voice of the synthesiser, so that the words are really in them.
"""

from __future__ import annotations

import wave
from pathlib import Path

import numpy as np
import pytest

from gamutwright.errors import FileError, GamutwrightError, InputError
from gamutwright.render.audiofile import write_audio
from gamutwright.render.recording import Fault, decode, prepare
from gamutwright.render.signal import Signal
from gamutwright.render.takes import add_take, choose_take, chosen_take, list_takes, play_or_speak, play_take
from gamutwright.render.voice import SpokenLine
from render.recordings import SPEAKERS, spoken_by

LINE = "There are two semitones between neighbours, and one of them leads home."


class Nobody:
    """A voice that must not be asked."""

    def speak(self, line: str, notes: object = ()) -> SpokenLine:
        raise AssertionError(line)


class Stand:
    """A voice that says a second of nothing."""

    def speak(self, line: str, notes: object = ()) -> SpokenLine:
        return SpokenLine(np.zeros(48_000, np.float32), ())


@pytest.fixture(scope="module")
def samples() -> np.ndarray:
    spoken = spoken_by(SPEAKERS[1], LINE, "en").samples
    room = np.random.default_rng(3).standard_normal(len(spoken) + 96_000) * 2e-4
    room[48_000 : 48_000 + len(spoken)] += 0.5 * spoken / np.abs(spoken).max()
    return room.astype(np.float32)


def written(path: Path, samples: np.ndarray) -> Path:
    write_audio(path, Signal.of_samples(samples))
    return path


@pytest.mark.parametrize("ending", ["wav", "flac", "mp3", "m4a"])
def test_a_take_is_trimmed_levelled_and_has_word_times(ending: str, samples: np.ndarray, tmp_path: Path):
    take = add_take(tmp_path / "takes", "k3f", LINE, written(tmp_path / f"mine.{ending}", samples), "en")
    assert take.faults == ()
    assert take.seconds < len(samples) / 48_000 - 1, "a second of room on either side is cut"
    is_loud_enough = take.loudness_lufs == pytest.approx(-16, abs=0.5)
    assert is_loud_enough or take.peak_dbtp == pytest.approx(-1.5, abs=0.1), "as loud as its peaks allow"
    assert take.peak_dbtp <= -1
    assert len(take.times) == len(LINE.split())
    starts = [word.start_tick for word in take.times]
    assert starts == sorted(starts)


def test_the_chosen_take_is_heard_until_the_words_change(samples: np.ndarray, tmp_path: Path):
    takes = tmp_path / "takes"
    first = add_take(takes, "k3f", LINE, written(tmp_path / "one.wav", samples), "en")
    second = add_take(takes, "k3f", LINE, written(tmp_path / "two.wav", samples[: 2 * len(samples)]), "en")
    assert [take.number for take in list_takes(takes, "k3f")] == [1, 2]
    chosen = chosen_take(takes, "k3f")
    assert chosen is not None
    assert chosen.number == second.number
    choose_take(takes, "k3f", first.number)
    spoken, take = play_or_speak(takes, "k3f", LINE, Nobody())
    assert take is not None
    assert take.number == first.number
    assert len(spoken.words) == len(LINE.split())
    changed = LINE.replace("two", "three")
    spoken, take = play_or_speak(takes, "k3f", changed, Stand())
    assert take is None
    with pytest.raises(GamutwrightError, match="changed"):
        play_take(first, changed)


def test_faults_are_said(samples: np.ndarray, tmp_path: Path):
    loud = np.clip(samples * 20, -1, 1)
    assert Fault.CLIPPED in prepare(decode(written(tmp_path / "loud.wav", loud)), LINE).faults
    noisy = samples + np.random.default_rng(4).standard_normal(len(samples)).astype(np.float32) * 0.03
    assert Fault.NOISY in prepare(decode(written(tmp_path / "noisy.wav", noisy)), LINE).faults
    cut = samples[60_000:-60_000]
    found = prepare(decode(written(tmp_path / "cut.wav", cut)), LINE).faults
    assert {Fault.CUT_IN, Fault.CUT_OFF} & set(found)
    many = " ".join([LINE] * 4)
    assert Fault.TOO_FAST in prepare(decode(written(tmp_path / "fast.wav", samples)), many).faults


def test_a_truncated_file_is_said_to_be(samples: np.ndarray, tmp_path: Path):
    path = written(tmp_path / "whole.wav", samples)
    data = path.read_bytes()
    path.write_bytes(data[: len(data) * 2 // 3])
    assert decode(path).is_truncated


def test_silence_is_refused(tmp_path: Path):
    with pytest.raises(InputError):
        add_take(tmp_path / "takes", "k3f", LINE, written(tmp_path / "none.wav", np.zeros(96_000, np.float32)), "en")
    assert list_takes(tmp_path / "takes", "k3f") == ()


@pytest.mark.parametrize("data", [b"", b"not a sound", bytes(5000)])
def test_what_is_no_sound_is_refused(data: bytes, tmp_path: Path):
    path = tmp_path / "mine.wav"
    path.write_bytes(data)
    with pytest.raises(FileError):
        decode(path)
    with pytest.raises(FileError):
        decode(tmp_path / "missing.wav")


def test_a_whole_lesson_in_one_file_is_refused(tmp_path: Path):
    path = written(tmp_path / "long.flac", np.zeros(301 * 48_000, np.float32))
    with pytest.raises(FileError, match="longer than 5 minutes"):
        decode(path)


def test_other_rates_and_channels_are_read(samples: np.ndarray, tmp_path: Path):
    path = tmp_path / "telephone.wav"
    eighth = (samples[::6] * 32_000).astype("<i2")
    with wave.open(str(path), "wb") as file:
        file.setparams((2, 2, 8_000, 0, "NONE", ""))
        file.writeframes(np.stack([eighth, -eighth], axis=1).tobytes())
    recording = decode(path)
    assert (recording.rate_hz, recording.channels) == (8_000, 2)
    assert len(recording.samples) == pytest.approx(len(samples), rel=0.01)
    assert np.abs(recording.samples).max() > 0.2, "channels of opposite sign do not cancel out"
    assert Fault.LOW_RATE in prepare(recording, LINE).faults
