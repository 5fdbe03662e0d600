"""Frames of a film: the picture on its stage, the words beside it, and how one shot becomes the next.

Where words stand is in `panels`. Between two shots only the picture moves: pictures of one kind turn or unfold into
each other, of pictures of different kinds the one goes before the other comes. Words are set at once, on the frame of
the word that brings them; so is a question, which has no picture.

Conventions: a frame is an array of RGBA bytes. A change takes `CHANGE_FRAMES`, unless the shot is still.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

from gamutwright.errors import DomainError
from gamutwright.ir.cards import wrapped_words
from gamutwright.ir.figure import Figure, Role, Shape, Text
from gamutwright.ir.motion import blended, eased
from gamutwright.ir.timeline import FRAME_TICKS, Shot, Timeline
from gamutwright.render.engrave import expanded
from gamutwright.render.panels import FORMATS, Format, inset_box, panel_shapes, rail
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
    if before.figure.shapes == shot.figure.shapes or shot.is_still:
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
    shapes = (*panel_shapes(shot, form), *rail(form, len(timeline.chapters), shot))
    return Figure(
        timeline.title or "film",
        shot.panel.heading or "A frame of the film.",
        shapes,
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
        self._bare: Shot | None = None
        self._laid_out: tuple[Shape, ...] = ()
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
            draw(canvas, self._words(run.shot), self.theme)
            if run.shot.panel.inset is not None:
                place_on_canvas(canvas, run.shot.panel.inset, self.theme, inset_box(self.form, run.shot.panel))
            if self.stamp:
                draw(canvas, (Text(self.form.width / 2, 100, self.stamp, 36, Role.WRONG),), self.theme)
        return pixels

    def _words(self, shot: Shot) -> tuple[Shape, ...]:
        """Lay out all but the picture; the frames of a change have it in common, so the last is kept."""
        bare = replace(shot, figure=None)
        if bare != self._bare:
            self._bare, self._laid_out = bare, frame_figure(bare, self.timeline, self.form).shapes
        return self._laid_out

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
