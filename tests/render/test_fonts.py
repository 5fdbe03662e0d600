"""Every character a picture may hold has a glyph, and the widths used for layout are those of the fonts."""

from __future__ import annotations

from importlib import resources, util
from pathlib import Path

import pytest
from fontTools.pens.boundsPen import BoundsPen

from gamutwright.errors import DomainError, MissingPartError
from gamutwright.ir.figure import Face
from gamutwright.ir.metrics import SIGNS, _advances, text_width
from gamutwright.languages import known_languages, language_of
from gamutwright.phrasing.messages import load_messages
from gamutwright.render import fonts, raster
from gamutwright.render.fonts import MUSIC, glyph_run, outline


def test_table_of_advances_is_that_of_the_fonts():
    for letter in _advances():
        for face in Face:
            assert text_width(letter, 1000, face) == pytest.approx(glyph_run(letter, 1000, face)[1], abs=0.51), letter


@pytest.mark.parametrize("sign", SIGNS)
def test_accidentals_come_from_the_music_font(sign: str):
    glyphs, width = glyph_run(sign, 100, Face.SANS)
    assert [glyph.font for glyph in glyphs] == [MUSIC]
    assert outline(MUSIC, glyphs[0].index).commands.startswith("M")
    assert width == pytest.approx(text_width(sign, 100))


def test_accidentals_stand_between_baseline_and_ascender():
    """Sharps as tall as capitals, flats with their bowl on the line: nothing hangs below or towers above."""
    font = fonts._font(MUSIC)
    names, glyphs = font.getBestCmap(), font.getGlyphSet()
    for sign in SIGNS.values():
        pen = BoundsPen(glyphs)
        glyphs[names[sign.code_point]].draw(pen)
        bottom, top = (side / 1000 * sign.scale + sign.rise for side in (pen.bounds[1], pen.bounds[3]))
        assert bottom >= -0.05
        assert top <= 0.72
        assert pen.bounds[2] / 1000 * sign.scale + sign.before <= sign.advance


def test_letters_of_the_languages_taught_in_are_there():
    for face in Face:
        glyph_run("Fisis, Ces, mi bémol; größer, weiß, Šárka, Łódź – “so” … 1½° ×−→", 40, face)


LETTERS = {
    # The alphabets as schools teach them; ẞ since 2017: Rat für deutsche Rechtschreibung (from memory).
    "en": "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ",
    "de": "abcdefghijklmnopqrstuvwxyzäöüßABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÜẞ",
}


def test_every_language_of_lessons_has_its_letters_listed_here():
    assert set(LETTERS) == set(known_languages())


@pytest.mark.parametrize("face", Face)
@pytest.mark.parametrize("language", known_languages())
def test_every_letter_and_sign_of_a_language_is_drawn(language: str, face: Face):
    """Not only found: each glyph but the space has an outline, so no box and no gap stands for it."""
    words = "".join(
        path.read_text(encoding="utf-8")
        for path in sorted(Path(str(resources.files(language_of(language).package))).iterdir())
        if path.suffix in {".ftl", ".toml"}
    )
    messages = load_messages(language)
    words += "".join(messages.written(message) for message in messages.ids)
    for letter in sorted({*LETTERS[language], *words, *"♯♭♮𝄪𝄫"}):
        if letter.isspace() or not letter.isprintable():
            continue
        glyphs, width = glyph_run(letter, 40, face)
        assert width > 0, letter
        for glyph in glyphs:
            assert outline(glyph.font, glyph.index).commands.startswith("M"), (letter, f"U+{ord(letter):04X}")


def test_a_missing_glyph_is_an_error():
    with pytest.raises(DomainError, match=r"U\+4E2D"):
        glyph_run("中", 40, Face.SANS)


def test_missing_libraries_name_the_command(monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(util, "find_spec", lambda _: None)
    monkeypatch.setattr(fonts, "_FILES", {Face.SANS: ("no_such_font", "x.ttf", "font-source-sans-pro")})
    fonts.font_bytes.cache_clear()
    try:
        with pytest.raises(MissingPartError, match="pip install font-source-sans-pro"):
            fonts.font_bytes(Face.SANS)
    finally:
        fonts.font_bytes.cache_clear()


@pytest.mark.parametrize(
    ("error", "command"),
    [
        (
            ImportError("libGL.so.1: cannot open shared object file"),
            "apt-get install -y --no-install-recommends libgl1 libegl1",
        ),
        (ModuleNotFoundError("No module named 'skia'"), "pip install skia-python==144.1"),
    ],
)
def test_missing_drawing_library_names_the_command(monkeypatch: pytest.MonkeyPatch, error: ImportError, command: str):
    def fail(_: str) -> None:
        raise error

    monkeypatch.setattr(raster, "import_module", fail)
    raster.skia_library.cache_clear()
    try:
        with pytest.raises(MissingPartError, match=command):
            raster.skia_library()
    finally:
        raster.skia_library.cache_clear()
