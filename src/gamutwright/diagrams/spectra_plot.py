"""Spectra: for every number of scale steps, the range of sizes that intervals of so many steps have.

Each row is one generic size, its pegs the specific sizes that occur. Where two rows meet on one size they are
ambiguous; where a row reaches beyond the next they contradict, and the stretch is hatched. Pairs that are pointed at
are joined from row to row; a disc says how many pairs one join stands for.

Conventions: sizes in steps of the division from left to right, generic sizes from the top down.
"""

from __future__ import annotations

from collections import Counter

from gamutwright.diagrams.layout import SMALLEST, Drawing, badge, line, outline
from gamutwright.diagrams.sketch import Kind, Sketch
from gamutwright.ir.figure import Anchor, Dot, Figure, Fill, Role, Stroke, Text
from gamutwright.theory import spectra as theory

__all__ = ["spectra"]

_LEFT, _RIGHT, _TOP, _BOTTOM = 110.0, 965.0, 70.0, 700.0


def spectra(sketch: Sketch) -> Figure:
    """Draw the spectra of a scale.

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
    >>> spectra(Sketch(Scale.of(0, 4, 7))).alt
    'Ranges of interval sizes of C E G in steps of 12: 1 step: 3 4 5; 2 steps: 7 8 9.'
    """
    rows = theory.spectra(sketch.scale)
    drawing = Drawing()
    grid = _Grid(len(rows), sketch.scale.divisions)
    _axis(drawing, grid, sketch)
    _overlaps(drawing, grid, rows)
    for row, sizes in enumerate(rows):
        y = grid.y(row)
        drawing.add_text(Text(70, y, str(row + 1), 36, anchor=Anchor.END, name=f"row {row + 1}"))
        drawing.add(line([(grid.x(0), y), (_RIGHT, y)], Stroke(Role.QUIET, 1.5)))
        if len(sizes) > 1:
            drawing.add(
                line(
                    [(grid.x(sizes[0]), y), (grid.x(sizes[-1]), y)],
                    Stroke(Role.INK, grid.peg * 1.1, 0.2),
                    f"range {row + 1}",
                )
            )
        for size in sizes:
            drawing.add(Dot(grid.x(size), y, grid.peg, Fill(Role.INK), None, f"size {row + 1} {size}"))
            drawing.part(f"size {row + 1} {size}", grid.x(size), y, grid.peg)
    _mark(drawing, sketch, grid)
    said = "; ".join(
        f"{row} step{'s' if row > 1 else ''}: {' '.join(map(str, sizes))}" for row, sizes in enumerate(rows, 1)
    )
    names = " ".join(sketch.name(tone) for tone in sketch.scale.tones) or "the empty set"
    if not rows:
        drawing.add_text(Text(500, 400, sketch.word("one tone alone has no intervals"), 36, Role.QUIET))
    words = f"Ranges of interval sizes of {names} in steps of {sketch.scale.divisions}: {said or 'none'}."
    return drawing.figure(sketch, "Spectra", words)


class _Grid:
    """Where sizes and rows stand."""

    def __init__(self, rows: int, divisions: int) -> None:
        self.divisions = divisions
        self.pitch = (_RIGHT - _LEFT) / divisions
        self.row_pitch = min(110.0, (_BOTTOM - _TOP) / max(1, rows))
        self.start = (_TOP + _BOTTOM - self.row_pitch * rows) / 2
        self.rows = rows
        self.peg = min(15.0, self.pitch * 0.4, self.row_pitch * 0.3)

    def x(self, size: int) -> float:
        return _LEFT + self.pitch * size

    def y(self, row: int) -> float:
        return self.start + self.row_pitch * (row + 0.5)


def _axis(drawing: Drawing, grid: _Grid, sketch: Sketch) -> None:
    step = 1 if grid.pitch >= 46 else 2 if grid.pitch >= 30 else 5 if grid.pitch >= 14 else 10
    for size in range(0, grid.divisions + 1, step):
        drawing.add(line([(grid.x(size), _TOP - 8), (grid.x(size), _BOTTOM + 8)], Stroke(Role.QUIET, 1.2, 0.55)))
        drawing.add_text(Text(grid.x(size), _BOTTOM + 36, str(size), SMALLEST, Role.QUIET))
    drawing.add_text(
        Text((_LEFT + _RIGHT) / 2, 776, sketch.word("size in steps of the division"), SMALLEST, Role.QUIET)
    )
    drawing.add_text(Text(20, 28, sketch.word("steps of the scale"), SMALLEST, Role.QUIET, Anchor.START))


def _overlaps(drawing: Drawing, grid: _Grid, rows: tuple[tuple[int, ...], ...]) -> None:
    """Hatch the stretch over which a row reaches beyond the next one; a bar where they just meet."""
    for row in range(len(rows) - 1):
        high, low = rows[row][-1], rows[row + 1][0]
        if high < low:
            continue
        margin = grid.peg * 0.9
        left, right = grid.x(low) - margin, grid.x(high) + margin
        corners = [(left, grid.y(row)), (right, grid.y(row)), (right, grid.y(row + 1)), (left, grid.y(row + 1))]
        role = Role.WRONG if high > low else Role.QUIET
        drawing.add(outline(corners, Fill(role, 0.3), None, f"overlap {row + 1}"))


def _mark(drawing: Drawing, sketch: Sketch, grid: _Grid) -> None:
    """Join the two sizes of every pair, once for each pair of sizes, and count the pairs on the join."""
    tones = sketch.scale.tones
    rank = {tone: index for index, tone in enumerate(tones)}
    counts: Counter[tuple[tuple[int, int], ...]] = Counter()
    first: dict[tuple[tuple[int, int], ...], int] = {}
    for index, place in enumerate(sketch.shown):
        if place.kind not in {Kind.INTERVAL, Kind.INTERVAL_PAIR, Kind.STEP}:
            continue
        sizes = []
        for low, high in (part[:2] for part in place.parts):
            generic = (rank[high] - rank[low]) % len(tones) or len(tones)
            sizes.append((generic - 1, (high - low) % grid.divisions or grid.divisions))
        counts[tuple(sizes)] += 1
        first.setdefault(tuple(sizes), index)
        row, size = sizes[0]
        drawing.part(f"witness {index + 1}", grid.x(size), grid.y(row), grid.peg)
    for key in counts:
        points = [(grid.x(size), grid.y(min(row, grid.rows - 1))) for row, size in key]
        if len(points) > 1 and points[0] != points[1]:
            drawing.add(line(points, Stroke(Role.NOW, 4), f"mark {first[key] + 1}"))
        for x, y in points:
            drawing.add(Dot(x, y, grid.peg * 1.15, Fill(Role.NOW), Stroke(Role.GROUND, 2)))
            drawing.take(Dot(x, y, grid.peg))
    for key, count in counts.items():
        (row, size), (last_row, last_size) = key[0], key[-1]
        x, y = (grid.x(size) + grid.x(last_size)) / 2, (grid.y(row) + grid.y(last_row)) / 2
        sideways = [0.0] if len(key) > 1 else []
        for across in (*sideways, 40.0, -40.0):
            disc = badge(count, x + across, y, name=f"count {first[key] + 1}")
            if drawing.is_free(disc[0], -2.0):
                drawing.add_over(*disc)
                break
