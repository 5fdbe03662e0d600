"""Figures: description, frame at 1920x1080, SVG, all warm; the same shapes through Pillow for a ratio."""

from __future__ import annotations

import math
import statistics
from collections.abc import Iterator

from measure import Row, median_seconds, timed
from PIL import Image, ImageDraw

from gamutwright.diagrams.atlas import DIAGRAMS, draw_diagram
from gamutwright.diagrams.clock import clock
from gamutwright.diagrams.sketch import Kind, Place, Sketch
from gamutwright.ir.figure import Arc, Dot, Path, Text, walk
from gamutwright.ir.motion import blended
from gamutwright.render.raster import figure_to_frame
from gamutwright.render.svg import figure_to_svg
from gamutwright.theory.scale import Scale

MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)
CHROMATIC = Scale(4095)
STEPS = tuple(Place(Kind.STEP, (pair,)) for pair in ((4, 5), (11, 0)))
SUPERSAMPLED = 4


def rows() -> Iterator[Row]:
    figures = {name: draw_diagram(name, Sketch(MAJOR, STEPS)) for name in DIAGRAMS}
    figures |= {f"{name}, twelve tones": draw_diagram(name, Sketch(CHROMATIC)) for name in DIAGRAMS}
    took = {name: median_seconds(lambda f=f: figure_to_frame(f, "night"), 15, 3) for name, f in figures.items()}
    yield timed("figure to frame 1920x1080, median of all diagrams", statistics.median(took.values()), 0.008)
    slowest = max(took, key=took.__getitem__)
    yield timed(f"figure to frame, slowest ({slowest})", took[slowest], 0.008)
    described = {name: median_seconds(lambda n=name: draw_diagram(n, Sketch(MAJOR, STEPS)), 15) for name in DIAGRAMS}
    slow = max(described, key=described.__getitem__)
    yield timed(f"scale to description, slowest ({slow})", described[slow])
    yield timed("svg text, slowest", max(median_seconds(lambda f=f: figure_to_svg(f), 7) for f in figures.values()))
    one, two = clock(Sketch(MAJOR)), clock(Sketch(MAJOR.mode(2)))
    between = median_seconds(lambda: figure_to_frame(blended(one, two, 0.4, -60), "night"), 15, 2)
    yield timed("a frame between two states", between, 0.008)
    ours = took["clock"]
    theirs = median_seconds(lambda: with_pillow(figures["clock"]), 5)
    yield Row(
        "clock face, antialiased",
        f"{ours * 1000:.1f} ms",
        against=f"Pillow, shapes only, {SUPERSAMPLED} x supersampled: {theirs * 1000:.0f} ms",
        ratio=f"{theirs / ours:.1f} x faster",
    )


def with_pillow(figure: object) -> Image.Image:
    """Draw the same shapes, without words, in the usual way to smooth edges there."""
    scale = 1080 / 800 * SUPERSAMPLED
    image = Image.new("RGB", (1920 * SUPERSAMPLED, 1080 * SUPERSAMPLED), "#10151F")
    pen = ImageDraw.Draw(image)
    for shape in walk(figure.shapes):  # type: ignore[attr-defined]
        if isinstance(shape, Dot):
            x, y, radius = shape.x * scale, shape.y * scale, shape.radius * scale
            pen.ellipse((x - radius, y - radius, x + radius, y + radius), "#F2EDE2")
        elif isinstance(shape, Arc):
            x, y, radius = shape.x * scale, shape.y * scale, (shape.radius + shape.stroke.width / 2) * scale
            box = (x - radius, y - radius, x + radius, y + radius)
            pen.arc(
                box, shape.start - 90, shape.start + shape.sweep - 90, "#7F8796", math.ceil(shape.stroke.width * scale)
            )
        elif isinstance(shape, Path):
            points = [number * scale for number in shape.numbers]
            pen.line(points, "#F2EDE2", math.ceil(3 * scale))
        else:
            assert isinstance(shape, Text)
    return image.resize((1920, 1080), Image.Resampling.BOX)
