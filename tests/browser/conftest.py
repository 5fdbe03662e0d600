"""Chromium from the system, for tests of what a learner opens. Where there is none, these tests fail."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, Playwright, expect, sync_playwright

from browser.microphone import microphone_file
from browser.studios import Studio, entered
from series.courses import course_in, script

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
expect.set_options(timeout=15_000)
"""Two cores with as many tests on them are slow at times."""
ARGUMENTS = (
    "--no-sandbox",  # containers run as root
    "--disable-gpu",
    "--disable-quic",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--autoplay-policy=no-user-gesture-required",
)


@pytest.fixture(scope="session")
def driver() -> Iterator[Playwright]:
    with sync_playwright() as started:
        yield started


def launched(driver: Playwright, *more: str) -> Browser:
    """Start Chromium, with further arguments where a test needs them."""
    path = next((found for name in NAMES if (found := shutil.which(name))), None)
    assert path, "Chromium is missing: install it, on Debian with `apt-get install chromium`"
    return driver.chromium.launch(executable_path=path, args=[*ARGUMENTS, *more])


@pytest.fixture(scope="session")
def browser(driver: Playwright) -> Iterator[Browser]:
    started = launched(driver)
    yield started
    started.close()


@pytest.fixture(scope="module")
def hearing(driver: Playwright, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    """A browser whose microphone hears somebody say a line, again and again."""
    path = microphone_file(tmp_path_factory.mktemp("microphone") / "line.wav")
    started = launched(
        driver,
        "--use-fake-ui-for-media-stream",
        "--use-fake-device-for-media-stream",
        f"--use-file-for-fake-audio-capture={path}",
    )
    yield started
    started.close()


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A page on which nothing goes wrong unseen."""
    context = browser.new_context(viewport={"width": 1280, "height": 720})
    opened = context.new_page()
    problems: list[str] = []
    opened.on("pageerror", lambda error: problems.append(str(error)))
    opened.on("console", lambda message: problems.append(message.text) if message.type == "error" else None)
    yield opened
    context.close()
    assert not problems


@pytest.fixture
def studio(tmp_path: Path) -> Iterator[Studio]:
    course_in(tmp_path, {"dorian": script(), "ionian": script("C D E F G A B", "Ionian on C", 2, "six")})
    running = Studio(tmp_path)
    yield running
    running.stop()


@pytest.fixture
def context(browser: Browser, studio: Studio) -> Iterator[BrowserContext]:
    """A browser that has come in by the door."""
    made = entered(browser, studio)
    yield made
    made.close()
