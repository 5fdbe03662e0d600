"""Figures as PDF: vector shapes, fonts embedded, one figure a page.

Conventions: a unit of the figure is 0.48 points, so a stage of 1000 units is as wide as a column of A4 text.
"""

from __future__ import annotations

from collections.abc import Sequence

from gamutwright.ir.figure import Figure, Role
from gamutwright.render.raster import place_on_canvas, skia_library
from gamutwright.render.theme import Theme, load_theme

__all__ = ["POINTS_PER_UNIT", "figures_to_pdf"]

POINTS_PER_UNIT = 0.48
AUTHOR = "Gamutwright"


def figures_to_pdf(figures: Sequence[Figure], theme: Theme | str = "print", author: str = AUTHOR) -> bytes:
    """Write figures as a PDF file.

    Parameters
    ----------
    figures : sequence of Figure
        One a page.
    theme : Theme or str
        The theme, or its name.
    author : str
        Who is named as its author.

    Returns
    -------
    bytes
        The file; its title and subject are those of the first figure.

    Raises
    ------
    MissingPartError
        If a library is missing, with the command that installs it.
    """
    skia = skia_library()
    theme = load_theme(theme) if isinstance(theme, str) else theme
    metadata = skia.PDF.Metadata()
    if figures:
        metadata.fTitle, metadata.fSubject = figures[0].title, figures[0].alt
    metadata.fAuthor = author
    metadata.fCreator = metadata.fProducer = AUTHOR
    stream = skia.DynamicMemoryWStream()
    colour = theme.looks[Role.GROUND].mark
    ground = skia.Color(*(int(colour[at : at + 2], 16) for at in (1, 3, 5)))
    with skia.PDF.MakeDocument(stream, metadata) as document:
        for figure in figures:
            width, height = figure.width * POINTS_PER_UNIT, figure.height * POINTS_PER_UNIT
            with document.page(width, height) as canvas:
                canvas.clear(ground)
                place_on_canvas(canvas, figure, theme, (0, 0, width, height))
    return bytes(stream.detachAsData())
