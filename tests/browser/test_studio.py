"""The studio in Chromium: what is typed is never lost, faults are marked and mended, every screen is for everybody.

Rules for everybody: WCAG 2.2 as axe-core checks it.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, expect

from browser.looking import VIEWS, cut_off, magnify, too_wide
from browser.studios import Studio, entered, on_disk, opened, select
from gamutwright.series.course import begin_course
from series.courses import script

SCREENS = ("/", "/lesson/dorian?view=text")
FIRST_LOAD_BYTES = 80_000


def test_a_fault_is_marked_mended_saved_and_taken_back(context: BrowserContext, studio: Studio):
    with opened(context, studio, "/lesson/dorian?view=text") as page:
        expect(page.locator("#verdict")).to_contain_text("proved")
        select(page, "seven")
        page.keyboard.type("nine")
        expect(page.locator("#faults li")).to_have_count(1)
        expect(page.locator("#faults li")).to_contain_text("“nine”")  # the whole word was checked, not its beginning
        assert page.evaluate("[...CSS.highlights.get('fault')].map(String)") == ["nine"]
        expect(page.locator("#saved")).to_have_text("Saved")
        assert "[nine]" in on_disk(studio)
        page.keyboard.press("Alt+n")
        assert page.evaluate("String(getSelection())") == "nine"
        page.keyboard.press("Alt+m")
        expect(page.locator("#faults li")).to_have_count(0)
        expect(page.locator("#saved")).to_have_text("Saved")
        assert "[seven]" in on_disk(studio)
        page.keyboard.press("Control+z")
        expect(page.locator("#faults li")).to_have_count(1)
        # Its earlier versions are there for whoever comes back after a reload.
        page.reload()
        page.keyboard.press("Alt+h")
        page.locator("#kept button").last.click()
        expect(page.locator("#shown")).to_contain_text("[seven]")
        page.click("#take")
        expect(page.locator("#faults li")).to_have_count(0)


def test_no_character_is_lost_while_marks_come_in(context: BrowserContext, studio: Studio):
    with opened(context, studio, "/lesson/dorian?view=text") as page:
        page.focus("#script")
        page.keyboard.press("Control+End")
        said = "".join(f"Sentence {chr(97 + k % 26)} of the harbour. " for k in range(12)) + "𝄪♯♭"
        page.keyboard.type("\n" + said, delay=4)
        expect(page.locator("#saved")).to_have_text("Saved")
        assert page.input_value("#script").endswith(said)
        assert on_disk(studio).endswith(said)


def test_a_studio_that_is_gone_is_said_and_the_text_saved_when_it_is_back(context: BrowserContext, studio: Studio):
    with opened(context, studio, "/lesson/dorian?view=text") as page:
        studio.stop()
        select(page, "# Steps")
        page.keyboard.type("# Steps by the quay")
        expect(page.locator("#notice")).to_contain_text("does not answer")
        expect(page.locator("#saved")).to_have_text("Not saved")
        assert "quay" in str(page.evaluate("localStorage.getItem('script dorian')"))
        assert "quay" not in on_disk(studio)
        studio.start()
        # The door opens with a new key after a restart: come in again, in another tab.
        other = context.new_page()
        other.goto(studio.door)
        other.close()
        expect(page.locator("#saved")).to_have_text("Saved", timeout=10_000)
        assert "quay" in on_disk(studio)
        expect(page.locator("#notice")).to_be_hidden()


def test_text_that_was_not_saved_is_offered_with_its_date(context: BrowserContext, studio: Studio):
    with opened(context, studio, "/lesson/dorian?view=text") as page:
        page.evaluate(
            """() => {
              const text = document.querySelector('#script').value.replace('# Steps', '# Mine');
              localStorage.setItem('script dorian', JSON.stringify({text, version: '', at: '2026-03-04T18:00:00Z'}));
            }"""
        )
        page.reload()
        expect(page.locator("#notice")).to_contain_text("2026")
        expect(page.locator("#notice")).to_contain_text("line 9")
        assert "# Steps" in page.input_value("#script"), "nothing is restored unasked"
        page.click("text=Take it")
        expect(page.locator("#saved")).to_have_text("Saved")
        assert "# Mine" in on_disk(studio)
        page.keyboard.press("Control+z")
        assert "# Steps" in page.input_value("#script"), "taking it can be taken back"


@pytest.mark.parametrize(("choice", "kept"), [("Keep mine", "Mine"), ("Take theirs", "Theirs")])
def test_two_tabs_do_not_eat_each_other(context: BrowserContext, studio: Studio, choice: str, kept: str):
    with (
        opened(context, studio, "/lesson/dorian?view=text") as mine,
        opened(context, studio, "/lesson/dorian?view=text") as theirs,
    ):
        select(theirs, "Steps")
        theirs.keyboard.type("Theirs")
        expect(theirs.locator("#saved")).to_have_text("Saved")
        select(mine, "Steps")
        mine.keyboard.type("Mine")
        expect(mine.locator("#notice")).to_contain_text("changed elsewhere")
        assert "# Theirs" in on_disk(studio)
        assert "# Mine" in mine.input_value("#script")
        mine.click(f"text={choice}")
        expect(mine.locator("#saved")).to_have_text("Saved")
        assert f"# {kept}" in on_disk(studio)
        assert f"# {kept}" in mine.input_value("#script")


def test_a_lesson_begins_with_a_scale(context: BrowserContext, studio: Studio):
    with opened(context, studio, "/") as page:
        expect(page.locator(".lesson")).to_have_count(2)
        expect(page.locator(".lesson.faults")).to_contain_text("six")
        page.fill("input[name=scale]", "E flat lydian")
        page.fill("input[name=minutes]", "2")
        page.click("text=Draft it")
        page.wait_for_url("**/lesson/e-flat-lydian")
        expect(page.locator("#verdict")).to_contain_text(re.compile("All .* proved"))
    assert "lesson: 3" in on_disk(studio, "e-flat-lydian")


def test_a_scale_that_is_none_is_told_beside_the_field(context: BrowserContext, studio: Studio):
    page = context.new_page()
    page.goto(studio.at("/"))
    page.fill("input[name=scale]", "X y z")
    page.keyboard.press("Enter")
    expect(page.locator("#new-said")).not_to_have_text("Drafting …")
    expect(page.locator("#new-said")).to_contain_text("X")
    assert page.evaluate("document.activeElement.name") == "scale"
    page.close()


def test_what_a_script_says_stays_text(context: BrowserContext, studio: Studio):
    hostile = "</textarea><script>window.broken = 1</script><img src=x onerror='window.broken = 1'>"
    path = studio.place.course / "lessons" / "dorian" / "script.md"
    path.write_text(script(title=hostile) + f"\n{hostile} [nine]{{fact=cardinality}}\n", encoding="utf-8")
    for screen in SCREENS:
        with opened(context, studio, screen) as page:
            page.wait_for_timeout(300)
            assert page.evaluate("window.broken") is None
            assert page.locator("img").count() == 0


def test_the_first_load_is_small(context: BrowserContext, studio: Studio):
    for screen in SCREENS:
        page = context.new_page()
        sizes: list[int] = []
        # The stream of events has no length and no end.
        page.on("response", lambda answer, sizes=sizes: sizes.append(int(answer.headers.get("content-length", 0))))
        page.goto(studio.at(screen), wait_until="load")
        page.wait_for_timeout(1000)
        assert 0 < sum(sizes) < FIRST_LOAD_BYTES
        page.close()


def test_lessons_of_a_language_stand_together(context: BrowserContext, studio: Studio):
    with opened(context, studio, "/") as page:
        expect(page.get_by_role("heading", name="English")).to_have_count(0)
        path = studio.place.course / "lessons" / "ionian" / "script.md"
        path.write_text(path.read_text("utf-8").replace("language: en", "language: de"), encoding="utf-8")
        page.reload()
        for name, slug in (("English", "dorian"), ("Deutsch", "ionian")):
            links = page.get_by_role("list", name=name).get_by_role("link", name=re.compile("on [CD]$"))
            expect(links.first).to_have_attribute("href", f"/lesson/{slug}")
            expect(links.first).to_have_attribute("lang", {"English": "en", "Deutsch": "de"}[name])


@pytest.mark.parametrize(("shade", "widths"), VIEWS)
@pytest.mark.parametrize("screen", SCREENS)
def test_every_screen_is_for_everybody(
    browser: Browser, context: BrowserContext, studio: Studio, screen: str, shade: str, widths: tuple[int, ...]
):
    for width in widths:
        # The check of axe-core is evaluated in the page, which the studio's policy forbids.
        made = browser.new_context(
            viewport={"width": width, "height": 900},
            color_scheme=shade,
            storage_state=context.storage_state(),
            bypass_csp=True,
        )
        page = made.new_page()
        page.goto(studio.at(screen))
        if "lesson" in screen:
            select(page, "seven")
            page.keyboard.type("nine")
            expect(page.locator("#faults li")).to_have_count(1)
        found = Axe().run(page)
        assert found.violations_count == 0, found.generate_report()
        magnify(page)
        assert too_wide(page) <= 0
        assert cut_off(page) == []
        made.close()


def test_the_studio_speaks_the_language_of_its_course(browser: Browser, tmp_path: Path):
    """A course in German: its pages, what their modules say, what is refused; without a course, the browser's."""
    studio = Studio(tmp_path)
    try:
        with entered(browser, studio, locale="de-AT") as context:
            with opened(context, studio, "/") as page:
                expect(page.locator("h1")).to_have_text("Ein neuer Kurs")
                page.click("#begin button")
                expect(page.locator("#begin-said")).to_have_text("Ein Kurs hat einen Titel. Schreiben Sie einen.")
            begin_course(tmp_path, "Am Kai", "de")
            script = tmp_path / "lessons" / "kai" / "script.md"
            script.parent.mkdir(parents=True)
            script.write_text(
                "---\nscale: D dorian\nlanguage: de\n---\n# Eins\nSie hat [neun]{fact=cardinality} Töne.\n", "utf-8"
            )
            with opened(context, studio, "/lesson/kai") as page:
                expect(page.locator("#verdict")).to_contain_text("Eines ist nicht bewiesen")
                expect(page.locator("#faults")).to_contain_text("Hier steht neun")
                expect(page.locator("html")).to_have_attribute("lang", "de")
                page.get_by_role("link", name="Sprechen").click()
                expect(page.locator("#totals")).to_contain_text("0 von 1 Zeilen aufgenommen")
            with opened(context, studio, "/explore?scale=D+dorian") as page:
                expect(page.locator("#said")).to_contain_text("7 Töne")
                expect(page.locator("#facts")).to_contain_text("Halbtonschritte")
                page.fill("#text", "Quark")
                page.click("#ask button")
                expect(page.locator("#said")).to_contain_text("keine Tonleiter, die wir kennen, heißt so")
    finally:
        studio.stop()
