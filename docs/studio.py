"""Pictures of the studio's screens, as its page shows them; `make docs` writes them.

Usage: `python docs/studio.py`. The demo course is opened in a folder of its own; Chromium takes the pictures.
"""

from __future__ import annotations

import io
import shutil
import sys
import tempfile
import threading
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from PIL import Image
from playwright.sync_api import Page, sync_playwright

from gamutwright.studio.launch import bound_socket, server_for
from gamutwright.studio.place import Place

HERE = Path(__file__).parent
COURSE = HERE.parent / "examples" / "harbour"
PICTURES = HERE / "studio"
ARGUMENTS = ("--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-component-update")
SIZE = {"width": 1280, "height": 860}
WAIT_S = 30


@contextmanager
def served(course: Path) -> Iterator[Place]:
    """Serve a course from a thread of this process."""
    with closing(bound_socket(None, course)) as listener:
        answers = threading.Event()
        place = Place(course, listener.getsockname()[1])
        server = server_for(place, answers.set)
        thread = threading.Thread(target=server.run, kwargs={"sockets": [listener]})
        thread.start()
        try:
            if not answers.wait(WAIT_S):
                sys.exit("The studio does not answer.")
            yield place
        finally:
            server.should_exit = True
            thread.join(WAIT_S)


def write(page: Page) -> None:
    """Say something wrong in a line."""
    page.wait_for_selector(".piece.line textarea")
    fields = page.locator(".piece.line textarea")
    said = [fields.nth(place).input_value() for place in range(fields.count())]
    field = fields.nth(next(place for place, text in enumerate(said) if "fact=tritones show" in text))
    field.fill(field.input_value().replace("two", "nine"))
    page.wait_for_selector(".piece.faulty")


def see(page: Page) -> None:
    """Choose a word in the middle of a statement."""
    page.wait_for_selector("#still:not([hidden])")
    page.locator(".said-line", has_text="two tritones").first.locator("span", has_text="two").click()
    page.wait_for_timeout(1500)


def speak(page: Page) -> None:
    """Wait for a line that is recorded."""
    page.wait_for_selector("#speak[data-ready=yes]")
    page.wait_for_timeout(500)


def explore(page: Page) -> None:
    """Wait for the facts, and for how common they are."""
    page.wait_for_selector("#facts .hint >> text=of the scales with", timeout=60_000)
    page.wait_for_timeout(500)


def course(page: Page) -> None:
    """Name the folder as a teacher's would be called, not the one that the picture was taken in."""
    page.wait_for_timeout(800)
    page.evaluate(
        "() => { for (const path of document.querySelectorAll('.path')) path.textContent = 'courses/harbour/out'; }"
    )


SCREENS = {
    "see": ("/lesson/acoustic/see", see),
    "speak": ("/lesson/lydian/speak", speak),
    "explore": ("/explore?scale=G+acoustic", explore),
    "course": ("/", course),
    # Last, since it leaves a fault behind.
    "write": ("/lesson/acoustic", write),
}


def main() -> None:
    """Write the pictures."""
    path = shutil.which("chromium") or shutil.which("google-chrome")
    if path is None:
        sys.exit("Chromium is missing: install it, on Debian with `apt-get install chromium`")
    PICTURES.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as driver:
        copy = Path(folder, "harbour")
        shutil.copytree(COURSE, copy, ignore=shutil.ignore_patterns("out", ".gamutwright"))
        with served(copy) as place:
            browser = driver.chromium.launch(executable_path=path, args=list(ARGUMENTS))
            page = browser.new_page(viewport=SIZE, color_scheme="light", reduced_motion="reduce")
            page.goto(f"{place.address}?token={place.token}")
            for name, (address, prepare) in SCREENS.items():
                page.goto(place.address.rstrip("/") + address)
                prepare(page)
                taken = Image.open(io.BytesIO(page.screenshot())).convert("RGB")
                taken.quantize(128, dither=Image.Dither.NONE).save(PICTURES / f"{name}.png", optimize=True)
            browser.close()


if __name__ == "__main__":
    main()
