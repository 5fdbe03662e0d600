"""Piper voices: the real part with a tiny model written here, and what is said where part or files are missing.

The model is a file of the Open Neural Network Exchange, written byte by byte from its published schema (onnx.proto,
from memory): each phoneme becomes 512 samples of a tone whose strength is the phoneme's number, and lasts 2 hops
of 256.
"""

from __future__ import annotations

import importlib
import json
import struct
from pathlib import Path

import numpy as np
import pytest

from gamutwright.errors import DomainError, FileError, MissingPartError
from gamutwright.render.piper import PiperVoice
from gamutwright.render.voice import word_spans

FLOAT, INT64 = 1, 7
RATE_HZ, SAMPLES, HOP = 16_000, 512, 256


def varint(number: int) -> bytes:
    out = b""
    number &= (1 << 64) - 1
    while number > 127:
        out, number = out + bytes([number & 127 | 128]), number >> 7
    return out + bytes([number])


def field(number: int, value: int | bytes | str) -> bytes:
    if isinstance(value, int):
        return varint(number << 3) + varint(value)
    raw = value.encode() if isinstance(value, str) else value
    return varint(number << 3 | 2) + varint(len(raw)) + raw


def node(kind: str, inputs: list[str], output: str, **attributes: int) -> bytes:
    made = b"".join(field(1, name) for name in inputs) + field(2, output) + field(4, kind)
    for name, value in attributes.items():
        made += field(5, field(1, name) + field(3, value) + field(20, 2))
    return field(1, made)


def tensor(name: str, kind: int, dims: list[int], raw: bytes) -> bytes:
    return field(5, b"".join(field(1, dim) for dim in dims) + field(2, kind) + field(8, name) + field(9, raw))


def value(place: int, name: str, kind: int, dims: list[int | str]) -> bytes:
    shape = b"".join(field(1, field(1, dim) if isinstance(dim, int) else field(2, dim)) for dim in dims)
    return field(place, field(1, name) + field(2, field(1, field(1, kind) + field(2, shape))))


def write_voice(folder: Path, *, phonemes: str, tells_times: bool) -> Path:
    tone = np.sin(2 * np.pi * 500 * np.arange(SAMPLES) / RATE_HZ).astype("<f4") / 200
    graph = node("Cast", ["input"], "numbers", to=FLOAT)
    graph += node("Reshape", ["numbers", "column"], "tall") + node("MatMul", ["tall", "tone"], "rows")
    graph += node("Reshape", ["rows", "flat"], "output")
    if tells_times:
        graph += node("Mul", ["numbers", "nothing"], "zeros") + node("Add", ["zeros", "two"], "durations")
    graph += field(2, "tiny")
    graph += tensor("column", INT64, [2], struct.pack("<2q", -1, 1)) + tensor(
        "flat", INT64, [3], struct.pack("<3q", 1, 1, -1)
    )
    graph += tensor("tone", FLOAT, [1, SAMPLES], tone.tobytes())
    graph += tensor("nothing", FLOAT, [1], struct.pack("<f", 0)) + tensor("two", FLOAT, [1], struct.pack("<f", 2))
    graph += (
        value(11, "input", INT64, [1, "n"]) + value(11, "input_lengths", INT64, [1]) + value(11, "scales", FLOAT, [3])
    )
    graph += value(12, "output", FLOAT, [1, 1, "t"])
    if tells_times:
        graph += value(12, "durations", FLOAT, [1, "n"])
    path = folder / "harbour.onnx"
    path.write_bytes(field(1, 8) + field(7, graph) + field(8, field(2, 13)))
    letters = "_^$ .,'" + "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789ɐɑɒɔəɛɜɡɪɹʃʊʌθðŋʒˈˌː"
    settings = {
        "audio": {"sample_rate": RATE_HZ},
        "espeak": {"voice": "en"},
        "phoneme_type": phonemes,
        "num_symbols": len(letters),
        "num_speakers": 1,
        "hop_length": HOP,
        "phoneme_id_map": {letter: [index + 1] for index, letter in enumerate(letters)},
    }
    path.with_name("harbour.onnx.json").write_text(json.dumps(settings), encoding="utf-8")
    return path


def test_word_times_are_those_the_model_tells(tmp_path: Path) -> None:
    pytest.importorskip("piper")
    line = "ab cde f"
    spoken = PiperVoice(write_voice(tmp_path, phonemes="text", tells_times=True)).speak(line)
    # ids: ^ _ a _ b _ blank _ c _ d _ e _ blank _ f _ $; each lasts 512 samples at 16,000 a second.
    unit = SAMPLES * 48_000 // RATE_HZ
    assert len(spoken.samples) == 19 * unit
    assert [(word.start_tick // unit, word.end_tick // unit) for word in spoken.words] == [(2, 6), (8, 14), (16, 18)]
    assert [(word.start_char, word.end_char) for word in spoken.words] == list(word_spans(line))


def test_a_voice_of_phonemes_speaks_the_lexicons_words(tmp_path: Path) -> None:
    pytest.importorskip("piper")
    voice = PiperVoice(write_voice(tmp_path, phonemes="espeak", tells_times=True))
    line = "Forte wrote B♭ here."
    first, again = voice.speak(line), voice.speak(line)
    assert [(word.start_char, word.end_char) for word in first.words] == list(word_spans(line))
    assert np.array_equal(first.samples, again.samples)
    assert voice._in_ipa("[[f'o@t]] wrote") == "[[fˈɔːt]] wrote"


def test_without_times_of_its_own_the_line_is_laid_along(tmp_path: Path) -> None:
    pytest.importorskip("piper")
    line = "We hear the fifth."
    spoken = PiperVoice(write_voice(tmp_path, phonemes="text", tells_times=False)).speak(line)
    assert [(word.start_char, word.end_char) for word in spoken.words] == list(word_spans(line))
    assert all(word.end_tick > word.start_tick for word in spoken.words)


def test_another_model_has_another_identity(tmp_path: Path) -> None:
    pytest.importorskip("piper")
    one = PiperVoice(write_voice(tmp_path, phonemes="text", tells_times=True))
    before = one.identity
    assert PiperVoice(one.model, rate=1.2).identity != before
    write_voice(tmp_path, phonemes="text", tells_times=False)
    assert one.identity != before


def test_without_the_part_the_error_says_how_to_install_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(name: str) -> object:
        raise ImportError(name)

    monkeypatch.setattr(importlib, "import_module", refuse)
    with pytest.raises(MissingPartError, match="pip install piper-tts"):
        PiperVoice(tmp_path / "harbour.onnx")


def test_missing_and_broken_files_are_said(tmp_path: Path) -> None:
    pytest.importorskip("piper")
    model = tmp_path / "harbour.onnx"
    with pytest.raises(FileError, match="not there"):
        PiperVoice(model)
    model.write_bytes(b"no model")
    with pytest.raises(FileError, match="not there"):
        PiperVoice(model)
    model.with_name("harbour.onnx.json").write_text("{", encoding="utf-8")
    with pytest.raises(FileError, match="cannot be read as a Piper voice"):
        PiperVoice(model)
    write_voice(tmp_path, phonemes="text", tells_times=True)
    model.write_bytes(model.read_bytes()[:80])
    with pytest.raises(FileError, match="cannot be read as a Piper voice"):
        PiperVoice(model)


def test_a_rate_outside_the_range_is_refused(tmp_path: Path) -> None:
    with pytest.raises(DomainError):
        PiperVoice(tmp_path / "harbour.onnx", rate=9)
