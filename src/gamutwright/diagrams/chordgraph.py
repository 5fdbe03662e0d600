"""The graph of triads: major and minor triads of the scale, joined where one tone moves by a step or two.

The joins are the moves P, L and R of neo-Riemannian theory (Cohn 1997, from memory). Triads stand round a circle in
the order of alternate L and R moves, so that as many joins as can be run along the edge.

Conventions: major triads are full pegs, minor ones empty; a path is drawn over the joins and numbers its triads.
"""

from __future__ import annotations

from itertools import pairwise

from gamutwright.diagrams.layout import BADGE, SMALLEST, Drawing, at_angle, badge, line
from gamutwright.diagrams.sketch import Kind, Place, Sketch
from gamutwright.ir.figure import Dot, Figure, Fill, Role, Stroke, Text
from gamutwright.ir.metrics import text_width
from gamutwright.theory.harmony import Chord
from gamutwright.theory.triadmoves import major_and_minor_triads, triad_links

__all__ = ["chordgraph"]

_X, _Y, _RADIUS = 500.0, 400.0, 286.0
_Spots = dict[frozenset[int], tuple[float, float]]


def chordgraph(sketch: Sketch) -> Figure:
    """Draw the graph of a scale's triads.

    Parameters
    ----------
    sketch : Sketch
        The scale, in twelve divisions, and what is marked.

    Returns
    -------
    Figure
        The picture.

    Raises
    ------
    DomainError
        If the scale is not in twelve divisions.

    Examples
    --------
    >>> from gamutwright.theory.scale import Scale
    >>> chordgraph(Sketch(Scale.of(0, 3, 4, 7))).alt
    'The major and minor triads C Cm, joined where one tone moves: C–Cm P.'
    """
    triads = sorted(major_and_minor_triads(sketch.scale), key=_order)
    links = triad_links(sketch.scale)
    drawing = Drawing()
    spots: _Spots = {
        frozenset(triad.tones): at_angle(_X, _Y, _RADIUS, 360.0 * index / len(triads))
        for index, triad in enumerate(triads)
    }
    roomy = len(triads) <= 12
    for link in links:
        ends = [spots[frozenset(triad.tones)] for triad in (link.major, link.minor)]
        drawing.add(line(ends, Stroke(Role.QUIET, 4), f"link {_name(sketch, link.major)} {link.move}"))
    for triad in triads:
        x, y = spots[frozenset(triad.tones)]
        drawing.take(Dot(x, y, BADGE))
        drawing.part(f"chord {_name(sketch, triad)}", x, y, BADGE)
    marked = _mark(drawing, sketch, spots)
    for index, triad in enumerate(triads):
        key = frozenset(triad.tones)
        x, y = spots[key]
        if key in marked:
            drawing.add_over(*badge(marked[key], x, y, name=f"stop {marked[key]}"))
        elif triad.suffix == "":
            drawing.add(Dot(x, y, 20, Fill(Role.INK), Stroke(Role.GROUND, 4)))
        else:
            drawing.add(Dot(x, y, 18, Fill(Role.GROUND), Stroke(Role.INK, 4)))
        _name_chord(drawing, sketch, triad, 360.0 * index / len(triads))
    if roomy:
        _name_moves(drawing, sketch, spots)
    if not triads:
        drawing.add_text(Text(_X, _Y, sketch.word("no major or minor triads"), 40, Role.QUIET))
    said = ", ".join(f"{_name(sketch, link.major)}–{_name(sketch, link.minor)} {link.move}" for link in links)
    names = " ".join(_name(sketch, triad) for triad in triads)
    words = f"The major and minor triads {names}, joined where one tone moves: {said or 'none'}."
    return drawing.figure(sketch, "Graph of triads", words if triads else "No major or minor triads.")


def _order(triad: Chord) -> int:
    """Place on the ring of alternate L and R moves: C, Em, G, Bm, D and on by fifths."""
    fifths = triad.root * 7 % 12
    return 2 * fifths if triad.suffix == "" else (2 * fifths - 7) % 24


def _name(sketch: Sketch, triad: Chord) -> str:
    return sketch.name(triad.root) + triad.suffix


def _name_chord(drawing: Drawing, sketch: Sketch, triad: Chord, degrees: float) -> None:
    name = _name(sketch, triad)
    for out in (46.0, 52.0, 58.0, 64.0, 72.0):
        x, y = at_angle(_X, _Y, _RADIUS + out, degrees)
        x += (x - _X) / (_RADIUS + out) * max(0.0, text_width(name, 34) - 20) / 2
        if drawing.add_text(Text(x, y, name, 34, name=f"name {name}")):
            return


def _name_moves(drawing: Drawing, sketch: Sketch, spots: _Spots) -> None:
    """Write the letter of a move beside the middle of its join, where there is room."""
    for link in triad_links(sketch.scale):
        (x, y), (u, v) = (spots[frozenset(triad.tones)] for triad in (link.major, link.minor))
        for share in (0.5, 0.35, 0.65):
            middle = (x + (u - x) * share, y + (v - y) * share)
            disc = Dot(*middle, 19, Fill(Role.GROUND), None)
            if drawing.is_free(disc, 0.0):
                drawing.add_over(disc, Text(*middle, link.move, SMALLEST, Role.QUIET))
                break


def _mark(drawing: Drawing, sketch: Sketch, spots: _Spots) -> dict[frozenset[int], int]:
    """Draw links and the path; of many paths the last one, since they would hide each other.

    Returns the triads that carry a number and which.
    """
    numbered: dict[frozenset[int], int] = {}
    paths = [(index, place) for index, place in enumerate(sketch.shown) if place.kind is Kind.PATH]
    for index, place in paths:
        drawing.part(f"witness {index + 1}", *_spot(place, spots), BADGE)
    for _, place in paths[-1:]:
        stops = [frozenset(part) for part in place.parts if frozenset(part) in spots]
        for one, two in pairwise(stops):
            drawing.add(line([spots[one], spots[two]], Stroke(Role.NOW, 6), "path"))
        for number, stop in enumerate(stops, 1):
            numbered.setdefault(stop, number)
    for index, place in enumerate(sketch.shown):
        ends = [spots[frozenset(part)] for part in place.parts if frozenset(part) in spots]
        if place.kind is Kind.LINK and len(ends) == 2:
            drawing.add(line(ends, Stroke(Role.NOW, 5), f"mark {index + 1}"))
            (x, y), (u, v) = ends
            points = [(x + (u - x) * share, y + (v - y) * share) for share in (0.5, 0.35, 0.65, 0.25, 0.75)]
            drawing.number(index, points, sketch)
        elif place.kind is Kind.CHORD and ends and sketch.is_numbered:
            numbered.setdefault(frozenset(place.parts[0]), index + 1)
            drawing.part(f"witness {index + 1}", *ends[0], BADGE)
    return numbered


def _spot(place: Place, spots: _Spots) -> tuple[float, float]:
    return spots.get(frozenset(place.parts[0]), (_X, _Y))
