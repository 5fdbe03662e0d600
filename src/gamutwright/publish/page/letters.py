"""The typefaces of the films for a page that loads nothing: only the letters it uses, packed into its style sheet.

The accidentals ♭ ♮ ♯ 𝄪 𝄫 are in a small font of their own. What pages of both languages are likely to need is always
there, so that most pages of a course share one selection, which takes a second to make.

**Conventions.** Fonts are WOFF2; the names under which a page asks for them are its own, as the SIL Open Font License
1.1 asks of changed fonts with reserved names.
"""

from __future__ import annotations

import base64
import io
import string
from functools import lru_cache

from gamutwright.ir.figure import Face
from gamutwright.ir.metrics import SIGNS
from gamutwright.publish.page.signs_font import signs_font
from gamutwright.render.fonts import characters, font_bytes, require

__all__ = ["font_rules"]

_FAMILIES = ((Face.SANS, "Lesson Sans", 400), (Face.STRONG, "Lesson Sans", 600), (Face.SERIF, "Lesson Serif", 600))
_ALWAYS = string.ascii_letters + string.digits + string.punctuation + " –—…‘’“”„·×✓−äöüÄÖÜßéñ"


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
    font.flavor = "woff2"
    packed = io.BytesIO()
    font.save(packed)
    return packed.getvalue()


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
    rules = []
    for face, family, weight in _FAMILIES:
        held = frozenset(letter for letter in letters if ord(letter) in characters(face.value))
        packed = base64.b64encode(_letters(face, held)).decode()
        rules.append(
            f"@font-face{{font-family:'{family}';font-weight:{weight};font-display:block;"
            f"src:url(data:font/woff2;base64,{packed}) format('woff2')}}"
        )
    points = ",".join(f"U+{ord(sign):X}" for sign in SIGNS)
    rules.append(
        f"@font-face{{font-family:'Lesson Signs';unicode-range:{points};"
        f"src:url(data:font/woff2;base64,{base64.b64encode(signs_font('woff2')).decode()}) format('woff2')}}"
    )
    return "\n".join(rules)
