"""The sound track in pieces: joined, it decodes to what was mixed, at its place, at one loudness.

The decoder is FFmpeg's, not the encoder asked about itself. Loudness: ITU-R BS.1770-4, measured by FFmpeg's meter.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import av
import numpy as np
import pytest
from numpy.typing import NDArray

from gamutwright.ir.sound import Note, Sound
from gamutwright.ir.timeline import LINE_GRID_TICKS, ChapterMark, Clip, ClipKind, Panel, Shot, ShotKind, Timeline
from gamutwright.jobs.job import Job
from gamutwright.jobs.store import Parcel, Store
from gamutwright.render.loudness import Meter
from gamutwright.render.pictures import FilmStyle, laid_out, picture_jobs
from gamutwright.render.soundfont import Players, players_of
from gamutwright.render.soundtrack import correction_db, packets_of, pieces_of, samples_to_packets, sound_job
from gamutwright.render.video import write_film

SECOND = 48_000
GRID = LINE_GRID_TICKS


def hum(work: tuple[float, int]) -> Parcel:
    """Stand in for a spoken line: a tone of a frequency and a length, at its own level."""
    freq_hz, ticks = work
    wave = np.sin(2 * np.pi * freq_hz * np.arange(ticks) / SECOND)
    return Parcel({"peak": 0.1, "ticks": ticks, "words": []}, (np.round(32_767 * wave).astype("<i2").tobytes(),))


def line(number: int, freq_hz: float, ticks: int = SECOND) -> Job:
    return Job(f"{number:064x}", hum, (freq_hz, ticks))


LINES = {"a": line(1, 220.0), "b": line(2, 330.0, 3 * SECOND // 2), "c": line(3, 440.0)}
TONE = Sound(2 * SECOND, (Note(0, SECOND, 660.0),))
STARTS = {"a": 94 * GRID, "tone": 170 * GRID, "b": 300 * GRID, "c": 420 * GRID}


def timeline(starts: dict[str, int] = STARTS, seconds: int = 12) -> Timeline:
    clips = tuple(
        Clip(
            tick,
            TONE.ticks if key == "tone" else LINES[key].payload[1],
            ClipKind.SOUND if key == "tone" else ClipKind.VOICE,
            key,
        )
        for key, tick in starts.items()
    )
    shot = Shot(0, seconds * SECOND, ShotKind.STAGE, None, Panel("a hum"), 0)
    return Timeline("hum", "en", seconds * SECOND, (shot,), clips, (), (ChapterMark(0, "hum"),), ())


def decoded(packets: list[bytes], folder: Path, film: Timeline) -> NDArray[np.float64]:
    """Put the packets into a film and decode them with FFmpeg's libraries."""
    ((job, count),) = picture_jobs(film, FilmStyle(320, 180))
    write_film(film, laid_out(job.work(job.payload), count), packets, folder / "film.mp4")
    with av.open(str(folder / "film.mp4")) as file:
        return np.concatenate([frame.to_ndarray()[0] for frame in file.decode(audio=0)]).astype(float)


def track(film: Timeline, store: Store, gain_db: float = 0.0) -> tuple[list[bytes], list[Parcel]]:
    jobs = [sound_job(piece, store, gain_db) for piece in pieces_of(film, LINES, {"tone": TONE})]
    parcels = [job.work(job.payload) for job in jobs]
    return [packet for parcel in parcels for packet in packets_of(parcel)], parcels


def strength(samples: NDArray[np.float64], freq_hz: float) -> float:
    ticks = np.arange(len(samples))
    return float(abs(np.mean(samples * np.exp(-2j * np.pi * freq_hz * ticks / SECOND))))


def test_pieces_follow_each_other_and_hold_every_clip_once(tmp_path: Path):
    film = timeline()
    pieces = pieces_of(film, LINES, {"tone": TONE})
    assert len(pieces) == 5
    assert [piece.start_tick for piece in pieces[1:]] == [piece.start_tick + piece.ticks for piece in pieces[:-1]]
    assert pieces[-1].start_tick + pieces[-1].ticks >= film.ticks
    placed = {piece.start_tick + offset for piece in pieces for offset, _ in piece.parts}
    assert placed == set(STARTS.values())


def test_a_clip_that_follows_too_closely_stays_with_the_one_before():
    film = timeline({"a": 94 * GRID, "b": 94 * GRID + 47 * GRID})
    assert [len(piece.parts) for piece in pieces_of(film, LINES, {})] == [0, 2]


def test_a_clip_off_the_grid_begins_no_piece():
    assert [len(piece.parts) for piece in pieces_of(timeline({"a": 94 * GRID, "c": 300 * GRID + 1}), LINES, {})] == [
        0,
        2,
    ]


def test_joined_pieces_decode_to_every_tone_at_its_place(tmp_path: Path):
    film = timeline()
    packets, _ = track(film, Store(tmp_path / "store"))
    samples = decoded(packets, tmp_path, film)
    assert abs(len(samples) - film.ticks) < GRID
    for key, freq_hz, ticks in (
        ("a", 220.0, SECOND),
        ("tone", 660.0, SECOND),
        ("b", 330.0, 3 * SECOND // 2),
        ("c", 440.0, SECOND),
    ):
        start = STARTS[key]
        inside = samples[start + 4_800 : start + ticks - 4_800]
        others = [other for other in (220.0, 330.0, 440.0, 660.0) if other != freq_hz and key != "tone"]
        assert all(strength(inside, freq_hz) > 50 * strength(inside, other) for other in others)
        loud = np.abs(samples[start - 9_600 : start + 9_600]) > 0.05 * np.abs(inside).max()
        assert abs(int(np.argmax(loud)) - 9_600) < 480, "it begins within 10 ms"
    silent = [samples[STARTS["a"] - 40_000 : STARTS["a"] - 2_000], samples[STARTS["c"] + SECOND + 4_800 : -2_000]]
    assert all(np.abs(part).max() < 1e-3 for part in silent), "joints make no noise"


def test_joints_change_nothing_that_is_heard(tmp_path: Path):
    """The same programme encoded in one go and in pieces: after decoding they differ by coding noise alone."""
    film = timeline()
    packets, _ = track(film, Store(tmp_path / "store"))
    (tmp_path / "whole").mkdir()
    in_pieces = decoded(packets, tmp_path, film)
    in_one = decoded(samples_to_packets(in_pieces), tmp_path / "whole", film)
    length = min(len(in_one), len(in_pieces))
    difference = in_one[:length] - in_pieces[:length]
    assert np.sqrt(np.mean(difference**2)) < 0.02 * np.sqrt(np.mean(in_pieces**2))


def test_what_is_moved_is_the_same_job(tmp_path: Path):
    store = Store(tmp_path)
    first = [sound_job(piece, store).key for piece in pieces_of(timeline(), LINES, {"tone": TONE})]
    later = {key: tick + (0 if key == "a" else 37 * GRID) for key, tick in STARTS.items()}
    second = [sound_job(piece, store).key for piece in pieces_of(timeline(later, 13), LINES, {"tone": TONE})]
    assert first[0] == second[0]
    assert first[2:4] == second[2:4]
    assert first[1] != second[1], "its pause is longer"
    changed = LINES | {"b": replace(LINES["b"], key="f" * 64)}
    third = [sound_job(piece, store).key for piece in pieces_of(timeline(), changed, {"tone": TONE})]
    assert [one == other for one, other in zip(first, third, strict=True)] == [True, True, True, False, True]


def test_the_whole_is_as_loud_as_it_should_be(tmp_path: Path):
    film = timeline()
    store = Store(tmp_path / "store")
    gain_db = correction_db(track(film, store)[1])
    assert abs(gain_db) < 1, "lines and examples are near the target one by one"
    packets, parcels = track(film, store, gain_db)
    assert correction_db(parcels) == 0.0
    samples = decoded(packets, tmp_path, film)
    meter = Meter(channels=2)
    meter.add(np.stack([samples, samples], axis=1))
    found = meter.result()
    assert found.integrated_lufs == pytest.approx(-16, abs=0.5)
    assert found.true_peak_dbtp <= -1


def test_what_is_too_soft_is_noticed():
    soft = Parcel(None, (b"", b"", np.full(50, -23.0, "<f4").tobytes()))
    assert correction_db([soft]) == pytest.approx(7.0, abs=0.05)
    silent = Parcel(None, (b"", b"", np.full(50, -90.0, "<f4").tobytes()))
    assert correction_db([silent]) == 0.0


def test_examples_are_played_on_the_instruments_that_were_asked_for():
    """An oboe of Debian's timgm6mb-soundfont: another job, another sound, about the same loudness."""
    store = Store(Path("unused"))
    (piece,) = [one for one in pieces_of(timeline(), LINES, {"tone": TONE}) if any(p is TONE for _, p in one.parts)]
    oboe = players_of(Path("/usr/share/sounds/sf2/TimGM6mb.sf2"), ("oboe",))
    jobs = [sound_job(piece, store, players=players) for players in (None, Players(), oboe)]
    assert jobs[0].key == jobs[1].key != jobs[2].key
    parcels = [job.work(job.payload) for job in jobs]
    assert parcels[0].blobs[0] == parcels[1].blobs[0] != parcels[2].blobs[0]
    assert correction_db([parcels[0]]) == pytest.approx(correction_db([parcels[2]]), abs=1.0)
