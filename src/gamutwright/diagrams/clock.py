"""The clock face: the ring of steps, and whatever is pointed at laid over it.

Single tones become numbered pegs, steps light up in the band, intervals are lines between pegs, a chord is a hub with a
spoke to each of its tones, a chain of tones is an open path with a dot where it begins, a mirror axis runs through the
centre, the tones of another scale are empty dots inside the band, and the centre of gravity hangs as a small weight.
Reading the tones as points of a circle is common to Krenek 1937, Vieru and Amiot 2016 (from memory).

Conventions: as `ring`.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from gamutwright.diagrams.alt_words import tones_in_words
from gamutwright.diagrams.layout import Drawing, badge, line, outline, root_peg
from gamutwright.diagrams.ring import Ring, big_ring, labels, pegs, sizes, step_arc
from gamutwright.diagrams.sketch import Kind, Place, Sketch
from gamutwright.ir.figure import Dot, Figure, Fill, Group, Role, Stroke
from gamutwright.theory.fourier import centre_of_gravity

__all__ = ["clock"]

_Point = tuple[float, float]


def clock(sketch: Sketch) -> Figure:
    """Draw the clock face of a scale.

    Parameters
    ----------
    sketch : Sketch
        The scale and what is marked.

    Returns
    -------
    Figure
        The picture.

    Examples
    --------
    >>> from gamutwright.theory.scale import Scale
    >>> clock(Sketch(Scale.of(0, 4, 7))).alt
    'A ring of 12 steps with 3 tones: C E G; the steps between them are 4 3 5.'
    """
    scale = sketch.scale
    ring = Ring(500, 400, 296, 50, scale.divisions)
    drawing = Drawing(pivot=(ring.x, ring.y))
    big_ring(drawing, ring, scale)
    if sketch.other is not None:
        _other(drawing, ring, sketch)
    _weight(drawing, ring, sketch)
    numbered = _marks(drawing, ring, sketch)
    drawing.add(Group(pegs(ring, scale), (ring.x, ring.y), "pegs"))
    drawing.take(*pegs(ring, scale))
    for index, (x, y) in numbered.items():
        if sketch.places[index].parts[0][0] % scale.divisions == 0:
            drawing.add_over(*root_peg(x, y, 24, Role.NOW, "root now"))
        drawing.add_over(*badge(index + 1, x, y, name=f"witness {index + 1}"))
        drawing.part(f"witness {index + 1}", x, y, 23)
    for index, place in enumerate(sketch.shown):
        if index not in numbered:
            drawing.number(index, _candidates(ring, place), sketch)
    shown = {step for place in sketch.places if place.kind in {Kind.TONE, Kind.MODE} for step in place.parts[0]}
    steps = tuple(sorted({0, *scale.tones, *(step % scale.divisions for step in shown)}))
    lit = frozenset(place.parts[0][0] for place in sketch.shown if place.kind is Kind.STEP)
    sizes(drawing, ring, scale, lit)
    labels(drawing, ring, sketch, scale, 40 if scale.divisions <= 24 else 34, steps)
    words = f"A ring of {scale.divisions} steps with {scale.cardinality} tones: {tones_in_words(sketch)}"
    if scale.cardinality:
        words += f"; the steps between them are {' '.join(map(str, scale.step_pattern))}"
    return drawing.figure(sketch, "Ring of steps", f"{words}.")


def _other(drawing: Drawing, ring: Ring, sketch: Sketch) -> None:
    """Lay another scale over this one, turned to the same pitch classes."""
    if sketch.other is None:
        return
    shift = sketch.other.root - sketch.scale.root
    _other_tones(drawing, ring, tuple(tone + shift for tone in sketch.other.tones))


def _other_tones(drawing: Drawing, ring: Ring, tones: tuple[int, ...]) -> None:
    ground, edge = Fill(Role.GROUND), Stroke(Role.OTHER, 5)
    for tone in sorted({tone % ring.divisions for tone in tones}):
        drawing.add(Dot(*ring.point(tone, -ring.band * 0.85), 12, ground, edge, f"other {tone}"))


def _weight(drawing: Drawing, ring: Ring, sketch: Sketch) -> None:
    """Hang the centre of gravity as a small weight; as what is spoken of where the picture is about it."""
    if not sketch.scale.cardinality:
        return
    right, up = centre_of_gravity(sketch.scale)
    reach = ring.radius - ring.band / 2 - ring.radius * 0.025
    x, y = ring.x + right * reach, ring.y - up * reach
    role, size = (Role.NOW, 13.0) if sketch.is_weighed else (Role.QUIET, 10.0)
    cross = 26.0
    if sketch.is_weighed:
        drawing.add(line([(ring.x - cross, ring.y), (ring.x + cross, ring.y)], Stroke(Role.INK, 3), "centre across"))
        drawing.add(line([(ring.x, ring.y - cross), (ring.x, ring.y + cross)], Stroke(Role.INK, 3), "centre down"))
        drawing.add(line([(ring.x, ring.y), (x, y)], Stroke(role, 5), "centre to weight"))
    corners = [(x, y - size), (x + size, y), (x, y + size), (x - size, y)]
    drawing.add(outline(corners, Fill(role), Stroke(Role.GROUND, 3), "weight"))
    drawing.part("centre of gravity", x, y, size)


def _marks(drawing: Drawing, ring: Ring, sketch: Sketch) -> dict[int, _Point]:
    """Draw what places look like; say where the number of a single tone stands, which is on its peg."""
    numbered: dict[int, _Point] = {}
    seen: set[int] = set()
    for index, place in enumerate(sketch.shown):
        name = f"mark {index + 1}"
        tones = place.parts[0]
        match place.kind:
            case Kind.TONE | Kind.MODE:
                if sketch.is_numbered and tones[0] not in seen:
                    numbered[index] = ring.point(tones[0])
                else:
                    drawing.add_over(Dot(*ring.point(tones[0]), ring.peg * 1.2, Fill(Role.NOW), None, name))
                seen.add(tones[0])
            case Kind.STEP:
                size = (tones[1] - tones[0]) % ring.divisions or ring.divisions
                drawing.add(step_arc(ring, tones[0], size, Stroke(Role.NOW, ring.band * 0.72), name))
            case Kind.INTERVAL | Kind.INTERVAL_PAIR:
                for part, role in zip(place.parts, (Role.NOW, Role.OTHER), strict=False):
                    drawing.add(line([ring.inner(tone) for tone in part[:2]], Stroke(role, 4), name))
            case Kind.AXIS:
                ends = [ring.point(tones[0] / 2 + half, -ring.band * 0.5) for half in (0, ring.divisions / 2)]
                drawing.add(line(ends, Stroke(Role.NOW, 4), name))
            case Kind.PATH | Kind.TONES if chain := _chain(place):
                _draw_chain(drawing, [ring.inner(tone) for tone in chain], index)
            case Kind.SCALE:
                _other_tones(drawing, ring, tones)
            case _:
                _draw_chords(drawing, ring, place, name, 3.0 if len(sketch.places) > 4 else 5.0)
    return numbered


def _hub(ring: Ring, tones: tuple[int, ...]) -> _Point:
    """Find the point amid some tones, where the spokes of a chord meet."""
    points = [ring.inner(tone) for tone in tones]
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)


def _draw_chords(drawing: Drawing, ring: Ring, place: Place, name: str, width: float) -> None:
    """Draw a spoke from a hub to each tone of a chord, for each chord of a place."""
    for tones in place.parts:
        hub = _hub(ring, tones)
        for tone in tones:
            drawing.add(line([hub, ring.inner(tone)], Stroke(Role.NOW, width), name))
        drawing.add(Dot(*hub, 2.2 * width, Fill(Role.NOW), None, f"{name} hub"))


def _chain(place: Place) -> tuple[int, ...]:
    """Give the tones of a place that is a chain of them, in their order; () for any other."""
    if place.kind is Kind.TONES:
        return place.parts[0]
    is_path = place.kind is Kind.PATH and all(len(part) == 1 for part in place.parts)
    return tuple(part[0] for part in place.parts) if is_path else ()


def _draw_chain(drawing: Drawing, points: list[_Point], index: int) -> None:
    """Draw an open path with a dot where it begins: a ring would hide both ends."""
    if len(points) > 1:
        drawing.add(line(points, Stroke(Role.NOW, 4), f"mark {index + 1}"))
    drawing.add(Dot(*points[0], 12, Fill(Role.NOW), None, f"start {index + 1}"))


def _candidates(ring: Ring, place: Place) -> Iterator[_Point]:
    """Points where the number of a place may stand, the best first."""
    tones = place.parts[0]
    if place.kind is Kind.STEP:
        middle = tones[0] + ((tones[1] - tones[0]) % ring.divisions or ring.divisions) / 2
        for inward in range(0, 200, 12):
            yield ring.point(middle, -ring.band / 2 - 30 - inward)
        return
    if place.kind is Kind.AXIS:
        for inward in range(0, 240, 12):
            yield ring.point(tones[0] / 2, -ring.band / 2 - 36 - inward)
        for inward in range(0, 240, 12):
            yield ring.point(tones[0] / 2 + ring.divisions / 2, -ring.band / 2 - 36 - inward)
        return
    if len(tones) == 1 and place.kind is not Kind.PATH:
        for inward in range(0, 240, 12):
            yield ring.point(tones[0], -ring.band / 2 - 30 - inward)
        return
    if place.kind in {Kind.CHORD, Kind.LINK} and len(tones) > 2:
        yield from _on_spokes(ring, tones)
        return
    corners = [ring.inner(tone) for tone in _chain(place) or (*tones, tones[0])]
    for share in (0.5, 0.3, 0.7, 0.2, 0.8, 0.4, 0.6, 0.13, 0.87):
        for start, end in pairwise(corners):
            yield start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def _on_spokes(ring: Ring, tones: tuple[int, ...]) -> Iterator[_Point]:
    """Points where the number of a chord may stand: its hub, then along its spokes."""
    hub = _hub(ring, tones)
    yield hub
    for share in (0.3, 0.5, 0.7, 0.2, 0.4, 0.6, 0.8):
        for x, y in map(ring.inner, tones):
            yield hub[0] + (x - hub[0]) * share, hub[1] + (y - hub[1]) * share
