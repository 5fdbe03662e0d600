"""Frames of whole lessons: nothing outside its margins, nothing over anything else, nothing too small, no flash.

Figures asked for: LOOK of the project (32 units, 96 units of margin, 15 % free, 240 to 400 milliseconds); contrast
4.5:1, WCAG 2.2, success criterion 1.4.3; flashes, WCAG 2.2, 2.3.1.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise, product

import numpy as np
import pytest

from gamutwright.ir.cards import Entry
from gamutwright.ir.figure import Dot, Engraving, Figure, Path, Role, Shape, Text, walk
from gamutwright.ir.metrics import SIGNS, Box, box_of, boxes_overlap
from gamutwright.ir.timeline import FRAME_TICKS, PROGRESS_STEPS, ChapterMark, Panel, Shot, ShotKind, Timeline
from gamutwright.render.engrave import expanded
from gamutwright.render.fonts import MUSIC, glyph_run
from gamutwright.render.frames import CHANGE_FRAMES, FORMATS, FramePainter, Run, frame_figure, moving_frames, runs_of
from gamutwright.render.panels import SMALLEST, Format, inset_box, panel_shapes, rail
from gamutwright.render.raster import fitted
from gamutwright.render.theme import THEMES, contrast, load_theme
from render.filmed import blocks, flashes_in_a_second
from render.films import film_of
from thinning import thinned

LESSONS = ("pentatonic", "mixolydian", "acoustic", "octatonic", "chromatic", "nineteen", "thirty-one", "german")
INK_ABOVE, INK_BELOW = 0.74, 0.22
EDGE = 0.51
"""Half a unit is forgiven: less than half a pixel of the smallest film."""


def looks(timeline: Timeline) -> list[Shot]:
    """One shot of each look."""
    return list({(shot.figure, shot.panel, shot.kind): shot for shot in timeline.shots}.values())


def texts_on_stage(figure: Figure, box: Box) -> Iterator[tuple[Text, Box, float]]:
    scale, left, top = fitted(figure, box)
    for shape in walk(expanded(figure).shapes):
        if isinstance(shape, Text) and shape.opacity > 0:
            x0, y0, x1, y1 = box_of(shape)
            yield shape, (left + scale * x0, top + scale * y0, left + scale * x1, top + scale * y1), shape.size * scale


def texts_of(shot: Shot, form: Format) -> list[tuple[Text, Box, float]]:
    """Every text of a frame, with its box and size in units of the frame."""
    found = [(shape, box_of(shape), shape.size) for shape in panel_shapes(shot, form) if isinstance(shape, Text)]
    if shot.figure is not None:
        found += texts_on_stage(shot.figure, form.stage)
    return found


@pytest.mark.parametrize(("name", "shape"), thinned(product(LESSONS, FORMATS), 0.5))
def test_words_stay_inside_and_off_each_other_and_are_large_enough(name: str, shape: str) -> None:
    form = FORMATS[shape]
    lowest = form.height * 0.85
    for shot in looks(film_of(name)):
        found = texts_of(shot, form)
        said = f"{shot.panel.heading!r} {shot.drawing}"
        for text, box, size in found:
            assert size >= SMALLEST - 0.01, (said, text)
            assert box[0] >= 40 - EDGE, (said, text)
            assert box[2] <= form.width - 40 + EDGE, (said, text)
            assert box[3] <= lowest + EDGE, (said, text)
            assert text.text == "" or glyph_run(text.text, text.size, text.face)
        words = [box for text, box, _ in found if text in set(panel_shapes(shot, form))]
        assert all(box[0] >= form.card[0] - EDGE and box[2] <= form.card[2] + EDGE for box in words), said
        for (one, box, _), (other, beside, _) in combinations(found, 2):
            # Boxes count ascender and descender; neighbouring rows of one text may share that much.
            slack = 0.1 * min(one.size, other.size)
            assert not boxes_overlap(box, beside, slack), (said, one.text, other.text)


@pytest.mark.parametrize("shape", FORMATS)
@pytest.mark.parametrize("name", ["pentatonic", "german"])
def test_cards_are_not_cut(name: str, shape: str) -> None:
    """What a card is planned to say stands on it to the last letter, unless an ellipsis says otherwise."""
    for shot in film_of(name).shots:
        if shot.kind is not ShotKind.END:
            continue
        written = " ".join(shape.text for shape in panel_shapes(shot, FORMATS[shape]) if isinstance(shape, Text))
        for entry in shot.panel.entries:
            for word in f"{entry.text} {entry.value}".split():
                assert word in written


@pytest.mark.parametrize("name", ["acoustic", "nineteen"])
def test_the_title_has_ring_name_and_course_and_a_staff_where_there_is_one(name: str) -> None:
    title = film_of(name).shots[0]
    assert title.kind is ShotKind.TITLE
    assert title.figure is not None
    assert title.figure.part("tone 0")
    has_staff = title.panel.inset is not None
    assert has_staff is (name == "acoustic")
    if title.panel.inset is not None:
        assert any(isinstance(shape, Engraving) for shape in walk(title.panel.inset.shapes))
        assert title.panel.above == "Harbour Music School, evening course\nLesson 7"
        for form in FORMATS.values():
            box = inset_box(form, title.panel)
            assert box[3] <= form.height * 0.85
            assert all(
                not boxes_overlap(box, box_of(shape)) for shape in panel_shapes(title, form) if isinstance(shape, Text)
            )


@pytest.mark.parametrize("theme", THEMES)
def test_every_role_of_words_is_read_against_its_ground(theme: str) -> None:
    held = load_theme(theme)
    ground = held.looks[Role.GROUND].mark
    used = {
        shape.role
        for name in LESSONS
        for shot in looks(film_of(name))
        for shape in frame_figure(shot, film_of(name), FORMATS["wide"]).shapes
        if isinstance(shape, Text)
    }
    assert used >= {Role.INK, Role.QUIET, Role.NOW}
    for role in used:
        assert contrast(held.looks[role].text, ground) >= 4.5


def test_accidentals_are_drawn_by_the_music_font() -> None:
    signs = set()
    for name in ("acoustic", "octatonic", "german"):
        for shot in looks(film_of(name)):
            for text, _, _ in texts_of(shot, FORMATS["wide"]):
                held = [letter for letter in text.text if letter in SIGNS]
                signs |= set(held)
                fonts = [glyph.font for glyph in glyph_run(text.text, text.size, text.face)[0]]
                assert fonts.count(MUSIC) == len(held), text
    assert signs >= {"♯", "♭"}


@pytest.mark.parametrize("name", LESSONS)
def test_changes_are_short_and_rare_and_rest_between(name: str) -> None:
    """240 to 400 ms, at most one in two seconds of film, never two at once."""
    timeline = film_of(name)
    changes = [moving_frames(one, other) for one, other in pairwise(timeline.shots)]
    assert all(0 <= frames <= 12 for frames in changes)
    assert max(changes) * FRAME_TICKS / 48 >= 240
    assert sum(frames > 0 for frames in changes) <= timeline.ticks / 48_000 / 2
    # A tone that lights up with its note is no fade; music has fewer of them than three a second.
    assert len(timeline.shots) <= timeline.ticks / 48_000 * 3
    for run in runs_of(timeline):
        assert run.count >= 1


@pytest.mark.parametrize("name", LESSONS)
def test_the_rail_moves_in_few_steps_and_only_forward(name: str) -> None:
    timeline = film_of(name)
    for one, other in pairwise(timeline.shots):
        assert 0 <= other.progress <= PROGRESS_STEPS
        assert (other.chapter, other.progress) >= (one.chapter, one.progress)
    form = FORMATS["wide"]
    rails = {rail(form, len(timeline.chapters), shot) for shot in timeline.shots}
    assert len(rails) <= PROGRESS_STEPS * len(timeline.chapters) + 2


def test_the_rail_grows_with_the_chapter_and_ends_full() -> None:
    shots = [Shot(0, FRAME_TICKS, ShotKind.STAGE, None, Panel("a"), 1, progress=k) for k in range(PROGRESS_STEPS)]
    lengths = [box_of(max(rail(FORMATS["wide"], 3, shot), key=_thickness)) for shot in shots]
    widths = [box[2] - box[0] for box in lengths]
    assert widths == sorted(set(widths))
    end = Shot(0, FRAME_TICKS, ShotKind.END, None, Panel("a"), 2, progress=PROGRESS_STEPS)
    bars = [shape for shape in rail(FORMATS["wide"], 3, end) if isinstance(shape, Path)]
    assert [bar.fill.role for bar in bars if bar.fill] == [Role.INK] * 3


def _thickness(shape: Shape) -> float:
    box = box_of(shape)
    return box[3] - box[1]


def painted(painter: FramePainter, run: Run) -> np.ndarray:
    frame = painter.paint(run)[..., :3].astype(np.float32)
    return np.rint(frame @ np.array([0.2126, 0.7152, 0.0722], np.float32)).astype(np.uint8)


@pytest.mark.parametrize("name", ["acoustic", "octatonic"])
def test_no_film_flashes(name: str) -> None:
    """At most three flashes in any second, counted block by block (WCAG 2.2, 2.3.1); here there is none to count."""
    timeline = film_of(name)
    painter = FramePainter(timeline, 320, 180, "night")
    frames: list[np.ndarray] = []
    runs = list(runs_of(timeline))[:150]
    for run in runs:
        # Holds are cut to ten frames, so that changes stand closer together than they ever do.
        frames += [painted(painter, run)] * min(run.count, 10)
    assert flashes_in_a_second(blocks(np.stack(frames))) <= 1


def test_words_are_set_at_once_while_the_picture_moves() -> None:
    """The value is there on the frame of its word; it does not come late by fading in."""
    figures = [Figure("a dot", "One dot.", (Dot(x, 50.0, 9.0, name="dot"),), (), 100, 100) for x in (20.0, 80.0)]
    panels = (Panel("Tritones", sentence="One sentence."), Panel("Tritones", "six"))
    first, second = (
        Shot(30 * FRAME_TICKS * k, 30 * FRAME_TICKS * (k + 1), ShotKind.STAGE, figure, panel, 0, "dots")
        for k, (figure, panel) in enumerate(zip(figures, panels, strict=True))
    )
    timeline = Timeline("a film", "en", second.end_tick, (first, second), (), (), (ChapterMark(0, "A"),), ())
    painter = FramePainter(timeline, 960, 540)
    runs = list(runs_of(timeline))
    frames = [painter.paint(run) for run in runs]
    assert [run.share > 0.99 for run in runs] == [True, *[False] * CHANGE_FRAMES, True]
    words = [frame[:, 580:] for frame in frames]
    assert all((shown == words[-1]).all() for shown in words[1:])
    assert (words[0] != words[1]).any()
    assert all((one[:, :560] != other[:, :560]).any() for one, other in pairwise(frames))


def test_hostile_words_are_drawn_and_stay_inside() -> None:
    names = ("x" * 300, "Ana 🎵 Novák", "\u202eevil\u202c", "bell\x07", "שלום", "Nguyễn " * 40)
    long = "Donaudampfschifffahrtsgesellschaftskapitänsmützenabzeichenfarbe " * 4
    panels = [
        (ShotKind.TITLE, Panel(long, above=long)),
        (ShotKind.STAGE, Panel(long, long, long, long, long)),
        (ShotKind.STAGE, Panel(long)),
        (ShotKind.QUESTION, Panel(long, above=long)),
        (ShotKind.END, Panel(long, sentence=long)),
        (ShotKind.END, Panel("With thanks to", entries=tuple(Entry(name) for name in names), columns=2)),
    ]
    for kind, panel in panels:
        shot = Shot(0, FRAME_TICKS, kind, None, panel, 0)
        timeline = Timeline("a film", "en", FRAME_TICKS, (shot,), (), (), (ChapterMark(0, "A"),), ())
        for form in FORMATS.values():
            for text, box, size in texts_of(shot, form):
                assert size >= SMALLEST
                assert form.card[0] - EDGE <= box[0] <= box[2] <= form.card[2] + EDGE, text
                assert box[1] >= RAIL_BELOW
                assert box[3] <= form.height * 0.85 + EDGE, text
            width, height = (640, 360) if form.is_wide else (360, 640)
            assert FramePainter(timeline, width, height).paint(Run(1, shot)).shape == (height, width, 4)


RAIL_BELOW = 64
