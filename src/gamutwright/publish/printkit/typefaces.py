"""A folder of typefaces for the printed sheets, and nothing else to fall back on.

Words are set in Source Sans and Source Serif, which lack ♯ ♭ ♮ 𝄪 𝄫. So a small font of these five signs is made from
the music font: its outlines, scaled, raised and spaced by the same table as in the pictures, under the characters that
a reader copies and a screen reader says. Its name is its own, as the Open Font License asks of changed fonts.

Conventions: the folder holds four files; the same fonts give the same bytes.
"""

from __future__ import annotations

import io
from functools import cache
from pathlib import Path

from gamutwright.ir.figure import Face
from gamutwright.ir.metrics import CAP_HEIGHT, SIGNS
from gamutwright.render.fonts import MUSIC, font_bytes, outline, require

__all__ = ["FAMILIES", "SIGNS_FAMILY", "signs_font", "write_typefaces"]

SIGNS_FAMILY = "Gamutwright Signs"
FAMILIES = ("Source Sans Pro", "Source Serif Pro", SIGNS_FAMILY)
_UNITS = 1000
_ASCENT, _DESCENT, _X_HEIGHT = 984, -273, 486
"""Those of Source Sans, so that a sign does not move the line it stands in."""


@cache
def signs_font() -> bytes:
    """Make the font of accidentals.

    Returns
    -------
    bytes
        An OpenType font with five characters.

    Raises
    ------
    MissingPartError
        If the music font is not installed.

    Examples
    --------
    >>> signs_font()[:4]
    b'OTTO'
    """
    require("fontTools", "fonttools", "setting accidentals in print")
    from fontTools.fontBuilder import FontBuilder  # type: ignore[import-untyped]  # noqa: PLC0415 - only for print
    from fontTools.pens.t2CharStringPen import (  # type: ignore[import-untyped]  # noqa: PLC0415 - as above
        T2CharStringPen,
    )
    from fontTools.pens.transformPen import (  # type: ignore[import-untyped]  # noqa: PLC0415 - as above
        TransformPen,
    )
    from fontTools.svgLib.path import parse_path  # type: ignore[import-untyped]  # noqa: PLC0415 - as above

    indexes = _indexes()
    order = [".notdef", *(f"uni{ord(letter):04X}" for letter in SIGNS)]
    widths = {".notdef": (500, 0)}
    strings = {}
    for name, letter in zip(order, ["", *SIGNS], strict=True):
        width = round(SIGNS[letter].advance * _UNITS) if letter else 500
        pen = T2CharStringPen(width, None)
        if letter:
            sign, shape = SIGNS[letter], outline(MUSIC, indexes[letter])
            factor = sign.scale * _UNITS / shape.units
            placed = TransformPen(pen, (factor, 0, 0, factor, sign.before * _UNITS, sign.rise * _UNITS))
            parse_path(shape.commands, placed)
            widths[name] = (width, round(sign.before * _UNITS))
        strings[name] = pen.getCharString()
    made = FontBuilder(_UNITS, isTTF=False)
    made.setupGlyphOrder(order)
    made.setupCharacterMap({ord(letter): name for letter, name in zip(SIGNS, order[1:], strict=True)})
    postscript = SIGNS_FAMILY.replace(" ", "") + "-Regular"
    made.setupCFF(postscript, {"FullName": SIGNS_FAMILY}, strings, {})
    made.setupHorizontalMetrics(widths)
    made.setupHorizontalHeader(ascent=_ASCENT, descent=_DESCENT)
    made.setupNameTable({"familyName": SIGNS_FAMILY, "styleName": "Regular", "psName": postscript})
    made.setupOS2(
        version=4,
        sTypoAscender=_ASCENT,
        sTypoDescender=_DESCENT,
        usWinAscent=_ASCENT,
        usWinDescent=-_DESCENT,
        sCapHeight=round(CAP_HEIGHT * _UNITS),
        sxHeight=_X_HEIGHT,
    )
    made.setupPost()
    made.updateHead(created=0, modified=0)
    made.font.recalcTimestamp = False
    packed = io.BytesIO()
    made.save(packed)
    return packed.getvalue()


def _indexes() -> dict[str, int]:
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]  # noqa: PLC0415 - only for print

    font = TTFont(io.BytesIO(font_bytes(MUSIC)), lazy=True)
    names = font.getBestCmap()
    return {letter: font.getGlyphID(names[sign.code_point]) for letter, sign in SIGNS.items()}


def write_typefaces(folder: Path) -> None:
    """Put the typefaces into a folder.

    Parameters
    ----------
    folder : Path
        An empty folder.

    Raises
    ------
    MissingPartError
        If a font is not installed.
    """
    for face in Face:
        folder.joinpath(f"{face.value}.ttf").write_bytes(font_bytes(face.value))
    folder.joinpath("signs.otf").write_bytes(signs_font())
