"""A studio in a browser, for tests of its screens: served on a port of its own, entered by its door."""

from __future__ import annotations

import contextlib
import socket
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import uvicorn
from playwright.sync_api import Browser, BrowserContext, Page

from gamutwright.studio.app import create_app
from gamutwright.studio.place import Place

__all__ = ["Studio", "entered", "on_disk", "opened", "select"]


class Studio:
    """A studio on a port of its own, which can be stopped and started again."""

    def __init__(self, course: Path) -> None:
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            self.place = Place(course, free.getsockname()[1])
        self.start()

    def start(self) -> None:
        config = uvicorn.Config(
            create_app(self.place), port=self.place.port, log_level="error", timeout_graceful_shutdown=1
        )
        self._server = uvicorn.Server(config)
        self._thread = threading.Thread(target=self._server.run)
        self._thread.start()
        deadline = time.monotonic() + 30
        while not self._server.started:
            assert time.monotonic() < deadline
            time.sleep(0.01)

    def stop(self) -> None:
        self._server.should_exit = True
        self._thread.join(20)

    @property
    def door(self) -> str:
        return f"{self.place.address}?token={self.place.token}"

    def at(self, path: str) -> str:
        return self.place.address.rstrip("/") + path


def entered(browser: Browser, studio: Studio, **how: object) -> BrowserContext:
    """A browser's context that has come in by the door."""
    made = browser.new_context(**{"viewport": {"width": 1280, "height": 900}} | how)
    # Asked without a page: the context keeps the cookie, and nothing is drawn.
    assert made.request.get(studio.door).ok
    return made


@contextlib.contextmanager
def opened(context: BrowserContext, studio: Studio, path: str) -> Iterator[Page]:
    """A page on which nothing goes wrong unseen; answers that refuse on purpose are told by the browser."""
    page = context.new_page()
    problems: list[str] = []
    page.on("pageerror", lambda error: problems.append(str(error)))
    page.on("console", lambda message: problems.append(message.text) if message.type == "error" else None)
    page.goto(studio.at(path))
    yield page
    page.close(run_before_unload=False)
    assert [text for text in problems if not any(known in text for known in ("REFUSED", "412", "422"))] == []


def on_disk(studio: Studio, slug: str = "dorian") -> str:
    return (studio.place.course / "lessons" / slug / "script.md").read_text("utf-8")


def select(page: Page, words: str) -> None:
    """Select words in the script."""
    page.evaluate(
        """words => { const field = document.querySelector('#script'), at = field.value.indexOf(words);
             field.focus(); field.setSelectionRange(at, at + words.length); }""",
        words,
    )
