"""Pictures encoded once and laid out for any length: decoded by FFmpeg's libraries, nothing moves that should rest."""

from __future__ import annotations

import io
from dataclasses import replace

import av
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from gamutwright.errors import DomainError
from gamutwright.ir.figure import Dot, Figure, Fill, Role
from gamutwright.ir.timeline import FRAME_TICKS, ChapterMark, Panel, Shot, ShotKind, Timeline
from gamutwright.jobs.store import Parcel
from gamutwright.render.pictures import FilmStyle, _renumbered, extended, laid_out, picture_jobs, poster_job

SMALL = FilmStyle(320, 180)


def figure(x: float) -> Figure:
    return Figure("a dot", "One dot.", (Dot(x, 50, 20, Fill(Role.NOW), name="dot"),), (), 100, 100)


def timeline(lengths: tuple[int, ...] = (40, 70), shift: int = 0) -> Timeline:
    shots, at = [], 0
    for index, length in enumerate(lengths):
        end = at + length * FRAME_TICKS
        shots.append(Shot(at, end, ShotKind.STAGE, figure(30 + 40 * index), Panel("a dot"), 0, "dot"))
        at = end
    return Timeline("dots", "en", at, tuple(shots), (), (), (ChapterMark(shift, "dots"),), ())


def decoded(packets: list[bytes]) -> NDArray[np.int16]:
    with av.open(io.BytesIO(b"".join(packets)), format="h264") as file:
        return np.stack([frame.to_ndarray(format="gray") for frame in file.decode(video=0)]).astype(np.int16)


@pytest.fixture(scope="module")
def parcels() -> list[Parcel]:
    return [job.work(job.payload) for job, _ in picture_jobs(timeline(), SMALL)]


@given(st.integers(1, 200))
@settings(max_examples=25, deadline=None)
def test_a_held_picture_rests_however_long(parcels: list[Parcel], count: int):
    frames = decoded(list(laid_out(parcels[0], count)))
    assert len(frames) == count
    assert np.abs(frames - frames[0]).max() <= 1


@given(st.integers(10, 150))
@settings(max_examples=15, deadline=None)
def test_a_change_ends_in_the_picture_that_is_held(parcels: list[Parcel], count: int):
    frames = decoded(list(laid_out(parcels[1], count)))
    assert len(frames) == count
    moved = [index for index in range(1, count) if np.abs(frames[index] - frames[index - 1]).max() > 24]
    assert all(index <= 12 for index in moved), "nine pictures of a change, the held one, and two that settle"
    held = decoded(list(laid_out(Parcel(None, parcels[1].blobs[-2:]), 1)))[0]
    assert np.abs(frames[-1] - held).max() <= 24


def test_pictures_are_numbered_as_the_standard_counts_them(parcels: list[Parcel]):
    """ITU-T H.264, 7.4.3: frame_num goes up by one from each reference picture to the next, modulo MaxFrameNum."""
    packets = list(extended([parcels[0].blobs[-2]], parcels[0].blobs[-1], 40))
    start = 5 if packets[1].startswith(b"\0\0\0\1") else 4
    numbers = [int.from_bytes(packet[start : start + 2], "big") >> 5 & 0xF for packet in packets[1:]]
    assert numbers == [number % 16 for number in range(1, 40)]


def test_another_layout_is_refused():
    with pytest.raises(DomainError, match="another encoder"):
        _renumbered(b"\0\0\0\1\x65\x88\x84\x00", 3)


def test_jobs_know_what_is_shown_and_not_when():
    first = [job.key for job, _ in picture_jobs(timeline((40, 70)), SMALL)]
    assert [job.key for job, _ in picture_jobs(timeline((90, 33), shift=48_000), SMALL)] == first
    assert [count for _, count in picture_jobs(timeline((90, 33)), SMALL)] == [90, 33]
    assert [job.key for job, _ in picture_jobs(timeline(), replace(SMALL, theme="light"))] != first
    assert len(set(first)) == 2


def test_the_poster_is_the_first_picture(parcels: list[Parcel]):
    job = poster_job(timeline(), SMALL)
    with av.open(io.BytesIO(job.work(job.payload).blobs[0])) as file:
        poster = next(file.decode(video=0)).to_ndarray(format="gray").astype(np.int16)
    shown = decoded(list(laid_out(parcels[0], 1)))[0]
    assert poster.shape == shown.shape
    # Full range in the one, limited range in the other: 16 to 235 (ITU-R BT.709, from memory).
    assert np.abs(16 + poster * 219 / 255 - shown).mean() < 3 or np.abs(poster - shown).mean() < 3
