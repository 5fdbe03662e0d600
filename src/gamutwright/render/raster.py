"""Figures as frames and PNG files, and as drawing calls for whatever canvas skia offers.

Conventions: a frame is an array (height, width, 4) of 8-bit red, green, blue and alpha. The figure is fitted into its
box as large as it goes, centred; what is around it is ground.
"""

from __future__ import annotations

import math
from functools import cache, lru_cache
from importlib import import_module
from typing import TYPE_CHECKING, Any

from gamutwright.errors import DomainError, MissingPartError
from gamutwright.ir.figure import Anchor, Arc, Dot, Engraving, Figure, Fill, Group, Path, Role, Shape, Stroke, Text
from gamutwright.ir.metrics import box_of
from gamutwright.render.engrave import expanded
from gamutwright.render.fonts import baseline, font_bytes, glyph_run
from gamutwright.render.svg import HATCH_PITCH, HATCH_WIDTH
from gamutwright.render.theme import Theme, load_theme

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

__all__ = [
    "draw",
    "figure_to_frame",
    "figure_to_png",
    "fitted",
    "frame_to_png",
    "place_on_canvas",
    "skia_colour",
    "skia_library",
]

LARGEST_SIDE = 16_384
LAYER_MARGIN = 24.0
"""Units around the box of a fading group, for lines that a theme draws heavier."""


@cache
def skia_library() -> Any:  # noqa: ANN401 - the library has no types
    """Load the drawing library.

    Returns
    -------
    module
        skia.

    Raises
    ------
    MissingPartError
        If it, or a system library it needs, is missing; with the command that installs it.
    """
    try:
        skia = import_module("skia")
    except ImportError as error:
        if "lib" in str(error) and ".so" in str(error):
            raise MissingPartError(
                str(error).split(":")[0],
                "drawing pixels needs this system library",
                "Run: apt-get install -y --no-install-recommends libgl1 libegl1 (or write SVG, which needs neither).",
            ) from error
        raise MissingPartError(
            "skia", "drawing pixels needs it and it is not installed", "Run: python -m pip install skia-python==144.1"
        ) from error
    return skia


def figure_to_frame(
    figure: Figure,
    theme: Theme | str = "light",
    width: int = 1920,
    height: int = 1080,
    box: tuple[float, float, float, float] | None = None,
) -> NDArray[np.uint8]:
    """Draw a figure into an array of pixels.

    Parameters
    ----------
    figure : Figure
        The figure.
    theme : Theme or str
        The theme, or its name.
    width, height : int
        Size of the frame in pixels.
    box : tuple of float, optional
        Left, top, right and bottom of the box that the figure is fitted into; the whole frame without it.

    Returns
    -------
    array (height, width, 4) uint8
        Red, green, blue, alpha.

    Raises
    ------
    DomainError
        If a side is not between 1 and 16,384 pixels.
    MissingPartError
        If a library is missing.
    """
    import numpy as np  # noqa: PLC0415 - only for frames

    if not (1 <= width <= LARGEST_SIDE and 1 <= height <= LARGEST_SIDE):
        raise DomainError(
            f"{width} x {height} pixels", f"a side has 1 to {LARGEST_SIDE} pixels", "Choose another size."
        )
    skia = skia_library()
    theme = load_theme(theme) if isinstance(theme, str) else theme
    pixels = np.empty((height, width, 4), dtype=np.uint8)
    surface = skia.Surface(pixels, colorType=skia.kRGBA_8888_ColorType)
    with surface as canvas:
        canvas.clear(skia_colour(theme.looks[Role.GROUND].mark))
        place_on_canvas(canvas, figure, theme, box or (0, 0, width, height))
    return pixels


def figure_to_png(figure: Figure, theme: Theme | str = "light", scale: float = 2.0) -> bytes:
    """Draw a figure as a PNG file.

    Parameters
    ----------
    figure : Figure
        The figure.
    theme : Theme or str
        The theme, or its name.
    scale : float > 0
        Pixels a unit.

    Returns
    -------
    bytes
        The file.
    """
    width, height = (max(1, round(side * scale)) for side in (figure.width, figure.height))
    return frame_to_png(figure_to_frame(figure, theme, width, height))


def frame_to_png(pixels: NDArray[np.uint8]) -> bytes:
    r"""Write a frame as a PNG file.

    Parameters
    ----------
    pixels : array (height, width, 4) uint8
        Red, green, blue, alpha.

    Returns
    -------
    bytes
        The file.

    Examples
    --------
    >>> import numpy as np
    >>> frame_to_png(np.zeros((2, 3, 4), dtype=np.uint8))[:8]
    b'\x89PNG...'
    """
    skia = skia_library()
    image = skia.Image.fromarray(pixels, colorType=skia.kRGBA_8888_ColorType)
    return bytes(image.encodeToData(skia.kPNG, 100))


def fitted(figure: Figure, box: tuple[float, float, float, float]) -> tuple[float, float, float]:
    """Say where a figure lies in a box that it is fitted into.

    Parameters
    ----------
    figure : Figure
        The figure.
    box : tuple of float
        Left, top, right, bottom.

    Returns
    -------
    tuple of float
        The box's units a unit of the figure, and the place of its left upper corner.

    Examples
    --------
    >>> fitted(Figure("a dot", "One dot.", (), width=100, height=100), (0, 0, 400, 200))
    (2.0, 100.0, 0.0)
    """
    left, top, right, bottom = box
    scale = min((right - left) / figure.width, (bottom - top) / figure.height)
    return scale, left + (right - left - scale * figure.width) / 2, top + (bottom - top - scale * figure.height) / 2


def place_on_canvas(canvas: Any, figure: Figure, theme: Theme, box: tuple[float, float, float, float]) -> None:  # noqa: ANN401
    """Fit a figure into a box of a canvas, as large as it goes, and draw it.

    Parameters
    ----------
    canvas : skia.Canvas
        The canvas.
    figure : Figure
        The figure.
    theme : Theme
        The theme.
    box : tuple of float
        Left, top, right, bottom in the canvas's units.
    """
    scale, left, top = fitted(figure, box)
    canvas.save()
    canvas.translate(left, top)
    canvas.scale(scale, scale)
    draw(canvas, expanded(figure).shapes, theme)
    canvas.restore()


def draw(canvas: Any, shapes: tuple[Shape, ...], theme: Theme, opacity: float = 1.0) -> None:  # noqa: ANN401
    """Draw shapes.

    Parameters
    ----------
    canvas : skia.Canvas
        The canvas.
    shapes : tuple of Shape
        What is drawn, without engravings.
    theme : Theme
        The theme.
    opacity : float in [0, 1]
        Factor on the opacity of each.
    """
    for shape in shapes:
        visible = shape.opacity * opacity
        if visible <= 0:
            continue
        match shape:
            case Group():
                _draw_group(canvas, shape, theme, visible)
            case Text():
                _draw_text(canvas, shape, theme, visible)
            case Dot():
                _draw_dot(canvas, shape, theme, visible)
            case Arc():
                _draw_arc(canvas, shape, theme, visible)
            case Path():
                _draw_path(canvas, shape, theme, visible)
            case Engraving():  # pragma: no cover - `expanded` has turned all of them into groups
                raise AssertionError(shape.name)


def _draw_group(canvas: Any, group: Group, theme: Theme, visible: float) -> None:  # noqa: ANN401
    """Draw a group; a fading one as a whole, so that its shapes do not shine through each other."""
    if visible >= 1:
        draw(canvas, group.shapes, theme)
        return
    skia = skia_library()
    left, top, right, bottom = box_of(group)
    # A layer of the whole frame takes longer than everything else in it.
    bounds = skia.Rect.MakeLTRB(left - LAYER_MARGIN, top - LAYER_MARGIN, right + LAYER_MARGIN, bottom + LAYER_MARGIN)
    canvas.saveLayer(bounds, skia.Paint(Alphaf=visible))
    draw(canvas, group.shapes, theme)
    canvas.restore()


@cache
def skia_colour(colour: str, opacity: float = 1.0) -> int:
    """Give a colour as the drawing library counts it.

    Parameters
    ----------
    colour : str
        `#rrggbb`.
    opacity : float in [0, 1]
        1 hides what is below.

    Returns
    -------
    int
        Alpha, red, green and blue, 8 bits each, alpha highest.

    Examples
    --------
    >>> hex(skia_colour("#0a1b2c"))
    '0xff0a1b2c'
    """
    red, green, blue = (int(colour[at : at + 2], 16) for at in (1, 3, 5))
    return int(skia_library().Color(red, green, blue, round(255 * opacity)))


@lru_cache(maxsize=4096)
def _paint(colour: str, opacity: float, width: float | None, dash: tuple[float, ...], *, butt: bool) -> Any:  # noqa: ANN401
    skia = skia_library()
    paint = skia.Paint(AntiAlias=True, Color=skia_colour(colour, opacity))
    if width is not None:
        paint.setStyle(skia.Paint.kStroke_Style)
        paint.setStrokeWidth(width)
        if not butt:
            paint.setStrokeCap(skia.Paint.kRound_Cap)
            paint.setStrokeJoin(skia.Paint.kRound_Join)
        if dash:
            paint.setPathEffect(skia.DashPathEffect.Make(list(dash), 0))
    return paint


def _paints(
    theme: Theme, fill: Fill | None, stroke: Stroke | None, visible: float, *, is_dashed: bool = True
) -> list[tuple[Any, int | None]]:
    """List the paints of a shape, area first; a hatched area comes with the angle of its lines."""
    paints: list[tuple[Any, int | None]] = []
    if fill is not None:
        look = theme.looks[fill.role]
        if fill.tint < 1 and look.hatch is not None:
            paints.append((_paint(look.mark, visible, HATCH_WIDTH, (), butt=True), look.hatch))
        else:
            paints.append((_paint(look.mark, fill.tint * visible, None, (), butt=False), None))
    if stroke is not None:
        look = theme.looks[stroke.role]
        width = stroke.width * look.weight
        paints.append(
            (_paint(look.mark, stroke.tint * visible, width, look.dash if is_dashed else (), butt=False), None)
        )
    return paints


def _draw_hatch(canvas: Any, path: Any, paint: Any, degrees: int) -> None:  # noqa: ANN401
    """Fill a path with parallel lines."""
    skia = skia_library()
    bounds = path.getBounds()
    reach = math.hypot(bounds.width(), bounds.height()) / 2 + HATCH_PITCH
    canvas.save()
    canvas.clipPath(path, skia.ClipOp.kIntersect, True)  # noqa: FBT003 - skia takes it by position
    canvas.translate(bounds.centerX(), bounds.centerY())
    canvas.rotate(-degrees)
    for row in range(-int(reach / HATCH_PITCH), int(reach / HATCH_PITCH) + 1):
        canvas.drawLine(-reach, row * HATCH_PITCH, reach, row * HATCH_PITCH, paint)
    canvas.restore()


def _draw_dot(canvas: Any, dot: Dot, theme: Theme, visible: float) -> None:  # noqa: ANN401
    for paint, hatch in _paints(theme, dot.fill, dot.stroke, visible, is_dashed=False):
        if hatch is None:
            canvas.drawCircle(dot.x, dot.y, dot.radius, paint)
        else:
            _draw_hatch(canvas, _circle(dot), paint, hatch)


def _draw_path(canvas: Any, shape: Path, theme: Theme, visible: float) -> None:  # noqa: ANN401
    path = _path(shape.verbs, shape.numbers)
    for paint, hatch in _paints(theme, shape.fill, shape.stroke, visible):
        if hatch is None:
            canvas.drawPath(path, paint)
        else:
            _draw_hatch(canvas, path, paint, hatch)


def _circle(dot: Dot) -> Any:  # noqa: ANN401
    path = skia_library().Path()
    path.addCircle(dot.x, dot.y, dot.radius)
    return path


def _draw_arc(canvas: Any, arc: Arc, theme: Theme, visible: float) -> None:  # noqa: ANN401
    skia = skia_library()
    look = theme.looks[arc.stroke.role]
    paint = _paint(look.mark, arc.stroke.tint * visible, arc.stroke.width, (), butt=True)
    oval = skia.Rect.MakeLTRB(arc.x - arc.radius, arc.y - arc.radius, arc.x + arc.radius, arc.y + arc.radius)
    canvas.drawArc(oval, arc.start - 90, arc.sweep, False, paint)  # noqa: FBT003 - skia takes it by position


@lru_cache(maxsize=8192)
def _path(verbs: str, numbers: tuple[float, ...]) -> Any:  # noqa: ANN401
    path = skia_library().Path()
    rest = iter(numbers)
    for verb in verbs:
        match verb:
            case "M":
                path.moveTo(next(rest), next(rest))
            case "L":
                path.lineTo(next(rest), next(rest))
            case "Q":
                path.quadTo(*(next(rest) for _ in range(4)))
            case "C":
                path.cubicTo(*(next(rest) for _ in range(6)))
            case _:
                path.close()
    return path


@cache
def _typeface(font: str) -> Any:  # noqa: ANN401
    skia = skia_library()
    # A font manager of our own: the system's fonts are neither wanted nor looked for.
    face = skia.FontMgr.New_Custom_Empty().makeFromData(skia.Data.MakeWithCopy(font_bytes(font)))
    if face is None:
        raise MissingPartError(
            font, "skia cannot read this font", "Run: python -m pip install --force-reinstall skia-python==144.1"
        )
    return face


@lru_cache(maxsize=4096)
def _blob(font: str, size: float, indices: tuple[int, ...], places: tuple[tuple[float, float], ...]) -> Any:  # noqa: ANN401
    skia = skia_library()
    setting = skia.Font(_typeface(font), size)
    setting.setSubpixel(True)
    setting.setHinting(skia.FontHinting.kNone)
    setting.setEdging(skia.Font.Edging.kAntiAlias)
    builder = skia.TextBlobBuilder()
    builder.allocRunPos(setting, list(indices), [skia.Point(x, y) for x, y in places])
    return builder.make()


@lru_cache(maxsize=4096)
def _blobs(text: str, size: float, face: Any) -> tuple[tuple[Any, ...], float]:  # noqa: ANN401
    glyphs, width = glyph_run(text, size, face)
    runs: dict[tuple[str, float], list[tuple[int, tuple[float, float]]]] = {}
    for glyph in glyphs:
        runs.setdefault((glyph.font, glyph.size), []).append((glyph.index, (glyph.x, -glyph.rise)))
    blobs = tuple(_blob(*key, *zip(*placed, strict=True)) for key, placed in runs.items())
    return blobs, width


def _draw_text(canvas: Any, text: Text, theme: Theme, visible: float) -> None:  # noqa: ANN401
    blobs, width = _blobs(text.text, text.size, text.face)
    left = text.x - {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}[text.anchor] * width
    paint = _paint(theme.looks[text.role].text, visible, None, (), butt=False)
    for blob in blobs:
        canvas.drawTextBlob(blob, left, baseline(text.y, text.size), paint)
