"""The screen See in Chromium: the picture at a word, a line with its sound, the whole lesson small.

Rules for everybody: WCAG 2.2 as axe-core checks it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, expect

from browser.looking import VIEWS, cut_off, magnify, too_wide
from browser.studios import Studio, entered, opened
from series.courses import course_in, script

LESSON = "/lesson/dorian/see"
NOW = "document.querySelector('.now').textContent.trim()"


@pytest.fixture(scope="module")
def studio(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Studio]:
    made = Studio(course_in(tmp_path_factory.mktemp("seen"), {"dorian": script()}))
    yield made
    made.stop()


def test_a_word_has_its_picture_and_a_line_its_sound(context: BrowserContext, studio: Studio):
    with opened(context, studio, LESSON) as page:
        expect(page.locator("#still")).to_be_visible(timeout=20_000)
        page.locator(".said-line").nth(1).locator("span", has_text="seven").click()
        expect(page.locator("#still")).to_have_attribute("alt", re.compile("seven"))
        assert page.evaluate("document.querySelector('#still').naturalWidth") == 960
        page.keyboard.press("ArrowRight")
        assert page.evaluate(NOW) == "tones."
        page.keyboard.press("ArrowLeft")
        page.keyboard.press("Enter")
        expect(page.locator("#film")).to_be_visible(timeout=20_000)
        # A film with sound: it goes on by itself from the word that was chosen, to the end of the line, and stops.
        length, begun = page.evaluate(
            "[film => film.duration, film => film.currentTime].map(f => f(document.querySelector('#film')))"
        )
        told = page.evaluate("fetch('/api/lesson/dorian/timeline').then(answer => answer.json())")
        line = told["lines"][1]
        assert abs(length - (line["end_s"] - line["start_s"])) < 0.1
        assert begun >= line["words"][2][1] - line["start_s"] - 0.05
        expect(page.locator("#play")).to_have_text("Play on", timeout=20_000)
        expect(page.locator("#still")).to_be_visible()
        assert page.evaluate(NOW) == "tones."


def test_lines_play_on_at_the_speed_that_is_chosen_and_space_stops(context: BrowserContext, studio: Studio):
    with opened(context, studio, LESSON) as page:
        expect(page.locator("#still")).to_be_visible(timeout=20_000)
        page.select_option("#speed", "2")
        page.locator(".said-line").first.locator("span").last.click()
        page.keyboard.press("Space")
        expect(page.locator("#film")).to_be_visible(timeout=20_000)
        assert page.evaluate(
            "[document.querySelector('#film').playbackRate, document.querySelector('#film').preservesPitch]"
        ) == [2, True]
        expect(page.locator(".here")).to_have_text("It has seven tones.", timeout=20_000)
        page.keyboard.press("Space")
        expect(page.locator("#play")).to_have_text("Play on")
        assert page.evaluate("document.querySelector('#film').paused")


def test_the_whole_is_made_watched_and_old_when_the_script_changes(context: BrowserContext, studio: Studio):
    with opened(context, studio, LESSON) as page:
        expect(page.locator("#make")).to_be_enabled(timeout=20_000)
        page.click("#make")
        expect(page.locator("#whole-said")).to_contain_text("the player above uses it", timeout=60_000)
        page.locator(".said-line").nth(1).locator("span").first.click()
        page.click("#play")
        expect(page.locator("#film")).to_be_visible(timeout=20_000)
        assert "small-film" in page.evaluate("document.querySelector('#film').currentSrc")
        # A browser seeks in it: the server answers with ranges (RFC 9110, section 14, from memory).
        first = page.evaluate(
            """() => fetch('/api/lesson/dorian/small-film', {headers: {Range: 'bytes=4-7'}})
                 .then(async answer => [answer.status, await answer.text()])"""
        )
        assert first == [206, "ftyp"]
        page.click("#play")
        path = studio.place.course / "lessons" / "dorian" / "script.md"
        before = path.read_text("utf-8")
        path.write_text(before.replace("It has", "We hear"), encoding="utf-8")
        page.reload()
        expect(page.locator(".said-line").nth(1)).to_contain_text("We hear", timeout=20_000)
        expect(page.locator("#whole-said")).to_contain_text("before the script")
        path.write_text(before, encoding="utf-8")


def test_a_script_that_cannot_be_read_is_told(context: BrowserContext, tmp_path: Path):
    made = Studio(course_in(tmp_path / "odd", {"dorian": "no front matter"}))
    try:
        browser = context.browser
        assert browser
        with opened(entered(browser, made), made, LESSON) as page:
            expect(page.locator("#told")).to_contain_text("scale", timeout=20_000)
            expect(page.locator("#play")).to_be_disabled()
    finally:
        made.stop()


@pytest.mark.parametrize(("shade", "widths"), VIEWS)
def test_it_is_for_everybody(browser: Browser, studio: Studio, shade: str, widths: tuple[int, ...]):
    for width in widths:
        # The check of axe-core is evaluated in the page, which the studio's policy forbids.
        made = entered(browser, studio, viewport={"width": width, "height": 900}, color_scheme=shade, bypass_csp=True)
        page = made.new_page()
        page.goto(studio.at(LESSON))
        expect(page.locator("#still")).to_be_visible(timeout=20_000)
        found = Axe().run(page)
        assert found.violations_count == 0, found.generate_report()
        magnify(page)
        assert too_wide(page) <= 0
        assert cut_off(page) == []
        made.close()
