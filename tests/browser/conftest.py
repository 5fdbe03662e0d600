"""Chromium from the system, for tests of what a learner opens. Where there is none, these tests fail."""

from __future__ import annotations

import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, sync_playwright

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
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
def browser() -> Iterator[Browser]:
    path = next((found for name in NAMES if (found := shutil.which(name))), None)
    assert path, "Chromium is missing: install it, on Debian with `apt-get install chromium`"
    with sync_playwright() as driver:
        started = driver.chromium.launch(executable_path=path, args=list(ARGUMENTS))
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
