"""SVG by golden text, pixels with tolerance, PDF by its facts; all from the same description.

`GAMUTWRIGHT_REGENERATE=1` writes the golden texts anew; the difference is then for a person to look at.
"""

from __future__ import annotations

import io
import os
import zlib
from pathlib import Path
from xml.etree import ElementTree as ET

import numpy as np
import pypdf
import pytest
from PIL import Image

from gamutwright.diagrams.atlas import DIAGRAMS, draw_diagram
from gamutwright.diagrams.sketch import Kind, Place, Sketch
from gamutwright.errors import DomainError
from gamutwright.ir.figure import Arc, Dot, Face, Figure, Fill, Group, Role, Stroke, Text
from gamutwright.ir.figure import Path as Shape
from gamutwright.render.drawn import Drawn
from gamutwright.render.engrave import expanded
from gamutwright.render.fonts import glyph_run
from gamutwright.render.pdf import POINTS_PER_UNIT, figures_to_pdf
from gamutwright.render.raster import figure_to_frame, figure_to_png
from gamutwright.render.svg import figure_to_svg
from gamutwright.render.theme import THEMES, load_theme
from gamutwright.theory.scale import Scale

GOLDEN = Path(__file__).parent / "golden"
MAJOR = Scale.of(0, 2, 4, 5, 7, 9, 11)
SKETCH = Sketch(MAJOR, (Place(Kind.STEP, ((4, 5),)), Place(Kind.STEP, ((11, 0),))), statement="Two semitone steps.")


def rgb(theme: str, role: Role) -> list[int]:
    colour = load_theme(theme).looks[role].mark
    return [int(colour[at : at + 2], 16) for at in (1, 3, 5)]


@pytest.mark.parametrize("diagram", DIAGRAMS)
def test_svg_is_the_golden_text(diagram: str):
    text = figure_to_svg(draw_diagram(diagram, SKETCH), "light")
    path = GOLDEN / f"{diagram}.svg"
    if os.environ.get("GAMUTWRIGHT_REGENERATE"):
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
    assert text == path.read_text(encoding="utf-8")


@pytest.mark.parametrize("theme", THEMES)
def test_svg_is_well_formed_and_says_what_it_shows(theme: str):
    for diagram in DIAGRAMS:
        figure = draw_diagram(diagram, SKETCH)
        root = ET.fromstring(figure_to_svg(figure, theme))  # noqa: S314 - our own text
        names = [child.tag.rpartition("}")[2] for child in root]
        assert names[:2] == ["title", "desc"]
        assert root[1].text == figure.alt
        assert figure.alt.endswith("Two semitone steps.")
        assert root.get("role") == "img"


def test_markup_in_words_is_escaped():
    figure = Figure("<b>", "A & B.", (Text(50, 50, '"<&>"'),))
    root = ET.fromstring(figure_to_svg(figure))  # noqa: S314 - our own text
    assert (root[0].text, root[1].text) == ("<b>", "A & B.")


@pytest.mark.parametrize("theme", THEMES)
def test_pixels_have_the_colours_of_the_roles(theme: str):
    figure = Figure("a disc", "A disc.", (Dot(50, 50, 30, Fill(Role.NOW)),), width=100, height=100)
    frame = figure_to_frame(figure, theme, 200, 100)
    assert frame.shape == (100, 200, 4)
    assert frame[50, 100, :3].tolist() == rgb(theme, Role.NOW)
    assert frame[50, 10, :3].tolist() == rgb(theme, Role.GROUND)
    inked = (frame[:, :, :3] != frame[0, 0, :3]).any(axis=2).sum()
    assert inked == pytest.approx(np.pi * 30**2, rel=0.06)


def test_arcs_turn_clockwise_from_the_top():
    arc = Arc(50, 50, 40, 0, 90, Stroke(Role.INK, 8))
    frame = figure_to_frame(Figure("an arc", "An arc.", (arc,), width=100, height=100), "light", 100, 100)
    dark = frame[:, :, 0] < 128
    assert dark[:50, 50:].sum() == pytest.approx(np.pi / 2 * 40 * 8, rel=0.05)
    assert dark.sum() - dark[:50, 50:].sum() < 12


def test_a_tint_is_hatched_where_the_theme_says_so():
    square = Shape("MLLLZ", (20, 20, 80, 20, 80, 80, 20, 80), Fill(Role.NOW, 0.4), None)
    figure = Figure("a square", "A square.", (square,), width=100, height=100)
    printed, light = (figure_to_frame(figure, theme, 100, 100)[25:75, 25:75, 0] for theme in ("print", "light"))
    assert len(np.unique(light)) == 1
    assert printed.min() < 60
    assert printed.max() == 255
    assert 'fill="url(#hatch-print-now)"' in figure_to_svg(figure, "print")


def test_a_fading_group_does_not_shine_through_itself():
    dots = (Dot(40, 50, 30), Dot(60, 50, 30))
    frame = figure_to_frame(
        Figure("dots", "Dots.", (Group(dots, opacity=0.5),), width=100, height=100), "light", 100, 100
    )
    assert frame[50, 50].tolist() == frame[50, 20].tolist()


@pytest.mark.parametrize("diagram", DIAGRAMS)
def test_same_picture_in_svg_and_pixels(diagram: str):
    """Every dot of the description is where the pixels say; SVG carries the same numbers."""
    figure = expanded(draw_diagram(diagram, SKETCH))
    frame = figure_to_frame(figure, "light", 1000, 800)
    svg = figure_to_svg(figure, "light")
    ground = np.array(rgb("light", Role.GROUND))
    for part in figure.parts:
        x, y = round(part.x), round(part.y)
        reach = max(2, round(part.radius))
        around = frame[max(0, y - reach) : y + reach + 1, max(0, x - reach) : x + reach + 1, :3].astype(int)
        assert np.abs(around - ground).max() > 20, part
    assert svg.count("<circle") == sum(line.startswith("<circle") for line in svg.splitlines())


@pytest.mark.parametrize(("diagram", "theme"), [("clock", "light"), ("keyboard", "night"), ("spectra", "print")])
def test_frames_agree_with_stored_images(diagram: str, theme: str):
    """Stored at a quarter of the size; a mean difference above 1.5 of 255 is another picture, not another machine."""
    frame = figure_to_frame(draw_diagram(diagram, SKETCH), theme, 500, 400)
    path = GOLDEN / f"{diagram}-{theme}.png"
    if os.environ.get("GAMUTWRIGHT_REGENERATE"):
        Image.fromarray(frame).convert("RGB").save(path, optimize=True)
    stored = np.asarray(Image.open(path).convert("RGB")).astype(int)
    assert np.abs(stored - frame[:, :, :3]).mean() < 1.5


def test_png_has_the_size_asked_for():
    data = figure_to_png(draw_diagram("clock", SKETCH), "night", 0.5)
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    assert (int.from_bytes(data[16:20]), int.from_bytes(data[20:24])) == (500, 400)


def test_pdf_is_vector_with_embedded_fonts():
    data = figures_to_pdf([draw_diagram("clock", SKETCH), draw_diagram("staff", SKETCH)], "print")
    assert data.startswith(b"%PDF-")
    assert data.count(b"/Type /Page\n") == 2
    assert f"[0 0 {1000 * POINTS_PER_UNIT:g} {800 * POINTS_PER_UNIT:g}]".encode() in data
    assert b"/FontFile2" in data
    assert b"/Subtype /Image" not in data
    streams = [part.split(b"endstream")[0] for part in data.split(b"stream\n")[1::1]]
    assert any(b" c\n" in zlib.decompressobj().decompress(stream) for stream in streams if stream[:1] == b"\x78")


@pytest.mark.parametrize("side", [0, 20_000])
def test_impossible_sizes_are_refused(side: int):
    with pytest.raises(DomainError, match="pixels"):
        figure_to_frame(draw_diagram("clock", SKETCH), "light", side, 100)


def test_notebooks_show_svg():
    assert Drawn(draw_diagram("clock", SKETCH))._repr_svg_().startswith("<svg")


def test_files_by_their_endings(tmp_path: Path):
    drawn = Drawn(draw_diagram("clock", SKETCH))
    starts = {".svg": b"<svg", ".png": b"\x89PNG", ".pdf": b"%PDF"}
    for ending, start in starts.items():
        assert drawn.save(tmp_path / f"clock{ending}").read_bytes().startswith(start)
    with pytest.raises(DomainError, match=r"\.svg, \.png, \.pdf"):
        drawn.save(tmp_path / "clock.gif")
    assert len(list(tmp_path.iterdir())) == 3


def test_words_of_an_svg_can_be_text_that_is_selected():
    """Each word once, where its outlines stand and as wide (SVG 2, textLength, from memory)."""
    figure = draw_diagram("ladder", SKETCH)
    name = "{http://www.w3.org/2000/svg}"
    outlined, live = (ET.fromstring(figure_to_svg(figure, has_live_text=is_live)) for is_live in (False, True))  # noqa: S314
    assert not outlined.findall(f".//{name}text")
    words = [one.text for one in live.findall(f".//{name}text")]
    assert words == [one.get("data-text") for one in outlined.iter() if one.get("data-text")]
    assert {"C", "B", "2", "1"} <= set(words)
    assert not [one for one in live.iter() if "glyph" in (one.get("id") or "")]
    for one in live.findall(f".//{name}text"):
        _, width = glyph_run(one.text, float(one.get("font-size")), Face.SANS)
        assert one.get("lengthAdjust") == "spacingAndGlyphs"
        assert float(one.get("textLength")) == pytest.approx(width, rel=0.12)


def test_a_pdf_names_an_author():
    made = pypdf.PdfReader(io.BytesIO(figures_to_pdf([draw_diagram("ladder", SKETCH)])))
    assert made.metadata.author == "Gamutwright"
    named = pypdf.PdfReader(io.BytesIO(figures_to_pdf([draw_diagram("ladder", SKETCH)], author="Harbour Music School")))
    assert named.metadata.author == "Harbour Music School"
