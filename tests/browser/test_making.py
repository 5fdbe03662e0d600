"""Making lessons in Chromium: begun, followed, cancelled, watched; and the course, with its queue, check and plan.

Rules for everybody: WCAG 2.2 as axe-core checks it.
"""

from __future__ import annotations

import re
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page, expect

from browser.looking import VIEWS, cut_off, magnify, too_wide
from browser.studios import Studio, entered, opened
from gamutwright.studio import taskrun
from series.courses import course_in, script
from studio.desks import TESTS, own_kinds

FIRST_LOAD_BYTES = 80_000
LONG_MS = 90_000
HOSTILE = "Ionian <img src=x onerror='window.broken=1'>"


def wait_for(page: Page, true: str) -> None:
    """Wait until something is true in a page whose policy forbids the driver's own way of waiting."""
    deadline = time.monotonic() + 30
    while not page.evaluate(true):
        assert time.monotonic() < deadline, true
        page.wait_for_timeout(50)


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Studio]:
    """A studio in whose course one lesson can be made; the tests of this file share what comes of it."""
    folder = tmp_path_factory.mktemp("made")
    course_in(folder, {"dorian": script(), "ionian": script("C D E F G A B", "Ionian on C", 2, "six")})
    running = Studio(folder)
    yield running
    running.stop()


@pytest.fixture(scope="module")
def inside(browser: Browser, made: Studio) -> Iterator[BrowserContext]:
    context = entered(browser, made)
    with opened(context, made, "/lesson/dorian/make") as page:
        expect(page.locator("#state")).to_contain_text("To build")
        expect(page.locator("#result")).to_be_hidden()
        page.focus("#begin")
        page.keyboard.press("Enter")
        expect(page.locator(".task.running")).to_contain_text("left")
        expect(page.locator(".task.running .stages .now")).to_have_count(1)
        expect(page.locator("#begin")).to_be_disabled()
        expect(page.locator("#said")).to_contain_text("checks of the film hold", timeout=LONG_MS)
        expect(page.locator("#state")).to_have_text(re.compile("^Built"))
    yield context
    context.close()


def test_a_lesson_is_made_played_and_told_as_read_back(inside: BrowserContext, made: Studio):
    with opened(inside, made, "/lesson/dorian/make") as page:
        expect(page.locator("#report tr:not(.group)").first).to_be_visible()
        assert page.locator("#report .broken").count() == 0
        expect(page.locator("#report-said")).to_contain_text("checks hold")
        expect(page.locator("#chapters button")).to_have_count(1)
        page.click("#chapters button")
        wait_for(page, "document.querySelector('#film').currentTime > 0.3")
        length = page.evaluate("(film => { film.pause(); return film.duration; })(document.querySelector('#film'))")
        told = page.request.get(made.at("/api/lesson/dorian/made")).json()["about"]["film_s"]
        assert length == pytest.approx(told, abs=0.1)
        # A part in the middle is fetched by its range.
        page.evaluate("film => { film.currentTime = film.duration - 1; }", page.locator("#film").element_handle())
        wait_for(page, "document.querySelector('#film').readyState >= 2")
        wait_for(page, "[...document.querySelector('#film').textTracks].some(t => t.cues && t.cues.length > 1)")
        names = page.locator("#files a").all_text_contents()
        assert {"Film", "Page", "Handout", "Answers", "Captions (SRT)", "Captions (WebVTT)"} <= set(names)


def test_the_page_of_a_lesson_is_looked_at_without_its_scripts(inside: BrowserContext, made: Studio):
    page = inside.new_page()
    page.goto(made.at("/made/dorian/index.html"))
    film = page.locator("video").first
    expect(film).to_be_attached()
    assert page.locator("h1").first.text_content()
    # What a script of the page would do does not happen, and its film is there all the same.
    assert page.evaluate("document.querySelectorAll('script').length") > 0
    wait_for(page, "document.querySelector('video').readyState >= 1")
    page.close()


def test_texts_are_copied(browser: Browser, inside: BrowserContext, made: Studio):
    context = browser.new_context(
        storage_state=inside.storage_state(), permissions=["clipboard-read", "clipboard-write"]
    )
    with opened(context, made, "/lesson/dorian/make") as page:
        page.click("text=Copy: description")
        expect(page.locator("#said")).to_have_text("Copied")
        assert "Every statement was computed" in page.evaluate("navigator.clipboard.readText()")
    context.close()


def test_what_is_not_proved_is_told_with_the_way_to_it(inside: BrowserContext, made: Studio):
    with opened(inside, made, "/lesson/ionian/make") as page:
        expect(page.locator("#state")).to_contain_text("one statement is not proved")
        expect(page.locator("#begin")).to_be_disabled()
        page.click("#faults a")
        page.wait_for_url("**/lesson/ionian#line-*")
        # In its row, with the words selected that are not proved.
        expect(page.locator(".piece.line textarea:focus")).to_have_count(1)
        chosen = "(({value, selectionStart, selectionEnd}) => value.slice(selectionStart, selectionEnd))"
        assert page.evaluate(f"{chosen}(document.activeElement)") == "six"


def test_the_course_shows_states_check_plan_and_pages(inside: BrowserContext, made: Studio):
    with opened(inside, made, "/") as page:
        expect(page.locator("[data-slug=dorian] .state")).to_have_text("built")
        for kind in ("check", "plan"):
            page.click(f"[data-kind={kind}]")
        expect(page.locator("#check-part")).to_be_visible(timeout=LONG_MS)
        expect(page.locator("#checks .broken")).to_have_count(1)
        expect(page.locator("#places tr")).to_have_count(2, timeout=LONG_MS)
        expect(page.locator("#queue .task")).to_have_count(0)
        expect(page.locator("#pages a").first).to_have_text("The course's page")


# --- with tasks of the tests' own ------------------------------------------------------------------------------------


@pytest.fixture
def own(studio: Studio, monkeypatch: pytest.MonkeyPatch) -> Studio:
    """The studio of every test, where a package takes ten minutes, and a plan none at all."""
    monkeypatch.setenv("PYTHONPATH", str(TESTS))
    slow = taskrun.Kind(own_kinds()["slow"].work, is_of_lesson=True)
    monkeypatch.setitem(taskrun.KINDS, "package", slow)
    monkeypatch.setitem(taskrun.KINDS, "check", own_kinds()["quick"])
    monkeypatch.setitem(taskrun.KINDS, "plan", own_kinds()["quick"])
    monkeypatch.setitem(taskrun.KINDS, "report", own_kinds()["refused"])
    monkeypatch.setitem(taskrun.KINDS, "course", own_kinds()["parts"])
    return studio


def test_what_becomes_of_each_lesson_of_a_course_is_told(context: BrowserContext, own: Studio):
    with opened(context, own, "/") as page:
        page.click("[data-kind=course]")
        rows = page.locator("#queue .task .stages li")
        expect(rows).to_have_count(3)
        assert [" ".join(text.split()) for text in rows.all_inner_texts()] == [
            "lessons", "Dorian on D joining 300 of 1,330", "Ionian on C its voice is missing",
        ]  # fmt: skip
        wait_for(page, "(bar => bar.value > 0 && bar.value < 1)(document.querySelector('#queue .task > progress'))")


def queue(page: Page) -> list[str]:
    return page.locator("#queue .task strong").all_text_contents()


def test_the_queue_is_put_in_order_and_cancelled_by_keys(context: BrowserContext, own: Studio):
    with opened(context, own, "/") as page:
        page.click("[data-slug=dorian] .go button")
        expect(page.locator("#queue .task.running")).to_contain_text("min")
        for kind in ("check", "plan", "report"):
            page.click(f"[data-kind={kind}]")
        expect(page.locator("#queue .task")).to_have_count(4)
        assert queue(page) == ["Package: Dorian on D", "Check of the course", "Plan", "Report"]
        page.get_by_role("button", name="To the front: Report").focus()
        page.keyboard.press("Space")
        expect(page.locator("#queue .task").nth(1)).to_contain_text("Report")
        assert queue(page) == ["Package: Dorian on D", "Report", "Check of the course", "Plan"]
        page.get_by_role("button", name="Cancel: Plan").focus()
        page.keyboard.press("Enter")
        expect(page.locator("#queue .task")).to_have_count(3)
        page.get_by_role("button", name="Cancel: Package: Dorian on D").click()
        expect(page.locator("#queue .task")).to_have_count(0)
        page.click("#ended summary")
        expect(page.locator("#ended-list .task")).to_have_count(4)
        expect(page.locator("#ended-list")).to_contain_text("it is no scale of the harbour")
        assert list((own.place.course / "out").glob("*")) == []


def test_a_task_goes_on_in_a_page_that_was_opened_later_and_in_two_tabs(context: BrowserContext, own: Studio):
    with opened(context, own, "/lesson/dorian/make") as first:
        first.click("#begin")
        expect(first.locator(".task.running")).to_be_visible()
        first.reload()
        expect(first.locator(".task.running")).to_be_visible()
        with opened(context, own, "/lesson/dorian/make") as second:
            second.get_by_role("button", name="Cancel: Package").click()
            expect(second.locator(".task.cancelled")).to_be_visible()
        expect(first.locator(".task.cancelled")).to_contain_text("What was finished is kept")
        expect(first.get_by_role("button", name="Go on: Package")).to_be_visible()
        expect(first.locator("#begin")).to_be_enabled()


def test_a_studio_that_is_gone_is_said_and_what_it_was_at_goes_on_by_a_click(context: BrowserContext, own: Studio):
    page = context.new_page()
    page.goto(own.at("/"))
    page.click("[data-slug=dorian] .go button")
    expect(page.locator("#queue .task.running")).to_be_visible()
    own.stop()
    expect(page.locator("#lost")).to_be_visible()
    own.start()
    other = context.new_page()
    other.goto(own.door)
    other.close()
    expect(page.locator("#lost")).to_be_hidden(timeout=15_000)
    expect(page.locator("#queue .task.interrupted")).to_contain_text("The studio was closed")
    page.get_by_role("button", name="Go on: Package: Dorian on D").click()
    expect(page.locator("#queue .task.running")).to_be_visible()
    page.close()


def test_a_course_is_begun_in_the_browser(browser: Browser, tmp_path: Path):
    running = Studio(tmp_path / "evening")
    running.place.course.mkdir()
    context = entered(browser, running)
    try:
        with opened(context, running, "/") as page:
            page.keyboard.press("Tab")
            page.click("text=Begin it")
            expect(page.locator("#begin-said")).to_contain_text("title")
            page.keyboard.type("Scales by the quay")
            page.keyboard.press("Enter")
            expect(page.locator("h1")).to_have_text("Scales by the quay")
            expect(page.locator(".lesson")).to_have_count(2)
            expect(page.locator("[data-kind=draft]")).to_be_visible()
    finally:
        context.close()
        running.stop()


def test_what_lessons_and_tasks_are_called_stays_text(context: BrowserContext, own: Studio):
    path = own.place.course / "lessons" / "dorian" / "script.md"
    path.write_text(script(title=HOSTILE), encoding="utf-8")
    for screen in ("/", "/lesson/dorian/make"):
        with opened(context, own, screen) as page:
            page.click("[data-kind=report]" if screen == "/" else "#begin")
            expect(page.locator(".task").first).to_be_attached()
            page.wait_for_timeout(300)
            assert page.evaluate("window.broken") is None
            assert page.locator("main img").count() == 0


# --- for everybody ---------------------------------------------------------------------------------------------------


def test_the_first_load_is_small(inside: BrowserContext, made: Studio):
    for screen in ("/", "/lesson/dorian/make", "/lesson/ionian/make"):
        page = inside.new_page()
        sizes: list[int] = []
        page.on("response", lambda response, sizes=sizes: sizes.append(_own_bytes(response.url, response.headers)))
        page.goto(made.at(screen))
        expect(page.locator("#pages a, #report tr, #faults li").first).to_be_visible()
        assert 0 < sum(sizes) < FIRST_LOAD_BYTES
        page.close()


def _own_bytes(url: str, headers: dict[str, str]) -> int:
    """What the studio itself weighs: the lesson's own film and still are no part of it, a stream has no length."""
    return 0 if "/made/" in url else int(headers.get("content-length", 0))


@pytest.mark.parametrize(("shade", "widths"), VIEWS)
@pytest.mark.parametrize("screen", ["/", "/lesson/dorian/make", "/lesson/ionian/make"])
def test_every_screen_is_for_everybody(
    browser: Browser, inside: BrowserContext, made: Studio, screen: str, shade: str, widths: tuple[int, ...]
):
    for width in widths:
        # The check of axe-core is evaluated in the page, which the studio's policy forbids.
        context = browser.new_context(
            viewport={"width": width, "height": 900}, color_scheme=shade, storage_state=inside.storage_state(),
            bypass_csp=True, reduced_motion="reduce",
        )  # fmt: skip
        page = context.new_page()
        page.goto(made.at(screen))
        expect(page.locator("#pages a, #report tr, #faults li").first).to_be_visible()
        found = Axe().run(page)
        assert found.violations_count == 0, found.generate_report()
        magnify(page)
        assert too_wide(page) <= 0
        assert [text for text in cut_off(page) if not re.match("<t[dh]", text)] == [], (
            "tables scroll in their own frame"
        )
        context.close()


def test_what_is_under_way_is_for_everybody(browser: Browser, context: BrowserContext, own: Studio):
    for screen in ("/lesson/dorian/make", "/"):
        for width in (360, 1440):
            made = browser.new_context(
                viewport={"width": width, "height": 900}, storage_state=context.storage_state(), bypass_csp=True
            )
            page = made.new_page()
            page.goto(own.at(screen))
            if screen.endswith("make"):
                expect(page.locator("#state")).not_to_have_text("Looking …")
                if page.locator("#begin").is_enabled():
                    page.click("#begin")
            expect(page.locator(".task.running .stages li").first).to_be_visible()
            found = Axe().run(page)
            assert found.violations_count == 0, found.generate_report()
            magnify(page)
            assert too_wide(page) <= 0
            assert cut_off(page) == []
            made.close()
