"""The typefaces of the films for a page that loads nothing: only the letters it uses, packed into its style sheet.

The accidentals come from a music font whose glyphs stand elsewhere and on another baseline than letters; they are set
into a small font of their own, scaled and raised as in the pictures, under the code points of ♭ ♮ ♯ 𝄪 𝄫.

**Conventions.** Fonts are WOFF2; the names under which a page asks for them are its own, as the SIL Open Font License
1.1 asks of changed fonts with reserved names.
"""

from __future__ import annotations

import base64
import io
import string
from functools import lru_cache
from typing import Any

from gamutwright.ir.figure import Face
from gamutwright.ir.metrics import SIGNS
from gamutwright.render.fonts import font_bytes, glyph_run, outline, require

__all__ = ["font_rules"]

_FAMILIES = ((Face.SANS, "Lesson Sans", 400), (Face.STRONG, "Lesson Sans", 600), (Face.SERIF, "Lesson Serif", 600))
_ALWAYS = string.ascii_letters + string.digits + string.punctuation + " –—…‘’“”„·×✓äöüÄÖÜßé"
_EM = 1000


def _packed(font: Any) -> bytes:  # noqa: ANN401 - the font library has no types
    font.flavor = "woff2"
    file = io.BytesIO()
    font.save(file)
    return file.getvalue()


@lru_cache(maxsize=32)
def _letters(face: Face, letters: frozenset[str]) -> bytes:
    require("fontTools", "fonttools", "the type of a page")
    require("brotli", "brotli", "the type of a page")
    from fontTools.subset import (  # type: ignore[import-untyped]  # noqa: PLC0415 - only for pages
        Options,
        Subsetter,
    )
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]  # noqa: PLC0415 - as above

    font = TTFont(io.BytesIO(font_bytes(face.value)), recalcTimestamp=False)
    subsetter = Subsetter(Options(layout_features=["kern", "tnum", "lnum"], hinting=False, name_IDs=[]))
    subsetter.populate(unicodes=[ord(letter) for letter in letters])
    subsetter.subset(font)
    return _packed(font)


@lru_cache(maxsize=1)
def _signs() -> bytes:
    from fontTools.fontBuilder import (  # type: ignore[import-untyped]  # noqa: PLC0415 - only for pages
        FontBuilder,
    )
    from fontTools.pens.t2CharStringPen import (  # type: ignore[import-untyped]  # noqa: PLC0415 - as above
        T2CharStringPen,
    )
    from fontTools.pens.transformPen import (  # type: ignore[import-untyped]  # noqa: PLC0415 - as above
        TransformPen,
    )
    from fontTools.svgLib.path import parse_path  # type: ignore[import-untyped]  # noqa: PLC0415 - as above

    names = {f"u{ord(sign):X}": sign for sign in SIGNS}
    shapes, advances = {}, {}
    for name, sign in names.items():
        (glyph,), width = glyph_run(sign, float(_EM), Face.SANS)
        shape = outline(glyph.font, glyph.index)
        pen = T2CharStringPen(round(width), None)
        factor = glyph.size / shape.units
        parse_path(shape.commands, TransformPen(pen, (factor, 0, 0, factor, glyph.x, glyph.rise)))
        shapes[name], advances[name] = pen.getCharString(), round(width)
    blank = T2CharStringPen(500, None)
    builder = FontBuilder(_EM, isTTF=False)
    builder.setupGlyphOrder([".notdef", *names])
    builder.setupCharacterMap({ord(sign): name for name, sign in names.items()})
    builder.setupCFF("LessonSigns", {}, {".notdef": blank.getCharString(), **shapes}, {})
    builder.setupHorizontalMetrics({".notdef": (500, 0), **{name: (width, 0) for name, width in advances.items()}})
    builder.setupHorizontalHeader(ascent=984, descent=-273)
    builder.setupNameTable({"familyName": "Lesson Signs", "styleName": "Regular"})
    builder.setupOS2(sTypoAscender=984, sTypoDescender=-273, usWinAscent=984, usWinDescent=273)
    builder.setupPost()
    # Dates inside the file would make every page another one.
    builder.font.recalcTimestamp = False
    builder.font["head"].created = builder.font["head"].modified = 2_082_844_800
    return _packed(builder.font)


def font_rules(text: str) -> str:
    """Give the style rules that bring the typefaces of a page.

    Parameters
    ----------
    text : str
        Everything that the page may show; letters outside the fonts are left to the reader's own.

    Returns
    -------
    str
        One `@font-face` for each face, with the font inside.

    Examples
    --------
    >>> font_rules("E♭").count("@font-face")
    4
    """
    letters = frozenset(_ALWAYS) | {letter for letter in text if letter.isprintable()}
    rules = [
        f"@font-face{{font-family:'{family}';font-weight:{weight};font-display:block;"
        f"src:url(data:font/woff2;base64,{base64.b64encode(_letters(face, letters)).decode()}) format('woff2')}}"
        for face, family, weight in _FAMILIES
    ]
    points = ",".join(f"U+{ord(sign):X}" for sign in SIGNS)
    rules.append(
        f"@font-face{{font-family:'Lesson Signs';unicode-range:{points};"
        f"src:url(data:font/woff2;base64,{base64.b64encode(_signs()).decode()}) format('woff2')}}"
    )
    return "\n".join(rules)
