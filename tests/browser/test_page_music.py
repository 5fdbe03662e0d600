"""Music on the page as a learner plays it: in tune, in the bars that were chosen, with parts muted, by keyboard."""

from __future__ import annotations

import itertools
import json
from pathlib import Path

import numpy as np
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from browser.looking import cut_off, focused, too_wide
from browser.test_page import LESSONS, OFFLINE, PATIENT, RATE, cents, pitch_hz, samples
from gamutwright.publish.page.document import Media
from gamutwright.publish.page.document import page as page_text
from publish.lessons import lesson
from thinning import usually

KEPT = "lesson-ear-"


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    at = tmp_path_factory.mktemp("music")
    for name, key in LESSONS.items():
        (at / f"{name}.html").write_text(page_text(lesson(*key), media=Media()).html, encoding="utf-8")
    return at


def opened(page: Page, folder: Path, name: str = "acoustic", width: int = 1440, scheme: str = "light") -> Page:
    page.set_viewport_size({"width": width, "height": 900})
    page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
    page.goto((folder / f"{name}.html").as_uri())
    return page


def rows(page: Page, kind: str) -> dict:
    return json.loads(page.inner_text("#data") or page.evaluate("document.getElementById('data').textContent"))[
        "pieces"
    ][kind]


def heard_cents(page: Page, sound: np.ndarray, kind: str, *, first: int = 0, ratio: float = 1.0) -> list[float]:
    """Measure the notes of a tune whose middle is heard within what was rendered."""
    piece = rows(page, kind)
    unit = 60 / (int(page.input_value("#tempo")) * piece["beat"])
    found = []
    for start, length, freq, _, _ in piece["notes"]:
        begin, end = ((tick - first * piece["bar"]) * unit for tick in (start, start + length))
        if begin < 0 or end * RATE > len(sound) - RATE // 2 or end - begin < 0.25:
            continue
        stretch = sound[int((begin + 0.08) * RATE) : int((end - 0.08) * RATE)]
        found.append(cents(pitch_hz(stretch), freq * ratio))
    return found


def choose(page: Page, kind: str, **fields: str) -> None:
    page.select_option("#piece", kind)
    for field, value in fields.items():
        page.fill(f"#{field.replace('_', '-')}", value)
        page.dispatch_event(f"#{field.replace('_', '-')}", "change")


@pytest.mark.parametrize("name", ["acoustic", "nineteen"])
def test_a_tune_sounds_in_the_tuning_of_the_lesson(page: Page, folder: Path, name: str):
    page.add_init_script(OFFLINE + PATIENT)
    opened(page, folder, name)
    page.click("#music-play")
    off = heard_cents(page, samples(page), "tune")
    assert len(off) > 5
    assert max(off) < 8


def test_it_is_transposed_by_steps(page: Page, folder: Path):
    """Three semitones up: a ratio of 2**(3/12)."""
    page.add_init_script(OFFLINE + PATIENT)
    opened(page, folder)
    page.select_option("#height", "3")
    page.click("#music-play")
    assert max(heard_cents(page, samples(page), "tune", ratio=2 ** (3 / 12))) < 8


def test_bars_are_chosen_and_looped(page: Page, folder: Path):
    page.add_init_script(OFFLINE + PATIENT)
    opened(page, folder)
    choose(page, "tune", bar_from="3", bar_to="3")
    page.click("#music-play")
    sound = samples(page)
    piece = rows(page, "tune")
    bar_s = piece["bar"] * 60 / (piece["tempo"] * piece["beat"])
    off = heard_cents(page, sound[: int((bar_s + 0.5) * RATE)], "tune", first=2)
    assert off
    assert max(off) < 8
    assert np.abs(sound[int((bar_s + 0.3) * RATE) :]).max() < 1e-3, "nothing sounds behind the bar"
    page.reload()
    page.check("#loop")
    choose(page, "tune", bar_from="2", bar_to="9")
    assert (page.input_value("#bar-from"), page.input_value("#bar-to")) == ("2", "4")
    choose(page, "tune", bar_from="4", bar_to="2")
    assert page.input_value("#bar-to") == "4"


def test_a_loop_begins_again(page: Page, folder: Path):
    page.add_init_script("{ const soon = setTimeout; window.setTimeout = (what, ms) => soon(what, ms / 40); }")
    opened(page, folder)
    page.check("#loop")
    choose(page, "tune", bar_from="1", bar_to="1")
    page.evaluate(
        """() => { window.begun = 0;
        const before = AudioContext.prototype.createOscillator;
        AudioContext.prototype.createOscillator = function () { window.begun += 1; return before.call(this); }; }"""
    )
    page.click("#music-play")
    first = page.evaluate("window.begun")
    assert first > 0
    for _ in range(500):
        if page.evaluate("window.begun") >= 2 * first:
            break
        page.wait_for_timeout(20)
    else:
        pytest.fail("it did not begin again")
    page.click("#music-play")
    assert page.inner_text("#music-play") == "Play"


def test_a_part_that_is_muted_is_silent(page: Page, folder: Path):
    page.add_init_script(OFFLINE + PATIENT)
    opened(page, folder)
    page.select_option("#piece", "vamp")
    shown = [part for part in ("tune", "chord", "bass", "drum") if page.is_visible(f"[data-part={part}]")]
    assert shown == ["chord", "bass", "drum"]
    for part in shown:
        page.uncheck(f"#music input[value={part}]")
    page.click("#music-play")
    assert np.abs(samples(page)[RATE:]).max() < 1e-3


def test_staff_ladder_and_keyboard_light_the_same_tone(page: Page, folder: Path):
    """Letters of G A B C♯ D E F stand a half space apart; the ring is on the head of the note that sounds."""
    page.add_init_script(PATIENT)
    opened(page, folder)
    page.click("#music-play")
    page.wait_for_selector(".at-note", state="attached")
    piece = rows(page, "tune")
    places = {(x, y): step for _, _, step, x, y in piece["lit"]}
    x, y = (float(page.get_attribute(".at-note", name)) for name in ("cx", "cy"))
    step = places[x, y]
    lit = page.evaluate("[...document.querySelectorAll('.sounding')].map(el => el.id)")
    assert f"rung{step % 12}" in lit or f"rung{step}" in lit
    assert any(name.startswith("key") and (int(name[3:]) - step) % 12 == 0 for name in lit)
    page.click("#music-play")
    assert page.locator(".at-note").count() == 0
    assert page.locator(".sounding").count() == 0


def test_everything_is_done_by_keyboard(page: Page, folder: Path):
    opened(page, folder)
    page.focus("#piece")
    page.keyboard.press("ArrowDown")
    assert page.input_value("#piece") == "tune-over-vamp"
    page.keyboard.press("Tab")
    assert focused(page) == "music-play"
    page.keyboard.press("Enter")
    assert page.get_attribute("#music-play", "aria-pressed") == "true"
    page.keyboard.press("Space")
    assert page.get_attribute("#music-play", "aria-pressed") == "false"
    page.focus("#tempo")
    before = int(page.input_value("#tempo"))
    page.keyboard.press("ArrowRight")
    assert page.get_attribute("#tempo", "aria-valuetext") == f"{before + 1} beats a minute"


def test_the_ear_is_asked_explained_and_counted(page: Page, folder: Path):
    opened(page, folder)
    drill = "#ear .drill:not([hidden])"
    assert page.inner_text("#ear-score") == ""
    page.focus(f"{drill} .choice[data-right]")
    page.keyboard.press("Enter")
    assert page.inner_text(f"{drill} .told:not([hidden])").startswith("Right.")
    assert page.inner_text("#ear-score") == "1 of 1 right so far."
    page.click(f"{drill} .choice:not([data-right]) >> nth=0")
    assert page.inner_text("#ear-score") == "1 of 1 right so far.", "the first answer counts"
    asked = page.inner_text(f"{drill} h3")
    page.click("#ear-next")
    assert page.inner_text(f"{drill} h3") != asked
    assert page.evaluate("document.activeElement.tagName") == "H3"
    page.click(f"{drill} .choice:not([data-right]) >> nth=0")
    assert page.inner_text("#ear-score") == "1 of 2 right so far."
    page.reload()
    assert page.inner_text("#ear-score") == "1 of 2 right so far.", "kept in the browser"
    page.click("#ear-forget")
    assert page.inner_text("#ear-score") == ""


def test_what_the_ear_hears_is_what_is_asked(page: Page, folder: Path):
    page.add_init_script(OFFLINE + PATIENT)
    opened(page, folder)
    page.click("#ear .drill:not([hidden]) .listen")
    sound = samples(page)
    data = json.loads(page.evaluate("document.getElementById('data').textContent"))
    measured = 0
    for begin, length, freq, _ in next(iter(data["ear"].values())):
        end = begin + length
        if end > 7.5 or end - begin < 0.29:
            continue
        measured += 1
        assert cents(pitch_hz(sound[int((begin + 0.08) * RATE) : int((end - 0.08) * RATE)]), freq) < 8
    assert measured > 4


@pytest.mark.parametrize("name", usually(LESSONS, "acoustic", "german", "nineteen"))
@pytest.mark.parametrize(("width", "scheme"), [(360, "dark"), (1440, "light")])
def test_no_barrier_is_found_while_it_plays(page: Page, folder: Path, name: str, width: int, scheme: str):
    page.add_init_script(PATIENT)
    opened(page, folder, name, width, scheme)
    page.click("#music-play")
    page.click("#ear .drill:not([hidden]) .choice >> nth=0")
    rules = {"runOnly": {"type": "tag", "values": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]}}
    found = Axe().run(page, options=rules)
    assert not found.response["violations"], found.generate_report()
    assert too_wide(page) == 0
    assert not cut_off(page)


@pytest.mark.parametrize(("name", "signs"), [("acoustic", {"G", "Dm"}), ("german", None)])
def test_chords_stand_over_the_staff(page: Page, folder: Path, name: str, signs: set[str] | None):
    """They are those of the bars, in order, over the first note of their bar and above every sign."""
    opened(page, folder, name)
    page.select_option("#piece", "tune-over-vamp")
    shown = page.eval_on_selector_all("#stave-tune-over-vamp text", "all => all.map(one => one.textContent)")
    assert shown
    assert signs is None or set(shown) == signs
    boxes = page.eval_on_selector_all(
        "#stave-tune-over-vamp text",
        "all => all.map(one => { const box = one.getBoundingClientRect(); return [box.left, box.right, box.bottom]; })",
    )
    assert all(before[1] < after[0] for before, after in itertools.pairwise(boxes))
    top = page.eval_on_selector_all(
        "#stave-tune-over-vamp use", "all => Math.min(...all.map(one => one.getBoundingClientRect().top))"
    )
    assert max(box[2] for box in boxes) < top + 6


def test_parts_have_instruments_of_their_own(page: Page, folder: Path):
    """A plucked string has stronger upper partials than a bass and a soft key: measured on what the page renders."""
    page.add_init_script(OFFLINE + PATIENT)
    shares = {}
    for part in ("tune", "bass", "chord"):
        opened(page, folder)
        page.select_option("#piece", "tune-over-vamp")
        for other in {"tune", "bass", "chord", "drum"} - {part}:
            page.uncheck(f"#music input[value={other}]")
        page.click("#music-play")
        heard, piece = samples(page), rows(page, "tune-over-vamp")
        unit = 60 / (piece["tempo"] * piece["beat"])
        start, _, freq, *_ = next(note for note in piece["notes"] if note[4] == part and note[1] >= 6)
        note = heard[int((start * unit + 0.05) * RATE) : int((start * unit + 0.3) * RATE)]
        shares[part] = partial(note, 3 * freq) / partial(note, freq)
    assert shares["tune"] > 1.5 * shares["bass"] > 1.5 * 1.2 * shares["chord"] > 0


def partial(sound: np.ndarray, freq_hz: float) -> float:
    turns = np.exp(-2j * np.pi * freq_hz * np.arange(len(sound)) / RATE)
    return float(abs((sound * np.hanning(len(sound)) * turns).sum()))
