"""Laying out: points on rings, labels that make room for each other, numbered marks, and the list of shapes itself.

Conventions: as `ir.figure`: units of a 1000 x 800 stage, degrees clockwise from the top. No text is smaller than
`SMALLEST`, which is what a viewer can read on a television across a room; what does not fit is left out rather than
set smaller.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from gamutwright.diagrams.alt_words import place_in_words
from gamutwright.diagrams.sketch import MOST_NUMBERED, Sketch
from gamutwright.ir.figure import (
    STAGE_HEIGHT,
    STAGE_WIDTH,
    Dot,
    Face,
    Figure,
    Fill,
    Group,
    Part,
    Path,
    Role,
    Shape,
    Stroke,
    Text,
)
from gamutwright.ir.metrics import Box, box_of, boxes_overlap, shortened, text_width

__all__ = [
    "BADGE",
    "CAPTION",
    "SMALLEST",
    "Drawing",
    "at_angle",
    "badge",
    "line",
    "outline",
    "root_peg",
    "spread",
    "wrapped",
]

SMALLEST = 32.0
BADGE = 23.0
"""Radius of a numbered disc."""

CAPTION = 36.0
"""From line to line of a caption."""


def at_angle(x: float, y: float, radius: float, degrees: float) -> tuple[float, float]:
    """Find a point on a circle.

    Parameters
    ----------
    x, y, radius : float
        The circle.
    degrees : float
        Clockwise from the top.

    Returns
    -------
    tuple of float
        The point.

    Examples
    --------
    >>> at_angle(0.0, 0.0, 2.0, 90)
    (2.0, -0.0)
    """
    turn = math.radians(degrees)
    return round(x + radius * math.sin(turn), 6), round(y - radius * math.cos(turn), 6)


def line(points: Sequence[tuple[float, float]], stroke: Stroke, name: str = "") -> Path:
    """Join points by straight lines.

    Parameters
    ----------
    points : sequence of (float, float)
        At least two.
    stroke : Stroke
        How it is drawn.
    name : str
        Its name.

    Returns
    -------
    Path
        An open line.

    Examples
    --------
    >>> line([(0, 0), (3, 4)], Stroke()).verbs
    'ML'
    """
    return Path("M" + "L" * (len(points) - 1), tuple(n for point in points for n in point), None, stroke, name)


def outline(points: Sequence[tuple[float, float]], fill: Fill | None, stroke: Stroke | None, name: str = "") -> Path:
    """Join points by straight lines and close them.

    Parameters
    ----------
    points : sequence of (float, float)
        Corners.
    fill, stroke : Fill, Stroke or None
        How it is painted.
    name : str
        Its name.

    Returns
    -------
    Path
        A closed shape.

    Examples
    --------
    >>> outline([(0, 0), (3, 4), (0, 4)], None, Stroke()).verbs
    'MLLZ'
    """
    numbers = tuple(n for point in points for n in point)
    return Path("M" + "L" * (len(points) - 1) + "Z", numbers, fill, stroke, name)


def badge(number: int, x: float, y: float, role: Role = Role.NOW, name: str = "") -> tuple[Shape, ...]:
    """Draw a numbered disc.

    Parameters
    ----------
    number : int
        What it says.
    x, y : float
        Where.
    role : Role
        What it means.
    name : str
        Name of the disc.

    Returns
    -------
    tuple of Shape
        Disc and number.
    """
    return (
        Dot(x, y, BADGE, Fill(role), Stroke(Role.GROUND, 4), name),
        Text(x, y, str(number), SMALLEST, Role.GROUND, face=Face.STRONG, name=name and f"{name} number"),
    )


def root_peg(x: float, y: float, radius: float, role: Role = Role.INK, name: str = "") -> tuple[Shape, ...]:
    """Draw the ring that tells the root from other tones.

    Parameters
    ----------
    x, y, radius : float
        Where, and the radius of the peg inside it.
    role : Role
        What it means.
    name : str
        Its name.

    Returns
    -------
    tuple of Shape
        A ring around the peg with a gap.
    """
    gap = min(8.0, max(3.0, radius * 0.3))
    return (
        Dot(x, y, radius + gap * 1.9, Fill(Role.GROUND), None, name and f"{name} gap"),
        Dot(x, y, radius + gap * 1.5, None, Stroke(role, gap * 0.8), name),
    )


def spread(wanted: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Move positions apart until neighbours keep a gap, as little as possible.

    Parameters
    ----------
    wanted : sequence of float
        Where they would like to be, ascending.
    gap : float
        What neighbours keep.
    low, high : float
        Where the first and the last may be at the utmost.

    Returns
    -------
    list of float
        Where they are; evenly set from low to high where the gap cannot be kept.

    Examples
    --------
    >>> spread([10, 11, 40], 10, 0, 100)
    [5.5, 15.5, 40.0]
    """
    if len(wanted) > 1 and gap * (len(wanted) - 1) > high - low:
        pitch = (high - low) / (len(wanted) - 1)
        return [low + pitch * index for index in range(len(wanted))]
    clusters: list[list[float]] = []  # [sum of wished starts, members, start]
    for position in wanted:
        clusters.append([position, 1.0, position])
        while True:
            total, members, _ = clusters[-1]
            start = min(max(total / members, low), high - gap * (members - 1))
            clusters[-1][2] = start
            if len(clusters) == 1 or clusters[-2][2] + gap * clusters[-2][1] <= start + 1e-9:
                break
            upper = clusters.pop()
            lower = clusters[-1]
            lower[0] += upper[0] - upper[1] * gap * lower[1]
            lower[1] += upper[1]
    return [start + gap * index for _, members, start in clusters for index in range(int(members))]


def wrapped(text: str, width: float, lines: int = 2) -> list[str]:
    """Break a caption at words into lines of the smallest size.

    Parameters
    ----------
    text : str
        The caption.
    width : float
        The room.
    lines : int
        At most so many; the last is cut where more would be needed.

    Returns
    -------
    list of str
        The lines.

    Examples
    --------
    >>> wrapped("major pentatonic on 4", 250)
    ['major pentatonic', 'on 4']
    """
    words, made = text.split(), [""]
    while words:
        longer = f"{made[-1]} {words[0]}".strip()
        if text_width(longer, SMALLEST) <= width or not made[-1]:
            made[-1] = longer
            words.pop(0)
        elif len(made) < lines:
            made.append("")
        else:
            made[-1] = " ".join([made[-1], *words])
            break
    return [shortened(line, width, SMALLEST) for line in made]


class Drawing:
    """The shapes and parts of a figure while it is being drawn, and the room that texts and marks have taken.

    Parameters
    ----------
    width, height : float
        Size in units.
    pivot : tuple of float, optional
        The point about which labels and marks turn when one state changes into another.
    """

    def __init__(
        self, width: float = STAGE_WIDTH, height: float = STAGE_HEIGHT, pivot: tuple[float, float] | None = None
    ) -> None:
        self.pivot = pivot
        self.width = width
        self.height = height
        self._shapes: list[Shape] = []
        self._over: list[Shape] = []
        self._parts: list[Part] = []
        self._taken: list[Box] = []

    def add(self, *shapes: Shape) -> None:
        """Paint shapes over what is there.

        Parameters
        ----------
        *shapes : Shape
            The shapes.
        """
        self._shapes.extend(shapes)

    def add_over(self, *shapes: Shape) -> None:
        """Paint shapes after all others, and let labels keep clear of them.

        Parameters
        ----------
        *shapes : Shape
            The shapes.
        """
        self._over.extend(shapes)
        self.take(*shapes)

    def take(self, *shapes: Shape) -> None:
        """Keep the room of shapes free from labels that come later.

        Parameters
        ----------
        *shapes : Shape
            The shapes.
        """
        self._taken.extend(box_of(shape) for shape in shapes)

    def part(self, name: str, x: float, y: float, radius: float) -> None:
        """Give a place a name; the first to claim a name keeps it.

        Parameters
        ----------
        name : str
            Its name.
        x, y, radius : float
            Its middle and reach.
        """
        if all(part.name != name for part in self._parts):
            self._parts.append(Part(name, x, y, radius))

    def is_free(self, shape: Shape, gap: float = 2.0) -> bool:
        """Say whether a shape would touch what has taken room, or leave the picture.

        Parameters
        ----------
        shape : Shape
            The shape.
        gap : float
            What it keeps from others.

        Returns
        -------
        bool
            True where it may be put.
        """
        box = box_of(shape)
        inside = box[0] >= 0 and box[1] >= 0 and box[2] <= self.width and box[3] <= self.height
        return inside and not any(boxes_overlap(box, other, -gap) for other in self._taken)

    def add_text(self, text: Text) -> bool:
        """Put a text where it touches nothing; leave it out where it would.

        Parameters
        ----------
        text : Text
            The text.

        Returns
        -------
        bool
            Whether it was put.
        """
        if not text.text or not self.is_free(text):
            return False
        self.add_over(text)
        return True

    def number(self, index: int, places: Iterable[tuple[float, float]], sketch: Sketch, role: Role = Role.NOW) -> None:
        """Put the number of a place at the first of several points that is free, and name the part.

        Parameters
        ----------
        index : int
            Position of the place, from 0.
        places : iterable of (float, float)
            Points in order of preference; the first names the part where none is free.
        sketch : Sketch
            Says whether places are numbered at all.
        role : Role
            What the mark means.
        """
        points = list(places)
        name = f"witness {index + 1}"
        if sketch.is_numbered:
            for x, y in points:
                disc = badge(index + 1, x, y, role, name)
                if self.is_free(disc[0]):
                    self.add_over(*disc)
                    self.part(name, x, y, BADGE)
                    return
        self.part(name, *points[0], BADGE)

    def figure(self, sketch: Sketch, title: str, opening: str) -> Figure:
        """Finish the figure.

        Parameters
        ----------
        sketch : Sketch
            What was asked for.
        title : str
            The diagram's own title.
        opening : str
            The first sentences of the alt text: what the picture is and what it shows.

        Returns
        -------
        Figure
            The figure.
        """
        sentences = [opening]
        if sketch.shown:
            shown = [place_in_words(sketch, place) for place in sketch.shown[:MOST_NUMBERED]]
            rest = len(sketch.shown) - len(shown)
            said = "; ".join(f"{number} {words}" for number, words in enumerate(shown, 1))
            sentences.append(f"Marked: {said}{f'; and {rest} more' if rest else ''}.")
        if sketch.statement:
            sentences.append(sketch.statement)
        return Figure(
            sketch.title or title,
            " ".join(sentences),
            (*self._shapes, Group(tuple(self._over), self.pivot, "over")),
            tuple(self._parts),
            self.width,
            self.height,
        )
