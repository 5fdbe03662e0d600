"""Recordings as other programs write them: many channels, unknown kinds, absurd numbers, addresses; none ends ours.

WAV heads are written by hand after the "Multimedia Programming Interface and Data Specifications 1.0" (IBM and
Microsoft, 1991), from memory.
"""

from __future__ import annotations

import math
import os
import socket
import struct
import wave
from pathlib import Path

import numpy as np
import pytest

from gamutwright.errors import FileError
from gamutwright.render.recording import MOST_CHANNELS, decode

PCM, FLOAT = 1, 3


def wav(path: Path, data: bytes, *, channels: int = 1, kind: int = PCM, bits: int = 16, rate: int = 48_000) -> Path:
    frame = channels * bits // 8
    head = struct.pack("<HHIIHH", kind, channels, rate, rate * frame & 0xFFFFFFFF, frame & 0xFFFF, bits)
    chunks = b"fmt " + struct.pack("<I", len(head)) + head + b"data" + struct.pack("<I", len(data)) + data
    path.write_bytes(b"RIFF" + struct.pack("<I", 4 + len(chunks)) + b"WAVE" + chunks)
    return path


@pytest.mark.parametrize("channels", [1, 2, 7, 8, 9, 12, 24, 32, MOST_CHANNELS])
def test_every_channel_of_a_recorder_is_heard(channels: int, tmp_path: Path):
    tone = np.sin(2 * np.pi * 440 * np.arange(60_000) / 48_000)
    sound = np.stack([tone * (k + 1) / channels for k in range(channels)], axis=1)
    whole = np.rint(sound * 20_000).astype("<i2")
    read = decode(wav(tmp_path / "many.wav", whole.tobytes(), channels=channels))
    assert read.channels == channels
    assert np.allclose(read.samples, (whole / 32_768).mean(axis=1), atol=1e-6), "the mean of all, each once"


def test_of_channels_that_cancel_the_loudest_is_heard(tmp_path: Path):
    tone = np.rint(8_000 * np.sin(2 * np.pi * 440 * np.arange(60_000) / 48_000))
    whole = np.stack([tone, -2 * tone, tone], axis=1).astype("<i2")
    read = decode(wav(tmp_path / "cancel.wav", whole.tobytes(), channels=3))
    assert np.allclose(read.samples, -2 * tone / 32_768, atol=1e-4)


def test_runs_at_full_scale_are_counted_once_wherever_blocks_end(tmp_path: Path):
    sound = np.zeros((200_000, 2))
    runs = [(0, 3), (10, 12), (47_999, 48_001), (48_900, 51_300), (95_990, 96_400), (199_990, 200_000)]
    for start, end in runs:
        sound[start:end, 1] = 32_767
    sound[500:504, 0] = -32_768
    read = decode(wav(tmp_path / "clipped.wav", sound.astype("<i2").tobytes(), channels=2))
    assert read.clipped_runs == sum(end - start >= 3 for start, end in runs) + 1


@pytest.mark.parametrize(
    ("made", "says"),
    [
        ({"kind": 0x9999}, "coded in a way that is unknown here"),
        ({"kind": 0}, "coded in a way that is unknown here"),
        ({"bits": 0}, "coded in a way that is unknown here"),
        ({"channels": 0}, "it has 0 channels, and 1 to 64 are read"),
        ({"channels": 100}, "it has 100 channels, and 1 to 64 are read"),
        ({"rate": 0}, "cannot be read as sound"),
        ({"rate": 2**31 - 1}, "cannot be read as sound"),
    ],
    ids=str,
)
def test_heads_that_say_nothing_sensible_are_refused(made: dict[str, int], says: str, tmp_path: Path):
    file = wav(tmp_path / "odd.wav", bytes(9_600), **made)
    with pytest.raises(FileError, match=says) as told:
        decode(file)
    assert told.value.value == str(file)
    assert told.value.next_step.endswith(".")


@pytest.mark.parametrize("value", [1e30, -1e30, math.nan, math.inf, 32_768.0])
def test_levels_that_no_recording_has_are_refused(value: float, tmp_path: Path):
    sound = np.full(60_000, 0.1, "<f4")
    sound[50_000] = value
    with pytest.raises(FileError, match="no recording is more than 40 dB above full scale"):
        decode(wav(tmp_path / "loud.wav", sound.tobytes(), kind=FLOAT, bits=32))


def test_a_float_recording_somewhat_above_full_scale_is_read(tmp_path: Path):
    sound = np.full(60_000, 2.5, "<f4")
    read = decode(wav(tmp_path / "hot.wav", sound.tobytes(), kind=FLOAT, bits=32))
    assert (read.samples.max(), read.clipped_runs) == (2.5, 1)


@pytest.mark.parametrize(
    "text",
    [
        "#EXTM3U\n#EXT-X-TARGETDURATION:9\n#EXTINF:9,\nhttp://127.0.0.1:{port}/a.ts\n#EXT-X-ENDLIST\n",
        "ffconcat version 1.0\nfile 'http://127.0.0.1:{port}/a.wav'\n",
        "v=0\no=- 0 0 IN IP4 127.0.0.1\ns=x\nc=IN IP4 127.0.0.1\nt=0 0\nm=audio {port} RTP/AVP 0\n",
    ],
    ids=["HLS", "concat", "SDP"],
)
@pytest.mark.parametrize("name", ["mine.wav", "mine.m3u8"])
def test_no_file_makes_us_ask_the_network(text: str, name: str, tmp_path: Path):
    with socket.create_server(("127.0.0.1", 0)) as server:
        server.settimeout(0)
        file = tmp_path / name
        file.write_text(text.format(port=server.getsockname()[1]), encoding="utf-8")
        with pytest.raises(FileError):
            decode(file)
        with pytest.raises(BlockingIOError):
            server.accept()


def test_a_name_like_an_address_is_a_name(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.chdir(tmp_path)
    Path("http:").mkdir()
    with wave.open(os.fspath(Path("http:/line.wav")), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(48_000)
        file.writeframes(bytes(96_000))
    assert len(decode(Path("http:/line.wav")).samples) == 48_000
