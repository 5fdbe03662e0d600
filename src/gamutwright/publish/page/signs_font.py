"""A small font of the five accidentals, for print and page.

Source Sans and Source Serif lack ♯ ♭ ♮ 𝄪 𝄫, and the music font has them elsewhere and on another baseline than letters.
So its outlines are scaled, raised and spaced by the same table as in the pictures, and put under the characters that a
reader copies and a screen reader says. The font's name is its own, as the Open Font License asks of changed fonts.

Conventions: a thousand units to the em; the same bytes each time.
"""

from __future__ import annotations

import io
from functools import cache

from gamutwright.ir.metrics import CAP_HEIGHT, SIGNS
from gamutwright.render.fonts import MUSIC, font_bytes, outline, require

__all__ = ["SIGNS_FAMILY", "signs_font"]

SIGNS_FAMILY = "Gamutwright Signs"
_UNITS = 1000
_ASCENT, _DESCENT, _X_HEIGHT = 984, -273, 486
"""Those of Source Sans, so that a sign does not move the line it stands in."""
_DATE = 2_082_844_800
"""The beginning of 1970 as fonts count it; an earlier date is taken for a mistake where a font is read."""


@cache
def signs_font(flavor: str | None = None) -> bytes:
    """Make the font of accidentals.

    Parameters
    ----------
    flavor : str or None
        "woff2" for a page; OpenType as it is without it.

    Returns
    -------
    bytes
        A font with five characters.

    Raises
    ------
    MissingPartError
        If the music font, or what packs a font, is not installed.

    Examples
    --------
    >>> signs_font()[:4], signs_font("woff2")[:4]
    (b'OTTO', b'wOF2')
    """
    require("fontTools", "fonttools", "setting accidentals")
    if flavor:
        require("brotli", "brotli", "the type of a page")
    from fontTools.fontBuilder import FontBuilder  # type: ignore[import-untyped]  # noqa: PLC0415 - only for print, page
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
    made.updateHead(created=_DATE, modified=_DATE)
    made.font.recalcTimestamp = False
    made.font.flavor = flavor
    packed = io.BytesIO()
    made.save(packed)
    return packed.getvalue()


def _indexes() -> dict[str, int]:
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]  # noqa: PLC0415 - only for print and page

    font = TTFont(io.BytesIO(font_bytes(MUSIC)), lazy=True)
    names = font.getBestCmap()
    return {letter: font.getGlyphID(names[sign.code_point]) for letter, sign in SIGNS.items()}
