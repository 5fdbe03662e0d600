"""A figure: shapes and words in abstract units, with roles instead of colours and names for the places in it.

A diagram describes, a renderer translates. What a mark *means* is said by its role; which colour, weight, dash or hatch
that becomes is decided by a theme.

Conventions: x grows to the right, y downwards, in units of which a figure that fills the stage of a 1920x1080 frame
has one a pixel. Angles are degrees clockwise from the top. `Text.y` is the middle of the capitals' height, so text is
centred on what it names without knowing the font. Shapes are painted in the order of the list. Names are the
diagram's own; within one figure a name is used once.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum

from gamutwright.errors import DomainError

__all__ = [
    "STAGE_HEIGHT",
    "STAGE_WIDTH",
    "Anchor",
    "Arc",
    "Dot",
    "Engraving",
    "Face",
    "Figure",
    "Fill",
    "Group",
    "Label",
    "Part",
    "Path",
    "Role",
    "Shape",
    "Stroke",
    "Text",
    "walk",
]

STAGE_WIDTH = 1000.0
STAGE_HEIGHT = 800.0


class Role(StrEnum):
    """What a mark means."""

    GROUND = "ground"
    """The paper itself, for what is cut out of a mark."""
    INK = "ink"
    """What is there."""
    QUIET = "quiet"
    """What is absent, or context."""
    NOW = "now"
    """What is being said at this moment."""
    OTHER = "other"
    """What it is compared with."""
    GOOD = "good"
    """Right."""
    WRONG = "wrong"
    """Mistaken, or in conflict."""


class Anchor(StrEnum):
    """Which end of a text stands at its x."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


class Face(StrEnum):
    """Which of the typefaces."""

    SANS = "sans"
    STRONG = "strong"
    SERIF = "serif"


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line.

    Parameters
    ----------
    role : Role
        What it means.
    width : float
        Its width in units, before the theme weighs the role.
    tint : float in (0, 1]
        How much of the role's colour.
    """

    role: Role = Role.INK
    width: float = 3.0
    tint: float = 1.0


@dataclass(frozen=True, slots=True)
class Fill:
    """An area.

    Parameters
    ----------
    role : Role
        What it means.
    tint : float in (0, 1]
        How much of the role's colour; below 1 a theme may hatch it instead.
    """

    role: Role = Role.INK
    tint: float = 1.0


@dataclass(frozen=True, slots=True)
class Dot:
    """A disc or a circle.

    Parameters
    ----------
    x, y, radius : float
        Centre and radius.
    fill, stroke : Fill, Stroke or None
        How it is painted.
    name : str
        Name of the place; "" for none.
    opacity : float in [0, 1]
        0 is not there.
    """

    x: float
    y: float
    radius: float
    fill: Fill | None = Fill()
    stroke: Stroke | None = None
    name: str = ""
    opacity: float = 1.0


@dataclass(frozen=True, slots=True)
class Path:
    """Lines and curves.

    Parameters
    ----------
    verbs : str
        M move, L line, Q quadratic, C cubic, Z close; as many of each as there are commands.
    numbers : tuple of float
        Coordinates, x before y: two for M and L, four for Q, six for C, none for Z.
    fill, stroke : Fill, Stroke or None
        How it is painted.
    name, opacity
        As for `Dot`.
    """

    verbs: str
    numbers: tuple[float, ...]
    fill: Fill | None = None
    stroke: Stroke | None = Stroke()
    name: str = ""
    opacity: float = 1.0

    def __post_init__(self) -> None:
        wanted = sum({"M": 2, "L": 2, "Q": 4, "C": 6, "Z": 0}[verb] for verb in self.verbs)
        if wanted != len(self.numbers):
            raise DomainError(
                f"{len(self.numbers)} numbers", f"the verbs {self.verbs} take {wanted}", "Give two for each point."
            )


@dataclass(frozen=True, slots=True)
class Arc:
    """A stretch of a circle, drawn as a band as wide as its stroke.

    Parameters
    ----------
    x, y, radius : float
        Centre, and radius of the middle of the band.
    start, sweep : float, degrees
        Where it begins, clockwise from the top, and how far it goes clockwise.
    stroke : Stroke
        Role and width of the band.
    name, opacity
        As for `Dot`.
    """

    x: float
    y: float
    radius: float
    start: float
    sweep: float
    stroke: Stroke = Stroke()
    name: str = ""
    opacity: float = 1.0


@dataclass(frozen=True, slots=True)
class Text:
    """One line of words.

    Parameters
    ----------
    x, y : float
        Where it stands; y is the middle of the capitals.
    text : str
        The words; ♯ ♭ ♮ 𝄪 𝄫 are welcome.
    size : float
        Type size in units.
    role : Role
        What it means.
    anchor : Anchor
        Which end stands at x.
    face : Face
        Which typeface.
    name, opacity
        As for `Dot`.
    """

    x: float
    y: float
    text: str
    size: float = 36.0
    role: Role = Role.INK
    anchor: Anchor = Anchor.MIDDLE
    face: Face = Face.SANS
    name: str = ""
    opacity: float = 1.0


@dataclass(frozen=True, slots=True)
class Label:
    """Words that stand above or below an engraved place, wherever the engraver puts it.

    Parameters
    ----------
    place : str
        Id of the engraved element.
    text : Text
        The words; their x is counted from the middle of the place, their y from the top of the engraving.
    """

    place: str
    text: Text


@dataclass(frozen=True, slots=True)
class Engraving:
    """A piece of notation in the interchange format of an engraver, laid into a box.

    Parameters
    ----------
    x, y, width, height : float
        The box.
    source : str
        The notation, as MEI.
    roles : tuple of (str, Role)
        Ids of elements and the roles they have; others are ink.
    labels : tuple of Label
        Words hung on elements.
    names : tuple of (str, str)
        Ids of elements and the names under which they become parts of the figure.
    name, opacity
        As for `Dot`.
    """

    x: float
    y: float
    width: float
    height: float
    source: str
    roles: tuple[tuple[str, Role], ...] = ()
    labels: tuple[Label, ...] = ()
    names: tuple[tuple[str, str], ...] = ()
    name: str = ""
    opacity: float = 1.0


@dataclass(frozen=True, slots=True)
class Group:
    """Shapes that belong together.

    Parameters
    ----------
    shapes : tuple of Shape
        What it holds.
    pivot : tuple of float or None
        A point about which its shapes move along arcs when one state changes into another; straight without.
    name, opacity
        As for `Dot`; the opacity multiplies that of the shapes.
    """

    shapes: tuple[Shape, ...]
    pivot: tuple[float, float] | None = None
    name: str = ""
    opacity: float = 1.0


Shape = Dot | Path | Arc | Text | Engraving | Group


@dataclass(frozen=True, slots=True)
class Part:
    """A place in a figure that somebody may want to find again.

    Parameters
    ----------
    name : str
        Its name.
    x, y : float
        Its middle.
    radius : float
        How far it reaches.
    """

    name: str
    x: float
    y: float
    radius: float


@dataclass(frozen=True, slots=True)
class Figure:
    """A picture, complete but for its theme.

    Parameters
    ----------
    title : str
        A short name.
    alt : str
        What it shows, in words, for whoever cannot see it.
    shapes : tuple of Shape
        What is drawn, in order of painting.
    parts : tuple of Part
        Named places.
    width, height : float
        Size in units.
    """

    title: str
    alt: str
    shapes: tuple[Shape, ...]
    parts: tuple[Part, ...] = ()
    width: float = STAGE_WIDTH
    height: float = STAGE_HEIGHT

    def __post_init__(self) -> None:
        if not self.title.strip() or not self.alt.strip():
            raise DomainError(
                repr(self.title), "a figure has a title and says in words what it shows", "Give title and alt text."
            )

    def part(self, name: str) -> Part:
        """Find a named place.

        Parameters
        ----------
        name : str
            Its name.

        Returns
        -------
        Part
            The place.

        Raises
        ------
        DomainError
            If the figure has no such place.

        Examples
        --------
        >>> Figure("a dot", "One dot.", (), (Part("dot", 5, 5, 2),)).part("dot").radius
        2
        """
        for part in self.parts:
            if part.name == name:
                return part
        known = ", ".join(part.name for part in self.parts[:12])
        raise DomainError(repr(name), "the figure has no such part", f"Choose one of: {known or 'none'}.")

    def faded(self, opacity: float) -> Figure:
        """Give the same figure with everything in it fainter.

        Parameters
        ----------
        opacity : float in [0, 1]
            The factor.

        Returns
        -------
        Figure
            The figure.

        Examples
        --------
        >>> Figure("a dot", "One dot.", (Dot(0, 0, 1),)).faded(0.5).shapes[0].opacity
        0.5
        """
        return replace(self, shapes=(Group(self.shapes, opacity=opacity),))


def walk(shapes: tuple[Shape, ...]) -> Iterator[Shape]:
    """Go through shapes and what groups hold, in order of painting; groups themselves are left out.

    Parameters
    ----------
    shapes : tuple of Shape
        The shapes.

    Yields
    ------
    Shape
        Each that is not a group.

    Examples
    --------
    >>> [dot.radius for dot in walk((Dot(0, 0, 1), Group((Dot(0, 0, 2),))))]
    [1, 2]
    """
    for shape in shapes:
        if isinstance(shape, Group):
            yield from walk(shape.shapes)
        else:
            yield shape
