"""A folder of typefaces for the printed sheets, and nothing else to fall back on.

Words are set in Source Sans and Source Serif, which lack ♯ ♭ ♮ 𝄪 𝄫; these are in a small font of their own.

Conventions: the folder holds four files; the same fonts give the same bytes.
"""

from __future__ import annotations

from pathlib import Path

from gamutwright.ir.figure import Face
from gamutwright.publish.page.signs_font import SIGNS_FAMILY, signs_font
from gamutwright.render.fonts import font_bytes

__all__ = ["FAMILIES", "write_typefaces"]

FAMILIES = ("Source Sans Pro", "Source Serif Pro", SIGNS_FAMILY)


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
