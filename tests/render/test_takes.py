"""A teacher's recordings: taken in, levelled, laid along their words, stale when the words change, faults said.

Recordings are made with another voice of the synthesiser, so that the words are really in them.
"""

from __future__ import annotations

import shutil
import wave
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import av
import numpy as np
import pytest

from gamutwright.errors import DomainError, FileError, GamutwrightError, InputError
from gamutwright.render import choosing, takefile
from gamutwright.render.audiofile import write_audio
from gamutwright.render.recording import Fault, decode, prepare
from gamutwright.render.signal import Signal
from gamutwright.render.takes import (
    add_take,
    choose_take,
    chosen_take,
    line_folders,
    list_takes,
    move_word,
    play_or_speak,
    play_take,
    words_digest,
)
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


def webm(path: Path, samples: np.ndarray) -> Path:
    """Write Opus in WebM as a browser's recorder does: no length stated, two channels."""
    with av.open(str(path), "w", format="webm", options={"live": "1"}) as container:
        stream = container.add_stream("libopus", rate=48_000)
        stream.layout = "stereo"
        for begin in range(0, len(samples), 960):
            block = np.repeat(samples[None, begin : begin + 960], 2, axis=0)
            frame = av.AudioFrame.from_ndarray(np.ascontiguousarray(block), format="fltp", layout="stereo")
            frame.sample_rate, frame.pts = 48_000, begin
            container.mux(stream.encode(frame))
        container.mux(stream.encode(None))
    return path


def test_a_browsers_recording_without_a_stated_length_is_read(samples: np.ndarray, tmp_path: Path):
    path = webm(tmp_path / "mine.webm", samples)
    with av.open(str(path)) as container:
        assert container.duration is None, "the case is that of a recorder that streams"
    recording = decode(path)
    assert (recording.rate_hz, recording.channels, recording.is_truncated) == (48_000, 2, False)
    assert len(recording.samples) == pytest.approx(len(samples), abs=2_000)
    plain = prepare(decode(written(tmp_path / "mine.wav", samples)), LINE)
    assert prepare(recording, LINE).loudness_lufs == pytest.approx(plain.loudness_lufs, abs=1)


@pytest.mark.parametrize("ending", ["flac", "mp3", "webm"])
def test_files_cut_short_give_what_is_in_them_or_an_error_never_a_crash(
    ending: str, samples: np.ndarray, tmp_path: Path
):
    path = tmp_path / f"mine.{ending}"
    whole = webm(path, samples) if ending == "webm" else written(path, samples)
    data = whole.read_bytes()
    for share in (0.001, 0.01, 0.3, 0.7, 0.99):
        path.write_bytes(data[: int(len(data) * share)])
        try:
            recording = decode(path)
        except FileError:
            continue
        assert len(recording.samples) < len(samples) * 1.01
        if ending == "flac" and share < 0.9:
            assert recording.is_truncated


def test_an_hour_is_refused(tmp_path: Path):
    path = tmp_path / "evening.wav"
    with wave.open(str(path), "wb") as file:
        file.setparams((1, 2, 8_000, 0, "NONE", ""))
        file.writeframes(bytes(2 * 8_000 * 3_600))
    with pytest.raises(FileError, match="one file for each line"):
        decode(path)


def test_numbers_are_never_used_twice_not_even_at_once(samples: np.ndarray, tmp_path: Path):
    takes, path = tmp_path / "takes", written(tmp_path / "one.wav", samples)
    with ThreadPoolExecutor(4) as pool:
        made = list(pool.map(lambda _: add_take(takes, "k3f", LINE, path, "en"), range(4)))
    assert sorted(take.number for take in made) == [1, 2, 3, 4]
    assert len(list_takes(takes, "k3f")) == 4
    # A take deleted by hand, and one whose writing was cut short, give their numbers to nobody that would lose them.
    (takes / "k3f" / "05.json").touch()
    before = {file: file.read_bytes() for file in (takes / "k3f").glob("*.flac")}
    assert add_take(takes, "k3f", LINE, path, "en").number == 6
    assert [take.number for take in list_takes(takes, "k3f")] == [1, 2, 3, 4, 6]
    assert all(file.read_bytes() == content for file, content in before.items())


def test_a_word_may_be_moved_by_hand(samples: np.ndarray, tmp_path: Path):
    takes = tmp_path / "takes"
    take = add_take(takes, "k3f", LINE, written(tmp_path / "one.wav", samples), "en")
    third = take.times[3]
    moved = move_word(take, 3, third.start_tick - 240)
    assert moved.times[3].start_tick == third.start_tick - 240
    assert moved.times[2].end_tick <= third.start_tick - 240
    assert list_takes(takes, "k3f") == (moved,)
    for index, tick in ((3, third.end_tick), (3, 0), (99, 10), (-1, 10)):
        with pytest.raises(DomainError, match="between"):
            move_word(take, index, tick)


@pytest.mark.parametrize(
    ("now", "is_stale"),
    [
        ("there are two semitones between neighbours; and one of them leads home!", False),
        ("There are three semitones between neighbours, and one of them leads home.", True),
        ("There are two semitones between neighbours, and one leads home.", True),
        ("", True),
    ],
)
def test_only_words_make_a_take_stale(now: str, is_stale: bool):
    assert (words_digest(now) != words_digest(LINE)) is is_stale


def test_times_follow_the_words_when_only_punctuation_changed(samples: np.ndarray, tmp_path: Path):
    take = add_take(tmp_path / "takes", "k3f", LINE, written(tmp_path / "one.wav", samples), "en")
    now = "“There are two semitones” – between neighbours – and one of them leads home…"
    spoken = play_take(take, now)
    assert [now[word.start_char : word.end_char] for word in spoken.words] == LINE.replace(",", "")[:-1].split()
    assert [word.start_tick for word in spoken.words] == [word.start_tick for word in take.times]


def test_a_damaged_description_is_said_and_lines_cannot_leave_the_folder(samples: np.ndarray, tmp_path: Path):
    takes = tmp_path / "takes"
    add_take(takes, "k3f", LINE, written(tmp_path / "one.wav", samples), "en")
    (takes / "k3f" / "01.json").write_text('{"text": 3', encoding="utf-8")
    with pytest.raises(FileError, match=r"01\.json"):
        list_takes(takes, "k3f")
    for name in ("../k3f", "", "a/b", "k3f\n"):
        with pytest.raises(DomainError):
            list_takes(takes, name)
    assert line_folders(takes) == ("k3f",)
    assert line_folders(tmp_path / "none") == ()
    with pytest.raises(DomainError, match="no such take"):
        choose_take(takes, "other", 1)


def test_a_full_disk_leaves_no_take(samples: np.ndarray, tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    takes, path = tmp_path / "takes", written(tmp_path / "one.wav", samples)

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    for module, name in ((shutil, "copyfileobj"), (takefile, "write_text"), (choosing, "write_text")):
        with monkeypatch.context() as patch:
            patch.setattr(module, name, full)
            with pytest.raises((FileError, OSError), match="No space left"):
                add_take(takes, "k3f", LINE, path, "en")
        assert list_takes(takes, "k3f") == ()
        assert chosen_take(takes, "k3f") is None
        assert not any(file.is_file() for file in takes.rglob("*")), "neither sound nor description is left"
    assert add_take(takes, "k3f", LINE, path, "en").number == 1


def test_a_take_that_was_cut_short_by_a_kill_is_none(samples: np.ndarray, tmp_path: Path):
    takes, path = tmp_path / "takes", written(tmp_path / "one.wav", samples)
    (takes / "k3f").mkdir(parents=True)
    (takes / "k3f" / "01.flac").touch()
    assert list_takes(takes, "k3f") == ()
    assert add_take(takes, "k3f", LINE, path, "en").number == 2


def test_a_line_without_words_has_no_takes(tmp_path: Path):
    with pytest.raises(DomainError, match="no words"):
        add_take(tmp_path, "k3f", " … ", tmp_path / "none.wav", "en")
