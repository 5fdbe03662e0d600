"""What is never drawn: a closed figure through the tones of a ring, filled or not."""

from __future__ import annotations

import math

import pytest

from gamutwright.diagrams.atlas import DIAGRAMS, draw_diagram
from gamutwright.diagrams.sketch import USUAL, Sketch
from gamutwright.errors import GamutwrightError
from gamutwright.facts.picturing import sketch_of
from gamutwright.facts.registry import default_registry
from gamutwright.inputs.text import read_scale
from gamutwright.ir.figure import Figure, Path, walk
from gamutwright.publish.site.small_ladder import little_ladder
from thinning import usually

SCALES = ("G acoustic", "C major", "C octatonic, semitone first", "C chromatic", "C E G", "pcs: 0 2 5 6 8 11")


def closed(figure: Figure) -> list[Path]:
    """Every closed path, or one that returns to where it began, with a corner further from another than small marks."""
    found = []
    for shape in walk(figure.shapes):
        if isinstance(shape, Path) and len(shape.numbers) >= 6:
            points = list(zip(shape.numbers[::2], shape.numbers[1::2], strict=True))
            is_closed = "Z" in shape.verbs or math.dist(points[0], points[-1]) < 1
            if is_closed and max(math.dist(one, other) for one in points for other in points) > 80:
                found.append(shape)
    return found


@pytest.mark.parametrize("name", usually(SCALES, "G acoustic", "C E G"))
@pytest.mark.parametrize("diagram", ["clock", "comparison", "modes", "neighbours", "pairs"])
def test_no_ring_has_a_closed_figure_inside(name: str, diagram: str):
    scale = read_scale(name).scale
    drawn = 0
    for fact in default_registry().facts.values():
        try:
            figure = draw_diagram(diagram, sketch_of(fact, scale, "", diagram))
        except GamutwrightError:
            continue
        drawn += 1
        assert closed(figure) == [], fact.id
    assert drawn > 40
    beside = Sketch(scale, other=read_scale("D dorian").scale)
    assert diagram in {"modes", "neighbours", "pairs"} or closed(draw_diagram(diagram, beside)) == []


def test_the_usual_picture_is_the_ladder():
    assert USUAL == "ladder"
    assert USUAL in DIAGRAMS
    assert "circle" not in little_ladder((3, 7), 12)
