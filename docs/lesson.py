"""The still, the page and the handout of the demo lesson, as README shows them; `make docs` writes them.

Usage: `python docs/lesson.py`. Chromium takes the picture of the page.
"""

from __future__ import annotations

import io
import shutil
import sys
import tempfile
from pathlib import Path

from PIL import Image
from playwright.sync_api import Browser, sync_playwright

from gamutwright.lessons.parse import load
from gamutwright.packaging import Package, make_package
from gamutwright.render.pictures import FilmStyle
from gamutwright.stages import Choices

HERE = Path(__file__).parent
ROOT = HERE.parent
SCRIPT = ROOT / "examples" / "harbour" / "lessons" / "acoustic" / "script.md"
PICTURES = HERE / "lesson"
ARGUMENTS = ("--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update")
BEGIN, END = "<!-- tree of the demo lesson -->\n```text\n", "```\n"


def package(folder: Path) -> Package:
    """Make the demo lesson, small."""
    return make_package(load(SCRIPT), folder / "acoustic", Choices(FilmStyle(1280, 720), home=SCRIPT.parent))


def tree(made: Package) -> str:
    """Draw the files of a package."""
    lines, shown = ["acoustic.zip", "acoustic/"], ""
    for name in made.files:
        place, _, file = name.rpartition("/")
        if place != shown:
            lines.append(f"    {place}/")
            shown = place
        lines.append(f"{'    ' if place else ''}    {file}")
    return "\n".join(lines) + "\n"


def page_picture(made: Package, browser: Browser) -> Image.Image:
    """Take a picture of the page's top."""
    page = browser.new_page(viewport={"width": 1200, "height": 1100})
    page.goto((made.folder / "index.html").as_uri())
    page.wait_for_function("document.querySelector('video').readyState >= 2")
    page.wait_for_timeout(500)
    taken = page.screenshot()
    page.close()
    return Image.open(io.BytesIO(taken)).convert("RGB")


def still(made: Package) -> Image.Image:
    """Give the poster, as large as README shows it."""
    with Image.open(made.folder / "poster.png") as poster:
        return poster.convert("RGB").resize((960, 540), Image.Resampling.LANCZOS)


def main() -> int:
    """Write the pictures, and the tree into README."""
    PICTURES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder:
        made = package(Path(folder))
        still(made).save(PICTURES / "still.png", optimize=True)
        names = ("chromium", "chromium-browser", "google-chrome")
        chromium = next(found for name in names if (found := shutil.which(name)))
        with sync_playwright() as driver:
            browser = driver.chromium.launch(executable_path=chromium, args=list(ARGUMENTS))
            page_picture(made, browser).quantize(64).save(PICTURES / "page.png", optimize=True)
            browser.close()
        readme = (ROOT / "README.md").read_text(encoding="utf-8")
        head, found, rest = readme.partition(BEGIN)
        if found:
            _, _, tail = rest.partition(END)
            (ROOT / "README.md").write_text(head + BEGIN + tree(made) + END + tail, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
