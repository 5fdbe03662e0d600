"""The parts of the verifier: boxes that lie, tones, onsets and flashes whose truth is known.

Box layout: ISO/IEC 14496-12, section 4.2 (from memory); the boxes here are written by hand. Tones are sums of sines.
Flashes: WCAG 2.2, success criterion 2.3.1 (from memory), and a slow count written apart.
"""

from __future__ import annotations

import struct
from itertools import groupby
from pathlib import Path

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from gamutwright.errors import FileError, InputError
from gamutwright.ir.evidence import Change, Example, Tone
from gamutwright.render.readback.boxes import read_boxes, text_samples, tracks_of
from gamutwright.render.readback.container import box_checks
from gamutwright.render.readback.film_report import clock
from gamutwright.render.readback.flashes import FlashMeter, flashes_in_a_second
from gamutwright.render.readback.heard_pitches import Moment, measured_hz, moments_of, read_moment
from gamutwright.render.readback.promises import read_ledger
from gamutwright.render.readback.stepping import AROUND_TICKS, Changes, onset_late_ticks
from gamutwright.render.readback.text_checks import listed_chapters
from gamutwright.render.readback.watching import Group

RATE = 48_000


def box(kind: str, *parts: bytes) -> bytes:
    body = b"".join(parts)
    return struct.pack(">I4s", 8 + len(body), kind.encode()) + body


def full(kind: str, *numbers: int, tail: bytes = b"") -> bytes:
    """A box that begins with version and flags, then numbers of 32 bits."""
    return box(kind, bytes(4), struct.pack(f">{len(numbers)}I", *numbers), tail)


TEXTS = [b"Quay", "Möwe ♯".encode(), b""]


def text_track(at: int) -> bytes:
    """A track of three texts in two chunks, each a second long in a timescale of 1,000."""
    samples = [len(text).to_bytes(2, "big") + text for text in TEXTS]
    sizes = [len(sample) for sample in samples]
    tables = box(
        "stbl",
        full("stts", 1, 3, 1000),
        full("stsz", 0, 3, *sizes),
        full("stsc", 2, 1, 2, 1, 2, 1, 1),
        full("stco", 2, at, at + sizes[0] + sizes[1]),
    )
    media = box(
        "mdia",
        full("mdhd", 0, 0, 1000, 3000, 0),
        full("hdlr", 0, tail=b"sbtl" + bytes(12)),
        box("minf", tables),
    )
    return box("trak", full("tkhd", 0, 0, 7, 0, 3000), box("tref", box("chap", struct.pack(">I", 9))), media)


def small_film() -> bytes:
    """An index and three texts, written by hand."""
    chapters = b"\1" + bytes(7) + b"\1" + (25_000_000).to_bytes(8, "big") + b"\4Quay"
    size = 0
    for _ in range(2):
        head = box("ftyp", b"isom") + box("moov", text_track(size + 8), box("udta", box("chpl", chapters)))
        size = len(head)
    return head + box("mdat", *(len(text).to_bytes(2, "big") + text for text in TEXTS))


def test_boxes_written_by_hand_are_read(tmp_path: Path):
    path = tmp_path / "film.mp4"
    path.write_bytes(small_film())
    file = read_boxes(path)
    assert [part.kind for part in file.boxes] == ["ftyp", "moov", "mdat"]
    (track,) = tracks_of(file)
    assert (track.number, track.kind, track.timescale, track.chapters) == (7, "sbtl", 1000, (9,))
    assert text_samples(path, track) == [(0, 1, "Quay"), (1, 2, "Möwe ♯"), (2, 3, "")]
    assert listed_chapters(file) == [(2.5, "Quay")]
    assert [check.name for check in box_checks(file, (track,))] == ["index in front", "no edit list", "colour box"]


def read_everything(path: Path) -> None:
    file = read_boxes(path)
    listed_chapters(file)
    tracks = tracks_of(file)
    list(box_checks(file, tracks))
    for track in tracks:
        text_samples(path, track)


@settings(max_examples=400, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.data())
def test_no_damage_to_boxes_gives_a_traceback(tmp_path: Path, data: st.DataObject):
    """Cut, flipped, overwritten with extreme numbers, or with boxes put into each other."""
    film = bytearray(small_film())
    for _ in range(data.draw(st.integers(1, 6))):
        place = data.draw(st.integers(0, len(film) - 4))
        kind = data.draw(st.sampled_from(["flip", "number", "cut", "double"]))
        if kind == "flip":
            film[place] ^= 1 << data.draw(st.integers(0, 7))
        elif kind == "number":
            film[place : place + 4] = data.draw(st.sampled_from([0, 1, 7, 8, 2**31, 2**32 - 1])).to_bytes(4, "big")
        elif kind == "cut":
            del film[max(8, place) :]
        else:
            film[place:place] = film[: data.draw(st.integers(0, 64))]
        film += bytes(max(0, 8 - len(film)))
    path = tmp_path / "film.mp4"
    path.write_bytes(film)
    try:
        read_everything(path)
    except FileError as error:
        assert error.rule.startswith("it is no whole MP4 file")  # noqa: PT017 - not every damage is an error


@settings(max_examples=200, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.binary(max_size=300))
def test_no_bytes_behind_a_head_give_a_traceback(tmp_path: Path, tail: bytes):
    path = tmp_path / "film.mp4"
    path.write_bytes(box("ftyp", b"isom") + box("moov", tail))
    try:
        read_everything(path)
    except FileError as error:
        assert str(path) == error.value  # noqa: PT017 - as above


def test_a_huge_list_is_refused_before_it_is_made(tmp_path: Path):
    film = small_film().replace(
        struct.pack(">II", 0, 3) + struct.pack(">I", 6), struct.pack(">II", 5, 2**31) + bytes(4)
    )
    path = tmp_path / "film.mp4"
    path.write_bytes(film)
    with pytest.raises(FileError, match="2147483648 samples"):
        read_everything(path)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("", "no JSON"),
        ("{", "no JSON"),
        ("[" * 100_000, "no JSON"),
        ("\ufeff{}", "no ledger"),
        ("[1, 2]", "no ledger"),
        ('{"format": "something else"}', "no ledger"),
        ('{"format": "gamutwright.ledger/1"}', "says nothing of a film"),
        ('{"format": "gamutwright.ledger/1", "film": NaN}', "no JSON"),
        ('{"format": "gamutwright.ledger/1", "film": {}}', "has the format"),
        ('{"format": "gamutwright.ledger/1", "film": {"format": "gamutwright.film/1"}}', "has the entries"),
        ('{"format": "gamutwright.ledger/1", "film": 3}', "has the entries"),
    ],
)
def test_what_is_no_ledger_is_refused_in_words(text: str, told: str, tmp_path: Path):
    path = tmp_path / "ledger.json"
    path.write_text(text, encoding="utf-8")
    with pytest.raises(InputError, match=told):
        read_ledger(path)


def test_a_ledger_that_is_missing_or_binary_is_refused_in_words(tmp_path: Path):
    with pytest.raises(InputError, match="cannot be read"):
        read_ledger(tmp_path / "ledger.json")
    (tmp_path / "ledger.json").write_bytes(bytes(range(128, 256)))
    with pytest.raises(InputError, match="no JSON"):
        read_ledger(tmp_path / "ledger.json")


def wave(*freqs_hz: float, ticks: int = 9_600, partials: int = 5) -> np.ndarray:
    time = np.arange(ticks) / RATE
    parts = [np.sin(2 * np.pi * k * f * time + k) / k for f in freqs_hz for k in range(1, partials + 1)]
    return 0.1 * np.sum(parts, axis=0)


@settings(max_examples=60, deadline=None)
@given(st.floats(110, 1200), st.floats(-90, 90))
def test_a_frequency_is_measured_to_a_twentieth_of_a_cent(freq_hz: float, cents: float):
    heard = measured_hz(wave(freq_hz * 2 ** (cents / 1200)), freq_hz)
    assert abs(1200 * np.log2(heard / freq_hz) - cents) < 0.05


def moment(*freqs_hz: float) -> Moment:
    return Moment(0, 9_600, tuple(Tone(0, 9_600, freq_hz, "") for freq_hz in freqs_hz))


def test_tones_and_chords_that_are_right_are_left_alone():
    assert read_moment(wave(440.0), moment(440.0))[0] == []
    triad = [440 * 2 ** (k / 12) for k in (0, 4, 7)]
    assert read_moment(wave(*triad, ticks=24_000), moment(*triad))[0] == []
    octave = [220.0, 440.0]
    assert read_moment(wave(*octave, ticks=24_000), moment(*octave))[0] == []


@pytest.mark.parametrize("cents", [-100, -20, 20, 100])
def test_a_wrong_tone_of_a_chord_is_named(cents: float):
    triad = [440 * 2 ** (k / 12) for k in (0, 4, 7)]
    wrong = [triad[0], triad[1] * 2 ** (cents / 1200), triad[2]]
    found, _ = read_moment(wave(*wrong, ticks=24_000), moment(*triad))
    assert found[0].tone is not None
    assert found[0].tone.freq_hz == triad[1]


def test_silence_a_missing_tone_and_a_stranger_are_named():
    silent, _ = read_moment(np.zeros(9_600), moment(440.0))
    assert [(finding.tone.freq_hz, finding.freq_hz) for finding in silent if finding.tone] == [(440.0, 0.0)]
    missing, _ = read_moment(wave(440.0, ticks=24_000), moment(440.0, 440 * 2 ** (7 / 12)))
    assert [round(finding.tone.freq_hz) for finding in missing if finding.tone] == [659]
    stranger, _ = read_moment(wave(440.0, 622.25), moment(440.0))
    assert stranger[0].tone is None
    assert stranger[0].freq_hz == pytest.approx(622.25, abs=3)


def test_an_example_is_cut_where_its_tones_change():
    tones = (Tone(0, 48_000, 220.0, "A"), Tone(24_000, 24_000, 330.0, "E"), Tone(60_000, 1_000, 440.0, "A"))
    found, short = moments_of(Example("x", 0, 70_000, tones))
    assert [[tone.freq_hz for tone in part.tones] for part in found] == [[220.0], [220.0, 330.0]]
    assert all(part.start_tick >= edge for part, edge in zip(found, (0, 24_000), strict=True))
    assert short == 1


@pytest.mark.parametrize("late", [-4800, -48, 0, 960, 4800])
def test_an_onset_is_found(late: int):
    samples = np.zeros(2 * AROUND_TICKS)
    samples[AROUND_TICKS + late :] = wave(300.0, ticks=AROUND_TICKS - late)
    assert onset_late_ticks(samples) == pytest.approx(late, abs=96)
    assert onset_late_ticks(np.zeros(2 * AROUND_TICKS)) is None


@pytest.mark.parametrize("late", [-3, 0, 1, 3])
def test_a_cut_is_found_to_the_frame(late: int):
    frames = np.zeros((200, 4, 4), np.float32)
    frames[90 + late :, 1, 2] = 0.4
    gathered = Changes(200)
    for first in range(0, 200, 30):
        part = frames[first : first + 30]
        gathered.see(Group(first, part, part * 0, {}))
    assert [item.ticks for item in gathered.late([Change(90, 0)])] == [late * 1600]
    assert gathered.late([Change(90, 9)]) == [], "an eased change has no moment of its own"
    assert gathered.late([Change(90, 0), Change(95, 0)]) == [], "nor have cuts that follow each other at once"


def slow_flashes(values: list[float]) -> int:
    """Count by the words of the definition: opposing changes by a tenth, the darker below 0.80, two to a flash."""
    extremes = [values[0]]
    turns: list[tuple[int, int]] = []
    for index, value in enumerate(values):
        change = value - extremes[-1]
        if abs(change) >= 0.1 and min(value, extremes[-1]) < 0.8:
            turns.append((index, 1 if change > 0 else -1))
            extremes.append(value)
        elif turns and change * turns[-1][1] > 0:
            extremes.append(value)
    kept = [next(group)[0] for _, group in groupby(turns, key=lambda turn: turn[1])]
    return max((sum(start <= turn < start + 30 for turn in kept) // 2 for start in kept), default=0)


@settings(max_examples=300, deadline=None)
@given(st.lists(st.sampled_from([0.0, 0.04, 0.16, 0.3, 0.77, 0.85, 1.0]), min_size=1, max_size=80))
def test_the_meter_counts_like_the_slow_definition(values: list[float]):
    meter = FlashMeter()
    array = np.array(values)[:, None]
    for first in range(0, len(values), 7):
        meter.add(array[first : first + 7])
    assert meter.result().most == slow_flashes([float(np.float32(value)) for value in values])


def test_what_flashes_on_a_share_too_small_to_matter_is_not_counted():
    """On 1,000 blocks seven are 0.7 %."""
    frames = np.zeros((60, 1000), np.float32)
    frames[::6, :6] = frames[1::6, :6] = frames[2::6, :6] = 1.0
    assert flashes_in_a_second(frames) == 0
    frames[:, 6] = frames[:, 5]
    assert flashes_in_a_second(frames) >= 4


def test_moments_are_told_in_minutes():
    assert clock(0) == "0:00.00"
    assert clock(61 * RATE + 480) == "1:01.01"
