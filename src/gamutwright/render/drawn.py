"""A figure with its theme, ready for a notebook or a file."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from gamutwright.errors import DomainError
from gamutwright.files import write_bytes
from gamutwright.ir.figure import Figure
from gamutwright.render.pdf import figures_to_pdf
from gamutwright.render.raster import figure_to_png
from gamutwright.render.svg import figure_to_svg
from gamutwright.render.theme import load_theme

__all__ = ["FORMATS", "Drawn"]

FORMATS = (".svg", ".png", ".pdf")


@dataclass(frozen=True, slots=True, repr=False)
class Drawn:
    """A figure in a theme.

    Parameters
    ----------
    figure : Figure
        The figure.
    theme : str
        light, night or print.
    scale : float > 0
        Pixels a unit, for PNG.
    has_live_text : bool
        Whether words of an SVG can be selected, and are not outlines.

    Examples
    --------
    >>> from gamutwright.ir.figure import Dot
    >>> Drawn(Figure("a dot", "One dot.", (Dot(5, 5, 2),)))._repr_svg_().startswith("<svg")
    True
    """

    figure: Figure
    theme: str = "light"
    scale: float = 2.0
    has_live_text: bool = False

    def __post_init__(self) -> None:
        load_theme(self.theme)
        if not 0 < self.scale <= 16:
            raise DomainError(f"scale {self.scale}", "a unit has up to 16 pixels", "Choose a scale from 0.1 to 16.")

    @property
    def svg(self) -> str:
        """The picture as SVG."""
        return figure_to_svg(self.figure, self.theme, has_live_text=self.has_live_text)

    def __repr__(self) -> str:
        """Say what it is in a line."""
        return f"<Picture: {self.figure.title}>"

    def _repr_svg_(self) -> str:
        """Show itself in a notebook."""
        return self.svg

    def content(self, ending: str) -> bytes:
        """Write the figure in a format.

        Parameters
        ----------
        ending : str
            .svg, .png or .pdf.

        Returns
        -------
        bytes
            The file's content.

        Raises
        ------
        DomainError
            For another ending.
        MissingPartError
            If a library is missing.
        """
        match ending.lower():
            case ".svg":
                return self.svg.encode()
            case ".png":
                return figure_to_png(self.figure, self.theme, self.scale)
            case ".pdf":
                return figures_to_pdf([self.figure], self.theme)
            case _:
                raise DomainError(
                    f"file ending {ending!r}",
                    "a picture is written in one of three formats",
                    f"Choose {', '.join(FORMATS)}.",
                )

    def save(self, path: Path | str) -> Path:
        """Write the figure to a file, whole or not at all.

        Parameters
        ----------
        path : Path or str
            Where; its ending says the format.

        Returns
        -------
        Path
            The file.
        """
        place = Path(path)
        write_bytes(place, self.content(place.suffix))
        return place
