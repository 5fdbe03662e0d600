"""The typefaces: Source Sans and Source Serif for words, a SMuFL music font for accidentals.

All three come as Python packages, so what is drawn here looks the same on every machine. A character that no font has
is an error, never an empty box.

Conventions: glyph positions are in units of the text's size; outlines are in ems, y upwards.
"""

from __future__ import annotations

import base64
import io
import re
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib import metadata, resources, util
from typing import TYPE_CHECKING

from gamutwright.codec import digest
from gamutwright.errors import DomainError, FileError, MissingPartError
from gamutwright.ir.figure import Face
from gamutwright.ir.metrics import CAP_HEIGHT, SIGNS
from gamutwright.jobs.store import Parcel, store_for

if TYPE_CHECKING:
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

__all__ = ["MUSIC", "Glyph", "Outline", "advance", "characters", "font_bytes", "glyph_run", "outline", "require"]

MUSIC = "music"

_FILES = {
    Face.SANS: ("font_source_sans_pro", "SourceSansPro-Regular.ttf", "font-source-sans-pro"),
    Face.STRONG: ("font_source_sans_pro", "SourceSansPro-Semibold.ttf", "font-source-sans-pro"),
    Face.SERIF: ("font_source_serif_pro", "SourceSerifPro-Semibold.ttf", "font-source-serif-pro"),
}


def require(module: str, distribution: str, purpose: str) -> None:
    """Make sure that a library is installed.

    Parameters
    ----------
    module, distribution : str
        Its import name, and the name under which it is installed.
    purpose : str
        What needs it.

    Raises
    ------
    MissingPartError
        With the command that installs it.

    Examples
    --------
    >>> require("gamutwright", "gamutwright", "everything")
    """
    if util.find_spec(module) is None:
        raise MissingPartError(
            module, f"{purpose} needs it and it is not installed", f"Run: python -m pip install {distribution}"
        )


@dataclass(frozen=True, slots=True)
class Glyph:
    """One glyph of a line of text.

    Parameters
    ----------
    font : str
        A face, or `MUSIC`.
    index : int
        Its number in the font.
    x, rise : float
        Where it stands: from the start of the line, and above the baseline.
    size : float
        Its type size.
    """

    font: str
    index: int
    x: float
    rise: float
    size: float


@dataclass(frozen=True, slots=True)
class Outline:
    """The shape of a glyph.

    Parameters
    ----------
    commands : str
        SVG path data in font units, y upwards.
    units : int
        Font units in an em.
    """

    commands: str
    units: int


@cache
def font_bytes(font: str) -> bytes:
    """Read a font.

    Parameters
    ----------
    font : str
        A face, or `MUSIC`.

    Returns
    -------
    bytes
        The font file, as TrueType.

    Raises
    ------
    MissingPartError
        If the package that brings it is not installed.
    """
    if font == MUSIC:
        return _music_bytes()
    module, name, distribution = _FILES[Face(font)]
    require(module, distribution, "setting words in pictures")
    return resources.files(module).joinpath("files", name).read_bytes()


def _music_bytes() -> bytes:
    """Give the accidentals of the music font that verovio carries; unpacked once, for it takes a while."""
    points = sorted(sign.code_point for sign in SIGNS.values())
    require("verovio", "verovio", "drawing accidentals")
    versions = [metadata.version(name) for name in ("verovio", "fonttools")]
    key, store = digest(["music font", versions, points]), store_for()
    kept = store.get(key)
    if kept is None:
        kept = Parcel(None, (_unpacked(points),))
        with suppress(FileError):
            store.put(key, kept)
    return kept.blobs[0]


def _unpacked(points: list[int]) -> bytes:
    """Unpack some characters of the music font; only they are needed for words."""
    for module, distribution in (("verovio", "verovio"), ("brotli", "brotli"), ("fontTools", "fonttools")):
        require(module, distribution, "drawing accidentals")
    from fontTools.subset import (  # type: ignore[import-untyped]  # noqa: PLC0415 - only for pictures
        Options,
        Subsetter,
    )
    from fontTools.ttLib import TTFont  # noqa: PLC0415 - as above

    place = util.find_spec("verovio")
    folders = list(place.submodule_search_locations or ()) if place else []
    styles = resources.files("verovio").joinpath("data", "Bravura.css") if folders else None
    if styles is None or not styles.is_file():
        raise MissingPartError(
            "Bravura",
            "drawing accidentals needs the music font of verovio",
            "Run: python -m pip install --force-reinstall verovio",
        )
    found = re.search(r"base64,([A-Za-z0-9+/=]+)", styles.read_text(encoding="utf-8"))
    if found is None:
        raise MissingPartError(
            "Bravura", "verovio's style sheet holds no font", "Run: python -m pip install 'verovio>=6,<7'"
        )
    font = TTFont(io.BytesIO(base64.b64decode(found[1])), recalcTimestamp=False)
    options = Options(layout_features=[], name_IDs=[], notdef_outline=True)
    for table in ("FFTM",):
        del font[table]
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=points)
    subsetter.subset(font)
    font.flavor = None
    packed = io.BytesIO()
    font.save(packed)
    return packed.getvalue()


@cache
def _font(font: str) -> TTFont:
    require("fontTools", "fonttools", "measuring words")
    from fontTools.ttLib import TTFont  # noqa: PLC0415 - only for pictures

    return TTFont(io.BytesIO(font_bytes(font)), lazy=True)


@cache
def characters(font: str) -> Mapping[int, int]:
    """List what a font can show.

    Parameters
    ----------
    font : str
        A name that `font_bytes` knows.

    Returns
    -------
    mapping of int to int
        Numbers of glyphs by code point.
    """
    found = _font(font)
    return {code: found.getGlyphID(name) for code, name in found.getBestCmap().items()}


@cache
def _advances(font: str) -> tuple[float, ...]:
    found = _font(font)
    units = found["head"].unitsPerEm
    return tuple(found["hmtx"][name][0] / units for name in found.getGlyphOrder())


@lru_cache(maxsize=1 << 13)
def glyph_run(text: str, size: float, face: Face) -> tuple[tuple[Glyph, ...], float]:
    """Lay out a line of text.

    Parameters
    ----------
    text : str
        The words.
    size : float
        Type size.
    face : Face
        Which typeface; accidentals come from the music font.

    Returns
    -------
    tuple of (tuple of Glyph, float)
        Glyphs from the start of the line, and its width.

    Raises
    ------
    DomainError
        If a character is in none of the fonts.

    Examples
    --------
    >>> [glyph.font for glyph in glyph_run("E♭", 36.0, Face.SANS)[0]]
    ['sans', 'music']
    """
    glyphs: list[Glyph] = []
    x = 0.0
    for letter in text:
        sign = SIGNS.get(letter)
        if sign:
            index = characters(MUSIC)[sign.code_point]
            glyphs.append(Glyph(MUSIC, index, x + sign.before * size, sign.rise * size, sign.scale * size))
            x += sign.advance * size
            continue
        found = characters(face.value).get(ord(letter))
        if found is None:
            raise DomainError(
                f"{letter!r} (U+{ord(letter):04X}) in {text!r}",
                "the fonts of the pictures do not have this character",
                "Write it in Latin letters, digits, common signs and ♯ ♭ ♮ 𝄪 𝄫.",
            )
        glyphs.append(Glyph(face.value, found, x, 0.0, size))
        x += _advances(face.value)[found] * size
    return tuple(glyphs), x


def advance(text: str, size: float, face: Face) -> float:
    """Measure a line of text from the fonts themselves.

    Parameters
    ----------
    text, size, face
        As for `glyph_run`.

    Returns
    -------
    float
        Its width.
    """
    return glyph_run(text, size, face)[1]


@cache
def outline(font: str, index: int) -> Outline:
    """Give the shape of a glyph.

    Parameters
    ----------
    font : str
        A face, or `MUSIC`.
    index : int
        Number of the glyph.

    Returns
    -------
    Outline
        Its shape.
    """
    from fontTools.pens.svgPathPen import (  # type: ignore[import-untyped]  # noqa: PLC0415 - only for pictures
        SVGPathPen,
    )

    found = _font(font)
    glyphs = found.getGlyphSet()
    pen = SVGPathPen(glyphs, ntos=lambda number: f"{number:g}")
    glyphs[found.getGlyphOrder()[index]].draw(pen)
    return Outline(pen.getCommands(), found["head"].unitsPerEm)


def baseline(y: float, size: float) -> float:
    """Find the baseline of a text from the middle of its capitals.

    Parameters
    ----------
    y : float
        The middle of the capitals.
    size : float
        Type size.

    Returns
    -------
    float
        Where its letters stand.
    """
    return y + CAP_HEIGHT / 2 * size
