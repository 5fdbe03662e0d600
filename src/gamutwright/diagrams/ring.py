"""The ring of steps: the octave bent round, the root at the top, up is clockwise.

Each step of the scale is an arc with its size on it, tones are pegs between arcs, tones left out are hairline ticks.
What is said of the tones stands inside; the tones themselves are joined by nothing but the band. The same ring carries
any division, large as a clock face or small in a table.

Conventions: shapes are named by pitch class (step + root), so that a mode is the same ring turned and an animation can
find every peg again.
"""

from __future__ import annotations

from dataclasses import dataclass

from gamutwright.diagrams.layout import SMALLEST, Drawing, at_angle, line, root_peg
from gamutwright.diagrams.sketch import Sketch
from gamutwright.ir.figure import Arc, Dot, Face, Fill, Group, Role, Shape, Stroke, Text
from gamutwright.ir.metrics import text_width
from gamutwright.theory.scale import Scale

__all__ = ["Ring", "arcs", "big_ring", "labels", "pegs", "sizes", "small_ring", "step_arc", "ticks"]


@dataclass(frozen=True, slots=True)
class Ring:
    """Where a ring stands and how large it is.

    Parameters
    ----------
    x, y : float
        Its centre.
    radius : float
        Radius of the middle of the band.
    band : float
        Width of the band.
    divisions : int > 0
        Steps of the octave.
    name : str
        What its shapes' names begin with.
    """

    x: float
    y: float
    radius: float
    band: float
    divisions: int
    name: str = ""

    def point(self, step: float, out: float = 0.0) -> tuple[float, float]:
        """Find the place of a step.

        Parameters
        ----------
        step : float
            Steps above the root.
        out : float
            How far outside the middle of the band; inside where negative.

        Returns
        -------
        tuple of float
            The point.
        """
        return at_angle(self.x, self.y, self.radius + out, 360.0 * step / self.divisions)

    def inner(self, step: float) -> tuple[float, float]:
        """Find the place just inside the band where what is said of a step begins.

        Parameters
        ----------
        step : float
            Steps above the root.

        Returns
        -------
        tuple of float
            The point.
        """
        return self.point(step, -self.band / 2 - self.radius * 0.025)

    @property
    def pitch(self) -> float:
        """Length of one step along the band."""
        return 6.283185307 * self.radius / self.divisions

    @property
    def peg(self) -> float:
        """Radius of a peg."""
        return min(self.band * 0.34, self.pitch * 0.3)


def _named(ring: Ring, kind: str, scale: Scale, step: int) -> str:
    return f"{ring.name}{kind} {(step + scale.root) % scale.divisions}"


def ticks(ring: Ring, scale: Scale) -> tuple[Shape, ...]:
    """Draw a hairline for every step that is no tone, outside the band, where it is not read as a minus.

    Parameters
    ----------
    ring : Ring
        The ring.
    scale : Scale
        The scale.

    Returns
    -------
    tuple of Shape
        The hairlines.
    """
    reach = ring.band / 2
    width = max(1.5, ring.band / 20)
    return tuple(
        line(
            [ring.point(step, reach * 1.02), ring.point(step, reach * 1.34)],
            Stroke(Role.QUIET, width),
            _named(ring, "tick", scale, step),
        )
        for step in range(scale.divisions)
        if not scale.mask >> step & 1
    )


def step_arc(ring: Ring, low: int, size: int, stroke: Stroke, name: str) -> Arc:
    """Draw the band of one step.

    Parameters
    ----------
    ring : Ring
        The ring.
    low, size : int
        Where it begins and how many steps of the division it takes.
    stroke : Stroke
        How it is drawn.
    name : str
        Its name.

    Returns
    -------
    Arc
        The band, with a gap at both ends.
    """
    unit = 360.0 / ring.divisions
    gap = min(unit * 0.18, 360.0 * 0.4 * ring.peg / (6.283185307 * ring.radius) + 0.4)
    return Arc(ring.x, ring.y, ring.radius, low * unit + gap, size * unit - 2 * gap, stroke, name)


def arcs(ring: Ring, scale: Scale, role: Role = Role.INK) -> tuple[Shape, ...]:
    """Draw every step of the scale as an arc.

    Parameters
    ----------
    ring : Ring
        The ring.
    scale : Scale
        The scale.
    role : Role
        What the band means; stronger where it is not ink, so that a lit ring is seen among others.

    Returns
    -------
    tuple of Shape
        The bands.
    """
    stroke = Stroke(role, ring.band, 0.13 if role is Role.INK else 0.4)
    return tuple(
        step_arc(ring, tone, size, stroke, _named(ring, "step", scale, tone))
        for tone, size in zip(scale.tones, scale.step_pattern, strict=True)
    )


def sizes(drawing: Drawing, ring: Ring, scale: Scale, lit: frozenset[int] = frozenset()) -> None:
    """Write the size of every step on its arc, beside the middle where a mark stands there.

    Parameters
    ----------
    drawing : Drawing
        Where.
    ring : Ring
        The ring.
    scale : Scale
        The scale.
    lit : frozenset of int
        Lower tones of the steps that are marked.
    """
    for tone, size in zip(scale.tones, scale.step_pattern, strict=True):
        if text_width(str(size), SMALLEST) + 14 > size * ring.pitch - 2 * ring.peg:
            continue
        for aside in (0.0, 0.5, -0.5, 1.0, -1.0):
            if abs(aside) * 2 >= size:
                break
            x, y = ring.point(tone + size / 2 + aside)
            role, face = (Role.GROUND, Face.STRONG) if tone in lit else (Role.INK, Face.SANS)
            name = _named(ring, "size", scale, tone)
            if drawing.add_text(Text(x, y, str(size), SMALLEST, role, face=face, name=name)):
                break


def pegs(ring: Ring, scale: Scale, roles: dict[int, Role] | None = None) -> tuple[Shape, ...]:
    """Draw the tones as pegs, the root with its double ring; an absent root is an empty ring.

    Parameters
    ----------
    ring : Ring
        The ring.
    scale : Scale
        The scale.
    roles : dict of int to Role, optional
        Tones that are not ink.

    Returns
    -------
    tuple of Shape
        The pegs.
    """
    roles = roles or {}
    shapes: list[Shape] = []
    for tone in scale.tones:
        x, y = ring.point(tone)
        role = roles.get(tone, Role.INK)
        if tone == 0:
            shapes += root_peg(x, y, ring.peg, role, ring.name + "root")
        shapes.append(Dot(x, y, ring.peg, Fill(role), None, _named(ring, "peg", scale, tone)))
    if not scale.is_rooted:
        x, y = ring.point(0)
        shapes.append(
            Dot(x, y, ring.peg * 1.45, Fill(Role.GROUND), Stroke(Role.QUIET, ring.peg * 0.24), ring.name + "root")
        )
    return tuple(shapes)


def labels(drawing: Drawing, ring: Ring, sketch: Sketch, scale: Scale, size: float, steps: tuple[int, ...]) -> None:
    """Name steps outside the band; where names would touch, the root goes first and some are left out.

    Parameters
    ----------
    drawing : Drawing
        Where they are put.
    ring : Ring
        The ring.
    sketch : Sketch
        For names.
    scale : Scale
        The scale of this ring.
    size : float
        Type size.
    steps : tuple of int
        Which steps.
    """
    shift = scale.root - sketch.scale.root
    for step in sorted(steps, key=lambda step: (step != 0, steps.index(step) % 2, step)):
        name = sketch.name(step + shift)
        for out in (0.75, 0.85, 0.95, 1.1, 1.25):
            x, y = ring.point(step, ring.band / 2 + size * out)
            towards = (x - ring.x) / (ring.radius + ring.band)
            x += towards * max(0.0, text_width(name, size) - size * 0.6) / 2
            if drawing.add_text(Text(x, y, name, size, name=_named(ring, "name", scale, step))):
                break


def big_ring(drawing: Drawing, ring: Ring, scale: Scale) -> None:
    """Draw the ring of a scale without pegs, sizes and names.

    Parameters
    ----------
    drawing : Drawing
        Where it is drawn.
    ring : Ring
        The ring.
    scale : Scale
        The scale.
    """
    drawing.add(Group((*ticks(ring, scale), *arcs(ring, scale)), (ring.x, ring.y), ring.name + "ring"))
    for tone in scale.tones:
        drawing.part(f"{ring.name}tone {tone}", *ring.point(tone), ring.peg)


def small_ring(
    ring: Ring, scale: Scale, roles: dict[int, Role] | None = None, band_role: Role = Role.INK
) -> tuple[Shape, ...]:
    """Draw a ring for a table: band and pegs.

    Parameters
    ----------
    ring : Ring
        The ring.
    scale : Scale
        The scale.
    roles : dict of int to Role, optional
        Tones that are not ink.
    band_role : Role
        What the band means.

    Returns
    -------
    tuple of Shape
        One group.
    """
    parts = (*ticks(ring, scale), *arcs(ring, scale, band_role), *pegs(ring, scale, roles))
    return (Group(parts, (ring.x, ring.y), ring.name + "ring"),)
