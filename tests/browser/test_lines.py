"""Writing line by line in Chromium: rows are pieces of one text, which is saved, checked and taken back as one.

Rules for everybody: WCAG 2.2 as axe-core checks it.
"""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page, expect

from browser.looking import VIEWS, cut_off, magnify, too_wide
from browser.studios import Studio, entered, on_disk, opened
from gamutwright.lessons.claims import check
from gamutwright.lessons.parse import parse

LESSON = "/lesson/dorian"
FIELDS = ".piece.line textarea"


def ready(page: Page) -> None:
    expect(page.locator(FIELDS)).to_have_count(2)


def saved(page: Page) -> None:
    expect(page.locator("#saved")).to_have_text("Saved")


def test_rows_are_the_lines_of_the_script(context: BrowserContext, studio: Studio):
    with opened(context, studio, LESSON) as page:
        ready(page)
        shown = page.locator(FIELDS).evaluate_all("fields => fields.map(field => field.value)")
        source = on_disk(studio)
        lines = parse(source).lines
        # A row is the source of a line without its lasting id.
        assert [text in source for text in shown] == [True, True]
        assert [text.count("{#") for text in shown] == [0, 0]
        assert shown[1] == "It has [seven]{fact=cardinality} tones."
        assert [f"{{#{line.id}}}" in source for line in lines] == [True, True]


def test_a_fault_is_told_under_its_line_and_mended_there(context: BrowserContext, studio: Studio):
    with opened(context, studio, LESSON) as page:
        ready(page)
        field = page.locator(FIELDS).nth(1)
        field.fill("It has [nine]{fact=cardinality} tones.")
        wrong = page.locator(".piece.faulty .wrong li")
        expect(wrong).to_have_count(1)
        assert page.evaluate("[...CSS.highlights.get('fault')].map(String)") == ["nine"]
        described = field.get_attribute("aria-describedby")
        expect(page.locator(f"#{described}")).to_contain_text("seven")
        wrong.locator("button").click()
        expect(wrong).to_have_count(0)
        saved(page)
        assert "It has [seven]{fact=cardinality} tones. {#tones}" in on_disk(studio)


@pytest.mark.parametrize(
    ("before", "after", "told"),
    [
        ("It has [seven]{fact=cardinality} tones.", "It has [seven tones.", "never closed"),
        ("scale: D E F G A B C", "scale: D E F X", "It cannot be read"),
    ],
    ids=["a bracket", "the scale"],
)
def test_lines_stay_in_view_while_the_script_cannot_be_read(
    context: BrowserContext, studio: Studio, before: str, after: str, told: str
):
    with opened(context, studio, LESSON) as page:
        ready(page)
        page.locator("summary", has_text="About the lesson").click()
        field = page.locator(FIELDS).nth(1) if "tones" in before else page.locator(".piece.front textarea")
        chips = page.locator(".chip")
        page.locator(FIELDS).nth(0).fill("Listen from the quay. {play=scale}")
        expect(chips).to_have_count(1)
        field.fill(field.input_value().replace(before, after))
        expect(page.locator("#verdict")).to_contain_text("cannot be read")
        expect(chips).to_have_count(1)
        page.click("h1")
        page.wait_for_timeout(400)
        ready(page)
        expect(page.locator("body")).to_contain_text(told)
        saved(page)
        page.reload()
        ready(page)
        expect(page.locator("#verdict")).to_contain_text("cannot be read")
        page.locator("summary", has_text="About the lesson").click()
        field.fill(field.input_value().replace(after, before))
        page.click("h1")
        expect(page.locator("#verdict")).to_have_text("The one statement is proved.")
        saved(page)
        assert "It has [seven]{fact=cardinality} tones. {#tones}" in on_disk(studio)


def test_markup_is_fainter_than_what_is_said(context: BrowserContext, studio: Studio):
    faint = "[...CSS.highlights.get('markup')].map(String)"
    with opened(context, studio, LESSON) as page:
        ready(page)
        assert page.evaluate(faint) == ["[", "]{define=cardinality}", "[", "]{fact=cardinality}"]
        field = page.locator(FIELDS).nth(1)
        # At once, and not only once the check has come; the letters are those of the layer behind the field.
        assert page.evaluate(
            f"""() => {{ const field = document.querySelectorAll('{FIELDS}')[1];
                 field.value = 'Hear [it]{{fact=cardinality}}. {{play=scale}} [aside]';
                 field.dispatchEvent(new Event('input')); return {faint}; }}"""
        ) == ["[", "]{define=cardinality}", "[", "]{fact=cardinality}", "{play=scale}"]
        letters = "(field) => [field, field.previousElementSibling].map(one => getComputedStyle(one).color)"
        assert field.evaluate(letters) == ["rgba(0, 0, 0, 0)", page.evaluate("getComputedStyle(document.body).color")]
        field.fill("")
        page.keyboard.press("Backspace")
        expect(page.locator(FIELDS)).to_have_count(1)
        assert page.evaluate(faint) == ["[", "]{define=cardinality}"]


def test_lines_are_added_taken_away_and_everything_is_taken_back(context: BrowserContext, studio: Studio):
    before = on_disk(studio)
    with opened(context, studio, LESSON) as page:
        ready(page)
        page.locator(FIELDS).nth(0).click()
        page.keyboard.press("End")
        page.keyboard.press("Enter")
        page.keyboard.type("Hear the bell 𝄪 of the quay.", delay=5)
        saved(page)
        text = on_disk(studio)
        assert [line.text[:12] for line in parse(text).lines] == ["We count the", "Hear the bel", "It has seven"]
        assert "{#count}\nHear the bell 𝄪 of the quay.\nIt has" in text
        page.keyboard.press("Enter")
        page.keyboard.press("Enter")
        page.keyboard.type("Another passage.", delay=5)
        saved(page)
        assert [len(passage.lines) for passage in parse(on_disk(studio)).passages] == [2, 2]
        # An empty line goes with Backspace, and its lasting id with it.
        last = page.locator(FIELDS).nth(3)
        last.fill("")
        last.press("Backspace")
        expect(page.locator(FIELDS)).to_have_count(3)
        saved(page)
        assert "{#tones}" not in on_disk(studio)
        for _ in range(60):
            if page.locator("#undo").is_disabled():
                break
            page.click("#undo")
        saved(page)
        assert on_disk(studio) == before
        page.click("#redo")
        saved(page)
        assert on_disk(studio) != before


def test_every_key_of_fast_typing_arrives_while_marks_come_in(context: BrowserContext, studio: Studio):
    said = "".join(f"Line {chr(97 + k % 26)} of the harbour, " for k in range(12)) + "𝄪♯♭."
    with opened(context, studio, LESSON) as page:
        ready(page)
        page.locator(FIELDS).nth(1).click()
        page.keyboard.press("Control+End")
        page.keyboard.type(f" {said}", delay=3)
        # Leaving the row parts what has become two lines.
        page.keyboard.press("Shift+Tab")
        expect(page.locator(FIELDS)).to_have_count(3)
        saved(page)
        assert said in on_disk(studio)


def test_a_fact_is_said_and_a_cue_is_put_and_both_check_clean(context: BrowserContext, studio: Studio):
    with opened(context, studio, LESSON) as page:
        ready(page)
        page.locator(FIELDS).nth(1).click()
        page.keyboard.press("Alt+f")
        page.fill("#sift", "semitone steps")
        page.locator("[aria-label='Say it: Semitone steps']").click()
        expect(page.locator(FIELDS)).to_have_count(3)
        expect(page.locator("#verdict")).to_contain_text("All")
        expect(page.locator(".chip", has_text="shows ladder")).to_be_visible()
        page.locator(FIELDS).nth(2).press("Control+End")
        page.locator("#cue").select_option("{pause=1}")
        expect(page.locator(".chip", has_text="rests 1 s")).to_be_visible()
        saved(page)
        report = check(parse(on_disk(studio)))
        assert not report.faults
        assert any(claim.fact_id == "semitone_steps" for claim in report.claims)


def test_a_chip_plays_its_line(context: BrowserContext, studio: Studio):
    path = studio.place.course / "lessons" / "dorian" / "script.md"
    path.write_text(on_disk(studio).replace("fact=cardinality}", "fact=cardinality show=clock}"), encoding="utf-8")
    with opened(context, studio, LESSON) as page:
        ready(page)
        page.locator(".chip").click()
        expect(page.locator("#glance")).to_be_visible()
        for _ in range(200):
            if page.evaluate("document.querySelector('#glance-film').currentTime") > 0.2:
                break
            page.wait_for_timeout(100)
        else:
            pytest.fail("the line is not heard")
        page.keyboard.press("Escape")
        expect(page.locator("#glance")).to_be_hidden()
        assert page.evaluate("document.querySelector('#glance-film').paused")


def test_the_pace_is_told(context: BrowserContext, studio: Studio):
    with opened(context, studio, LESSON) as page:
        ready(page)
        page.locator("#pace summary").first.click()
        # BBC Subtitle Guidelines 1.2.3, section 4.1, is the source of the figure beside the rate.
        expect(page.locator("#pace dl > div").first).to_have_attribute(
            "title", "BBC Subtitle Guidelines 1.2.3, section 4.1: 160 to 180 words a minute"
        )


def test_two_ways_of_writing_are_one_text(context: BrowserContext, studio: Studio):
    with opened(context, studio, LESSON) as page:
        ready(page)
        page.locator(FIELDS).nth(1).fill("It has [seven]{fact=cardinality} tones by the quay.")
        page.click("text=Whole text")
        assert "tones by the quay. {#tones}" in page.input_value("#script")
        saved(page)
        page.reload()
        expect(page.locator("#script")).to_be_visible()
        page.click("text=Line by line")
        expect(page.locator(FIELDS).nth(1)).to_have_value("It has [seven]{fact=cardinality} tones by the quay.")


@pytest.mark.parametrize(("shade", "widths"), VIEWS)
def test_it_is_for_everybody(browser: Browser, studio: Studio, shade: str, widths: tuple[int, ...]):
    for width in widths:
        # The check of axe-core is evaluated in the page, which the studio's policy forbids.
        made = entered(browser, studio, viewport={"width": width, "height": 900}, color_scheme=shade, bypass_csp=True)
        page = made.new_page()
        page.goto(studio.at(LESSON))
        ready(page)
        page.locator(FIELDS).nth(1).fill("It has [nine]{fact=cardinality show=clock} tones.")
        expect(page.locator(".wrong li")).to_have_count(1)
        page.click("#offer summary")
        expect(page.locator("#offered li").first).to_be_visible()
        found = Axe().run(page)
        assert found.violations_count == 0, found.generate_report()
        magnify(page)
        assert too_wide(page) <= 0
        assert cut_off(page) == []
        made.close()
