"""Nothing overlaps and nothing is cut off: boxes of all words and numbered marks of all diagrams are measured.

The widths are those of the fonts that are drawn, read here from the font files, not from the table the diagrams use.
"""

from __future__ import annotations

import itertools
import math
import random

import pytest

from gamutwright.diagrams.atlas import DIAGRAMS, draw_diagram
from gamutwright.diagrams.layout import SMALLEST
from gamutwright.diagrams.sketch import Kind, Place, Sketch
from gamutwright.errors import DomainError
from gamutwright.ir.figure import Anchor, Dot, Figure, Text, walk
from gamutwright.ir.metrics import Box, box_of, boxes_overlap
from gamutwright.render.engrave import expanded
from gamutwright.render.fonts import advance
from gamutwright.theory.evenness import maximally_even_set
from gamutwright.theory.scale import Scale
from thinning import thinned

DIVISIONS = (5, 7, 12, 19, 24, 31)
FORGIVEN = 1.0


def scales(divisions: int, tones: int) -> list[Scale]:
    """An even scale, one with all tones crowded together, and one by lot; on different roots."""
    chosen = random.Random(100 * divisions + tones).sample(range(divisions), tones)  # noqa: S311 - no secret
    return [
        Scale.of(*maximally_even_set(divisions, tones), divisions=divisions),
        Scale.of(*range(tones), divisions=divisions).transposed(divisions // 4),
        Scale.of(*chosen, divisions=divisions),
    ]


def places(scale: Scale, kind: Kind) -> tuple[Place, ...]:
    tones = scale.tones
    steps = list(zip(tones, (*tones[1:], tones[0]), strict=True)) if len(tones) > 1 else []
    match kind:
        case Kind.TONE:
            return tuple(Place(kind, ((tone,),), f"{tone * 38.71:.2f}") for tone in tones)
        case Kind.STEP:
            return tuple(Place(kind, (step,)) for step in steps)
        case Kind.INTERVAL:
            return tuple(Place(kind, (pair,), str(pair[1] - pair[0])) for pair in itertools.combinations(tones, 2))[:12]
        case Kind.CHORD:
            return tuple(
                Place(kind, ((tones[i], tones[(i + 2) % len(tones)], tones[(i + 4) % len(tones)]),), "B♭m7♭5")
                for i in range(len(tones))
                if len(tones) > 4
            )
        case Kind.AXIS:
            return tuple(Place(kind, ((2 * tone,),)) for tone in tones[:6])
        case _:
            return tuple(Place(kind, ((tone,),), "a mode with a long name") for tone in tones)


def box_by_font(text: Text) -> Box:
    left, top, right, bottom = box_of(text)
    width = advance(text.text, text.size, text.face)
    match text.anchor:
        case Anchor.START:
            return left, top, left + width, bottom
        case Anchor.END:
            return right - width, top, right, bottom
        case _:
            middle = (left + right) / 2
            return middle - width / 2, top, middle + width / 2, bottom


def faults(figure: Figure) -> list[str]:
    figure = expanded(figure)
    shapes = list(walk(figure.shapes))
    texts = [(shape.text, box_by_font(shape), shape) for shape in shapes if isinstance(shape, Text)]
    discs = [
        (shape.name, box_of(shape), shape)
        for shape in shapes
        if isinstance(shape, Dot) and shape.name.startswith(("witness", "count", "stop"))
    ]
    found = []
    for what, box, shape in [*texts, *discs]:
        if box[0] < -1 or box[1] < -1 or box[2] > figure.width + 1 or box[3] > figure.height + 1:
            found.append(f"{what} leaves the picture at {box}")
        if isinstance(shape, Text) and shape.size < SMALLEST:
            found.append(f"{what} is set in {shape.size}")
    for (one, box, shape), (other, other_box, other_shape) in itertools.combinations([*texts, *discs], 2):
        is_its_number = (shape.x, shape.y) == (other_shape.x, other_shape.y)
        if isinstance(shape, Dot) and isinstance(other_shape, Dot):
            touching = math.dist((shape.x, shape.y), (other_shape.x, other_shape.y)) < shape.radius + other_shape.radius
        else:
            touching = boxes_overlap(box, other_box, FORGIVEN)
        if touching and not is_its_number:
            found.append(f"{one} touches {other}")
    return found


@pytest.mark.parametrize(
    ("diagram", "divisions"),
    [
        *itertools.product(DIAGRAMS, [12]),
        *thinned(itertools.product(DIAGRAMS, [n for n in DIVISIONS if n != 12]), 0.2),
    ],
)
def test_no_overlap_and_nothing_cut_off(diagram: str, divisions: int):
    drawn = 0
    for tones in range(1, min(12, divisions) + 1):
        for scale in scales(divisions, tones):
            for kind in (None, Kind.TONE, Kind.STEP, Kind.INTERVAL, Kind.CHORD, Kind.AXIS, Kind.MODE):
                marked = () if kind is None else places(scale, kind)
                try:
                    figure = draw_diagram(diagram, Sketch(scale, marked))
                except DomainError:
                    assert divisions != 12
                    assert diagram in {"staff", "chordgraph"}
                    continue
                drawn += 1
                assert faults(figure) == [], (diagram, scale, kind)
    assert drawn or divisions != 12


def test_a_collision_is_found():
    """The measure itself must see what it is there for."""
    crowded = Figure("two words", "Two words on one place.", (Text(500, 400, "here"), Text(510, 405, "there")))
    assert faults(crowded) == ["here touches there"]
    outside = Figure("a word", "A word over the edge.", (Text(995, 400, "edge"),))
    assert len(faults(outside)) == 1


@pytest.mark.parametrize("divisions", DIVISIONS)
def test_the_clock_names_every_tone(divisions: int):
    for tones in range(1, min(12, divisions) + 1):
        for scale in scales(divisions, tones):
            for kind in (Kind.TONE, Kind.STEP, Kind.AXIS):
                sketch = Sketch(scale, places(scale, kind))
                words = [shape.text for shape in walk(draw_diagram("clock", sketch).shapes) if isinstance(shape, Text)]
                assert {sketch.name(tone) for tone in scale.tones} <= set(words), (scale, kind)


def test_marks_appear_and_nothing_else_moves():
    """Lighting one place more keeps every word of the picture where it was."""
    scale = Scale.of(0, 2, 3, 5, 7, 9, 10)
    for diagram in DIAGRAMS:
        for kind in (Kind.TONE, Kind.STEP, Kind.CHORD, Kind.MODE):
            whole = Sketch(scale, places(scale, kind))
            states = [expanded(draw_diagram(diagram, whole.upto(lit))) for lit in (2, 3)]
            before, after = (
                {(text.name, text.x, text.y) for text in walk(state.shapes) if isinstance(text, Text) and text.name}
                for state in states
            )
            moved = {name for name, _, _ in before - after} & {name for name, _, _ in after - before}
            assert {name for name in moved if not name.startswith("size")} == set(), (diagram, kind)
