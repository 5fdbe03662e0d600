"""Frames of a film: the picture on its stage, the words beside it, the rail of chapters above.

Everything here is laid out in units of a 1920x1080 frame and scaled to the size asked for; the vertical frame has a
layout of its own. Margins are 96 units, the stage takes seven twelfths of the width, the lowest 15 % stay free for
captions, and no word is smaller than 32 units (docs/figures.md).

Conventions: a frame is an array of RGBA bytes. A change between two pictures takes `CHANGE_FRAMES`, unless the shot is
still; nothing else moves.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from gamutwright.errors import DomainError
from gamutwright.ir.figure import Anchor, Face, Figure, Fill, Path, Role, Shape, Text
from gamutwright.ir.metrics import Box, text_width
from gamutwright.ir.motion import blended, eased
from gamutwright.ir.timeline import FRAME_TICKS, Panel, Shot, ShotKind, Timeline
from gamutwright.render.engrave import expanded
from gamutwright.render.raster import draw, place_on_canvas, skia_colour, skia_library
from gamutwright.render.theme import Theme, load_theme

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = [
    "CHANGE_FRAMES",
    "FORMATS",
    "Format",
    "FramePainter",
    "Run",
    "frame_figure",
    "moving_frames",
    "runs_of",
    "wrapped_words",
]

CHANGE_FRAMES = 9
"""300 milliseconds at 30 frames a second."""
MARGIN = 96.0
SMALLEST = 32.0


@dataclass(frozen=True, slots=True)
class Format:
    """The shape of a frame, in units, and the boxes in it.

    Parameters
    ----------
    width, height : int
        Size in units.
    stage, words : tuple of float
        Boxes of the picture and of the words: left, top, right, bottom.
    """

    width: int
    height: int
    stage: Box
    words: Box


FORMATS = {
    "wide": Format(1920, 1080, (96, 120, 1104, 908), (1168, 120, 1824, 908)),
    "tall": Format(1080, 1920, (40, 190, 1040, 990), (80, 1020, 1000, 1540)),
}


@dataclass(frozen=True, slots=True)
class Run:
    """Frames that follow each other: one picture held, or one of the pictures of a change.

    Parameters
    ----------
    count : int
        How many frames.
    shot : Shot
        The shot they belong to.
    before : Shot or None
        The shot they change from; None for a held picture.
    share : float
        How far the change has come.
    """

    count: int
    shot: Shot
    before: Shot | None = None
    share: float = 1.0


def moving_frames(before: Shot, shot: Shot) -> int:
    """Say over how many frames one shot becomes the next.

    Parameters
    ----------
    before, shot : Shot
        Two shots that follow each other.

    Returns
    -------
    int
        At most `CHANGE_FRAMES`; 0 for a cut.
    """
    if before.figure is None or shot.figure is None or before.kind is not shot.kind:
        return 0
    if before.figure == shot.figure or shot.is_still:
        return 0
    return min(CHANGE_FRAMES, (shot.end_tick - shot.start_tick) // FRAME_TICKS - 1)


def runs_of(timeline: Timeline) -> Iterator[Run]:
    """Say which pictures a film consists of and how long each stays.

    Parameters
    ----------
    timeline : Timeline
        The film.

    Yields
    ------
    Run
        In order; their counts add up to the length of the film.
    """
    before: Shot | None = None
    for shot in timeline.shots:
        frames = (shot.end_tick - shot.start_tick) // FRAME_TICKS
        moving = moving_frames(before, shot) if before is not None else 0
        for step in range(1, moving + 1):
            yield Run(1, shot, before, eased(step / (moving + 1)))
        yield Run(frames - moving, shot)
        before = shot


def wrapped_words(text: str, width: float, size: float, face: Face = Face.SANS) -> list[str]:
    """Break a text into rows of a width.

    Parameters
    ----------
    text : str
        The words; line ends in it are kept.
    width : float
        Width of the rows, in units.
    size : float
        Type size.
    face : Face
        Typeface.

    Returns
    -------
    list of str
        The rows; a word that is too long stands alone.

    Examples
    --------
    >>> wrapped_words("Two semitone steps", 300, 48)
    ['Two semitone', 'steps']
    """
    rows: list[str] = []
    for line in text.split("\n"):
        row = ""
        for word in line.split():
            longer = f"{row} {word}".strip()
            if row and text_width(longer, size, face) > width:
                rows.append(row)
                row = word
            else:
                row = longer
        rows.append(row)
    return rows


def _block(
    text: str, box: Box, y: float, sizes: tuple[float, ...], most_rows: int, role: Role, face: Face
) -> tuple[list[Shape], float]:
    """Set a text in the largest of some sizes that needs no more than so many rows; give shapes and the lower edge."""
    left, _, right, _ = box
    for size in sizes:
        rows = wrapped_words(text, right - left, size, face)
        if len(rows) <= most_rows and all(text_width(row, size, face) <= right - left for row in rows):
            break
    else:
        rows = rows[:most_rows]
    shapes: list[Shape] = [
        Text(left, y + size * (0.6 + 1.25 * index), row, size, role, Anchor.START, face)
        for index, row in enumerate(rows)
    ]
    return shapes, y + size * 1.25 * len(rows)


def _rail(form: Format, chapters: int, chapter: int) -> list[Shape]:
    """Draw a thin rail with a piece for each chapter; the present one is heavier."""
    shapes: list[Shape] = []
    if chapters < 1:
        return shapes
    gap, left = 10.0, MARGIN if form.width > form.height else 40.0
    length = (form.width - 2 * left - gap * (chapters - 1)) / chapters
    for index in range(chapters):
        start, half = left + index * (length + gap), 5.0 if index == chapter else 2.0
        role = Role.NOW if index == chapter else Role.INK if index < chapter else Role.QUIET
        corners = (start, 56 - half, start + length, 56 - half, start + length, 56 + half, start, 56 + half)
        shapes.append(Path("MLLLZ", corners, Fill(role), None))
    return shapes


def _words(form: Format, panel: Panel) -> list[Shape]:
    """Set heading, value, a sentence and the source."""
    box = form.words
    shapes: list[Shape] = []
    y = box[1] + 60 if form.width > form.height else box[1]
    if panel.heading:
        added, y = _block(panel.heading, box, y, (56, 48, 40), 3, Role.INK, Face.SERIF)
        shapes += added
    if panel.value:
        added, y = _block(panel.value, box, y + 44, (112, 88, 68, 54, 44), 5, Role.NOW, Face.SANS)
        shapes += added
    if panel.sentence:
        added, y = _block(panel.sentence, box, y + 44, (40, SMALLEST), 6, Role.INK, Face.SANS)
        shapes += added
    if panel.source:
        shapes.append(Text(box[2], box[3] - 20, panel.source, SMALLEST, Role.QUIET, Anchor.END))
    return shapes


def frame_figure(shot: Shot, timeline: Timeline, form: Format) -> Figure:
    """Lay out everything of a frame but the picture on the stage.

    Parameters
    ----------
    shot : Shot
        What is seen.
    timeline : Timeline
        The film, for its chapters.
    form : Format
        The shape of the frame.

    Returns
    -------
    Figure
        Words and rail, in units of the frame.
    """
    shapes: list[Shape] = []
    if shot.kind is ShotKind.TITLE:
        box = form.words
        shapes, _ = _block(shot.panel.heading, box, (box[1] + box[3]) / 2 - 120, (84, 68, 56), 4, Role.INK, Face.SERIF)
    elif shot.kind is ShotKind.END:
        box = (MARGIN, 0.0, form.width - MARGIN, form.height * 0.85)
        shapes, y = _block(shot.panel.heading, box, 130, (72, 56), 2, Role.INK, Face.SERIF)
        rows = [row for line in shot.panel.sentence.split("\n") for row in wrapped_words(line, box[2] - box[0], 34)]
        room = int((box[3] - y - 60) / 46)
        shapes += [
            Text(MARGIN, y + 60 + 46 * index, row, 34, Role.QUIET, Anchor.START)
            for index, row in enumerate(rows[:room])
        ]
    else:
        shapes = _words(form, shot.panel)
    shapes += _rail(form, len(timeline.chapters), shot.chapter)
    return Figure(
        timeline.title or "film",
        shot.panel.heading or "A frame of the film.",
        tuple(shapes),
        (),
        form.width,
        form.height,
    )


class FramePainter:
    """Draws the frames of a film.

    Parameters
    ----------
    timeline : Timeline
        The film.
    width, height : int
        Size in pixels.
    theme : str
        Name of the theme.
    stamp : str
        Words across every frame, for drafts; "" for none.
    """

    def __init__(self, timeline: Timeline, width: int, height: int, theme: str = "night", stamp: str = "") -> None:
        self.timeline, self.width, self.height, self.stamp = timeline, width, height, stamp
        self.theme: Theme = load_theme(theme)
        self.form = FORMATS["wide" if width >= height else "tall"]
        if abs(width * self.form.height - height * self.form.width) > width + height:
            raise DomainError(
                f"{width}x{height}", "frames are 16:9 or 9:16", "Choose 1920x1080, 3840x2160 or 1080x1920."
            )

    def paint(self, run: Run) -> NDArray[np.uint8]:
        """Draw the picture of a run.

        Parameters
        ----------
        run : Run
            Which.

        Returns
        -------
        array (height, width, 4) uint8
            Red, green, blue, alpha.
        """
        import numpy as np  # noqa: PLC0415 - only for frames

        skia = skia_library()
        pixels = np.empty((self.height, self.width, 4), dtype=np.uint8)
        surface = skia.Surface(pixels, colorType=skia.kRGBA_8888_ColorType)
        with surface as canvas:
            canvas.clear(skia_colour(self.theme.looks[Role.GROUND].mark))
            canvas.scale(self.width / self.form.width, self.height / self.form.height)
            self._stage(canvas, run)
            draw(canvas, frame_figure(run.shot, self.timeline, self.form).shapes, self.theme)
            if self.stamp:
                draw(canvas, (Text(self.form.width / 2, 100, self.stamp, 36, Role.WRONG),), self.theme)
        return pixels

    def _stage(self, canvas: Any, run: Run) -> None:  # noqa: ANN401 - the library has no types
        figure = run.shot.figure
        if figure is None:
            return
        if run.before is not None and run.before.figure is not None:
            before, after = expanded(run.before.figure), expanded(figure)
            if run.before.drawing == run.shot.drawing:
                figure = blended(before, after, run.share)
            else:
                # Two pictures of different kinds say nothing together, so the one goes before the other comes.
                figure = before.faded(1 - 2 * run.share) if run.share < 0.5 else after.faded(2 * run.share - 1)
        place_on_canvas(canvas, figure, self.theme, self.form.stage)
