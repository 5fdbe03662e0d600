"""A course's site and its state as they are opened: from the disk, by keyboard, found by any way of saying a tone."""

from __future__ import annotations

import dataclasses
import itertools
import re
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page
from pypdf import PdfReader

from browser.looking import cut_off, focused, too_wide
from gamutwright.publish.site.course_site import Card, Site, site_files
from gamutwright.publish.site.state_page import state_page
from publish.courses import ADDRESS, GERMAN, NINETEEN, cards, course, report
from publish.test_site import HOSTILE, hostile
from thinning import thinned

SITES = {
    "course": course(40, more=(GERMAN, NINETEEN)),
    "kurs": course(3, "de", more=(GERMAN,)),
    "hostile": Site(HOSTILE[0], "en", HOSTILE[3], ADDRESS, tuple(hostile(place) for place in range(5))),
}
STATES = {"state": (report(24), "en"), "stand": (report(60), "de"), "nothing": ({}, "en")}


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    at = tmp_path_factory.mktemp("sites")
    for name, site in SITES.items():
        for file, content in site_files(site).items():
            (at / name).mkdir(exist_ok=True)
            (at / name / file).write_bytes(content)
    for name, (state, language) in STATES.items():
        (at / name).mkdir()
        (at / name / "index.html").write_text(state_page(state, language), encoding="utf-8")
    return at


def opened(page: Page, folder: Path, name: str = "course", width: int = 1440, scheme: str = "light") -> Page:
    page.set_viewport_size({"width": width, "height": 900})
    page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
    page.goto((folder / name / "index.html").as_uri())
    return page


def shown(page: Page) -> list[str]:
    return page.evaluate(
        """() => [...document.querySelectorAll('.card')].filter(el => !el.hidden).map(
             el => decodeURIComponent(el.querySelector('a').getAttribute('href')).replace('/index.html', ''))"""
    )


@pytest.mark.parametrize(
    ("name", "width", "scheme"),
    thinned(itertools.product(["course", "kurs", "hostile", *STATES], (360, 1440), ("light", "dark")), 0.13),
)
def test_no_barrier_is_found(page: Page, folder: Path, name: str, width: int, scheme: str):
    """axe-core's rules for WCAG 2.2 A and AA, and its own good practice."""
    opened(page, folder, name, width, scheme)
    page.evaluate("document.querySelectorAll('details').forEach(part => { part.open = true; })")
    if name == "course":
        page.fill("#query", "blues")
    found = Axe().run(page).response
    assert [(bad["id"], bad["nodes"][0]["html"]) for bad in found["violations"]] == []
    assert too_wide(page) == 0
    assert len(found["passes"]) > 15


@pytest.mark.parametrize(
    ("name", "size"), thinned(itertools.product(["course", "kurs", "hostile", *STATES], [1.0, 2.0]), 0.5)
)
def test_nothing_is_cut_off_on_a_phone(page: Page, folder: Path, name: str, size: float):
    """WCAG 2.2, 1.4.4 and 1.4.10: 200 % text, and reflow at 320 CSS pixels."""
    opened(page, folder, name, 320 if size == 1 else 360)
    page.evaluate("document.querySelectorAll('details').forEach(part => { part.open = true; })")
    page.evaluate(f"document.documentElement.style.fontSize = '{17 * size}px'")
    assert too_wide(page) == 0
    assert cut_off(page) == []


@pytest.mark.parametrize("name", ["course", "state"])
def test_targets_are_large_enough(page: Page, folder: Path, name: str):
    """WCAG 2.2, 2.5.8: 24 by 24 CSS pixels, or as far from the next; links inside sentences are excepted."""
    opened(page, folder, name, 360)
    small = page.evaluate(
        """() => [...document.querySelectorAll('button, select, input, summary, h3 a, .keyed label')].filter(el => {
             const box = el.getBoundingClientRect();
             return box.width && !el.closest('label input') && (box.width < 20 || box.height < 24);
           }).map(el => [el.tagName, el.id, el.getBoundingClientRect().height])"""
    )
    assert [found for found in small if found[1] != "slash"] == []


def having_tone(tone: str, german: str) -> set[str]:
    """A slow definition apart: the lessons among whose printed tones this one stands."""
    return {
        card.slug
        for card in SITES["course"].cards
        if (german if card.language == "de" else tone) in card.tones
    }  # fmt: skip


def test_a_tone_is_found_however_it_is_said(page: Page, folder: Path):
    opened(page, folder)
    for tone, german, ways in (
        ("F♯", "Fis", ("F sharp", "f  SHARP", "fis", "F#", "f♯", "F-sharp")),
        ("E♭", "Es", ("E flat", "e♭", "Eb", "EB")),
        ("C♯", "Cis", ("C sharp", "cis", "Cis", "c#")),
    ):
        want = having_tone(tone, german)
        assert want
        for typed in ways:
            page.fill("#query", typed)
            assert set(shown(page)) == want, typed


def test_words_are_found_wherever_they_stand(page: Page, folder: Path):
    cards_ = SITES["course"].cards
    opened(page, folder)
    for typed, is_meant in (
        ("PENTATONIC", lambda card: "pentatonic" in card.title),
        ("pent", lambda card: "pentatonic" in card.title),
        ("übermäßige sekunde", lambda card: card is GERMAN),
        ("ubermassige", lambda card: card is GERMAN),
        ("strictly proper", lambda card: ("Propriety", "strictly proper") in card.facts),
        ("proper strictly", lambda card: ("Propriety", "strictly proper") in card.facts),
        ("0.93", lambda card: ("Evenness", "0.93") in card.facts),
        ("pentatonic c#", lambda card: "pentatonic" in card.title and "C♯" in card.tones),
        ("901", lambda card: card.number == 901),
        ("zzz", lambda card: False),
        ("  ", lambda card: True),
        ("...", lambda card: True),
        ("<script>", lambda card: False),
        (".*", lambda card: True),
    ):
        page.fill("#query", typed)
        want = [card.slug for card in cards_ if is_meant(card)]
        assert shown(page) == want, typed
        said = page.inner_text("#count")
        assert said == (f"All {len(cards_)} lessons" if len(want) == len(cards_) else f"{len(want)} of 42 lessons")
        assert page.is_visible("#nothing") == (not want), typed


def test_lists_filter_with_the_words(page: Page, folder: Path):
    opened(page, folder)
    page.select_option("#level", "further")
    page.select_option("#tones", "7")
    want = [c.slug for c in SITES["course"].cards if c.level == "further" and len(c.steps_up) == 7]
    assert shown(page) == want
    page.select_option("#language", "de")
    assert shown(page) == [GERMAN.slug]
    page.fill("#query", "blues")
    assert shown(page) == []
    assert "choose" in page.inner_text("#nothing")
    page.click("#reset")
    assert len(shown(page)) == len(SITES["course"].cards)
    assert focused(page) == "query"
    assert not page.is_visible("#reset")
    assert page.locator("#language option").all_inner_texts() == ["all", "German (1)", "English (41)"]


def test_a_search_can_be_passed_on(page: Page, folder: Path):
    opened(page, folder)
    page.fill("#query", "F# & <b>%")
    page.select_option("#level", "research")
    url = page.url
    page.goto("about:blank")
    page.goto(url)
    assert page.input_value("#query") == "F# & <b>%"
    assert page.input_value("#level") == "research"
    page.goto(url.partition("#")[0] + "#q=pentatonic&level=none-such")
    page.wait_for_function("document.getElementById('query').value === 'pentatonic'")
    assert page.input_value("#level") == ""
    assert {*shown(page)} == {card.slug for card in SITES["course"].cards if "pentatonic" in card.title}
    page.fill("#query", "")
    assert page.url.endswith("#")


def test_keys_lead_and_clear(page: Page, folder: Path):
    """WCAG 2.2, 2.1.4: a key of one sign can be switched off; it stays so."""
    opened(page, folder)
    page.keyboard.press("/")
    assert focused(page) == "query"
    page.keyboard.type("1/2")
    assert page.input_value("#query") == "1/2"
    page.keyboard.press("Escape")
    assert page.input_value("#query") == ""
    assert page.inner_text("#count").startswith("All")
    page.focus("#slash")
    page.keyboard.press("Space")
    page.keyboard.press("/")
    assert focused(page) == "slash"
    page.reload()
    page.keyboard.press("/")
    assert focused(page) != "query"
    assert not page.is_checked("#slash")


def test_keys_walk_to_everything(page: Page, folder: Path):
    opened(page, folder)
    page.keyboard.press("Tab")
    assert focused(page) == "skip"
    page.keyboard.press("Enter")
    page.wait_for_function("document.activeElement.id === 'lessons'")
    page.evaluate("document.activeElement.blur()")
    opened(page, folder, "course")
    stops = []
    for _ in range(9):
        page.keyboard.press("Tab")
        stops.append(page.evaluate("document.activeElement.id || document.activeElement.tagName"))
        assert page.evaluate("getComputedStyle(document.activeElement).outlineStyle") == "solid" or stops[-1] == "A"
    assert stops[1:] == ["theme", "query", "level", "language", "tones", "slash", "A", "SUMMARY"]
    page.keyboard.press("Enter")
    assert page.locator("details[open]").count() == 1


def test_what_is_found_in_a_fact_is_shown(page: Page, folder: Path):
    opened(page, folder)
    page.fill("#query", "pentatonic strictly")
    found = shown(page)
    assert 0 < len(found) <= 12
    assert page.locator("details[open]").count() == len(found)
    assert set(page.locator(".hit dt").all_inner_texts()) == {"Propriety"}
    page.fill("#query", "")
    assert page.locator("details[open]").count() == 0


def test_the_count_is_announced(page: Page, folder: Path):
    opened(page, folder)
    assert page.get_by_role("status").inner_text() == "All 42 lessons"
    for landmark in ("banner", "main", "contentinfo", "search"):
        assert page.get_by_role(landmark).count() == 1
    assert page.get_by_role("searchbox", name="Search").count() == 1
    assert page.get_by_role("listitem").filter(has=page.get_by_role("heading")).count() == 42


def test_names_stay_names(page: Page, folder: Path):
    dialogs: list[str] = []
    page.on("dialog", lambda dialog: (dialogs.append(dialog.message), dialog.dismiss()))
    opened(page, folder, "hostile", 360)
    page.fill("#query", "script")
    assert page.inner_text("h1") == HOSTILE[0]
    assert page.locator(".card:not([hidden])").count() == 1
    assert page.locator("img").count() == 0
    assert dialogs == []


def test_nothing_leaves_the_disk(page: Page, folder: Path):
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    for name in ("course", "state"):
        opened(page, folder, name)
    page.wait_for_timeout(300)
    assert {Path(url).name for url in asked if url.startswith("file:")} == {"index.html"}
    assert {url.partition(":")[0] for url in asked} <= {"file", "data"}


def test_without_scripts_all_lessons_stand_there(browser: Browser, folder: Path):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((folder / "course" / "index.html").as_uri())
    assert page.locator(".card").count() == 42
    assert page.locator(".card").last.is_visible()
    assert not page.is_visible("#query")
    assert not page.is_visible("#theme")
    context.close()


@pytest.mark.parametrize("name", ["course", "state"])
def test_paper_has_ink_and_no_controls(page: Page, folder: Path, tmp_path: Path, name: str):
    opened(page, folder, name, scheme="dark")
    page.emulate_media(media="print")
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"
    assert not page.is_visible("#theme")
    page.pdf(path=str(tmp_path / "page.pdf"), format="A4")
    text = " ".join(part.extract_text() for part in PdfReader(tmp_path / "page.pdf").pages)
    assert "Search" not in text
    want = [card.title for card in (SITES["course"].cards if name == "course" else cards(24))]
    plain = re.sub(r"\W+", "", text)
    assert all(re.sub(r"\W+", "", title.replace("♯", "").replace("♭", "")) in plain for title in want[-3:])


def test_rows_of_the_state_are_reached(page: Page, folder: Path):
    opened(page, folder, "state", 360)
    page.click("#next .which a >> nth=0")
    row = page.evaluate("location.hash.slice(1)")
    assert page.locator(f"#{row}").evaluate("el => el.getBoundingClientRect().top") < 900
    assert page.get_by_role("row").count() == 24 + 3 + 2
    assert page.get_by_role("columnheader").count() == 5 + 3


def test_figures_stay_in_one_line(page: Page, folder: Path):
    opened(page, folder, "state", 360)
    heights = page.evaluate("[...document.querySelectorAll('.totals dd')].map(el => el.getClientRects()[0].height)")
    assert len(heights) == len(report(24)["totals"])
    assert max(heights) < 40


def test_lessons_without_facts_can_be_searched(page: Page, tmp_path: Path):
    bare: tuple[Card, ...] = tuple(dataclasses.replace(card, facts=(), names=()) for card in cards(3))
    (tmp_path / "bare").mkdir()
    files = site_files(Site("Bare", "en", "", "", bare))
    (tmp_path / "bare" / "index.html").write_bytes(files["index.html"])
    opened(page, tmp_path, "bare")
    page.fill("#query", "steps")
    assert len(shown(page)) == 3
