"""Previews show what the film will show: timelines, stills and clips are held against the film that is really made."""

from __future__ import annotations

import io
from collections.abc import Iterator
from itertools import pairwise
from pathlib import Path

import av
import numpy as np
import pytest
from PIL import Image

from gamutwright.errors import InputError, ScriptError
from gamutwright.ir.timeline import FRAME_TICKS, TICKS_PER_SECOND, Caption, Panel, Shot, ShotKind, Timeline, excerpt
from gamutwright.series.course import Course, read_course
from gamutwright.studio.previews import Previews, small_film
from gamutwright.studio.previewwork import make_small_film, small_size
from series.courses import course_in, script

SCRIPT = script() + "\nListen to it once more. {play=scale} {#last1}\n"


@pytest.fixture(scope="module")
def course(tmp_path_factory: pytest.TempPathFactory) -> Course:
    return read_course(course_in(tmp_path_factory.mktemp("seen"), {"dorian": SCRIPT}))


@pytest.fixture(scope="module")
def previews(course: Course) -> Iterator[Previews]:
    made = Previews()
    yield made
    made.end()


@pytest.fixture(scope="module")
def whole(course: Course) -> av.container.InputContainer:
    """The film of the whole lesson, made by the same stages as every film."""
    make_small_film({"course": str(course.folder), "lesson": "dorian"}, lambda *_: None)
    film = small_film(course, "dorian", "")
    assert film is not None
    return av.open(str(film.path))


def frames_of(content: bytes | str, *wanted: int) -> tuple[int, list[np.ndarray]]:
    """Count the frames of a film, and give some of them."""
    with av.open(io.BytesIO(content) if isinstance(content, bytes) else content) as film:
        found, count = {}, 0
        for count, frame in enumerate(film.decode(video=0), 1):
            if count - 1 in wanted:
                found[count - 1] = frame.to_ndarray(format="rgb24").astype(int)
    return count, [found[number] for number in wanted]


def sound_of(content: bytes | str) -> np.ndarray:
    with av.open(io.BytesIO(content) if isinstance(content, bytes) else content) as film:
        return np.concatenate([frame.to_ndarray()[0] for frame in film.decode(audio=0)])


def test_words_of_a_line_join_to_the_line_and_come_one_after_another(previews: Previews, course: Course):
    told = previews.timeline(course, "dorian")
    lines = told["lines"]
    assert [line["id"] for line in lines] == ["count", "tones", "last1"]
    assert "".join(text for text, _ in lines[1]["words"]) == "It has seven tones."
    for line in lines:
        moments = [moment for _, moment in line["words"]]
        assert moments == sorted(moments)
        assert line["start_s"] <= moments[0] < line["end_s"] <= told["seconds"]
    assert all(one["end_s"] <= other["start_s"] + 0.001 for one, other in pairwise(lines))
    # The scale that is played after the last line belongs to it: eight tones up and down take seconds.
    assert lines[-1]["end_s"] - lines[-1]["words"][-1][1] > 3


def test_a_line_looks_and_sounds_as_in_the_film(previews: Previews, course: Course, whole: av.container.InputContainer):
    line = previews.timeline(course, "dorian")["lines"][1]
    clip = previews.clip(course, "dorian", line["id"])
    first, last = int(line["start_s"] * 30), -(-int(line["end_s"] * 30) // 1)
    middle = (last - first) // 2
    count, (seen,) = frames_of(clip, middle)
    _, (there,) = frames_of(whole.name, first + middle)
    assert abs(count - (last - first)) <= 1
    assert seen.shape == (540, 960, 3)
    # Both are coded with loss, at the same quantizer: a level or two apart in the mean, never another picture.
    assert np.abs(seen - there).mean() < 1
    heard, everything = sound_of(clip), sound_of(whole.name)
    begin = int(line["start_s"] * TICKS_PER_SECOND) // FRAME_TICKS * FRAME_TICKS
    length = min(len(heard), 2 * TICKS_PER_SECOND)
    beside = everything[begin : begin + length]
    assert np.corrcoef(heard[:length], beside)[0, 1] > 0.99


def test_a_still_is_the_frame_of_the_film_at_that_moment(
    previews: Previews, course: Course, whole: av.container.InputContainer
):
    line = previews.timeline(course, "dorian")["lines"][1]
    tick = int((line["end_s"] - 0.3) * TICKS_PER_SECOND)
    drawn = np.asarray(Image.open(io.BytesIO(previews.still(course, "dorian", tick))).convert("RGB")).astype(int)
    _, (there, other) = frames_of(whole.name, tick // FRAME_TICKS, 0)
    # The film's colours are coded in coarser steps than a still's.
    assert np.abs(drawn - there).mean() < 2.5
    assert np.abs(drawn - other).mean() > 5


def test_what_changed_is_another_lesson(tmp_path: Path):
    course = read_course(course_in(tmp_path, {"dorian": SCRIPT}))
    previews = Previews()
    try:
        before = previews.timeline(course, "dorian")
        course.script_of("dorian").write_text(SCRIPT.replace("once more", "slowly"), encoding="utf-8")
        after = previews.timeline(course, "dorian")
        assert before["key"] != after["key"]
        assert "slowly" in "".join(text for text, _ in after["lines"][-1]["words"])
        # A script with a fault is shown all the same, and says so.
        course.script_of("dorian").write_text(script(count="nine"), encoding="utf-8")
        assert previews.timeline(course, "dorian")["faults"] == 1
        course.script_of("dorian").write_text("no front matter", encoding="utf-8")
        with pytest.raises(ScriptError):
            previews.timeline(course, "dorian")
        assert small_film(course, "dorian", "") is None
    finally:
        previews.end()


def test_a_line_that_is_not_there_is_told(previews: Previews, course: Course):
    with pytest.raises(InputError, match="no such line"):
        previews.clip(course, "dorian", "nowhere")


def test_small_sizes_keep_the_proportion():
    for size in ("1080p", "2160p", "720p", "vertical"):
        width, height = small_size(size)
        assert {width * 16 == height * 9, width * 9 == height * 16} == {True, False}


def test_an_excerpt_of_everything_is_everything():
    shots = tuple(Shot(k * 1_600, (k + 1) * 1_600, ShotKind.STAGE, None, Panel(str(k)), 0) for k in range(6))
    film = Timeline("Scales", "en", 9_600, shots, (), (Caption(800, 4_000, "Good evening."),), (), ())
    assert excerpt(film, 0, film.ticks) == film
    part = excerpt(film, 1_700, 3_300)
    assert [shot.panel.heading for shot in part.shots] == ["1", "2"]
    assert part.captions == (Caption(0, 2_400, "Good evening."),)
