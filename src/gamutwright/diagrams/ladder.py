"""The ladder: one octave stood upright, a rung for each tone, the steps between them as tall as they are.

Names stand left of the rungs, step sizes between the rails, and whatever is said about a tone to the right of its rung.

Conventions: the root is the lowest rung and, drawn lighter, the highest an octave above it.
"""

from __future__ import annotations

from dataclasses import dataclass

from gamutwright.diagrams.alt_words import tones_in_words
from gamutwright.diagrams.layout import BADGE, SMALLEST, Drawing, line, outline, root_peg, spread
from gamutwright.diagrams.sketch import Kind, Place, Sketch
from gamutwright.ir.figure import Anchor, Dot, Face, Figure, Fill, Role, Stroke, Text
from gamutwright.ir.metrics import shortened, text_width
from gamutwright.theory.notenames import to_symbols

__all__ = ["ladder"]

_TOP, _BOTTOM = 44.0, 756.0
_NAME_GAP, _NOTE_GAP = 37.0, 54.0


@dataclass(frozen=True, slots=True)
class _Columns:
    """Where rails, names, numbers and notes stand, from left to right."""

    names: float
    left: float
    right: float
    numbers: float
    notes: float


_WITH_NOTES = _Columns(242.0, 330.0, 510.0, 566.0, 606.0)
_ALONE = _Columns(332.0, 420.0, 600.0, 656.0, 696.0)


def ladder(sketch: Sketch) -> Figure:
    """Draw the ladder of a scale.

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
    >>> ladder(Sketch(Scale.of(0, 4, 7))).alt
    'A ladder of one octave with rungs for C E G, from the bottom; the steps between them are 4 3 5 of 12.'
    """
    scale = sketch.scale
    drawing = Drawing()
    has_notes = any(place.kind is not Kind.STEP or place.label for place in sketch.places)
    at = _WITH_NOTES if has_notes else _ALONE
    for x in (at.left, at.right):
        drawing.add(
            line(
                [(x, _height(0, scale.divisions) + 20), (x, _height(scale.divisions, scale.divisions) - 20)],
                Stroke(Role.QUIET, 4),
            )
        )
    rungs = (*scale.tones, *((scale.divisions,) if scale.is_rooted else ()))
    _steps(drawing, sketch, at)
    _rungs(drawing, sketch, at, rungs)
    _names(drawing, sketch, at, rungs)
    _notes(drawing, sketch, at)
    for index, place in enumerate(sketch.shown):
        _mark(drawing, sketch, at, index, place)
    steps = " ".join(map(str, scale.step_pattern)) or "none"
    return drawing.figure(
        sketch,
        "Ladder of steps",
        f"A ladder of one octave with rungs for {tones_in_words(sketch)}, from the bottom; "
        f"the steps between them are {steps} of {scale.divisions}.",
    )


def _height(step: float, divisions: int) -> float:
    return _BOTTOM - (_BOTTOM - _TOP) * step / divisions


def _steps(drawing: Drawing, sketch: Sketch, at: _Columns) -> None:
    """Write the size of every step between the rails where it has room, and a bar as tall as the step."""
    n = sketch.scale.divisions
    for tone, size in zip(sketch.scale.tones, sketch.scale.step_pattern, strict=True):
        if tone + size > n:
            continue
        low, high = _height(tone, n), _height(tone + size, n)
        corners = [(at.left + 8, low - 5), (at.right - 8, low - 5), (at.right - 8, high + 5), (at.left + 8, high + 5)]
        if low - high > 14:
            drawing.add(outline(corners, Fill(Role.INK, 0.08), None, f"step {tone}"))
        if low - high >= SMALLEST + 6:
            drawing.add_over(Text((at.left + at.right) / 2, (low + high) / 2, str(size), SMALLEST, name=f"size {tone}"))


def _rungs(drawing: Drawing, sketch: Sketch, at: _Columns, rungs: tuple[int, ...]) -> None:
    n = sketch.scale.divisions
    for tone in rungs:
        y = _height(tone, n)
        is_octave = tone == n
        role, width = (Role.QUIET, 5.0) if is_octave else (Role.INK, 7.0)
        drawing.add(line([(at.left, y), (at.right, y)], Stroke(role, width), f"rung {tone}"))
        for x in (at.left, at.right):
            radius = min(9.0, (_BOTTOM - _TOP) / n * 0.3)
            if tone % n == 0:
                drawing.add(*root_peg(x, y, radius, role))
            drawing.add(Dot(x, y, radius, Fill(role)))
        drawing.part(f"tone {tone}", (at.left + at.right) / 2, y, (at.right - at.left) / 2)


def _lanes(heights: list[float], gap: float) -> list[float]:
    """Give labels of these heights (from the bottom up) lines of their own."""
    return [-y for y in spread([-height for height in heights], gap, -_BOTTOM, -_TOP)]


def _names(drawing: Drawing, sketch: Sketch, at: _Columns, rungs: tuple[int, ...]) -> None:
    heights = [_height(tone, sketch.scale.divisions) for tone in rungs]
    for tone, wanted, y in zip(rungs, heights, _lanes(heights, _NAME_GAP), strict=True):
        text = Text(at.names, y, sketch.name(tone), 36, anchor=Anchor.END, name=f"name {tone}")
        if drawing.add_text(text):
            drawing.add(
                line([(at.names + 14, y), (at.names + 34, wanted), (at.left - 22, wanted)], Stroke(Role.QUIET, 2))
            )


def _notes(drawing: Drawing, sketch: Sketch, at: _Columns) -> None:
    """Write what places say about single tones, right of their rungs; numbers stand before the words."""
    placed = [(place.parts[0][0], index, place) for index, place in enumerate(sketch.places) if place.kind is Kind.TONE]
    placed.sort(key=lambda item: (item[0], item[1]))
    heights = [_height(tone, sketch.scale.divisions) for tone, _, _ in placed]
    numbered = sketch.is_numbered
    for (_, index, place), wanted, y in zip(
        placed, heights, _lanes(heights, _NOTE_GAP if len(placed) < 14 else _NAME_GAP), strict=True
    ):
        if index >= len(sketch.shown):
            continue
        drawing.add(line([(at.left, wanted), (at.right, wanted)], Stroke(Role.NOW, 8), f"mark {index + 1}"))
        if numbered:
            join = [(at.right + 16, wanted), (at.numbers - 26, y)]
            drawing.add(line(join, Stroke(Role.NOW, 2)))
            drawing.number(index, [(at.numbers, y)], sketch)
        else:
            drawing.part(f"witness {index + 1}", (at.left + at.right) / 2, wanted, BADGE)
        if place.label:
            words = shortened(to_symbols(place.label).replace("-", "−"), drawing.width - at.notes - 12, 34)
            drawing.add_text(Text(at.notes, y, words, 34, Role.INK, Anchor.START, name=f"note {index + 1}"))


def _mark(drawing: Drawing, sketch: Sketch, at: _Columns, index: int, place: Place) -> None:
    """Mark what is not a single tone: a step fills its space, other sets of tones are strung beside the ladder."""
    n = sketch.scale.divisions
    tones = [tone % n for part in place.parts for tone in part]
    match place.kind:
        case Kind.TONE:
            return
        case Kind.STEP:
            low, high = _height(tones[0], n), _height(tones[0] + ((tones[1] - tones[0]) % n or n), n)
            gap = min(6.0, (low - high) * 0.2)
            corners = [
                (at.left + 8, low - gap),
                (at.right - 8, low - gap),
                (at.right - 8, high + gap),
                (at.left + 8, high + gap),
            ]
            drawing.add(outline(corners, Fill(Role.NOW, 0.45), Stroke(Role.NOW, 3), f"mark {index + 1}"))
            middle = (low + high) / 2
            if low - high >= SMALLEST + 6:
                drawing.add(
                    Dot((at.left + at.right) / 2, middle, min(20.0, (low - high) / 2 - 4), Fill(Role.GROUND), None)
                )
            drawing.number(index, [(at.numbers + across, middle) for across in range(0, 240, 60)], sketch)
            if place.label and not place.label.isdigit():
                words = shortened(to_symbols(place.label), drawing.width - at.notes - 12, 34)
                drawing.add_text(Text(at.notes, middle, words, 34, anchor=Anchor.START))
        case _:
            x = at.numbers + 30 + 44 * (index % 10)
            if place.kind is Kind.TONES and len(tones) > 1 and tones[-1] == 0 and tones[:-1] == sorted(tones[:-1]):
                tones[-1] = n  # a run that rises all the way to the root ends on its octave
            ys = sorted(_height(tone, n) for tone in tones)
            drawing.add(
                line([(x, ys[0]), (x, ys[-1])], Stroke(Role.OTHER if place.kind is Kind.SCALE else Role.NOW, 4))
            )
            for y in ys:
                drawing.add(Dot(x, y, 9, Fill(Role.NOW)))
            drawing.number(index, [(x, (ys[0] + ys[-1]) / 2 + down) for down in range(0, 300, 50)], sketch)
            if place.label and len(sketch.places) == 1:
                label = shortened(to_symbols(place.label), drawing.width - x - 60, 34, Face.SANS)
                text = Text(x + 44, (ys[0] + ys[-1]) / 2, label, 34, anchor=Anchor.START)
                if text_width(label, 34) > 0:
                    drawing.add_text(text)
