"""Words of a frame: beside the picture, on title and question, on the cards at the end; and the rail of chapters.

Everything is laid out in units of a 1920x1080 frame, or 1080x1920, and scaled to the size asked for. Margins are 96
units (80 upright), the stage takes seven twelfths of the width, the lowest 15 % stay free for captions, and no word is
smaller than 32 units (docs/figures.md). A text takes the largest of its sizes at which the whole column fits.

Conventions: a box is (left, top, right, bottom); y of a row is the middle of its capitals.
"""

from __future__ import annotations

from dataclasses import dataclass

from gamutwright.ir.cards import CARD_SIZE, legible, placed_entries, wrapped_words
from gamutwright.ir.figure import Anchor, Face, Fill, Path, Role, Shape, Text
from gamutwright.ir.metrics import Box, shortened, text_width
from gamutwright.ir.timeline import PROGRESS_STEPS, Panel, Shot, ShotKind

__all__ = ["FORMATS", "SMALLEST", "Format", "inset_box", "panel_shapes", "rail"]

SMALLEST = 32.0
RAIL_Y = 56.0
RAIL_GAP = 10.0
LEADING = 1.25
INSET_HEIGHT = 260.0
INSET_GAP = 36.0


@dataclass(frozen=True, slots=True)
class Format:
    """The shape of a frame, in units, and the boxes in it.

    Parameters
    ----------
    width, height : int
        Size in units.
    stage, words : tuple of float
        Boxes of the picture and of the words: left, top, right, bottom.
    card : tuple of float
        Box of what fills a frame alone.
    name : str
        "wide" or "tall".
    """

    width: int
    height: int
    stage: Box
    words: Box
    card: Box
    name: str

    @property
    def is_wide(self) -> bool:
        """Whether the words stand beside the picture, not under it."""
        return self.width > self.height


FORMATS = {
    "wide": Format(1920, 1080, (96, 112, 1104, 912), (1168, 120, 1824, 908), (96, 120, 1824, 908), "wide"),
    "tall": Format(1080, 1920, (40, 190, 1040, 990), (80, 1020, 1000, 1540), (80, 190, 1000, 1540), "tall"),
}


@dataclass(frozen=True, slots=True)
class _Block:
    """A text of a column: the sizes it may have, how many rows, and the room before it."""

    text: str
    sizes: tuple[float, ...]
    rows: int
    role: Role
    face: Face = Face.SANS
    before: float = 0.0


def _broken(block: _Block, width: float, size: float) -> list[str]:
    """Break a block into rows that fit; what is too much ends in an ellipsis."""
    rows = wrapped_words("\n".join(legible(line) for line in block.text.split("\n")), width, size, block.face)
    if len(rows) > block.rows:
        rows = [*rows[: block.rows - 1], " ".join(rows[block.rows - 1 :])]
    return [shortened(row, width, size, block.face) for row in rows]


def _is_whole(block: _Block, width: float, size: float) -> bool:
    rows = wrapped_words("\n".join(legible(line) for line in block.text.split("\n")), width, size, block.face)
    return len(rows) <= block.rows and all(text_width(row, size, block.face) <= width for row in rows)


def _column(blocks: list[_Block], width: float, room: float) -> tuple[list[tuple[_Block, float, list[str]]], float]:
    """Choose sizes for blocks under each other: the largest at which all are whole and fit; give rows and height."""
    blocks = [block for block in blocks if legible(block.text)]
    most = max((len(block.sizes) for block in blocks), default=1)
    for smaller in range(most):
        chosen = []
        for block in blocks:
            whole = [size for size in block.sizes if _is_whole(block, width, size)] or [block.sizes[-1]]
            size = min(whole[0], block.sizes[min(smaller, len(block.sizes) - 1)])
            chosen.append((block, size, _broken(block, width, size)))
        height = sum(block.before + size * LEADING * len(rows) for block, size, rows in chosen)
        if height <= room:
            break
    return chosen, height


def _set(blocks: list[_Block], box: Box, top: float, room: float, anchor: Anchor = Anchor.START) -> list[Shape]:
    """Set blocks under each other from a height on."""
    left, _, right, _ = box
    x = (left + right) / 2 if anchor is Anchor.MIDDLE else left
    chosen, _ = _column(blocks, right - left, room)
    shapes: list[Shape] = []
    y = top
    for block, size, rows in chosen:
        y += block.before
        for row in rows:
            if y + size * LEADING > top + room + 1:
                # What no size makes fit is left out, not written over captions.
                return shapes
            shapes.append(Text(x, y + size * LEADING / 2, row, size, block.role, anchor, block.face))
            y += size * LEADING
    return shapes


def _centred(blocks: list[_Block], box: Box, anchor: Anchor, below: float = 0.0) -> list[Shape]:
    """Set blocks in the middle of a box, with room for something below them."""
    left, top, right, bottom = box
    _, height = _column(blocks, right - left, bottom - top - below)
    return _set(blocks, box, top + max(0.0, (bottom - top - below - height) / 2), bottom - top - below, anchor)


def _above(panel: Panel) -> _Block:
    return _Block(panel.above, (36.0, SMALLEST), 2, Role.QUIET)


def _telling(form: Format, panel: Panel) -> list[Shape]:
    """Set heading, value, a sentence and the source."""
    box = form.words
    source = legible(panel.source)
    # A frame that stands upright is seen on a telephone, so its words are larger.
    small, grown = (SMALLEST, 1.0) if form.is_wide else (38.0, 1.2)
    blocks = [
        _Block(panel.above, (small,), 1, Role.QUIET),
        _Block(panel.heading, tuple(size * grown for size in (56, 48, 40)), 3, Role.INK, Face.SERIF, 10),
        _Block(panel.value, (112, 88, 68, 54, 44), 5, Role.NOW, Face.SANS, 36),
        _Block(panel.sentence, tuple(size * grown for size in (40, 36, SMALLEST)), 9, Role.INK, Face.SANS, 36),
    ]
    top = box[1] + (24 if form.is_wide else 0)
    shapes = _set(blocks, box, top, box[3] - top - (60 if source else 0))
    if source:
        shapes.append(
            Text(box[2], box[3] - 20, shortened(source, box[2] - box[0], small), small, Role.QUIET, Anchor.END)
        )
    return shapes


def _title_blocks(panel: Panel) -> list[_Block]:
    return [_above(panel), _Block(panel.heading, (84, 68, 56, 48), 4, Role.INK, Face.SERIF, 8)]


def inset_box(form: Format, panel: Panel) -> Box:
    """Say where the small picture under the heading of a title stands.

    Parameters
    ----------
    form : Format
        The shape of the frame.
    panel : Panel
        The words of the title.

    Returns
    -------
    Box
        Left, top, right, bottom in units of the frame.
    """
    left, top, right, bottom = form.words
    _, height = _column(_title_blocks(panel), right - left, bottom - top - INSET_HEIGHT - INSET_GAP)
    start = top + max(0.0, (bottom - top - INSET_HEIGHT - INSET_GAP - height) / 2) + height + INSET_GAP
    return left, start, right, start + INSET_HEIGHT


def _card(form: Format, panel: Panel) -> list[Shape]:
    """Set a card: a heading and a list, or a heading and one sentence in the middle."""
    left, top, _, bottom = form.card
    if not panel.entries:
        blocks = [
            _Block(panel.heading, (40, 36), 2, Role.QUIET),
            _Block(panel.sentence, (84, 68, 56, 48), 5, Role.INK, Face.SERIF, 20),
        ]
        return _centred(blocks, form.card, Anchor.MIDDLE)
    shapes = _set([_Block(panel.heading, (64, 56, 48), 1, Role.INK, Face.SERIF)], form.card, top, 80)
    rows, height = placed_entries(panel.entries, form.name, panel.columns)
    start = min(top + 124, bottom - height)
    has_values = any(entry.value for entry in panel.entries)
    for row in rows:
        role = Role.QUIET if has_values and not row.is_value else Role.INK
        shapes.append(Text(left + row.x, start + row.y, row.text, CARD_SIZE, role, Anchor.START))
    return shapes


def panel_shapes(shot: Shot, form: Format) -> tuple[Shape, ...]:
    """Lay out the words of a shot.

    Parameters
    ----------
    shot : Shot
        What is seen.
    form : Format
        The shape of the frame.

    Returns
    -------
    tuple of Shape
        Texts, in units of the frame.
    """
    panel = shot.panel
    match shot.kind:
        case ShotKind.TITLE:
            below = INSET_HEIGHT + INSET_GAP if panel.inset is not None else 0.0
            return tuple(_centred(_title_blocks(panel), form.words, Anchor.START, below))
        case ShotKind.QUESTION:
            left, top, right, bottom = form.card
            inner = (left + 144, top, right - 144, bottom) if form.is_wide else form.card
            blocks = [_above(panel), _Block(panel.heading, (84, 72, 60, 48), 6, Role.INK, Face.SERIF, 16)]
            return tuple(_centred(blocks, inner, Anchor.MIDDLE))
        case ShotKind.END:
            return tuple(_card(form, panel))
        case _:
            if panel.value or panel.sentence or panel.source or panel.above:
                return tuple(_telling(form, panel))
            blocks = [_Block(panel.heading, (72, 64, 56, 48), 4, Role.INK, Face.SERIF)]
            return tuple(_centred(blocks, form.words, Anchor.START))


def rail(form: Format, chapters: int, shot: Shot) -> tuple[Shape, ...]:
    """Draw a thin rail with a piece for each chapter, the present one filled as far as it has come.

    Parameters
    ----------
    form : Format
        The shape of the frame.
    chapters : int
        How many there are.
    shot : Shot
        Says which chapter it is and how far.

    Returns
    -------
    tuple of Shape
        The pieces.
    """
    shapes: list[Shape] = []
    left, _, right, _ = form.card
    length = (right - left - RAIL_GAP * (chapters - 1)) / max(1, chapters)
    for index in range(chapters):
        start = left + index * (length + RAIL_GAP)
        is_past = index < shot.chapter or shot.kind is ShotKind.END
        shapes.append(_bar(start, length, 2.0, Role.INK if is_past else Role.QUIET))
        if index == shot.chapter and not is_past:
            # A chapter that has just begun shows it: the first step is never empty.
            shapes.append(_bar(start, length * (shot.progress + 1) / (PROGRESS_STEPS + 1), 6.0, Role.NOW))
    return tuple(shapes)


def _bar(start: float, length: float, half: float, role: Role) -> Path:
    top, bottom = RAIL_Y - half, RAIL_Y + half
    corners = (start, top, start + length, top, start + length, bottom, start, bottom)
    return Path("MLLLZ", corners, Fill(role), None)
