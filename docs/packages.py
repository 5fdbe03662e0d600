"""Six packages of different scales, with the still of each; `make docs` writes the page.

Usage: `python docs/packages.py`.
"""

from __future__ import annotations

import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path

from PIL import Image

from gamutwright.catalogue.shares import shares_of
from gamutwright.inputs.text import read_scale
from gamutwright.lessons.draft import draft
from gamutwright.lessons.parse import parse
from gamutwright.lessons.plan import Wish
from gamutwright.packaging import Package, make_package
from gamutwright.render.pictures import FilmStyle
from gamutwright.stages import Choices

HERE = Path(__file__).parent
PICTURES = HERE / "packages"
SIZE = (480, 270)


@dataclass(frozen=True)
class Shown:
    """A lesson of the page."""

    slug: str
    scale: str
    title: str
    language: str = "en"
    divisions: int = 12
    minutes: float = 3.0


LESSONS = (
    Shown("pentatonic", "C major pentatonic", "Five tones for the quay"),
    Shown("dorisch", "D dorian", "Dorisch am Hafen", "de"),
    Shown("acoustic", "G acoustic", "The acoustic scale on G"),
    Shown("octatonic", "C octatonic, semitone first", "Eight tones in turn"),
    Shown("harmonic-minor", "Eb harmonic minor", "E♭ harmonic minor"),
    Shown("nineteen", "3-3-2-3-3-3-2", "Seven of nineteen", divisions=19),
)


def source(shown: Shown) -> str:
    """Draft the script of a lesson, with a title of its own."""
    scale = read_scale(shown.scale, divisions=shown.divisions).scale
    shares = shares_of(12) if shown.divisions == 12 else None
    text = draft(scale, Wish(minutes=shown.minutes), shown.language, shares=shares).source
    return text.replace("---\n", f"---\ntitle: {shown.title}\ncourse: Harbour Music School\n", 1)


def package(shown: Shown, folder: Path) -> Package:
    """Make a package, small."""
    return make_package(parse(source(shown)), folder / shown.slug, Choices(FilmStyle(960, 540)))


def row(shown: Shown, made: Package) -> str:
    """Describe a package in a row of the table."""
    page = (made.folder / "index.html").stat().st_size
    length = int(made.lesson.seconds)
    told = f"{length // 60}:{length % 60:02d} minutes, {len(made.lesson.tellings)} facts, {len(made.files)} files"
    picture = f"![Still of '{shown.title}'](packages/{shown.slug}.png)"
    return f"| {picture} | **{shown.title}**<br>{told}, page {page // 1000} kB |"


def main() -> int:
    """Write the page and its pictures."""
    PICTURES.mkdir(exist_ok=True)
    rows = []
    with tempfile.TemporaryDirectory() as folder:
        for shown in LESSONS:
            made = package(shown, Path(folder))
            with Image.open(made.folder / "poster.png") as poster:
                small = poster.convert("RGB").resize(SIZE, Image.Resampling.LANCZOS)
            small.save(PICTURES / f"{shown.slug}.png", optimize=True)
            rows.append(row(shown, made))
    text = (
        "# Six packages\n\nEach was drafted, checked, rendered and packed by one command ([package](package.md)).\n\n"
    )
    text += "| still | lesson |\n|---|---|\n" + "\n".join(rows) + "\n"
    (HERE / "packages.md").write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
