"""The keyboard: keys from the root up through one octave and a little more, tones as pegs on them.

What is marked is unfolded above the keys: one line for each chord or interval, with a dot over every key it takes, so
that many chords on the same keys can still be told apart.

Conventions: twelve divisions have white and black keys; other divisions have slabs of one kind, since no layout of
theirs is common enough to be recognised.
"""

from __future__ import annotations

from dataclasses import dataclass

from gamutwright.diagrams.alt_words import tones_in_words
from gamutwright.diagrams.layout import BADGE, SMALLEST, Drawing, line, outline, root_peg
from gamutwright.diagrams.sketch import Kind, Sketch
from gamutwright.ir.figure import Anchor, Dot, Figure, Fill, Role, Stroke, Text
from gamutwright.ir.metrics import shortened, text_width
from gamutwright.theory.notenames import to_symbols
from gamutwright.theory.spelling import MAJOR

__all__ = ["keyboard"]

_WHITE = frozenset(MAJOR)
_LEFT, _RIGHT, _BOTTOM = 150.0, 980.0, 744.0
_HIGH, _SHORT = 300.0, 186.0


@dataclass(frozen=True, slots=True)
class _Key:
    """One key: steps above the root, its box, whether it is a raised one."""

    step: int
    left: float
    right: float
    is_black: bool

    @property
    def x(self) -> float:
        return (self.left + self.right) / 2


def keyboard(sketch: Sketch) -> Figure:
    """Draw the keyboard of a scale.

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
    >>> keyboard(Sketch(Scale.of(9, 0, 4))).alt
    'A keyboard from A up; the tones A C E are marked on their keys.'
    """
    drawing = Drawing()
    keys = _keys(sketch)
    rows = [place for place in sketch.places if place.kind is not Kind.TONE]
    top = _BOTTOM - _HIGH if rows or sketch.places else _BOTTOM - _HIGH - 110
    for key in sorted(keys, key=lambda key: key.is_black):
        _draw_key(drawing, key, top)
    _tones(drawing, sketch, keys, top)
    _rows(drawing, sketch, keys, top)
    bottom_names = {tone: sketch.name(tone) for tone in sketch.scale.tones}
    foot = top + _HIGH + 30
    for key in keys:
        if key.step in bottom_names and not (key.is_black and sketch.scale.divisions == 12):
            drawing.add_text(Text(key.x, foot, bottom_names[key.step], 34, name=f"name {key.step}"))
    kind = "keyboard" if sketch.scale.divisions == 12 else f"row of {sketch.scale.divisions} keys"
    return drawing.figure(
        sketch,
        "Keyboard",
        f"A {kind} from {sketch.name(0)} up; the tones {tones_in_words(sketch)} are marked on their keys.",
    )


def _keys(sketch: Sketch) -> list[_Key]:
    """Lay out the keys from the root, or the white key below it, to the octave above."""
    n, root = sketch.scale.divisions, sketch.scale.root
    if n != 12:
        pitch = (_RIGHT - _LEFT) / n
        return [_Key(step, _LEFT + pitch * step, _LEFT + pitch * (step + 1), is_black=False) for step in range(n)]
    low = -1 if root not in _WHITE else 0
    high = 13 if (root + 12) % 12 not in _WHITE else 12
    whites = [step for step in range(low, high + 1) if (root + step) % 12 in _WHITE]
    width = (_RIGHT - _LEFT) / len(whites)
    keys = []
    for index, step in enumerate(whites):
        keys.append(_Key(step, _LEFT + width * index, _LEFT + width * (index + 1), is_black=False))
        if (root + step + 1) % 12 not in _WHITE and step < whites[-1]:
            middle = _LEFT + width * (index + 1)
            keys.append(_Key(step + 1, middle - width * 0.31, middle + width * 0.31, is_black=True))
    return sorted(keys, key=lambda key: key.step)


def _draw_key(drawing: Drawing, key: _Key, top: float) -> None:
    bottom = top + (_SHORT if key.is_black else _HIGH)
    corners = [(key.left + 2, top), (key.right - 2, top), (key.right - 2, bottom), (key.left + 2, bottom)]
    fill = Fill(Role.INK, 0.62) if key.is_black else Fill(Role.GROUND)
    if key.is_black:
        drawing.add(outline(corners, Fill(Role.GROUND), None))
    drawing.add(outline(corners, fill, Stroke(Role.INK, 2.5), f"key {key.step}"))


def _tones(drawing: Drawing, sketch: Sketch, keys: list[_Key], top: float) -> None:
    """Set a peg on every key of the scale; a marked single tone is a numbered peg."""
    n = sketch.scale.divisions
    marked = {
        place.parts[0][0] % n: index
        for index, place in reversed(list(enumerate(sketch.shown)))
        if place.kind is Kind.TONE
    }
    for key in keys:
        if key.step % n not in sketch.scale.tones and key.step % n not in marked:
            continue
        if not 0 <= key.step <= n:
            continue
        y = top + (_SHORT - 34 if key.is_black else _HIGH - 42)
        radius = min(19.0, (key.right - key.left) * 0.32)
        role = Role.GROUND if key.is_black else Role.INK
        if key.step % n in marked and key.step < n:
            index = marked[key.step % n]
            if sketch.is_numbered and key.right - key.left >= 2 * BADGE + 4:
                drawing.number(index, [(key.x, y)], sketch)
            else:
                drawing.add_over(Dot(key.x, y, radius, Fill(Role.NOW), Stroke(Role.GROUND, 3)))
                drawing.part(f"witness {index + 1}", key.x, y, radius)
        else:
            if key.step % n == 0:
                drawing.add(*_key_root(key, y, radius, role))
            drawing.add(Dot(key.x, y, radius * (0.7 if key.step == n else 1.0), Fill(role), None, f"peg {key.step}"))
        if key.step < n:
            drawing.part(f"tone {key.step}", key.x, y, radius)
        if key.is_black and key.step % n in sketch.scale.tones and sketch.name(key.step):
            drawing.add_text(Text(key.x, y - 44, sketch.name(key.step), SMALLEST, Role.GROUND, name=f"name {key.step}"))


def _key_root(key: _Key, y: float, radius: float, role: Role) -> tuple[Dot, ...]:
    """Draw the ring of the root, without the gap of ground that only paper needs."""
    ring = root_peg(key.x, y, radius, role)[1]
    return (ring,) if isinstance(ring, Dot) else ()


def _rows(drawing: Drawing, sketch: Sketch, keys: list[_Key], top: float) -> None:
    """Unfold chords and intervals above the keys; write what places say where no line has its own."""
    n = sketch.scale.divisions
    rows = [(index, place) for index, place in enumerate(sketch.places) if place.kind is not Kind.TONE]
    across = {key.step % n: key.x for key in reversed(keys) if 0 <= key.step < n}
    if not rows:
        _tone_notes(drawing, sketch, across, top)
        return
    room = top - 36
    pitch = min(64.0, room / len(rows))
    for row, (index, place) in enumerate(rows):
        if index >= len(sketch.shown):
            break
        y = top - 28 - pitch * (len(rows) - 1 - row) - pitch * 0.2
        tones = [tone % n for part in place.parts for tone in part]
        xs = sorted(across[tone] for tone in tones)
        drawing.add(line([(xs[0], y), (xs[-1], y)], Stroke(Role.NOW, min(4.0, pitch * 0.16))))
        radius = min(12.0, pitch * 0.3)
        for tone in tones:
            drawing.add(Dot(across[tone], y, radius, Fill(Role.NOW)))
        root = across[tones[0]]
        drawing.add(Dot(root, y, radius * 0.5, Fill(Role.GROUND)))
        numbered = sketch.is_numbered and pitch >= 2 * BADGE - 8
        if numbered and pitch >= 2 * BADGE:
            drawing.number(index, [(30, y)], sketch)
        elif sketch.is_numbered:
            drawing.add_text(Text(30, y, str(index + 1), SMALLEST, Role.NOW))
        drawing.part(f"witness {index + 1}", (xs[0] + xs[-1]) / 2, y, radius)
        if place.label and pitch >= SMALLEST + 2:
            label = shortened(sketch.word(to_symbols(place.label)), 84, SMALLEST)
            drawing.add_text(Text(62, y, label, SMALLEST, anchor=Anchor.START, name=f"note {index + 1}"))


def _tone_notes(drawing: Drawing, sketch: Sketch, across: dict[int, float], top: float) -> None:
    """Hang the labels of single tones above their keys, in as many lines as they need."""
    places = [(index, place) for index, place in enumerate(sketch.places) if place.label]
    if not places:
        return
    ends: list[float] = []
    for index, place in places:
        words = shortened(sketch.word(to_symbols(place.label)), 240, SMALLEST)
        x, width = across[place.parts[0][0] % sketch.scale.divisions], text_width(words, SMALLEST)
        x_text = min(max(x, width / 2 + 4), drawing.width - width / 2 - 4)
        lane = next((lane for lane, end in enumerate(ends) if end < x_text - width / 2 - 14), len(ends))
        ends[lane : lane + 1] = [x_text + width / 2]
        y = top - 40 - 46 * lane
        if index >= len(sketch.shown):
            continue
        if y > 24 and drawing.add_text(Text(x_text, y, words, SMALLEST, name=f"note {index + 1}")):
            drawing.add(line([(x, y + 20), (x, top - 4)], Stroke(Role.QUIET, 2)))
