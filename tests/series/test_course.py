"""`series.toml`: read strictly, every slip told with its key. TOML as toml.io 1.0.0 has it (Python's own reader)."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gamutwright.errors import FileError, InputError
from gamutwright.series.building import settings_of
from gamutwright.series.course import Sounding, begin_course, read_course
from gamutwright.series.orders import input_name
from series.courses import course_in


def written(folder: Path, text: str) -> Path:
    (folder / "series.toml").write_text(text, encoding="utf-8")
    return folder


def test_everything_that_may_be_written_is_read(tmp_path: Path):
    course = read_course(
        written(
            tmp_path,
            """
            title = "Tonleitern am Hafen"
            imprint = "Musikschule am Hafen"
            address = "https://harbour.example/scales/"
            language = "de"
            level = ["foundation", "further"]
            minutes = 4
            divisions = 19
            order = "listed"
            [film]
            size = "vertical"
            theme = "light"
            [voice]
            rate = 1
            pitch = 40
            piper = "voices/ahoi.onnx"
            lexicon = "words.toml"
            [sound]
            soundfont = "harbour.sf2"
            instruments = ["tune=flute"]
            [music]
            written_for = ["Bb", "Eb", "Bb"]
            play_along = false
            [scales]
            query = "cardinality = 7"
            sort = ["-evenness"]
            most = 3
            root = "D"
            [[lesson]]
            scale = "0 3 6 8 11 14 17"
            slug = "nineteen"
            language = "en"
            level = "research"
            minutes = 7
            divisions = 12
            """,
        )
    )
    assert (course.title, course.imprint, course.address) == (
        "Tonleitern am Hafen", "Musikschule am Hafen", "https://harbour.example/scales/",
    )  # fmt: skip
    assert (course.language, course.levels, course.minutes, course.divisions) == (
        "de",
        ("foundation", "further"),
        4,
        19,
    )
    assert course.is_listed
    assert (course.film.size, course.film.theme) == ("vertical", "light")
    assert (course.voice.rate, course.voice.pitch, course.voice.piper) == (1.0, 40, "voices/ahoi.onnx")
    assert course.sound == Sounding(soundfont="harbour.sf2", instruments=("tune=flute",))
    settings = settings_of(course)
    assert (settings.soundfont, settings.instruments) == (tmp_path.resolve() / "harbour.sf2", ("tune=flute",))
    assert settings.written_for == course.music.written_for == ("Bb", "Eb")
    assert not settings.play_along
    assert settings.soundfont in settings.inputs(course.script_of("nineteen"))
    assert input_name(settings.soundfont, tmp_path / "lessons", settings) == "instruments/harbour.sf2"
    assert (course.scales.query, course.scales.sort, course.scales.most, course.scales.root) == (
        "cardinality = 7", ("-evenness",), 3, "D",
    )  # fmt: skip
    (wish,) = course.wishes
    assert (wish.slug, wish.language, wish.level, wish.minutes, wish.divisions) == ("nineteen", "en", "research", 7, 12)


def test_a_course_is_found_from_anything_in_it(tmp_path: Path):
    place = written(tmp_path, 'title = "Scales"') / "lessons" / "d-dorian"
    place.mkdir(parents=True)
    assert read_course(place).folder == read_course(tmp_path / "series.toml").folder == tmp_path.resolve()
    with pytest.raises(FileError, match="series init"):
        read_course(Path("/"))


@pytest.mark.parametrize(
    ("text", "met"),
    [
        ("", "title"),
        ('title = ""', "title"),
        ('title = "a\\nb"', "title"),
        ('title = "A"\ncolour = "red"', "colour"),
        ('title = "A"\nlanguage = "fr"', "language 'fr'"),
        ('title = "A"\nlevel = "easy"', "level"),
        ('title = "A"\nlevel = []', "level"),
        ('title = "A"\nminutes = 0', "minutes"),
        ('title = "A"\nminutes = true', "minutes"),
        ('title = "A"\nminutes = "six"', "minutes"),
        ('title = "A"\ndivisions = 1', "divisions 1"),
        ('title = "A"\ndivisions = 12.5', "divisions"),
        ('title = "A"\norder = "random"', "order"),
        ('title = "A"\naddress = "javascript:alert(1)"', "address"),
        ('title = "A"\n[film]\nsize = "8k"', "film size '8k'"),
        ('title = "A"\n[voice]\nrate = 9', "voice rate"),
        ('title = "A"\n[music]\nwritten_for = ["Bb", "D"]', "music written_for 2 'D'"),
        ('title = "A"\n[music]\nwritten_for = [["Bb"]]', "music written_for"),
        ('title = "A"\n[music]\nwritten_for = "Bb"', "music written_for"),
        ('title = "A"\n[[lesson]]\nslug = "x"', "lesson 1 scale"),
        ('title = "A"\n[[lesson]]\nscale = "C major"\n[[lesson]]\nscale = "D dorian"\nslug = "../up"', "lesson 2 slug"),
        ('title = "A"\n[[lesson]]\nscale = "C major"\nslug = "A B"', "lesson 1 slug"),
        ('title = "A"\nlesson = 3', "lesson"),
        ("title = 'A", "TOML"),
        ("title = 1979-05-27", "title"),
    ],
)
def test_a_slip_of_the_pen_is_told_with_its_key(tmp_path: Path, text: str, met: str):
    with pytest.raises(InputError) as caught:
        read_course(written(tmp_path, text))
    assert met in str(caught.value)
    assert "pydantic" not in str(caught.value)


@given(st.binary(max_size=200))
def test_no_file_brings_a_traceback(tmp_path_factory: pytest.TempPathFactory, content: bytes):
    folder = tmp_path_factory.mktemp("course")
    (folder / "series.toml").write_bytes(content)
    with pytest.raises(InputError) as caught:
        read_course(folder)
    assert caught.value.next_step


@given(st.text(st.characters(exclude_categories=("Cs", "Cc")), min_size=1, max_size=40).filter(str.strip))
def test_any_title_is_written_so_that_it_reads_back(tmp_path_factory: pytest.TempPathFactory, title: str):
    folder = tmp_path_factory.mktemp("course")
    plain = " ".join("".join(c if c.isprintable() else " " for c in title).split())
    if not plain:
        with pytest.raises(InputError, match="title"):
            begin_course(folder / "new", title)
        return
    begin_course(folder / "new", title)
    assert read_course(folder / "new").title == plain


def test_what_is_there_is_not_written_over(tmp_path: Path):
    (tmp_path / ".gitignore").write_text("mine\n")
    begin_course(tmp_path, "Scales")
    assert (tmp_path / ".gitignore").read_text() == "mine\n"
    (tmp_path / "series.toml").write_text('title = "Mine"\n')
    with pytest.raises(FileError, match="already"):
        begin_course(tmp_path, "Scales")
    assert (tmp_path / "series.toml").read_text() == 'title = "Mine"\n'


@pytest.mark.parametrize("written", ["9" * 400, "-" + "9" * 400, "1e999", "nan", "-1", "true", '"6"'])
def test_minutes_that_are_none_are_told(written: str, tmp_path: Path):
    for text in (f"minutes = {written}\n", f'\n[[lesson]]\nscale = "D dorian"\nminutes = {written}\n'):
        with pytest.raises(InputError, match="minutes"):
            read_course(course_in(tmp_path, {}, f'title = "Scales"\n{text}'))
