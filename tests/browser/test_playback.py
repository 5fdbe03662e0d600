"""The film as a browser plays it: to every chapter, with captions, and with the pictures that it should show.

Chromium decodes with its own demuxer and timing. What it shows is compared with the frame that FFmpeg decodes at the
same time.
"""

from __future__ import annotations

import base64
import io
from pathlib import Path

import av
import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image
from playwright.sync_api import Page

from gamutwright.lessons.parse import parse
from gamutwright.render.pictures import FilmStyle
from gamutwright.stages import Choices, Made, make_film

SCRIPT = """---
scale: G A B C# D E F
---
# Hear it

Listen to it rise from the harbour wall. {play=scale show=ladder}

# Steps

It has [seven]{fact=cardinality show=keyboard} tones.
There are [two]{fact=semitone_steps show=ladder} semitone steps: [C sharp to D and E to F]{each=semitone_steps}.

# Once more

Listen to it again. {play=scale show=ladder}
"""


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Made:
    folder = tmp_path_factory.mktemp("film")
    film = make_film(parse(SCRIPT), folder, Choices(FilmStyle(1280, 720)))
    captions = base64.b64encode(film.files[2].read_bytes()).decode()
    (folder / "page.html").write_text(
        "<!doctype html><title>film</title><style>body{margin:0} video{display:block}</style>"
        f'<video src="film.mp4" width="1280" height="720" preload="auto">'
        f'<track kind="captions" srclang="en" default src="data:text/vtt;base64,{captions}"></video>',
        encoding="utf-8",
    )
    return film


@pytest.fixture
def film(page: Page, made: Made) -> Page:
    page.goto((made.files[0].parent / "page.html").as_uri())
    page.wait_for_function("document.querySelector('video').readyState >= 3")
    return page


def seek(page: Page, time_s: float) -> None:
    """Go to a time and wait until its picture is there."""
    page.evaluate(
        """time => new Promise(done => {
            const video = document.querySelector('video');
            video.requestVideoFrameCallback(() => requestAnimationFrame(() => requestAnimationFrame(done)));
            video.currentTime = time;
        })""",
        time_s,
    )


def shown(page: Page) -> NDArray[np.int16]:
    page.evaluate("document.querySelector('video').textTracks[0].mode = 'hidden'")
    with Image.open(io.BytesIO(page.screenshot())) as picture:
        return np.asarray(picture.convert("L")).astype(np.int16)


def decoded(film: Path, times_s: list[float]) -> dict[float, NDArray[np.int16]]:
    wanted = {round(time * 30): time for time in times_s}
    with av.open(str(film)) as file:
        return {
            wanted[index]: np.asarray(frame.to_image().convert("L")).astype(np.int16)
            for index, frame in enumerate(file.decode(video=0))
            if index in wanted
        }


def test_it_is_what_the_timeline_says(film: Page, made: Made):
    length, width, height = film.evaluate(
        "(v => [v.duration, v.videoWidth, v.videoHeight])(document.querySelector('video'))"
    )
    assert length == pytest.approx(made.timeline.ticks / 48_000, abs=0.03)
    assert (width, height) == (1280, 720)


def test_it_plays_picture_and_sound(film: Page):
    film.evaluate("document.querySelector('video').play()")
    film.wait_for_function("document.querySelector('video').currentTime > 1.5")
    frames, dropped, heard = film.evaluate(
        "(v => { const q = v.getVideoPlaybackQuality();"
        " return [q.totalVideoFrames, q.droppedVideoFrames, v.webkitAudioDecodedByteCount]; })"
        "(document.querySelector('video'))"
    )
    assert frames > 20
    assert heard > 0
    assert film.evaluate("document.querySelector('video').error") is None
    del dropped  # how many a machine drops says nothing about the film


def test_every_chapter_and_every_held_picture_is_reached_by_seeking(film: Page, made: Made):
    """Held pictures are laid out from one packet; here another decoder than FFmpeg's command of them is asked."""
    marks = [mark.start_tick / 48_000 + 1.0 for mark in made.timeline.chapters]
    holds = [
        (shot.end_tick - 4_800) / 48_000 for shot in made.timeline.shots if shot.end_tick - shot.start_tick > 96_000
    ]
    times = [round(time * 30) / 30 for time in (*marks, *holds)]
    expected = decoded(made.files[0], times)
    assert len(expected) >= 6
    for time in sorted(expected, reverse=True):
        seek(film, time + 0.01)
        difference = np.abs(shown(film) - expected[time])
        assert difference.mean() < 3, time
        assert np.quantile(difference, 0.999) < 60, time
    others = list(expected.values())
    assert np.abs(others[0] - others[-1]).mean() > 3, "the comparison can fail"


def test_its_captions_are_shown(film: Page, made: Made):
    for caption in made.timeline.captions:
        film.evaluate("document.querySelector('video').textTracks[0].mode = 'showing'")
        seek(film, (caption.start_tick + caption.end_tick) / 2 / 48_000)
        active = film.evaluate("[...document.querySelector('video').textTracks[0].activeCues].map(cue => cue.text)")
        assert active == [caption.text]
    with Image.open(io.BytesIO(film.screenshot())) as picture:
        with_captions = np.asarray(picture.convert("L")).astype(np.int16)
    without = shown(film)
    band = int(0.8 * 720)
    assert np.abs(with_captions - without)[band:].max() > 60, "words in the lower part of the frame"
    assert np.abs(with_captions - without)[: int(0.7 * 720)].max() < 60, "and nowhere else"
