"""The whole job in a browser: from an empty folder to a package whose film was read back, one line in one's own voice.

What came out is looked at from outside: the folder on the disk, its list of digests, its ledger, the sound of the film.
"""

from __future__ import annotations

import hashlib
import json
import re
import signal
from collections.abc import Iterator
from pathlib import Path

import av
import numpy as np
import pytest
from playwright.sync_api import Browser, Page, expect

from browser.microphone import BEFORE_S, LINE
from gamutwright.jobs.outfolder import LIST
from gamutwright.lessons.claims import check
from gamutwright.lessons.parse import parse
from gamutwright.render.recording import decode
from gamutwright.render.takes import list_takes
from gamutwright.settings import takes_folder
from studio.serving import started

FIELDS = ".piece.line textarea"


@pytest.fixture
def door(tmp_path: Path) -> Iterator[str]:
    """The address of a studio that was started in an empty folder, as a teacher starts it."""
    folder = tmp_path / "evenings"
    folder.mkdir()
    with started(folder) as (studio, url):
        yield url
        studio.send_signal(signal.SIGINT)
        assert studio.wait(30) == 0


def test_from_an_empty_folder_to_a_verified_package(hearing: Browser, door: str, tmp_path: Path):
    course = tmp_path / "evenings"
    context = hearing.new_context(viewport={"width": 1280, "height": 900})
    page = context.new_page()
    problems: list[str] = []
    page.on("pageerror", lambda error: problems.append(str(error)))
    page.goto(door)
    slug = _begin(page)
    script = course / "lessons" / slug / "script.md"
    _write(page, script)
    _speak(page, slug, script)
    _see(page)
    _make(page)
    assert not problems
    context.close()
    _looked_at_from_outside(course / "out" / slug, script)


def _begin(page: Page) -> str:
    """A course, and a lesson about a scale that was looked at first."""
    page.fill("input[name=title]", "Scales by the harbour")
    page.click("text=Begin it")
    expect(page.locator("h1")).to_have_text("Scales by the harbour")
    page.click("text=Explore")
    page.fill("#text", "A harmonic minor")
    page.keyboard.press("Enter")
    expect(page.locator("#name")).to_have_text("A harmonic minor")
    page.click(".home")
    page.fill("input[name=scale]", "A harmonic minor")
    page.fill("input[name=minutes]", "1")
    page.click("text=Draft it")
    page.wait_for_url("**/lesson/*")
    return page.url.rsplit("/", 1)[1]


def _write(page: Page, script: Path) -> None:
    """A line more, wrong at first, mended by a click."""
    expect(page.locator("#verdict")).to_contain_text("proved", timeout=20_000)
    page.locator(FIELDS).first.click()
    page.keyboard.press("Control+End")
    page.keyboard.press("Enter")
    page.keyboard.type("It has [nine]{fact=cardinality} tones.")
    expect(page.locator(".piece.faulty")).to_have_count(1)
    page.click(".piece.faulty .wrong button")
    expect(page.locator("#verdict")).to_contain_text("All")
    expect(page.locator("#saved")).to_have_text("Saved")
    assert "It has [seven]{fact=cardinality} tones." in script.read_text("utf-8")


def _speak(page: Page, slug: str, script: Path) -> None:
    """The line in one's own voice: the microphone hears it said."""
    page.click("text=Speak")
    expect(page.locator("#speak")).to_have_attribute("data-ready", "yes")
    page.evaluate("localStorage.setItem('speak count', '0')")
    line = next(line for line in parse(script.read_text("utf-8")).lines if line.text == LINE)
    page.goto(f"{page.url.partition('#')[0]}#{line.id}")
    page.reload()
    expect(page.locator("#speak")).to_have_attribute("data-ready", "yes")
    expect(page.locator("#words")).to_contain_text(LINE)
    page.focus("#stand")
    page.keyboard.press("r")
    expect(page.locator("#stand")).to_have_attribute("data-phase", "recording")
    page.wait_for_timeout(1000 * (BEFORE_S + 1.8))
    page.keyboard.press("r")
    expect(page.locator("#said")).to_contain_text("Take 1", timeout=30_000)
    line = next(line for line in parse(script.read_text("utf-8")).lines if line.text == LINE)
    (take,) = list_takes(takes_folder(script), line.id)
    assert [LINE[word.start_char : word.end_char] for word in take.times] == ["It", "has", "seven", "tones"]


def _see(page: Page) -> None:
    page.click("text=See")
    expect(page.locator("#still")).to_be_visible(timeout=60_000)
    page.locator(".said-line", has_text=LINE).click()
    page.keyboard.press("Enter")
    expect(page.locator("#film")).to_be_visible(timeout=60_000)


def _make(page: Page) -> None:
    page.click("nav >> text=Make")
    page.click("#begin")
    expect(page.locator("#result")).to_be_visible(timeout=240_000)
    expect(page.locator("#report-said")).to_contain_text(re.compile("held|hold", re.IGNORECASE))
    expect(page.locator("#film")).to_be_visible()


def _looked_at_from_outside(package: Path, script: Path) -> None:
    assert not check(parse(script.read_text("utf-8"))).faults
    graph = json.loads((package / "ro-crate-metadata.json").read_text("utf-8"))["@graph"]
    listed = {entry["@id"]: entry["sha256"] for entry in graph if entry.get("@type") == "File"}
    assert {"film.mp4", "index.html", "handout.pdf", "captions.srt", "captions.vtt", "ledger.json"} <= set(listed)
    for name, digest in listed.items():
        assert hashlib.sha256((package / name).read_bytes()).hexdigest() == digest
    assert package.with_name(f"{package.name}.zip").is_file()
    # The recorded voice is in the film: its sound is found there, as it lies in the take.
    line = next(line for line in parse(script.read_text("utf-8")).lines if line.text == LINE)
    (take,) = list_takes(takes_folder(script), line.id)
    wanted = decode(take.path).samples
    with av.open(str(package / "film.mp4")) as film:
        heard = np.concatenate([frame.to_ndarray()[0] for frame in film.decode(audio=0)])
    size = 1 << (len(heard) + len(wanted)).bit_length()
    found = np.fft.irfft(np.fft.rfft(heard, size) * np.conj(np.fft.rfft(wanted, size)), size)[: len(heard)]
    at = int(found.argmax())
    assert np.corrcoef(heard[at : at + len(wanted)], wanted)[0, 1] > 0.95
    # Nothing is left half-made; the list says what the folder of results owns.
    assert [path.name for path in package.parent.iterdir() if path.name.startswith(".")] == [LIST]
