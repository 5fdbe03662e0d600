"""What the studio writes into a course's file: the keys it may, and every other line as it was."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from gamutwright.errors import FileError
from gamutwright.series.course import begin_course, read_course
from gamutwright.series.course_settings import soundfonts_of, write_settings

WANTED = {
    "sound": {"soundfont": "harbour.sf2", "instruments": ["tune=flute"]},
    "music": {"written_for": ["Bb", "F"], "play_along": False},
}
WRITTEN = """# the evening course
title = "Scales"   # by the harbour
[music]            # for the wind players
play_along = true  # for now

[film]
theme = "light"

[[lesson]]
scale = "C major"
"""


def test_what_is_written_is_read_and_the_rest_stays(tmp_path: Path):
    (tmp_path / "series.toml").write_text(WRITTEN, encoding="utf-8")
    write_settings(tmp_path, WANTED)
    course = read_course(tmp_path)
    assert (course.sound.soundfont, course.sound.instruments) == ("harbour.sf2", ("tune=flute",))
    assert (course.music.written_for, course.music.play_along) == (("Bb", "F"), False)
    text = (tmp_path / "series.toml").read_text("utf-8")
    kept = [line for line in WRITTEN.splitlines() if not line.startswith("play_along")]
    assert [line for line in text.splitlines() if line in kept and line] == [line for line in kept if line]
    write_settings(tmp_path, WANTED)
    assert (tmp_path / "series.toml").read_text("utf-8") == text


@settings(max_examples=40, deadline=None)
@given(st.text(max_size=40), st.lists(st.sampled_from(["Bb", "Eb", "F"]), unique=True), st.booleans())
def test_any_words_read_back(tmp_path_factory: pytest.TempPathFactory, word: str, keys: list[str], along: bool):
    folder = tmp_path_factory.mktemp("course")
    begin_course(folder, "Scales by ear")
    before = tomllib.loads((folder / "series.toml").read_text("utf-8"))
    write_settings(folder, {"sound": {"soundfont": word}, "music": {"written_for": keys, "play_along": along}})
    after = tomllib.loads((folder / "series.toml").read_text("utf-8"))
    assert after.pop("sound") == {"soundfont": word}
    assert after.pop("music") == {"written_for": keys, "play_along": along}
    assert after == before


@pytest.mark.parametrize(
    "text",
    [
        'title = "A"\nmusic.play_along = true\n',
        'title = "A"\nmusic = {play_along = true}\n',
        'title = "A"\n[music]\nwritten_for = [\n  "Eb",\n]\n',
        'title = """\n[music]\n"""\n',
    ],
)
def test_what_cannot_be_told_apart_is_left_alone_or_right(tmp_path: Path, text: str):
    (tmp_path / "series.toml").write_text(text, encoding="utf-8")
    with pytest.raises(FileError, match="by hand"):
        write_settings(tmp_path, WANTED)
    assert (tmp_path / "series.toml").read_text("utf-8") == text


def test_soundfonts_lie_beside_the_file(tmp_path: Path):
    for name in ("b.SF3", "a.sf2", "notes.txt"):
        (tmp_path / name).touch()
    assert soundfonts_of(tmp_path) == ("a.sf2", "b.SF3")
